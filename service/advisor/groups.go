package advisor

import (
	"fmt"
	"strings"
)

// groupPanels puts panels together that need the same on the same paint, and picks the one to prove it on.
func groupPanels(cases []*panelCase, advice []PanelAdvice) []Group {
	var groups []Group
	at := map[string]int{}
	members := map[int][]int{}
	for i := range advice {
		if advice[i].Ladder == noStep {
			continue
		}
		key := needOf(cases[i].panel, &advice[i])
		g, known := at[key]
		if !known {
			g = len(groups)
			at[key] = g
			groups = append(groups, Group{Ladder: advice[i].Ladder})
		}
		groups[g].Panels = append(groups[g].Panels, advice[i].Panel)
		members[g] = append(members[g], i)
	}
	for g := range groups {
		groups[g].TestFirst, groups[g].Because = testFirst(cases, advice, members[g])
	}
	return groups
}

// needOf is equal for panels that one trial can speak for: same paint, same substrate, same ladder run the same way.
func needOf(p *Panel, advice *PanelAdvice) string {
	parts := []string{p.Paint.System, p.Paint.Softness, p.Paint.Shade, p.Substrate, advice.Ladder, fmt.Sprint(repainted(p, advice))}
	for _, step := range advice.Steps {
		parts = append(parts, step.Reason.Rule)
	}
	return strings.Join(parts, "|")
}

func repainted(p *Panel, advice *PanelAdvice) bool {
	return p.RepaintKnown != nil && *p.RepaintKnown || advice.Film != nil && len(signsOfRepaint(advice.Film)) > 0
}

// testFirst prefers a ready panel without an edge or line in the area, then the one with most film to spare: what is
// proven there is safest for the rest.
func testFirst(cases []*panelCase, advice []PanelAdvice, members []int) (panel, because string) {
	best := members[0]
	for _, i := range members[1:] {
		if better(cases, advice, i, best) {
			best = i
		}
	}
	because = "it stands for the group"
	switch p := advice[best]; {
	case len(members) == 1:
		because = "it is the only panel of its kind"
	case p.Film != nil:
		because = fmt.Sprintf("of its group it has the most film to spare, %v", p.Film.Budget.UsableUm)
	}
	return advice[best].Panel, because
}

func better(cases []*panelCase, advice []PanelAdvice, i, than int) bool {
	if a, b := advice[i].State == Ready, advice[than].State == Ready; a != b {
		return a
	}
	if a, b := onEdge(cases[i].panel), onEdge(cases[than].panel); a != b {
		return b
	}
	return usable(&advice[i]) > usable(&advice[than])
}

func onEdge(p *Panel) bool { return p.EdgeOrLine != nil && *p.EdgeOrLine }

func usable(advice *PanelAdvice) float64 {
	if advice.Film == nil {
		return -1
	}
	return float64(advice.Film.Budget.UsableUm)
}

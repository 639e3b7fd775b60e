package plan

import (
	"cmp"
	"slices"
)

// ordered is the panels in the order of work: first the one on which the ladder was proved, then the shaded ones from the top
// down, then those in the sun, which may have cooled by then.
func ordered(panels []Panel) []*Panel {
	out := make([]*Panel, len(panels))
	for i := range panels {
		out[i] = &panels[i]
	}
	slices.SortStableFunc(out, func(a, b *Panel) int {
		return cmp.Or(first(a.Tried, b.Tried), first(!a.InSun, !b.InSun), cmp.Compare(a.Rank, b.Rank))
	})
	return out
}

// first orders what is true before what is not.
func first(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return -1
	}
	return 1
}

// stepOrder is the steps in an order that keeps every panel's own.
func stepOrder(panels []PanelWork) []string {
	longest := 0
	for i := range panels {
		if len(panels[i].Steps) > len(panels[longest].Steps) {
			longest = i
		}
	}
	var out []string
	for _, s := range panels[longest].Steps {
		out = append(out, s.Step)
	}
	for i := range panels {
		at := 0
		for _, s := range panels[i].Steps {
			if k := slices.Index(out, s.Step); k >= 0 {
				at = k + 1
				continue
			}
			out = slices.Insert(out, at, s.Step)
			at++
		}
	}
	return out
}

// pads is what a step takes of each pair of pad and liquid. A pad is changed when it is loaded, and where there are several
// panels once at least half-way round.
func (v *Vehicle) pads(step string, panels []PanelWork) []PadUse {
	type stretch struct {
		panel    string
		sections int
	}
	var uses []PadUse
	work := map[[2]string][]stretch{}
	for i := range panels {
		for k, s := range panels[i].Panel.Steps {
			if s.Step != step {
				continue
			}
			pair := [2]string{s.PadID, s.LiquidID}
			if work[pair] == nil {
				uses = append(uses, PadUse{PadID: s.PadID, LiquidID: s.LiquidID})
			}
			work[pair] = append(work[pair], stretch{panels[i].Panel.ID, panels[i].Steps[k].Sections})
		}
	}
	for i := range uses {
		use := &uses[i]
		stretches := work[[2]string{use.PadID, use.LiquidID}]
		for _, s := range stretches {
			use.Sections += s.sections
		}
		use.Pads = padCount(use.Sections, len(stretches), v.Steps[step].PadSections)
		names, counts := make([]string, len(stretches)), make([]int, len(stretches))
		for k, s := range stretches {
			names[k], counts[k] = s.panel, s.sections
		}
		use.ChangeAt = changes(names, counts, use.Pads)
	}
	return uses
}

// changes is the panels at whose start a fresh pad goes on, so that each pad does about the same and none more than its
// share: the change comes before the panel in which the share ends.
func changes(panels []string, sections []int, pads int) []string {
	total := 0
	for _, n := range sections {
		total += n
	}
	var out []string
	done := 0
	for i, n := range sections {
		for len(out) < pads-1 && (done+n)*pads > total*(len(out)+1) {
			out = append(out, panels[i])
		}
		done += n
	}
	return out
}

func padCount(sections, panels int, perPad float64) int {
	n := Sections(float64(sections), perPad)
	if panels > 1 {
		n = max(n, 2)
	}
	return n
}

package workplan

import (
	"fmt"
	"strings"

	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/plan"
)

// Plan is a job as it is reckoned.
type Plan struct {
	plan.Plan
	RuleSet string
	CureMin float64
	// Ladders is the ladder of every panel.
	Ladders map[string]string
	Sources []Source
	Notes   []string
	// Left is what is still to do. Nil: work has not begun.
	Left *plan.Left
	job  *Job
}

// Make plans a job. Errors: those of [plan.Make], or a [*ShopError].
func Make(job *Job) (Plan, error) { return job.make(job.ladderOf) }

func (j *Job) make(picks pick) (Plan, error) {
	from := newTrail()
	v, err := j.vehicle(picks, from)
	if err != nil {
		return Plan{}, err
	}
	made, err := plan.Make(v)
	if err != nil {
		return Plan{}, err
	}
	out := Plan{Plan: made, RuleSet: j.Work.RuleSet, CureMin: j.Work.Visit.CureMin, Ladders: map[string]string{}, job: j}
	for i := range j.Work.Panels {
		out.Ladders[j.Work.Panels[i].Panel.ID] = picks(&j.Work.Panels[i])
	}
	for _, m := range made.Materials {
		from.text(m.From)
	}
	out.Sources = from.list
	out.Notes = j.notes(&out)
	return out, nil
}

// Panel finds what the tables say about a panel of the plan.
func (p *Plan) Panel(id string) *advisor.PanelWork {
	for i := range p.job.Work.Panels {
		if p.job.Work.Panels[i].Panel.ID == id {
			return &p.job.Work.Panels[i]
		}
	}
	return nil
}

// Step finds how a step is run on a panel of the plan.
func (p *Plan) Step(panel, step string) (advisor.StepWork, bool) {
	if found := p.Panel(panel); found != nil {
		ladder, _ := found.Ladder(p.Ladders[panel])
		for _, s := range ladder.Steps {
			if s.Step == step {
				return s, true
			}
		}
	}
	return advisor.StepWork{}, false
}

// Proven says whether the panel's ladder was proved on it.
func (p *Plan) Proven(id string) bool { return p.job.Proven[id] }

// LeftAlone is why a panel gets no ladder; "" when it gets one.
func (p *Plan) LeftAlone(id string) string {
	found := p.Panel(id)
	switch {
	case found == nil || p.Ladders[id] != "none":
		return ""
	case p.job.Settled[id] == "none":
		return "It was settled that it is left alone."
	case found.Advice.Ladder == "none":
		return found.Advice.Headline
	}
	return "Left out, so that the rest fits into the hours or the price that were fixed."
}

// notes says what a plan leaves out or assumes. What holds for several panels is said once.
func (j *Job) notes(p *Plan) []string {
	var out, order []string
	panels := map[string][]string{}
	for i := range j.Work.Panels {
		advice := &j.Work.Panels[i].Advice
		if p.Ladders[advice.Panel] == "none" || advice.State != advisor.Wait && advice.State != advisor.Prepare {
			continue
		}
		do := advice.Readiness[0].Do
		if panels[do] == nil {
			order = append(order, do)
		}
		panels[do] = append(panels[do], advice.Panel)
	}
	for _, do := range order {
		out = append(out, fmt.Sprintf("%s before work: %s", j.which(panels[do]), do))
	}
	for i := range j.Work.Panels {
		for _, left := range j.Work.Panels[i].Advice.LeftOnPurpose {
			out = append(out, fmt.Sprintf("%s, left on purpose: %s.", j.Work.Panels[i].Panel.ID, left))
		}
	}
	if unmeasured := len(j.Work.Panels) - len(j.AreasM2); unmeasured > 0 {
		out = append(out, fmt.Sprintf("The areas of %d of %d panels are those of the rules; measured ones narrow the range.", unmeasured, len(j.Work.Panels)))
	}
	return out
}

// which names panels, unless they are all.
func (j *Job) which(panels []string) string {
	if len(panels) == len(j.Work.Panels) && len(panels) > 1 {
		return "Every panel"
	}
	return strings.Join(panels, ", ")
}

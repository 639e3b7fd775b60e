package advisor

import (
	"errors"
	"slices"
)

// decideCautions asks once for the panel, once for each defect and once for each step: a rule about a defect or a step
// fires only when it is known.
func (c *panelCase) decideCautions(out *PanelAdvice) error {
	steps := make([]string, len(out.Steps))
	for i, step := range out.Steps {
		steps[i] = step.Step
	}
	found, err := c.cautions(steps, c.panel.Defects)
	out.Cautions = found
	return err
}

// usualCautions is room for what a panel usually gets, so that the list need not grow.
const usualCautions = 32

// cautions are those of the panel, of some steps in the order of work, and of some defects; gravest first, each rule once.
func (c *panelCase) cautions(steps []string, defects []Defect) ([]Caution, error) {
	found := cautionList{panels: []string{c.panel.ID}, all: make([]Caution, 0, usualCautions)}
	err := c.addCautions(&found, func(*factSheet) {})
	for _, defect := range defects {
		err = errors.Join(err, c.addCautions(&found, func(f *factSheet) { setDefect(f, defect) }))
	}
	for place, step := range steps {
		err = errors.Join(err, c.addCautions(&found, func(f *factSheet) { setStep(f, step, place+1, place == len(steps)-1) }))
	}
	return gravestFirst(found.all), err
}

// cautionList keeps one of each rule: a rule about a step fires for every step it is true of.
type cautionList struct {
	panels []string
	all    []Caution
}

// addCautions asks the table with some facts more. A caution's rule speaks for itself, so its conditions are left out.
func (c *panelCase) addCautions(found *cautionList, set func(*factSheet)) error {
	t := c.a.tables.cautions
	c.sheet.with(set, func() {
		if c.sheet.err != nil {
			return
		}
		t.Decide(c.sheet.in, c.decision)
		for _, winner := range c.decision.Winners {
			rule := &t.Rules()[winner]
			if slices.ContainsFunc(found.all, func(c Caution) bool { return c.Reason.Rule == rule.ID }) {
				continue
			}
			topic, _ := rule.Result.Word("topic")
			level, _ := rule.Result.Word("level")
			do, _ := rule.Result.Text("do")
			found.all = append(found.all, Caution{
				Topic: topic, Level: level, Do: do, Panels: found.panels,
				Reason: Reason{Table: t.Name(), Rule: rule.ID, Because: rule.Because, File: rule.File, Line: rule.Line},
			})
		}
	})
	return c.sheet.err
}

// levels of cautions, the gravest first.
var levels = [...]string{"danger", "care", "note"}

// gravestFirst puts cautions in the order of their levels and leaves equals in file order.
func gravestFirst(all []Caution) []Caution {
	out := make([]Caution, 0, len(all))
	for _, level := range levels {
		for i := range all {
			if all[i].Level == level {
				out = append(out, all[i])
			}
		}
	}
	return out
}

// shareCautions lifts what holds for every panel that is to be worked out of the panels, so that it is said once.
func shareCautions(panels []PanelAdvice) []Caution {
	worked := map[string]bool{}
	for _, p := range panels {
		if p.Ladder != noStep {
			worked[p.Panel] = true
		}
	}
	if len(worked) < 2 {
		return nil
	}
	seen := map[string]int{}
	var order []Caution
	for _, p := range panels {
		for _, caution := range p.Cautions {
			if !worked[p.Panel] {
				continue
			}
			if seen[caution.Reason.Rule] == 0 {
				order = append(order, caution)
			}
			seen[caution.Reason.Rule]++
		}
	}
	var shared []Caution
	for _, caution := range order {
		if seen[caution.Reason.Rule] == len(worked) {
			caution.Panels = nil
			shared = append(shared, caution)
		}
	}
	for i := range panels {
		panels[i].Cautions = slices.DeleteFunc(panels[i].Cautions, func(c Caution) bool {
			return seen[c.Reason.Rule] == len(worked)
		})
	}
	return gravestFirst(shared)
}

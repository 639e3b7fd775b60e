package advisor

import "slices"

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

// cautions are those of the panel, of some steps in the order of work, and of some defects; gravest first, each rule once.
func (c *panelCase) cautions(steps []string, defects []Defect) ([]Caution, error) {
	found := make([]int32, 0, len(c.a.tables.cautions.Rules()))
	c.findCautions(&found, func(*factSheet) {})
	for _, defect := range defects {
		c.findCautions(&found, func(f *factSheet) { setDefect(f, defect) })
	}
	for place, step := range steps {
		c.findCautions(&found, func(f *factSheet) { setStep(f, step, place+1, place == len(steps)-1) })
	}
	return c.tellCautions(found), c.sheet.err
}

// findCautions adds the rules that hold with some facts more. A rule about a step may hold for several; it is told once.
func (c *panelCase) findCautions(found *[]int32, set func(*factSheet)) {
	c.sheet.with(set, func() {
		if c.sheet.err != nil {
			return
		}
		c.put(c.a.tables.cautions)
		for _, rule := range c.decision.Winners {
			if !slices.Contains(*found, rule) {
				*found = append(*found, rule)
			}
		}
	})
}

// tellCautions puts rules of the table into words, gravest first. A caution's rule speaks for itself, so its conditions are left
// out.
func (c *panelCase) tellCautions(found []int32) []Caution {
	table, panels := c.a.tables.cautions, []string{c.panel.ID}
	out := make([]Caution, 0, len(found))
	for _, grave := range levels {
		for _, index := range found {
			rule := &table.Rules()[index]
			if level, _ := rule.Result.Word("level"); level != grave {
				continue
			}
			topic, _ := rule.Result.Word("topic")
			do, _ := rule.Result.Text("do")
			out = append(out, Caution{
				Topic: topic, Level: grave, Do: do, Panels: panels,
				Reason: Reason{Table: table.Name(), Rule: rule.ID, Because: rule.Because, File: rule.File, Line: rule.Line},
			})
		}
	}
	return out
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

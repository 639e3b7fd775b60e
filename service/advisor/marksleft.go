package advisor

import "slices"

// marksLeft reckons what a ladder that begins with a step leaves of each graded mark. What a step can do is read off the start
// table: the worst grade of the mark for which it is said to be strong enough is what it takes off; where the table asks for a stronger
// step, more stays than may. Marks for which the table asks for no step are not for polishing, or may stay.
func (c *panelCase) marksLeft(first string) ([]MarkLeft, error) {
	var out []MarkLeft
	for _, defect := range c.panel.Defects {
		if defect.Severity == nil {
			continue
		}
		needs, err := c.startFor(defect, *defect.Severity)
		if err != nil {
			return nil, err
		}
		if strength(needs) <= 0 {
			continue
		}
		mark := MarkLeft{Kind: defect.Kind, Severity: *defect.Severity, LeftAt: *defect.Severity}
		if strength(first) > 0 {
			reaches, err := c.reach(defect, first)
			if err != nil {
				return nil, err
			}
			stays := c.policy.severityLeft
			if strength(first) < strength(needs) {
				stays += c.notch("defect.severity") // or the table would have asked for no more than this step
			}
			mark.LeftAt = min(*defect.Severity, max(*defect.Severity-reaches, stays))
		}
		out = append(out, mark)
	}
	return out, nil
}

// reach is the worst severity of a kind of mark for which a step is strong enough.
func (c *panelCase) reach(defect Defect, step string) (float64, error) {
	id, _ := c.sheet.id("defect.severity")
	fact := c.sheet.schema.Fact(id)
	for severity := fact.Max; severity > fact.Min; severity -= fact.Step {
		needs, err := c.startFor(defect, severity)
		if err != nil {
			return 0, err
		}
		if strength(needs) >= 0 && strength(needs) <= strength(step) {
			return severity, nil
		}
	}
	return 0, nil
}

// notch is the smallest difference of a fact.
func (c *panelCase) notch(fact string) float64 {
	id, _ := c.sheet.id(fact)
	return c.sheet.schema.Fact(id).Step
}

// startFor is the mildest step worth trying for a mark of some severity; "" where no rule can tell.
func (c *panelCase) startFor(defect Defect, severity float64) (step string, err error) {
	defect.Severity = &severity
	c.sheet.with(func(f *factSheet) { setDefect(f, defect) }, func() {
		var said answer
		var ok bool
		if said, ok, err = c.one(c.a.tables.start); ok {
			step, _ = said.result.Word("step")
		}
	})
	return step, err
}

// Ungraded lists the marks of a panel that nobody graded although a grade decides what a ladder does about them.
func (p *PanelWork) Ungraded() []int {
	var out []int
	for i, d := range p.Panel.Defects {
		if d.Severity == nil && !slices.ContainsFunc(p.Advice.Defects, func(a DefectAdvice) bool {
			return a.Kind == d.Kind && strength(a.Start) == 0
		}) {
			out = append(out, i)
		}
	}
	return out
}

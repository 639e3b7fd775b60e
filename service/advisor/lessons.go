package advisor

import "github.com/glossladder/glossladder/service/film"

// Lessons is what the shop has learned from its own record. It is asked while a panel is decided, so it answers at once and from
// memory, and may be asked by several goroutines at once.
type Lessons interface {
	// Lesson is what is on record of a step where it was tried first on marks of a kind. Severity is nil where nobody graded them;
	// angle is that of the gloss readings in degrees, 0 where none are known. False: nothing is.
	Lesson(step, softness, kind string, severity *float64, angle int) (Lesson, bool)
	// Proven is how surely a step does on these marks or worse ones, in % at the low end, and over how many panels.
	Proven(step, softness, kind string, severity *float64) (panels int, lowPct float64, known bool)
}

// Lesson is what is on record of one step.
type Lesson struct {
	// Panels is how many panels with an end to their trials it rests on.
	Panels                    int
	SuccessPct, SuccessLowPct float64
	// GainGU and its low end are nil where no gain is on record at the angle.
	GainGU, GainLowGU *float64
	// Removals is how many measured removals the estimate of what the step takes rests on; TakesLowUm is its low end.
	Removals   int
	TakesLowUm film.Microns
	// Section is how long a section takes when the step is carried over a panel; nil where nobody timed it.
	Section *SectionTime
}

// SectionTime is minutes for one section of a panel, with the ends of their interval, and how many panels they rest on.
type SectionTime struct {
	LowMin, LikelyMin, HighMin float64
	Panels                     int
}

// recall sets what the record says of the marks that are looked at, or of the step.
type recall struct {
	marks func(*factSheet, Defect)
	step  func(*factSheet, string)
}

// recalls is the way to set what the record says; nothing is set where no record is kept.
func (c *panelCase) recalls() recall {
	if c.in.Lessons == nil {
		return recall{}
	}
	return recall{marks: c.recallMarks, step: c.recallStep}
}

// recallMarks sets how surely the milder steps do on some marks.
func (c *panelCase) recallMarks(f *factSheet, marks Defect) {
	for _, step := range [...]string{finishing, "polish"} {
		panels, low, known := c.in.Lessons.Proven(step, c.panel.Paint.Softness, marks.Kind, marks.Severity)
		if !known {
			continue
		}
		f.number("history."+step+"_panels", ptr(float64(panels)), down)
		f.number("history."+step+"_low_pct", &low, down)
	}
}

// recallStep sets what the record says of one step on the panel's worst marks.
func (c *panelCase) recallStep(f *factSheet, step string) {
	worst, angle := c.worstMarks(), 0
	if c.gloss != nil {
		angle = c.gloss.Angle
	}
	said, known := c.in.Lessons.Lesson(step, c.panel.Paint.Softness, worst.Kind, worst.Severity, angle)
	if !known {
		return
	}
	f.number("history.panels", ptr(float64(said.Panels)), down)
	f.number("history.success_pct", &said.SuccessPct, nearest)
	f.number("history.success_low_pct", &said.SuccessLowPct, down)
	f.number("history.gain_gu", said.GainGU, nearest)
	f.number("history.gain_low_gu", said.GainLowGU, down)
	f.number("history.removals", ptr(float64(said.Removals)), down)
	if said.Removals > 0 {
		f.number("history.takes_more_um", ptr(float64(said.TakesLowUm-c.removal[step].HighUm)), up)
	}
}

// pastSection is how long a section of a step takes by the record; nil where it does not say.
func (c *panelCase) pastSection(step string) *SectionTime {
	if c.in.Lessons == nil {
		return nil
	}
	worst := c.worstMarks()
	said, known := c.in.Lessons.Lesson(step, c.panel.Paint.Softness, worst.Kind, worst.Severity, 0)
	if !known {
		return nil
	}
	return said.Section
}

// worstMarks are the worst that a step was found for, of equals the first; without any the worst of all.
func (c *panelCase) worstMarks() Defect {
	var worst Defect
	for i, d := range c.panel.Defects {
		switch {
		case i >= len(c.starts) || strength(c.starts[i]) <= 0:
		case worst.Kind == "", d.Severity != nil && (worst.Severity == nil || *d.Severity > *worst.Severity):
			worst = d
		}
	}
	return worst
}

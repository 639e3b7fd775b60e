package plan

// Progress is how far one step on one panel is. The zero value: not begun.
type Progress struct {
	Begun bool
	// Over is true where nothing more is worked: it is done, or was left out.
	Over bool
	// Sections are those worked so far of so many in all. Of 0: as planned.
	Sections, Of int
}

// left is the share of a step that is still to work, from 1 to 0. One that nobody counts is still there as a whole until it is over.
func (p Progress) left(planned int) float64 {
	all := p.Of
	if all == 0 {
		all = planned
	}
	switch {
	case p.Over:
		return 0
	case all == 0:
		return 1
	}
	return 1 - min(1, float64(p.Sections)/float64(all))
}

// Left is what of a plan's work is still to do.
type Left struct {
	BeforeMin Span       // taping
	Steps     []StepLeft // in the order of work, those of which anything is left
	AfterMin  Span       // reading again, last wipe and hand over
}

// StepLeft is what of a step is left over the whole vehicle: on the panels, with its pads and the lights.
type StepLeft struct {
	Step string
	Min  Span
}

// Min is all of it.
func (l Left) Min() Span {
	out := l.BeforeMin.Plus(l.AfterMin)
	for _, s := range l.Steps {
		out = out.Plus(s.Min)
	}
	return out
}

// Still is what is left of a plan once work on the panels has begun: of each step the share that is not worked, and so of its pads;
// taping and lights where nothing has begun; reading again where something is left; and the last wipe. Preparing, inspecting and test
// spots are over by then. Formula: common practice, no source.
func (p *Plan) Still(at func(panel, step string) Progress) Left {
	out := Left{AfterMin: p.finalMin}
	for i := range p.Panels {
		w := &p.Panels[i]
		begun, over := false, true
		for _, s := range w.Steps {
			now := at(w.Panel.ID, s.Step)
			begun = begun || now.Begun || now.Over
			over = over && now.left(s.Sections) == 0
		}
		if len(w.Steps) > 0 && !begun {
			out.BeforeMin = out.BeforeMin.Plus(w.Panel.TapeMin)
		}
		if !over {
			out.AfterMin = out.AfterMin.Plus(w.Panel.RecheckMin)
		}
	}
	for _, s := range p.Steps {
		if left := p.stepLeft(s, at); left.Min.High > 0 {
			out.Steps = append(out.Steps, left)
		}
	}
	return out
}

func (p *Plan) stepLeft(step StepWork, at func(panel, step string) Progress) StepLeft {
	out := StepLeft{Step: step.Step}
	sections := 0.0
	for i := range p.Panels {
		w := &p.Panels[i]
		for _, s := range w.Steps {
			if s.Step != step.Step {
				continue
			}
			now := at(w.Panel.ID, s.Step)
			share := now.left(s.Sections)
			sections += share * float64(s.Sections)
			out.Min = out.Min.Plus(s.Minutes().By(share))
			if !now.Begun && !now.Over {
				out.Min = out.Min.Plus(w.Panel.LightMin)
			}
		}
	}
	if step.Sections > 0 {
		out.Min = out.Min.Plus(step.padMin.By(sections / float64(step.Sections)))
	}
	return out
}

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

// Still is what of WorkMin is still to do once work on the panels has begun: of each step the share that is left, and so of its pads;
// taping and lights where nothing has begun; reading again where something is left; and the last wipe. Preparing, inspecting and test
// spots are over by then. Formula: common practice, no source.
func (p *Plan) Still(at func(panel, step string) Progress) Span {
	out := p.finalMin
	left := map[string]float64{} // sections by step
	for i := range p.Panels {
		w := &p.Panels[i]
		begun, over := false, true
		for _, s := range w.Steps {
			now := at(w.Panel.ID, s.Step)
			share := now.left(s.Sections)
			out = out.Plus(s.Minutes().By(share))
			left[s.Step] += share * float64(s.Sections)
			if !now.Begun && !now.Over {
				out = out.Plus(w.Panel.LightMin)
			}
			begun = begun || now.Begun || now.Over
			over = over && share == 0
		}
		if len(w.Steps) > 0 && !begun {
			out = out.Plus(w.Panel.TapeMin)
		}
		if !over {
			out = out.Plus(w.Panel.RecheckMin)
		}
	}
	for _, s := range p.Steps {
		if s.Sections > 0 {
			out = out.Plus(s.padMin.By(left[s.Step] / float64(s.Sections)))
		}
	}
	return out
}

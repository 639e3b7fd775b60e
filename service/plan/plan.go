package plan

// Plan is what a vehicle takes.
type Plan struct {
	// Panels in the order of work.
	Panels []PanelWork
	// Steps in the order of work: a step is carried over every panel before the next.
	Steps []StepWork
	// WorkMin is everything somebody does; WaitMin is what only the bay is needed for.
	WorkMin, WaitMin Span
	// Lines are what WorkMin is made of.
	Lines     []TimeLine
	Materials []Material
	Cost      Cost
	Days      []Day

	finalMin Span // of the vehicle
}

// PanelWork is one panel of a plan.
type PanelWork struct {
	Panel    *Panel
	Sections []int // by step of its ladder, at the likely area
	// Minutes is its own work: its steps, and what is done around them. Priming and changing pads belong to the steps.
	Minutes Span
	Steps   []PanelStep
	// TakesUm is what its steps take off together; LeftUm is what may still go after them, and nil when that is not known. Its Low is
	// the bound to go by.
	TakesUm Span
	LeftUm  *Span
}

// PanelStep is one step on one panel.
type PanelStep struct {
	Step     string
	Sections int
	// MachineMin is the machine's running, in the hands.
	MachineMin Span
	WipeMin    Span
	CleanMin   Span
	PathM      float64
	From       []Source
}

// Minutes is everything about the step on this panel.
func (s PanelStep) Minutes() Span { return s.MachineMin.Plus(s.WipeMin).Plus(s.CleanMin) }

// StepWork is one step over the whole vehicle.
type StepWork struct {
	Step     string
	Panels   int
	Sections int
	Minutes  Span // on the panels, and priming and changing pads
	Pads     []PadUse

	padMin Span // priming and changing alone
}

// PadUse is the pads of one kind that a step takes with one liquid. A pad never sees a second liquid.
type PadUse struct {
	PadID, LiquidID string // "" when the shop has none of the class
	Pads            int
	Sections        int
	// ChangeAt is, for each pad after the first, the panel at whose start it goes on.
	ChangeAt []string
}

// TimeLine is minutes of one kind, with where they come from.
type TimeLine struct {
	What string
	Min  Span
	From []Source
}

// Make plans a vehicle. Errors: every [*FieldError] of the vehicle at once.
func Make(v Vehicle) (Plan, error) {
	if err := v.check(); err != nil {
		return Plan{}, err
	}
	out := Plan{finalMin: v.Whole.FinalMin}
	for _, p := range ordered(v.Panels) {
		out.Panels = append(out.Panels, v.panelWork(p))
	}
	out.Steps = v.stepWork(out.Panels)
	out.Lines = v.lines(&out)
	for _, line := range out.Lines {
		out.WorkMin = out.WorkMin.Plus(line.Min)
	}
	out.WaitMin = v.waits(out.Panels)
	if v.Shop != nil {
		out.Materials = v.materials(&out)
		out.Cost = costOf(v.Shop, out.WorkMin, out.Materials)
	}
	days, err := v.days(&out)
	out.Days = days
	return out, err
}

// panelWork is what one panel takes.
func (v *Vehicle) panelWork(p *Panel) PanelWork {
	out := PanelWork{Panel: p, Minutes: p.InspectMin}
	for _, step := range p.Steps {
		work := v.panelStep(p, step)
		out.Steps = append(out.Steps, work)
		out.Sections = append(out.Sections, work.Sections)
		out.Minutes = out.Minutes.Plus(work.Minutes()).Plus(p.LightMin)
		out.TakesUm = out.TakesUm.Plus(step.RemovalUm)
	}
	if len(p.Steps) > 0 {
		out.Minutes = out.Minutes.Plus(p.TapeMin).Plus(p.RecheckMin)
	}
	if p.UsableUm != nil {
		left := Exactly(*p.UsableUm).Less(out.TakesUm)
		out.LeftUm = &left
	}
	return out
}

// panelStep is the time of one step on one panel: by the machine's path, or by the shop's own records where it has some.
func (v *Vehicle) panelStep(p *Panel, s Step) PanelStep {
	how := v.Steps[s.Step]
	if s.How != nil {
		how = *s.How
	}
	section := s.SectionPadAreas * PadAreaM2(s.PadMm)
	sections := func(areaM2 float64) float64 { return float64(Sections(areaM2, section)) }
	count := Span{sections(p.AreaM2.Low), sections(p.AreaM2.Likely), sections(p.AreaM2.High)}
	out := PanelStep{
		Step: s.Step, Sections: int(count.Likely), PathM: PathMetres(p.AreaM2.Likely, s.PadMm, s.OverlapPct, s.Passes),
		From: []Source{p.AreaFrom, s.SettingsFrom, how.From},
	}
	out.WipeMin = count.Times(how.WipeMin)
	out.CleanMin = cleanings(count, s.CleanEvery).Times(how.CleanMin)
	if s.PastMinPerM2 != nil {
		// Records tell the whole time on the panel; what is wiped and cleaned is within, and the doubt is the records' own.
		out.WipeMin, out.CleanMin = Exactly(out.WipeMin.Likely), Exactly(out.CleanMin.Likely)
		whole, aside := p.AreaM2.Times(*s.PastMinPerM2), out.WipeMin.Plus(out.CleanMin)
		out.MachineMin = atLeastNone(whole.Less(aside))
		out.From = append(out.From, s.PastFrom)
		return out
	}
	edges := Span{1 + how.EdgePct.Low/100, 1 + how.EdgePct.Likely/100, 1 + how.EdgePct.High/100}
	out.MachineMin = p.AreaM2.By(s.Passes * MinutesPerM2(s.PadMm, s.OverlapPct, s.ArmCmS)).Times(edges).Times(how.Pace)
	return out
}

// cleanings is how often a pad is cleaned: after every so many sections, the last time after the panel's last full lot.
func cleanings(sections Span, every float64) Span {
	times := func(n float64) float64 { return float64(int(n / every)) }
	return Span{times(sections.Low), times(sections.Likely), times(sections.High)}
}

// atLeastNone keeps a span from falling below zero.
func atLeastNone(s Span) Span { return Span{max(0, s.Low), max(0, s.Likely), max(0, s.High)} }

// stepWork adds up each step over the panels.
func (v *Vehicle) stepWork(panels []PanelWork) []StepWork {
	var out []StepWork
	for _, step := range stepOrder(panels) {
		work := StepWork{Step: step}
		for i := range panels {
			for _, s := range panels[i].Steps {
				if s.Step == step {
					work.Panels++
					work.Sections += s.Sections
					work.Minutes = work.Minutes.Plus(s.Minutes())
				}
			}
		}
		work.Pads = v.pads(step, panels)
		for _, use := range work.Pads {
			work.padMin = work.padMin.Plus(v.Steps[step].padMin(use.Pads))
		}
		work.Minutes = work.Minutes.Plus(work.padMin)
		out = append(out, work)
	}
	return out
}

// padMin is the time that so many pads of one kind take: each is primed, and each after the first is swapped in.
func (h Handling) padMin(pads int) Span {
	return h.PrimeMin.By(float64(pads)).Plus(h.SwapMin.By(float64(pads - 1)))
}

// lines says what the work is made of.
func (v *Vehicle) lines(p *Plan) []TimeLine {
	out := []TimeLine{{What: "prepare: wash, decontaminate, dry", Min: v.Whole.PrepareMin, From: []Source{v.Whole.From}}}
	out = append(out, v.panelLine("inspect", p, func(a Around) Span { return a.InspectMin }, always))
	out = append(out, TimeLine{What: "test spots", Min: v.Whole.TrialMin, From: []Source{v.Whole.From}})
	out = append(out, v.panelLine("tape", p, func(a Around) Span { return a.TapeMin }, worked))
	for _, step := range p.Steps {
		out = append(out, v.stepLines(step, p)...)
	}
	out = append(out, v.panelLine("move lights", p, func(a Around) Span { return a.LightMin }, stepsOf))
	out = append(out, v.panelLine("read again", p, func(a Around) Span { return a.RecheckMin }, worked))
	return append(out, TimeLine{What: "last wipe and hand over", Min: v.Whole.FinalMin, From: []Source{v.Whole.From}})
}

// How many times a panel needs something.
func always(*PanelWork) int    { return 1 }
func stepsOf(w *PanelWork) int { return len(w.Steps) }
func worked(w *PanelWork) int  { return min(1, len(w.Steps)) }

func (v *Vehicle) panelLine(what string, p *Plan, each func(Around) Span, times func(*PanelWork) int) TimeLine {
	line := TimeLine{What: what}
	for i := range p.Panels {
		if n := times(&p.Panels[i]); n > 0 {
			line.Min = line.Min.Plus(each(p.Panels[i].Panel.Around).By(float64(n)))
			line.From = with(line.From, p.Panels[i].Panel.AroundFrom)
		}
	}
	return line
}

func (v *Vehicle) stepLines(step StepWork, p *Plan) []TimeLine {
	machine, wipe, clean := TimeLine{What: step.Step + ": machine running"}, TimeLine{What: step.Step + ": wipe"}, TimeLine{What: step.Step + ": clean pads"}
	for i := range p.Panels {
		for _, s := range p.Panels[i].Steps {
			if s.Step == step.Step {
				machine.Min, wipe.Min, clean.Min = machine.Min.Plus(s.MachineMin), wipe.Min.Plus(s.WipeMin), clean.Min.Plus(s.CleanMin)
				machine.From = with(machine.From, s.From...)
			}
		}
	}
	how := v.Steps[step.Step]
	wipe.From, clean.From = []Source{how.From}, []Source{how.From}
	pads := TimeLine{What: step.Step + ": prime and change pads", From: []Source{how.From}}
	for _, use := range step.Pads {
		pads.Min = pads.Min.Plus(how.padMin(use.Pads))
	}
	return []TimeLine{pads, machine, wipe, clean}
}

// with adds sources that are not there yet.
func with(have []Source, more ...Source) []Source {
	for _, s := range more {
		known := s == ""
		for _, h := range have {
			known = known || h == s
		}
		if !known {
			have = append(have, s)
		}
	}
	return have
}

// waits is the time that a vehicle stands because a panel has to cool before its next step. With three panels or more there is
// always another to go on with.
func (v *Vehicle) waits(panels []PanelWork) Span {
	busy := 0
	var out Span
	for i := range panels {
		if len(panels[i].Steps) == 0 {
			continue
		}
		busy++
		out = out.Plus(panels[i].Panel.CoolMin.By(float64(len(panels[i].Steps) - 1)))
	}
	if busy > 2 {
		return Span{}
	}
	return out
}

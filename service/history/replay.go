package history

import "slices"

// Replay turns the events of one job, in order from the first, into the job as it stands. It takes what is on record as it is:
// what a job's stage allows is asked before an event is stored, by [Job.Allows], and never held against one that is. No events
// give a job without an id. The job keeps the slice.
func Replay(events []Event) *Job {
	j := &Job{events: events, void: voidIn(events)}
	for _, e := range Effective(events) {
		j.apply(&e)
	}
	if n := len(events); n > 0 {
		// The outside follows the events as stored: a correction moves it on as any other does.
		j.ID, j.Sequence = events[0].Job, events[n-1].Sequence
		j.CreatedAt, j.UpdatedAt = events[0].RecordedAt, events[n-1].RecordedAt
	}
	return j
}

func (j *Job) apply(e *Event) {
	j.ID, j.Sequence = e.Job, e.Sequence
	switch body := e.Body.(type) {
	case *Booked:
		j.Vehicle, j.Details, j.Stage = body.Vehicle, body.Details, StageBooked
	case *Details:
		j.Details = *body
	case *Inspection:
		j.inspect(e, body)
	case *Readings:
		j.read(e, body)
	case *Trial:
		j.try(e, body)
	case *Decision:
		j.decide(e, body)
	case *Plan:
		j.plan(body)
	case *Progress:
		j.work(body)
	case *Finished:
		j.Stage = StageFinished
	case *HandedOver:
		j.Stage = StageHandedOver
	case *Cancelled:
		j.Stage = StageCancelled
	}
}

// panel finds a panel or makes room for it.
func (j *Job) panel(id string) *Panel {
	if p := j.Panel(id); p != nil {
		return p
	}
	p := &Panel{ID: id, expected: map[string]Removal{}}
	j.Panels = append(j.Panels, p)
	return p
}

func (j *Job) inspect(e *Event, body *Inspection) {
	for _, found := range body.Panels {
		p := j.panel(found.ID)
		// It starts anew, but what was taken off stays taken off, and it is as large as before.
		*p = Panel{
			ID: p.ID, Found: found, FoundAt: e.Sequence, FoundDocument: e.Document, Gauge: body.Gauge,
			passes: p.passes, sections: p.sections, measured: p.measured, expected: p.expected, confidencePct: p.confidencePct,
			settledBy: max(e.Sequence, e.CorrectedBy), AreaM2: p.AreaM2,
		}
	}
	if j.Stage == StageBooked {
		j.Stage = StageInspected
	}
}

func (j *Job) read(e *Event, body *Readings) {
	p := j.panel(body.Panel)
	taken := ReadingsTaken{Sequence: e.Sequence, Readings: body, Document: e.Document}
	switch body.When {
	case Before:
		p.Before = append(p.Before, taken)
		p.settledBy = max(p.settledBy, e.Sequence, e.CorrectedBy)
		p.Advice = nil // it rests on readings that no longer stand alone
	case During:
		p.During = append(p.During, taken)
	case After:
		p.After = append(p.After, taken)
	}
}

func (j *Job) try(e *Event, body *Trial) {
	p := j.panel(body.Panel)
	made := TrialMade{Sequence: e.Sequence, Trial: body, Document: e.Document}
	p.Trials = append(p.Trials, made)
	if body.FreshSection || len(p.sections) == 0 {
		p.sections = append(p.sections, section{})
	}
	last := &p.sections[len(p.sections)-1]
	last.trials = append(last.trials, made)
	p.settledBy = max(p.settledBy, e.CorrectedBy)
	p.Verdict = nil // it spoke of the trial before
	if j.Stage == StageInspected {
		j.Stage = StageTrial
	}
}

func (j *Job) decide(e *Event, body *Decision) {
	for i := range body.Panels {
		said := &body.Panels[i]
		p := j.Panel(said.Panel)
		if p == nil {
			continue // its inspection was withdrawn
		}
		for _, step := range slices.Concat(said.Steps, said.Beside) {
			p.expected[step.Step] = step.Removal
		}
		if body.ConfidencePct > 0 {
			p.confidencePct = body.ConfidencePct
		}
		if e.Sequence < p.settledBy || within(j.void[said.Panel], e.Sequence) {
			continue // it rests on what was corrected, or on readings before those that count
		}
		made := &DecisionMade{Sequence: e.Sequence, RuleSet: body.RuleSet, PanelDecided: said, Document: e.Document}
		if body.Trial == 0 {
			p.Advice = made
			continue
		}
		p.took(body.Trial, said)
		if n := len(p.Trials); n > 0 && p.Trials[n-1].Sequence == body.Trial {
			p.Verdict = made
		}
	}
}

func (j *Job) plan(body *Plan) {
	before := map[string]*Panel{}
	for _, p := range j.Panels {
		kept := *p
		before[p.ID] = &kept
		p.Ladder, p.Steps = "", nil
	}
	worked := false
	for _, planned := range body.Panels {
		p := j.panel(planned.Panel)
		worked = worked || len(p.passes) > 0
		p.Ladder = planned.Ladder
		// The same ladder goes on where it was; another begins.
		if was := before[p.ID]; was != nil && was.Ladder == planned.Ladder {
			p.Steps = was.Steps
			continue
		}
		for _, step := range Steps(planned.Ladder) {
			p.Steps = append(p.Steps, StepWork{Step: step, State: Open})
		}
	}
	j.measure(body)
	switch {
	case j.Stage == StageFinished, worked:
		j.Stage = StageInWork
	default:
		j.Stage = StagePlanned
	}
}

func (j *Job) work(body *Progress) {
	p := j.panel(body.Panel)
	w := p.work(body.Step)
	if w == nil {
		p.Steps = append(p.Steps, StepWork{Step: body.Step, State: Open})
		w = &p.Steps[len(p.Steps)-1]
	}
	again := w.State == Done && body.State == UnderWay
	if body.State != LeftOut && (w.State == Open || w.State == LeftOut || again) {
		p.passes = append(p.passes, pass{step: body.Step})
	}
	// The last word on a pass counts: whether the test section was spared is known when it is done.
	for i := len(p.passes) - 1; i >= 0 && body.State != LeftOut; i-- {
		if p.passes[i].step == body.Step {
			p.passes[i].spared = body.TestSectionSpared
			break
		}
	}
	w.State = body.State
	if again {
		w.SectionsDone = nil // those were of the pass before
	}
	if body.SectionsDone != nil {
		w.SectionsDone = body.SectionsDone
	}
	if body.SectionsTotal != nil {
		w.SectionsTotal = body.SectionsTotal
	}
	if body.Minutes != nil {
		sum := *body.Minutes
		if w.Minutes != nil {
			sum += *w.Minutes
		}
		w.Minutes = &sum
	}
	j.Stage = StageInWork
}

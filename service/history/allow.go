package history

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
)

// Check returns every complaint about what could never be right in a body, whatever the job: a [*InputError] for each, joined.
func Check(body Body) error { return body.check() }

// Allows returns nil if a body may be recorded next: a [*StageError] when the stage of the job or what is on record stands in
// the way, a [*CorrectionError] when later events rest on what would be corrected, or [*InputError] for what could never be
// right. Every fault of the input is told at once.
func (j *Job) Allows(body Body) error {
	if err := body.check(); err != nil {
		return err
	}
	if c, ok := body.(*Correction); ok {
		return j.allowsCorrection(c)
	}
	return j.fits(body)
}

func (j *Job) refuse(k Kind, format string, args ...any) error {
	return &StageError{Job: j.ID, Stage: j.Stage, Kind: k, Says: fmt.Sprintf(format, args...)}
}

// fits says whether a body that is right in itself may come next.
func (j *Job) fits(body Body) error {
	kind := body.Kind()
	if len(j.events) == 0 && j.Stage == "" && kind == KindBooked {
		return nil
	}
	if !j.Stage.mayCome(kind) {
		return j.refuse(kind, "%s", j.Stage.wayOut(kind))
	}
	switch body := body.(type) {
	case *Inspection:
		return j.fitsInspection(body)
	case *Readings:
		return j.fitsReadings(body)
	case *Trial:
		return j.inspected(kind, body.Panel)
	case *Decision:
		return j.fitsDecision(body)
	case *Plan:
		return j.fitsPlan(body)
	case *Progress:
		return j.fitsProgress(body)
	case *Finished:
		return j.fitsFinished()
	}
	return nil
}

// inspected refuses panels that nobody looked at.
func (j *Job) inspected(k Kind, panel string) error {
	if p := j.Panel(panel); p != nil && p.FoundAt > 0 {
		return nil
	}
	var known []string
	for _, p := range j.Panels {
		known = append(known, p.ID)
	}
	return j.refuse(k, "panel %s was not inspected; inspected were %s", panel, strings.Join(known, ", "))
}

func (j *Job) fitsInspection(body *Inspection) error {
	for _, found := range body.Panels {
		if p := j.Panel(found.ID); p != nil && p.begun() {
			return j.refuse(KindInspection, "work on panel %s has begun; record readings on it, or correct the inspection", p.ID)
		}
	}
	return nil
}

// Begun reports whether the panel's present ladder is being worked.
func (p *Panel) Begun() bool { return p.begun() }

func (p *Panel) begun() bool {
	return slices.ContainsFunc(p.Steps, func(w StepWork) bool { return w.State == UnderWay || w.State == Done })
}

func (j *Job) fitsReadings(body *Readings) error {
	if err := j.inspected(KindReadings, body.Panel); err != nil {
		return err
	}
	switch p := j.Panel(body.Panel); {
	case body.When == Before && p.begun():
		return j.refuse(KindReadings, "work on panel %s has begun, so readings on it are no longer from before; record them as during or after", p.ID)
	case body.When == Before && len(p.Trials) > 0:
		return j.refuse(KindReadings, "panel %s was tried already; give readings from before a trial with the trial, or inspect the panel again", p.ID)
	case body.When != Before && len(p.passes) == 0:
		return j.refuse(KindReadings, "no work on panel %s is on record yet; record the work first, or the readings as before", p.ID)
	}
	return nil
}

func (j *Job) fitsDecision(body *Decision) error {
	for _, said := range body.Panels {
		if err := j.inspected(KindDecision, said.Panel); err != nil {
			return err
		}
		if body.Trial == 0 {
			continue
		}
		if !slices.ContainsFunc(j.Panel(said.Panel).Trials, func(t TrialMade) bool { return t.Sequence == body.Trial }) {
			return j.refuse(KindDecision, "event %d is no trial on panel %s that counts", body.Trial, said.Panel)
		}
	}
	return nil
}

func (j *Job) fitsPlan(body *Plan) error {
	var errs []error
	for _, planned := range body.Panels {
		errs = append(errs, j.inspected(KindPlan, planned.Panel))
	}
	for _, area := range body.Measured.areas() {
		errs = append(errs, j.inspected(KindPlan, area.Panel))
	}
	for _, p := range j.Panels {
		named := slices.ContainsFunc(body.Panels, func(planned PlannedPanel) bool { return planned.Panel == p.ID })
		if !named && p.underWay() != "" {
			errs = append(errs, j.refuse(KindPlan, "%s on panel %s is under way, and the plan leaves the panel out; name it too", p.underWay(), p.ID))
		}
	}
	return errors.Join(errs...)
}

func (p *Panel) underWay() string {
	for _, w := range p.Steps {
		if w.State == UnderWay {
			return w.Step
		}
	}
	return ""
}

func (j *Job) fitsProgress(body *Progress) error {
	p := j.Panel(body.Panel)
	if p == nil || p.Ladder == "" {
		return j.refuse(KindProgress, "panel %s is in no plan; record a plan that names it", body.Panel)
	}
	w := p.work(body.Step)
	if w == nil {
		return j.refuse(KindProgress, "%s is not on the ladder of panel %s, which is %s; record a plan that has it", body.Step, p.ID, p.Ladder)
	}
	if body.State == LeftOut {
		if w.State == Done {
			return j.refuse(KindProgress, "%s on panel %s is done and cannot be left out any more", body.Step, p.ID)
		}
		return nil
	}
	for _, earlier := range p.Steps {
		if earlier.Step == body.Step {
			return nil
		}
		if earlier.State != Done && earlier.State != LeftOut {
			return j.refuse(KindProgress, "%s comes before %s on panel %s and is not done; record it as done or left out first", earlier.Step, body.Step, p.ID)
		}
	}
	return nil
}

func (j *Job) fitsFinished() error {
	var open []string
	for _, p := range j.Panels {
		for _, w := range p.Steps {
			if w.State != Done && w.State != LeftOut {
				open = append(open, fmt.Sprintf("%s on %s is %s", w.Step, p.ID, strings.ReplaceAll(string(w.State), "-", " ")))
			}
		}
	}
	if len(open) > 0 {
		return j.refuse(KindFinished, "%s; record each as done or left out first", strings.Join(open, ", "))
	}
	return nil
}

// allowsCorrection tries the correction on a copy: what is refused is a later event that fitted before and would not any more.
func (j *Job) allowsCorrection(c *Correction) error {
	var target *Event
	for i := range j.events {
		if j.events[i].Sequence == c.Sequence {
			target = &j.events[i]
		}
	}
	switch {
	case target == nil:
		return &NotFoundError{What: "event", ID: fmt.Sprintf("%d of job %s", c.Sequence, j.ID)}
	case target.Body.Kind() == KindCorrection:
		return &InputError{Field: "correction.sequence", Says: fmt.Sprintf("is %d, which is a correction itself; correct the event that it corrected again", c.Sequence)}
	case c.Instead == nil && !withdrawable(target.Body.Kind()):
		return &InputError{Field: "correction.sequence", Says: fmt.Sprintf("is %d, and %s cannot be withdrawn; record what holds now", c.Sequence, target.Body.Kind())}
	case c.Instead != nil && (c.Instead.Kind() != target.Body.Kind() || !correctable(target.Body.Kind())):
		return &InputError{Field: "correction.instead", Says: fmt.Sprintf("is of kind %s, and event %d is of kind %s; %s", c.Instead.Kind(), c.Sequence, target.Body.Kind(), sameKindOnly)}
	}
	before := misfits(Effective(j.events))
	corrected := append(slices.Clip(j.events), Event{Job: j.ID, Sequence: j.Sequence + 1, Body: c})
	after := misfits(Effective(corrected))
	for _, sequence := range slices.Sorted(maps.Keys(after)) { // the first is what everything later rests on
		says := after[sequence]
		if _, old := before[sequence]; old {
			continue
		}
		if sequence == c.Sequence {
			return &InputError{Field: "correction.instead", Says: "does not fit where it would stand: " + says}
		}
		return &CorrectionError{Sequence: sequence, Says: says}
	}
	return nil
}

const sameKindOnly = "inspections, readings, trials and progress are replaced by their like, all else is said anew"

// misfits are the events that would not have been allowed where they stand, and why.
func misfits(effective []Event) map[int64]string {
	out := map[int64]string{}
	j := &Job{}
	for i := range effective {
		e := &effective[i]
		if err := j.fits(e.Body); err != nil && e.Body.Kind() != KindDecision {
			out[e.Sequence] = err.Error()
		}
		j.apply(e)
		j.events = effective[:i+1]
	}
	return out
}

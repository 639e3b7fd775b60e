package lessons

import (
	"slices"

	"github.com/glossladder/glossladder/service/history"
)

// Course is what happened to one panel of one job between one inspection and the next.
type Course struct {
	Job, Panel string
	// Inspection is the sequence of the inspection that it begins with.
	Inspection int64
	// Class is without a step; every other word that is known is there.
	Class Class
	// Advice is the sequence of the last advice before the first trial that rests on what holds; 0 for none.
	Advice int64
	// Trials are those that hold, in order.
	Trials []Tried
	// Work is what was timed when steps were carried over the panel, by step.
	Work map[string]Worked
}

// Tried is one trial of a course.
type Tried struct {
	Sequence int64
	Step     string
	// After says that a stronger step had worked the section before, so that the trial tells nothing of the step alone.
	After bool
	// Minutes is what the section took. Nil: not timed.
	Minutes *float64
	// Verdict is the latest that rests on what holds; nil for none.
	Verdict *history.PanelDecided
}

// Said is the word of the verdict, "" without one.
func (t *Tried) Said() string {
	if t.Verdict == nil {
		return ""
	}
	return t.Verdict.Verdict
}

// Worked is a step carried over the panel.
type Worked struct {
	Minutes float64
	Timed   bool
	// Sections is the latest count; 0 where none were counted.
	Sections int
}

// Courses tells what happened to each panel, from the events of one job in their order; other kinds than those of [Kinds] are
// passed over. The courses of one panel follow each other.
func Courses(events []history.Event) []Course {
	t := teller{panels: map[string]*open{}}
	for _, e := range history.Effective(events) {
		t.job = e.Job
		switch body := e.Body.(type) {
		case *history.Inspection:
			t.inspect(&e, body)
		case *history.Readings:
			if p := t.panels[body.Panel]; p != nil && body.When == history.Before {
				p.settledBy = max(p.settledBy, e.Sequence, e.CorrectedBy)
			}
		case *history.Trial:
			t.try(&e, body)
		case *history.Decision:
			t.decide(&e, body)
		case *history.Progress:
			t.work(body)
		}
	}
	for _, id := range t.order {
		t.out = append(t.out, t.panels[id].course)
	}
	return t.out
}

type teller struct {
	job    string
	panels map[string]*open
	order  []string
	out    []Course
}

// open is a course that goes on.
type open struct {
	course Course
	// settledBy is the event that decisions have to come after: earlier ones rest on what has changed since. Settled is the same of
	// each trial.
	settledBy int64
	settled   []int64
	// strongest is the strongest step worked so far on the section that trials are made on; 0 for none.
	strongest int
}

func (t *teller) inspect(e *history.Event, body *history.Inspection) {
	for i := range body.Panels {
		found := &body.Panels[i]
		if p := t.panels[found.ID]; p != nil {
			t.out = append(t.out, p.course)
		} else {
			t.order = append(t.order, found.ID)
		}
		t.panels[found.ID] = &open{
			course:    Course{Job: t.job, Panel: found.ID, Inspection: e.Sequence, Class: ClassOf(found)},
			settledBy: max(e.Sequence, e.CorrectedBy),
		}
	}
}

// strength orders steps; 0 for no step.
func strength(step string) int { return slices.Index([]string{"", "finish", "polish", "cut"}, step) }

func (t *teller) try(e *history.Event, body *history.Trial) {
	p := t.panels[body.Panel]
	if p == nil || strength(body.Step) <= 0 {
		return
	}
	if body.FreshSection {
		p.strongest = 0
	}
	p.course.Trials = append(p.course.Trials, Tried{
		Sequence: e.Sequence, Step: body.Step, After: p.strongest > strength(body.Step), Minutes: body.Minutes,
	})
	p.settled = append(p.settled, max(p.settledBy, e.CorrectedBy))
	p.strongest = max(p.strongest, strength(body.Step))
}

// decide keeps the last advice before the trials, and the latest verdict on each.
func (t *teller) decide(e *history.Event, body *history.Decision) {
	for i := range body.Panels {
		p := t.panels[body.Panels[i].Panel]
		if p == nil || e.Sequence <= p.settledBy {
			continue
		}
		if body.Trial == 0 {
			if len(p.course.Trials) == 0 {
				p.course.Advice = e.Sequence
			}
			continue
		}
		for k := range p.course.Trials {
			if tried := &p.course.Trials[k]; tried.Sequence == body.Trial && e.Sequence > p.settled[k] {
				tried.Verdict = &body.Panels[i]
			}
		}
	}
}

func (t *teller) work(body *history.Progress) {
	p := t.panels[body.Panel]
	if p == nil || body.State == history.LeftOut {
		return
	}
	if p.course.Work == nil {
		p.course.Work = map[string]Worked{}
	}
	w := p.course.Work[body.Step]
	if body.Minutes != nil {
		w.Minutes, w.Timed = w.Minutes+*body.Minutes, true
	}
	if body.SectionsDone != nil {
		w.Sections = *body.SectionsDone
	} else if body.State == history.Done && body.SectionsTotal != nil {
		w.Sections = *body.SectionsTotal
	}
	p.course.Work[body.Step] = w
}

// Proven is the strongest step of the ladder that the trials proved; false when they did not end with an acceptance.
func (c *Course) Proven() (step string, ok bool) {
	for i := range c.Trials {
		switch t := &c.Trials[i]; t.Said() {
		case "step-up":
			step, ok = "", false // a stronger step undoes the finish of the milder ones
		case "refine", "accept":
			if strength(t.Step) > strength(step) {
				step = t.Step
			}
			ok = t.Said() == "accept"
		default:
			ok = false
		}
	}
	return step, ok
}

// Ending is how a step came out where no stronger one had worked the section before.
func (c *Course) Ending(step string) Ending {
	out := Untold
	for i := range c.Trials {
		if t := &c.Trials[i]; t.Step == step && !t.After && t.Verdict != nil {
			out = endingOf(t.Said())
		}
	}
	return out
}

func endingOf(verdict string) Ending {
	switch verdict {
	case "accept", "refine":
		return Accepted
	case "step-up", "stop":
		return FellShort
	}
	return Untold
}

// notForPolishing are kinds of mark that no step mends, so that they say nothing of how a step does; the start table of the
// shipped rules gives them no step.
func notForPolishing(kind string) bool {
	return slices.Contains([]string{"bonded-contamination", "orange-peel", "chips", "cracks", "peeling", "clear-coat-failure"}, kind)
}

// ClassOf is the class of a panel as it was found, without the step. The worst mark counts, of equals the first.
func ClassOf(found *history.PanelFound) Class {
	out := Class{Softness: found.Softness, Shade: found.Shade}
	var worst *float64
	for _, d := range found.Defects {
		if notForPolishing(d.Kind) {
			continue
		}
		if out.Kind == "" || d.Severity != nil && (worst == nil || *d.Severity > *worst) {
			out.Kind = d.Kind
		}
		if d.Severity != nil && (worst == nil || *d.Severity > *worst) {
			worst = d.Severity
		}
	}
	out.Band = BandOf(worst)
	return out
}

package history

import (
	"encoding/json"
	"time"
)

// Summary is what a list shows of a job. It is kept beside the events and can be made from them.
type Summary struct {
	ID      string
	Vehicle string
	Stage   Stage
	Details
	CreatedAt time.Time
	UpdatedAt time.Time
	// Sequence is that of the last event.
	Sequence int64
}

// Listed is a job in a list, with what its vehicle is called now.
type Listed struct {
	Summary
	VehicleLabel string
}

// Job is a job as its events leave it. [Replay] makes it.
type Job struct {
	Summary
	// Panels are those ever inspected, in the order of first inspection.
	Panels []*Panel
	// Crew is who works, as the plans say. Nil: not said.
	Crew *Crew

	events []Event // all, as stored
	// void are, by panel, the events between which decisions rest on what was corrected later.
	void map[string][]span
}

// Panel is one panel of a job, as the events leave it.
type Panel struct {
	ID string
	// Found is the panel as last inspected; FoundAt the inspection's event and FoundDocument its whole document, of all its panels.
	Found         PanelFound
	FoundAt       int64
	FoundDocument json.RawMessage
	Gauge         *Gauge
	// Before, During and After are readings since then, the oldest first.
	Before, During, After []ReadingsTaken
	// Trials are those since then, the oldest first.
	Trials []TrialMade
	// Advice is the latest advice since then that still holds, Verdict the latest verdict on the last trial. Nil: none.
	Advice, Verdict *DecisionMade
	// Ladder is the plan's. Empty: the panel is in no plan.
	Ladder string
	// AreaM2 is the area that the plans give as measured, in m². Nil: not measured.
	AreaM2 *float64
	// Steps are the work on the ladder, strongest step first.
	Steps []StepWork

	passes        []pass
	sections      []section // test sections over the whole job
	measured      []trialTaken
	expected      map[string]Removal
	confidencePct float64
	settledBy     int64 // decisions before this event rest on what has changed since
}

// ReadingsTaken are readings with their event.
type ReadingsTaken struct {
	Sequence int64
	*Readings
	Document json.RawMessage
}

// TrialMade is a trial with its event.
type TrialMade struct {
	Sequence int64
	*Trial
	Document json.RawMessage
}

// DecisionMade is what a decision says of one panel, with its event.
type DecisionMade struct {
	Sequence int64
	RuleSet  string
	*PanelDecided
	Document json.RawMessage
}

// StepWork is one step of a panel's ladder.
type StepWork struct {
	Step  string
	State StepState
	// SectionsDone and SectionsTotal are the latest counts. Nil: not counted.
	SectionsDone, SectionsTotal *int
	// Minutes is the sum over all entries. Nil: not timed.
	Minutes *float64
}

// pass is one time that a step was carried over the panel.
type pass struct {
	step   string
	spared bool // the test section
}

// section is one test section and the trials on it.
type section struct{ trials []TrialMade }

// Panel finds a panel by its id; nil when it was not inspected.
func (j *Job) Panel(id string) *Panel {
	for _, p := range j.Panels {
		if p.ID == id {
			return p
		}
	}
	return nil
}

// With is the job as it would be with one event more, which is not asked to fit.
func (j *Job) With(draft Draft) *Job {
	next := Event{Job: j.ID, Sequence: j.Sequence + 1, RecordedAt: j.UpdatedAt, Body: draft.Body, Document: draft.Document}
	return Replay(append(j.events[:len(j.events):len(j.events)], next))
}

// Worked reports whether any step was ever carried over the panel in this job.
func (p *Panel) Worked() bool { return len(p.passes) > 0 }

// Events are all events of the job, in order, as stored. They are not to be changed.
func (j *Job) Events() []Event { return j.events }

func (p *Panel) work(step string) *StepWork {
	for i := range p.Steps {
		if p.Steps[i].Step == step {
			return &p.Steps[i]
		}
	}
	return nil
}

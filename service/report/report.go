package report

import (
	"slices"
	"time"

	"github.com/glossladder/glossladder/service/history"
)

// Report is what is on record of a job, put together for its owner. It is in no language yet.
type Report struct {
	Job     history.Summary
	Vehicle history.Vehicle
	Whole   Inspected
	// Inspected, Ended and HandedOver are the days of the first inspection, of the end of the work and of the hand-over. Zero:
	// not yet. UpTo is the day of the last event.
	Inspected, Ended, HandedOver, UpTo time.Time
	Panels                             []Panel
	// Cautions are those given for the vehicle, each once.
	Cautions []Caution
	// Notes are the shop's own words at the end.
	Notes []string
	// RuleSets are the hashes of the rule sets that decided, the first that did first.
	RuleSets []string
	// ConfidencePct is the confidence of the intervals.
	ConfidencePct float64
	// Corrected counts the events that were corrected or withdrawn.
	Corrected int
	// Gauge is what film was read with. Nil: film was not read.
	Gauge *history.Gauge
}

// Panel is one panel of a report.
type Panel struct {
	Found   history.PanelFound
	Seen    PanelSeen
	Marks   []Mark
	Advice  *Advice
	Advised string // the ladder advised
	Trials  []Trial
	// Planned is the ladder of the plan. Empty: the panel is in no plan.
	Planned string
	Steps   []Step
	// GlossFound is what the panel read before the work, at the angle of the advice. Nil: it was not read.
	GlossFound *Reading
	Gloss      *Change
	Haze       *Change
	Film       Film
}

// Mark is a kind of mark before and, where it was looked for, after the work.
type Mark struct {
	Kind         string
	Before, Left *float64
	Note         string
}

// Step is the work of one step.
type Step struct {
	history.StepWork
	// Why says why it was left out, in the shop's words.
	Why string
}

// Trial is a test spot.
type Trial struct {
	history.TrialMade
	// Verdict is the latest on it. Nil: none is on record.
	Verdict *history.PanelDecided
	Because string
}

// Worked reports whether any step was carried over the panel.
func (p *Panel) Worked() bool {
	return slices.ContainsFunc(p.Steps, func(s Step) bool { return s.State == history.Done || s.State == history.UnderWay })
}

// Ladder is the steps that were carried over the panel, strongest first.
func (p *Panel) Ladder() []string {
	var out []string
	for _, s := range p.Steps {
		if s.State == history.Done || s.State == history.UnderWay {
			out = append(out, s.Step)
		}
	}
	return out
}

// Complete reports whether the work is done, so that nothing in the report is still to come.
func (r *Report) Complete() bool {
	return r.Job.Stage == history.StageFinished || r.Job.Stage == history.StageHandedOver
}

// Make puts a report together. Errors are those of the documents, which cannot be read.
func Make(given Given) (*Report, error) {
	m := maker{given: given, events: history.Effective(given.Job.Events())}
	r := &Report{Job: given.Job.Summary, Vehicle: given.Vehicle, UpTo: m.day(given.Job.UpdatedAt)}
	r.Corrected = corrections(given.Job.Events())
	m.dates(r)
	for _, panel := range given.Job.Panels {
		made, err := m.panel(panel)
		if err != nil {
			return nil, err
		}
		r.Panels = append(r.Panels, *made)
		if panel.Gauge != nil {
			r.Gauge = panel.Gauge
		}
	}
	r.ConfidencePct = m.confidence()
	r.Cautions = m.cautions
	return r, m.whole(r)
}

// maker holds what is needed while a report is put together.
type maker struct {
	given    Given
	events   []history.Event // as they hold, corrections applied
	cautions []Caution
}

func (m *maker) day(t time.Time) time.Time {
	if m.given.Zone == nil || t.IsZero() {
		return t
	}
	return t.In(m.given.Zone)
}

func corrections(events []history.Event) int {
	seen := map[int64]bool{}
	for _, e := range events {
		if c, ok := e.Body.(*history.Correction); ok {
			seen[c.Sequence] = true
		}
	}
	return len(seen)
}

// dates reads when things happened, the shop's own words, and which rules decided.
func (m *maker) dates(r *Report) {
	plan := "" // a later plan takes the place of an earlier one
	for i := range m.events {
		e := &m.events[i]
		switch body := e.Body.(type) {
		case *history.Inspection:
			if r.Inspected.IsZero() {
				r.Inspected = m.day(e.Happened())
			}
		case *history.Decision:
			if !slices.Contains(r.RuleSets, body.RuleSet) {
				r.RuleSets = append(r.RuleSets, body.RuleSet)
			}
		case *history.Plan:
			plan = body.Note
		case *history.Finished:
			r.Ended = m.day(e.Happened())
			r.say(body.Note)
		case *history.HandedOver:
			r.HandedOver = m.day(e.Happened())
			r.say(body.Note)
		case *history.Cancelled:
			r.Ended = m.day(e.Happened())
			r.say(body.Note)
		}
	}
	if plan != "" {
		r.Notes = append([]string{plan}, r.Notes...)
	}
}

func (r *Report) say(note string) {
	if note != "" {
		r.Notes = append(r.Notes, note)
	}
}

// usualConfidencePct is taken where no decision on record tells the policy's own: common practice, no source.
const usualConfidencePct = 95

// confidence is the latest that a decision asked for.
func (m *maker) confidence() float64 {
	for _, e := range slices.Backward(m.events) {
		if d, ok := e.Body.(*history.Decision); ok && d.ConfidencePct > 0 {
			return d.ConfidencePct
		}
	}
	return usualConfidencePct
}

// whole reads what the inspections say of the whole vehicle, a later one in place of an earlier.
func (m *maker) whole(r *Report) error {
	for _, e := range m.events {
		if _, ok := e.Body.(*history.Inspection); !ok {
			continue
		}
		seen, err := m.given.Documents.Inspection(e.Document)
		if err != nil {
			return err
		}
		r.Whole.merge(seen)
	}
	return nil
}

func (i *Inspected) merge(later *Inspected) {
	for _, field := range []struct {
		into *string
		from string
	}{
		{&i.Goal, later.Goal}, {&i.Protection, later.Protection}, {&i.System, later.System}, {&i.Softness, later.Softness}, {&i.Shade, later.Shade},
	} {
		if field.from != "" {
			*field.into = field.from
		}
	}
	if later.AirC != nil {
		i.AirC = later.AirC
	}
	if later.HumidityPct != nil {
		i.HumidityPct = later.HumidityPct
	}
}

package report_test

import (
	"encoding/json"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/film"
	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/report"
)

// said is what an event's document holds in these tests: what a reader of documents would read out of it.
type said struct {
	Inspection *report.Inspected         `json:",omitempty"`
	Advice     map[string]*report.Advice `json:",omitempty"`
	Verdict    *report.Verdict           `json:",omitempty"`
	After      []history.GlossSpot       `json:",omitempty"`
}

type documents struct{}

func read(document json.RawMessage) (out said, err error) {
	err = json.Unmarshal(document, &out)
	return out, err
}

func (documents) Inspection(document json.RawMessage) (*report.Inspected, error) {
	out, err := read(document)
	return out.Inspection, err
}

func (documents) Advice(document json.RawMessage, panel string) (*report.Advice, error) {
	out, err := read(document)
	return out.Advice[panel], err
}

func (documents) Verdict(document json.RawMessage) (*report.Verdict, error) {
	out, err := read(document)
	return out.Verdict, err
}

func (documents) Trial(document json.RawMessage) (before, after []history.GlossSpot, err error) {
	out, err := read(document)
	return nil, out.After, err
}

// story is a job under way, in invented events.
type story struct {
	t      *testing.T
	events []history.Event
}

// monday is when the invented job begins: in Vienna it is the next day already.
func monday() time.Time { return time.Date(2026, time.May, 4, 22, 30, 0, 0, time.UTC) }

func (s *story) tell(body history.Body, document said) int64 {
	s.t.Helper()
	text, err := json.Marshal(document)
	require.NoError(s.t, err)
	n := int64(len(s.events) + 1)
	s.events = append(s.events, history.Event{
		Job: "spring", Sequence: n, RecordedAt: monday().Add(time.Duration(n) * time.Minute), Body: body, Document: text,
	})
	return n
}

// given is what a report of the story is made of.
func (s *story) given() report.Given {
	return report.Given{
		Job: history.Replay(s.events), Documents: documents{},
		Vehicle: history.Vehicle{ID: "estate", Label: "invented estate, dark blue", VehicleTraits: history.VehicleTraits{
			Paint: history.Paint{System: "clear-coat", Softness: "soft", Shade: "dark"},
		}},
	}
}

func gloss(spot string, gu, haze float64) history.GlossSpot {
	return history.GlossSpot{Spot: spot, At20GU: []float64{gu - 0.2, gu, gu + 0.3}, HazeHU: []float64{haze, haze + 0.4, haze - 0.3}}
}

func removal(low, likely, high float64) history.Removal {
	return history.Removal{LowUm: low, LikelyUm: likely, HighUm: high}
}

// bonnetAdvice is what the rules said of the bonnet, usable film included.
func bonnetAdvice() *report.Advice {
	return &report.Advice{
		State: "ready", Limit: "polish", LimitBecause: "A cut would take more than may go.", LadderBecause: "The finish takes the haze of the polish away.", AllowedSeverity: 1,
		Marks: []report.MarkAdvice{
			{Kind: "wash-marks", Severity: new(3.0), Start: "polish", Because: "These are clear to see, so they need a polish."},
			{Kind: "deep-scratches", Severity: new(4.0), Start: "cut", Because: "Deep marks need a cut."},
			{Kind: "chips", Severity: new(2.0), Start: "none", Because: "Polishing puts no paint back."},
		},
		Film: &report.FilmAdvice{LowestUm: 118.2, LowestBoundUm: 115.9, ClearUm: 37.1, UsableUm: 7.1}, Gloss: &report.GlossAdvice{Angle: 20, CeilingGU: 82},
		Settings: []report.Settings{{Step: "polish", Machine: "long-orbital", Pad: "polishing-foam", Liquid: "polishing-liquid"}, {Step: "finish", Machine: "long-orbital", Pad: "finishing-foam", Liquid: "finishing-liquid"}},
		Cautions: []report.Caution{
			{Topic: "sensors", Level: "danger", Do: "Ask about the camera first.", Because: "It looks through this paint."},
			{Topic: "noise", Level: "danger", Do: "Wear hearing protection.", Because: "Machines are loud."},
			{Topic: "paint", Level: "note", Do: "Look at it in daylight.", Because: "Dark colours hide trails."},
		},
	}
}

// invented is a whole job: two panels worked, one left alone, one with a step left out, an earlier visit, a correction.
func invented(t *testing.T) report.Given {
	t.Helper()
	s := &story{t: t}
	s.tell(&history.Booked{Vehicle: "estate", Details: history.Details{Label: "spring visit"}}, said{})
	roof := &report.Advice{
		State: "ready", Limit: "polish", LadderBecause: "A finish leaves nothing to improve.", AllowedSeverity: 1,
		Marks: []report.MarkAdvice{{Kind: "wash-marks", Severity: new(2.0), Start: "finish", Because: "The mildest step has a fair chance."}},
		Film:  &report.FilmAdvice{LowestUm: 117.6, UsableUm: 6.9},
	}
	boot := &report.Advice{
		State: "stop", Limit: "none", LimitBecause: "The film is so thin that any step could go through it.",
		Readiness: []report.Readiness{{Effect: "stop", Do: "Clean and protect it only.", Because: "Little film is left."}, {Effect: "note", Do: "not told", Because: "a note"}},
		Marks:     []report.MarkAdvice{{Kind: "wash-marks", Severity: new(2.0), Start: "finish"}},
		Film:      &report.FilmAdvice{LowestUm: 83, UsableUm: 0, Signs: []string{"may be as thin as 81.2 µm: treat as thin"}},
	}
	found := []history.PanelFound{
		{
			ID: "bonnet", Substrate: "steel", System: "clear-coat", Softness: "soft", Shade: "dark", Gloss: []history.GlossSpot{gloss("a", 68.6, 24), gloss("b", 69.3, 23), gloss("c", 67.7, 25)},
			Defects: []history.Defect{{Kind: "wash-marks", Severity: new(3.0)}, {Kind: "deep-scratches", Severity: new(4.0)}, {Kind: "chips", Severity: new(2.0)}},
		},
		{
			ID: "roof", Substrate: "aluminium", System: "clear-coat", Softness: "hard", Shade: "dark", Gloss: []history.GlossSpot{gloss("a", 71.2, 20), gloss("b", 72.0, 19)},
			Defects: []history.Defect{{Kind: "wash-marks", Severity: new(2.0)}},
		},
		{ID: "boot-lid", Substrate: "steel", Defects: []history.Defect{{Kind: "wash-marks", Severity: new(2.0)}}},
		{ID: "door-front-left", Substrate: "steel", Defects: []history.Defect{{Kind: "holograms"}}},
	}
	s.tell(&history.Inspection{Panels: found, Gauge: &history.Gauge{Kind: "magnetic/eddy-current", AccuracyUm: 1, AccuracyPct: 1, ResolutionUm: 0.1}}, said{Inspection: &report.Inspected{
		Goal: "correct", Protection: "coating", AirC: new(21.0), HumidityPct: new(48.0), GlossStepGU: 0.1, HazeStepHU: 0.1,
		Panels: map[string]report.PanelSeen{"bonnet": {Part: "bonnet", Notes: map[string]string{"deep-scratches": "two, < 3 cm"}}},
	}})
	s.tell(&history.Decision{RuleSet: "0123456789abcdef0123", ConfidencePct: 95, Panels: []history.PanelDecided{
		{Panel: "bonnet", Ladder: "polish-finish", Steps: []history.StepExpected{{Step: "polish", Removal: removal(0.7, 1.2, 1.5)}, {Step: "finish", Removal: removal(0.1, 0.3, 0.5)}}},
		{Panel: "roof", Ladder: "finish", Steps: []history.StepExpected{{Step: "finish", Removal: removal(0.1, 0.3, 0.5)}}},
		{Panel: "boot-lid", Ladder: "none"},
		{Panel: "door-front-left", Ladder: "finish"},
	}}, said{Advice: map[string]*report.Advice{"bonnet": bonnetAdvice(), "roof": roof, "boot-lid": boot}})
	after := []history.GlossSpot{gloss("a", 79.5, 12), gloss("b", 80.2, 11.5), gloss("c", 79, 12.6)}
	trial := s.tell(&history.Trial{Panel: "bonnet", Step: "polish", Minutes: new(6.0)}, said{After: after})
	s.tell(&history.Decision{RuleSet: "0123456789abcdef0123", Trial: trial, ConfidencePct: 95, Panels: []history.PanelDecided{{
		Panel: "bonnet", Ladder: "polish", Verdict: "accept", Proven: true, SeverityLeft: new(1.0), SeverityAllowed: new(1.0),
		Gloss: &history.Changed{Angle: 20, Mean: 11.1, Low: 10.8, High: 11.4, Before: 68.6, After: 79.7}, Haze: &history.Changed{Mean: -12, Low: -12.4, High: -11.6, Before: 24, After: 12},
	}}}, said{Verdict: &report.Verdict{Because: "What is left may stay."}})
	s.tell(&history.Plan{Panels: []history.PlannedPanel{{Panel: "bonnet", Ladder: "polish-finish"}, {Panel: "roof", Ladder: "finish"}}, Note: "the door another day"}, said{})
	s.tell(&history.Progress{Panel: "bonnet", Step: "polish", State: history.Done, Minutes: new(74.0), TestSectionSpared: true}, said{})
	s.tell(&history.Progress{Panel: "bonnet", Step: "finish", State: history.LeftOut, Note: "the polish left no haze"}, said{})
	wrong := s.tell(&history.Progress{Panel: "roof", Step: "finish", State: history.Done, Minutes: new(520.0)}, said{})
	s.tell(&history.Correction{Sequence: wrong, Why: "a slip", Instead: &history.Progress{Panel: "roof", Step: "finish", State: history.Done, Minutes: new(52.0)}}, said{})
	s.tell(&history.Readings{Panel: "bonnet", When: history.After, Gloss: after, Left: []history.Defect{{Kind: "wash-marks", Severity: new(1.0)}, {Kind: "deep-scratches", Severity: new(3.5)}}}, said{})
	s.tell(&history.Finished{}, said{})
	s.tell(&history.HandedOver{Closing: history.Closing{Note: "Wash by hand for two weeks, please."}}, said{})
	given := s.given()
	given.Zone = time.FixedZone("CEST", 2*60*60)
	given.Earlier = []history.PanelLife{{Panel: "roof", Taken: film.Removal{LowUm: 0.2, LikelyUm: 0.6, HighUm: 1}}}
	return given
}

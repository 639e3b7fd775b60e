package history_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
)

func ptr[T any](v T) *T { return &v }

func at(minute int) time.Time { return time.Date(2026, 5, 4, 9, minute, 0, 0, time.UTC) }

// events makes events of bodies, as if recorded one a minute.
func events(bodies ...history.Body) []history.Event {
	var out []history.Event
	for i, body := range bodies {
		out = append(out, history.Event{Job: "job", Sequence: int64(i + 1), RecordedAt: at(i), Body: body})
	}
	return out
}

func jobOf(bodies ...history.Body) *history.Job { return history.Replay(events(bodies...)) }

func booked() history.Body { return &history.Booked{Vehicle: "car"} }

func inspected(panels ...string) history.Body {
	found := &history.Inspection{Gauge: &history.Gauge{Kind: "combined", AccuracyUm: 1, AccuracyPct: 1, ResolutionUm: 0.1}}
	for _, id := range panels {
		found.Panels = append(found.Panels, history.PanelFound{ID: id, Substrate: "steel"})
	}
	return found
}

func tried(panel, step string) history.Body { return &history.Trial{Panel: panel, Step: step} }

func planned(panelsAndLadders ...string) history.Body {
	plan := &history.Plan{}
	for i := 0; i < len(panelsAndLadders); i += 2 {
		plan.Panels = append(plan.Panels, history.PlannedPanel{Panel: panelsAndLadders[i], Ladder: panelsAndLadders[i+1]})
	}
	return plan
}

func worked(panel, step string, state history.StepState) history.Body {
	body := &history.Progress{Panel: panel, Step: step, State: state}
	if state == history.LeftOut {
		body.Note = "not needed"
	}
	return body
}

func read(panel string, when history.When) history.Body {
	return &history.Readings{Panel: panel, When: when, PanelC: ptr(21.0)}
}

// advised says what each step is expected to take: finish 0 to 0.5, polish 0.5 to 1.5, cut 1.5 to 4 µm.
func advised(panels ...string) history.Body {
	d := &history.Decision{RuleSet: "set"}
	for _, id := range panels {
		d.Panels = append(d.Panels, history.PanelDecided{Panel: id, Ladder: "cut-polish-finish", Steps: []history.StepExpected{
			{Step: "cut", Removal: history.Removal{LowUm: 1.5, LikelyUm: 2.5, HighUm: 4}},
			{Step: "polish", Removal: history.Removal{LowUm: 0.5, LikelyUm: 1, HighUm: 1.5}},
			{Step: "finish", Removal: history.Removal{LowUm: 0, LikelyUm: 0.2, HighUm: 0.5}},
		}})
	}
	return d
}

func judged(trial int64, panel string, taken *history.Taken) history.Body {
	return &history.Decision{RuleSet: "set", Trial: trial, Panels: []history.PanelDecided{{Panel: panel, Verdict: "accept", Taken: taken}}}
}

// wholeVisit ends handed over.
func wholeVisit() []history.Body {
	return []history.Body{
		booked(), inspected("bonnet", "roof"), advised("bonnet", "roof"), tried("bonnet", "finish"), judged(4, "bonnet", nil),
		planned("bonnet", "polish-finish", "roof", "finish"), worked("bonnet", "polish", history.UnderWay), read("bonnet", history.During),
		worked("bonnet", "polish", history.Done), worked("bonnet", "finish", history.Done), worked("roof", "finish", history.LeftOut),
		&history.Finished{}, read("bonnet", history.After), &history.HandedOver{},
	}
}

// record is what a caller of the book does: each body must be allowed where it comes.
func record(t *testing.T, bodies ...history.Body) *history.Job {
	t.Helper()
	job := &history.Job{}
	for i, body := range bodies {
		require.NoError(t, job.Allows(body), "event %d, %s", i+1, body.Kind())
		job = jobOf(bodies[:i+1]...)
	}
	return job
}

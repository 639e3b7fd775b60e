package storetest

import (
	"encoding/json"
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
)

// noon is a time that no store may bend: it has microseconds, and a zone of its own.
func noon() time.Time {
	return time.Date(2026, time.March, 29, 12, 0, 0, 123456000, time.FixedZone("far", 5*3600+45*60))
}

func minutes(n int) time.Time { return history.Moment(noon().Add(time.Duration(n) * time.Minute)) }

func ptr[T any](v T) *T { return &v }

func aVehicle(id string) history.Vehicle {
	return history.Vehicle{
		ID: id, Revision: 1, CreatedAt: minutes(0), UpdatedAt: minutes(0), Label: "Dark blue estate " + id,
		VehicleTraits: history.VehicleTraits{
			Size: "medium", BuiltYear: 2017, Notes: "invented\nsecond line, with \"quotes\" and an é",
			Paint: history.Paint{System: "clear-coat", Softness: "soft", Shade: "dark", HazeProne: ptr(false)},
		},
	}
}

func saveVehicle(t *testing.T, store history.Store, id string) history.Vehicle {
	t.Helper()
	v := aVehicle(id)
	earlier, err := store.SaveVehicle(t.Context(), v, 0, history.Request{})
	require.NoError(t, err)
	require.Nil(t, earlier)
	return v
}

// batch makes a batch of bodies on a job of vehicle "car", as a writer who knows the sequence expected would.
func batch(job string, expected int64, bodies ...history.Body) history.Batch {
	b := history.Batch{Expected: expected}
	for i, body := range bodies {
		b.Events = append(b.Events, history.Event{
			Job: job, Sequence: expected + int64(i) + 1, RecordedAt: minutes(int(expected) + i), By: "bay 2", Body: body,
		})
	}
	last := expected + int64(len(bodies))
	b.After = history.Summary{
		ID: job, Vehicle: "car", Stage: history.StageBooked, Details: history.Details{Label: fmt.Sprintf("%s at %d", job, last)},
		CreatedAt: minutes(0), UpdatedAt: minutes(int(last)), Sequence: last,
	}
	return b
}

func booked() history.Body { return &history.Booked{Vehicle: "car"} }

func note(text string) history.Body { return &history.Details{Notes: text} }

// bookJob stores a job with its first event, made at a time.
func bookJob(t *testing.T, store history.Store, id string, at time.Time, change func(*history.Summary)) {
	t.Helper()
	b := batch(id, 0, booked())
	b.Events[0].RecordedAt, b.After.CreatedAt, b.After.UpdatedAt = at, at, at
	if change != nil {
		change(&b.After)
	}
	mustAppend(t, store, b)
}

func mustAppend(t *testing.T, store history.Store, b history.Batch) {
	t.Helper()
	earlier, err := store.Append(t.Context(), b)
	require.NoError(t, err)
	require.Nil(t, earlier)
}

// allEvents gives those of the job "job".
func allEvents(t *testing.T, store history.Store) []history.Event {
	t.Helper()
	events, err := store.Events(t.Context(), "job", 0, history.MostOnPage)
	require.NoError(t, err)
	return events
}

// everyBody is one of each kind, with every field filled in.
func everyBody() []history.Body {
	gauge := &history.Gauge{Kind: "combined", AccuracyUm: 1, AccuracyPct: 1, ResolutionUm: 0.1, GreaterOf: true}
	filmed := []history.FilmSpot{{Spot: "centre", TotalUm: []float64{104.3, 104.1, 104.30000000000001}, ClearUm: []float64{41}, NearEdge: true}}
	glossed := []history.GlossSpot{{Spot: "a", At20GU: []float64{81.2}, At60GU: []float64{90.1, 90.2}, At85GU: []float64{95}, HazeHU: []float64{0, 12}}}
	inspection := &history.Inspection{Gauge: gauge, Panels: []history.PanelFound{{
		ID: "bonnet", Substrate: "steel", System: "clear-coat", Softness: "soft", Shade: "dark", TakenUm: ptr(0.0), Film: filmed, Gloss: glossed,
		Defects: []history.Defect{{Kind: "wash-marks", Severity: ptr(2.5)}, {Kind: "chips"}},
	}}}
	trial := &history.Trial{Panel: "bonnet", Step: "finish", FreshSection: true, Minutes: ptr(7.5), Machine: "rotary", Pad: "wool", Liquid: "cutting-liquid"}
	taken := history.Removal{LowUm: 0.1, LikelyUm: 0.4, HighUm: 1}
	changed := &history.Changed{Angle: 20, Mean: 5.5, Low: 4, High: 7, Judgement: "worthwhile", Before: 80, After: 85.5}
	return []history.Body{
		&history.Booked{Vehicle: "car", Details: history.Details{Label: "spring", Notes: "none", BookedFor: minutes(60)}},
		&history.Details{Label: "summer", Bay: &history.Bay{ID: "bay-1", Blocks: []history.BayBlock{{Piece: "polish", Start: minutes(60), End: minutes(90)}}}},
		inspection,
		&history.Readings{
			Panel: "bonnet", When: history.After, Step: "finish", Gloss: glossed, Film: filmed, Left: []history.Defect{{Kind: "haze", Severity: ptr(0.0)}},
			PanelC: ptr(-1.5), Gauge: gauge, LeftAsSet: true, Source: "meter.csv", Note: "µm",
		},
		trial,
		&history.Decision{
			RuleSet: "h4sh", Trial: 5, ConfidencePct: 95, Panels: []history.PanelDecided{{
				Panel: "bonnet", Ladder: "finish", Proven: true, Steps: []history.StepExpected{{Step: "finish", Removal: taken}}, Verdict: "accept", Change: "nothing",
				Gloss: changed, Haze: changed, Taken: &history.Taken{Removal: taken, Measured: true}, SeverityLeft: ptr(0.0), SeverityAllowed: ptr(1.0),
			}},
			Sheets: []history.FactSheet{{
				Panel: "bonnet", About: "wash-marks 2", Facts: map[string]any{"paint.softness": "soft", "defect.severity": 2.5, "panel.clean": false},
				Answers: []history.TableAnswer{{Table: "start", Rule: "soft-light-marks", Answer: "finish"}, {Table: "limit"}},
			}},
		},
		&history.Plan{
			Panels: []history.PlannedPanel{{Panel: "bonnet", Ladder: "polish-finish"}}, Note: "as tried", Crew: &history.Crew{People: ptr(2), DayHours: ptr(7.5)},
			Measured: &history.Measured{Areas: []history.MeasuredArea{{Panel: "bonnet", M2: 1.8500000000000001}}},
		},
		&history.Progress{
			Panel: "bonnet", Step: "polish", State: history.LeftOut, SectionsDone: ptr(0), SectionsTotal: ptr(6), Minutes: ptr(0.0), FreshPad: ptr(true),
			TestSectionSpared: true, Note: "not needed",
		},
		&history.Finished{Closing: history.Closing{Note: "done"}},
		&history.HandedOver{},
		&history.Cancelled{Closing: history.Closing{Note: "rain"}},
		&history.Correction{Sequence: 5, Why: "typed the wrong step", Instead: &history.Trial{Panel: "bonnet", Step: "polish"}},
		&history.Correction{Sequence: 4, Why: "another vehicle's"},
	}
}

// document is a document that a store must keep letter by letter: it has its own order, spaces and numbers.
func document() json.RawMessage {
	return json.RawMessage(`{"z": 1.50, "a":  [1e2, "µ\u0000é"], "z2":{}}`)
}

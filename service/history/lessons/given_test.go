package lessons_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/lessons"
)

func ptr[T any](v T) *T { return &v }

// job is events being written down (invented).
type job struct {
	id     string
	events []history.Event
}

func newJob(id string) *job {
	j := &job{id: id}
	j.add(&history.Booked{Vehicle: "car"})
	return j
}

func (j *job) add(body history.Body) int64 {
	sequence := int64(len(j.events)) + 1
	j.events = append(j.events, history.Event{Job: j.id, Sequence: sequence, Body: body})
	return sequence
}

func (j *job) inspect(softness, shade string, defects ...history.Defect) int64 {
	return j.add(&history.Inspection{Panels: []history.PanelFound{{ID: "bonnet", Softness: softness, Shade: shade, Defects: defects}}})
}

func (j *job) marks(softness string, severity float64) int64 {
	return j.inspect(softness, "dark", history.Defect{Kind: "wash-marks", Severity: &severity})
}

// try records a trial and the verdict on it.
func (j *job) try(step, verdict string, change ...func(*history.Trial, *history.PanelDecided)) (trial, decision int64) {
	body, said := &history.Trial{Panel: "bonnet", Step: step}, history.PanelDecided{Panel: "bonnet", Verdict: verdict}
	for _, c := range change {
		c(body, &said)
	}
	trial = j.add(body)
	return trial, j.judge(trial, said)
}

func (j *job) judge(trial int64, said history.PanelDecided) int64 {
	return j.add(&history.Decision{RuleSet: "h", Trial: trial, Panels: []history.PanelDecided{said}})
}

func fresh(t *history.Trial, _ *history.PanelDecided) { t.FreshSection = true }

func gained(gu float64) func(*history.Trial, *history.PanelDecided) {
	return func(_ *history.Trial, said *history.PanelDecided) { said.Gloss = &history.Changed{Angle: 20, Mean: gu} }
}

func took(um float64, measured bool) func(*history.Trial, *history.PanelDecided) {
	return func(_ *history.Trial, said *history.PanelDecided) {
		said.Taken = &history.Taken{Removal: history.Removal{LikelyUm: um}, Measured: measured}
	}
}

func lasted(minutes float64) func(*history.Trial, *history.PanelDecided) {
	return func(t *history.Trial, _ *history.PanelDecided) { t.Minutes = &minutes }
}

// expect is what is usual: the harder the paint and the worse the marks, the less a step does (invented).
func expect(c lessons.Class) (lessons.Expectation, error) {
	ease := map[string]float64{"finish": 1, "polish": 3, "cut": 5}[c.Step] - 0.8*float64(c.Band)
	if c.Softness == "hard" {
		ease--
	}
	return lessons.Expect(1/(1+math.Exp(-ease)), 2, 6,
		lessons.Spread{Mean: 6, Shop: 3, Class: 2, Single: 2},
		lessons.Spread{Mean: 6, Shop: 2, Class: 1, Single: 1.5},
		lessons.SpreadOf(0.5, 1, 1.5)), nil
}

// recorded takes over jobs.
func recorded(jobs ...*job) *lessons.Records {
	out := lessons.NewRecords()
	for _, j := range jobs {
		out.Put(j.id, j.events)
	}
	return out
}

func learn(t testing.TB, records *lessons.Records, split lessons.Split, also ...lessons.Class) *lessons.Lessons {
	t.Helper()
	out, err := lessons.Learn(records, split, expect, also...)
	require.NoError(t, err)
	return out
}

// many are jobs of one class, so many accepted and so many not.
func many(prefix, softness string, severity float64, step string, accepted, not int) []*job {
	var out []*job
	for i := range accepted + not {
		j := newJob(fmt.Sprintf("%s-%d", prefix, i))
		j.marks(softness, severity)
		verdict := "accept"
		if i >= accepted {
			verdict = "step-up"
		}
		j.try(step, verdict, gained(6))
		out = append(out, j)
	}
	return out
}

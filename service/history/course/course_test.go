package course_test

import (
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/course"
	"github.com/glossladder/glossladder/service/history/drift"
)

func jobOf(bodies ...history.Body) *history.Job {
	events := make([]history.Event, len(bodies))
	for i, body := range bodies {
		events[i] = history.Event{Job: "job", Sequence: int64(i + 1), RecordedAt: time.Date(2026, 5, 4, 9, i, 0, 0, time.UTC), Body: body}
	}
	return history.Replay(events)
}

// begun is a job whose bonnet has a proven polish, carried over the roof too.
func begun(softnessOfRoof string) []history.Body {
	return []history.Body{
		&history.Booked{Vehicle: "car"},
		&history.Inspection{Panels: []history.PanelFound{{ID: "bonnet", Softness: "soft"}, {ID: "roof", Softness: softnessOfRoof}}},
		&history.Trial{Panel: "bonnet", Step: "polish"},
		&history.Decision{RuleSet: "set", Trial: 3, Panels: []history.PanelDecided{{Panel: "bonnet", Ladder: "polish", Proven: true, Verdict: "accept"}}},
		&history.Plan{Panels: []history.PlannedPanel{{Panel: "bonnet", Ladder: "polish"}, {Panel: "roof", Ladder: "polish"}}},
		&history.Progress{Panel: "bonnet", Step: "polish", State: history.UnderWay, FreshPad: new(true), SectionsDone: new(2)},
	}
}

func during(panel string, gloss ...float64) *history.Readings {
	r := &history.Readings{Panel: panel, When: history.During, Step: "polish"}
	for i, v := range gloss {
		r.Gloss = append(r.Gloss, history.GlossSpot{Spot: string(rune('a' + i)), At60GU: []float64{v - 0.1, v, v + 0.1}})
	}
	return r
}

// reached is what the trial's spots read afterwards: 90 GU on average.
func reached(history.TrialMade) []history.GlossSpot {
	return []history.GlossSpot{{Spot: "a", At60GU: []float64{90.2}}, {Spot: "b", At60GU: []float64{89.7, 89.9}}, {Spot: "c", At60GU: []float64{90}}}
}

func TestTheWorkIsHeldToTheTrial(t *testing.T) {
	sections := &history.Progress{Panel: "bonnet", Step: "polish", State: history.UnderWay, SectionsDone: new(5)}
	for name, row := range map[string]struct {
		read []history.Body
		want course.State
		says string
	}{
		"one reading":     {[]history.Body{during("bonnet", 89)}, course.TooFew, "too few readings to tell; the trial promised 90.0 GU, read last was 89.0"},
		"it goes as told": {[]history.Body{during("bonnet", 90.1, 89.8, 90), during("bonnet", 89.7)}, course.AsPromised, "the work keeps to what the trial promised"},
		"a pad loads up": {
			[]history.Body{during("bonnet", 90.1, 89.8), sections, during("bonnet", 89.1, 88.9), during("bonnet", 88.6)},
			course.FallingBehind,
			"the work falls behind the trial (two of three readings in a row far to one side): the pad may be loading up; clean it or put on a fresh one, then read again. It has worked 5 sections",
		},
		"better than the trial": {
			[]history.Body{during("bonnet", 90.1, 90.4, 91, 91.3, 91.5)},
			course.Better,
			"the work is better than the trial (four of five readings in a row to one side); look whether a milder step would do on what is left",
		},
	} {
		t.Run(name, func(t *testing.T) {
			courses := course.Of(jobOf(append(begun("soft"), row.read...)...), reached)
			require.Len(t, courses, 1)
			c := courses[0]
			assert.Equal(t, course.Scale{Angle: 60}, c.Scale)
			assert.InDelta(t, 90, c.Promised, 1e-9)
			assert.Equal(t, row.want, c.State(), "%+v", c.Chart)
			assert.Equal(t, row.says, c.Says())
			assert.Len(t, c.Chart.Values, len(c.Points))
		})
	}
}

func TestAFreshPadIsWatchedForItself(t *testing.T) {
	fresh := &history.Progress{Panel: "bonnet", Step: "polish", State: history.UnderWay, FreshPad: new(true)}
	loaded := append(begun("soft"), during("bonnet", 90.1, 89.8, 89.1, 88.9, 88.6))
	courses := course.Of(jobOf(append(loaded, fresh)...), reached)
	require.Len(t, courses, 1)
	assert.Equal(t, course.TooFew, courses[0].State())
	assert.Equal(t, "nothing was read since a fresh or cleaned pad was put on; the trial promised 90.0 GU, read last was 88.6", courses[0].Says())
	assert.NotEmpty(t, courses[0].Chart.Signals, "what was called stays in the chart")

	courses = course.Of(jobOf(append(loaded, fresh, during("bonnet", 89.2))...), reached)
	assert.Equal(t, course.AsPromised, courses[0].State(), "two of three far below were two of another pad")
	assert.Equal(t, 5, courses[0].ThisPad)
}

func TestALadderCarriedOverIsHeldToTheTrialThatProvedIt(t *testing.T) {
	on := func(softness string) []course.Course {
		bodies := append(begun(softness), &history.Progress{Panel: "roof", Step: "polish", State: history.UnderWay},
			during("roof", 90, 89.9), during("bonnet", 90.2))
		return course.Of(jobOf(bodies...), reached)
	}
	courses := on("soft")
	require.Len(t, courses, 1)
	var panels []string
	for _, p := range courses[0].Points {
		panels = append(panels, p.Panel)
	}
	assert.Equal(t, []string{"roof", "roof", "bonnet"}, panels, "in the order of reading")
	assert.Len(t, on("")[0].Points, 3, "paint that is not known to differ")
	assert.Len(t, on("hard")[0].Points, 1, "other paint promises nothing")
}

func TestWithoutAProvenLadderNothingIsPromised(t *testing.T) {
	bodies := append(begun("soft"), during("bonnet", 80, 79, 78, 77, 76, 75))
	bodies[3] = &history.Decision{RuleSet: "set", Trial: 3, Panels: []history.PanelDecided{{Panel: "bonnet", Ladder: "polish", Verdict: "repeat"}}}
	assert.Empty(t, course.Of(jobOf(bodies...), reached))
	assert.Empty(t, course.Of(jobOf(append(begun("soft"), during("bonnet", 80))...), func(history.TrialMade) []history.GlossSpot { return nil }))
}

func TestHazeIsWorseWhenItRises(t *testing.T) {
	assert.True(t, course.Scale{Angle: 60}.Worse(true))
	assert.True(t, course.Scale{}.Worse(false))
	assert.False(t, course.Scale{}.Worse(true))
	assert.Equal(t, "HU", course.Scale{}.Unit())
}

// A pad that loses a quarter of a standard deviation with each spot is called before it has lost twelve spots' worth, in most
// jobs; a pad that loses nothing is called seldom. The rates are those of simulation, stated so that a change is seen.
func TestALoadingPadIsCalledAndAGoodOneSeldom(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 11))
	called := func(loss float64) float64 {
		n := 0
		const jobs = 300
		for range jobs {
			bodies := begun("soft")
			for i := range 12 {
				bodies = append(bodies, during("bonnet", 90-loss*float64(i)+0.4*r.NormFloat64()))
			}
			spots := make([]history.GlossSpot, 5)
			for i := range spots {
				spots[i] = history.GlossSpot{Spot: string(rune('a' + i)), At60GU: []float64{90 + 0.4*r.NormFloat64()}}
			}
			c := course.Of(jobOf(bodies...), func(history.TrialMade) []history.GlossSpot { return spots })[0]
			require.Greater(t, c.Chart.Sigma, 0.0)
			if c.State() == course.FallingBehind {
				n++
			}
		}
		return float64(n) / jobs
	}
	assert.Less(t, called(0), 0.15)
	assert.Greater(t, called(0.1), 0.8)
}

func TestSignalsAreThoseOfTheChart(t *testing.T) {
	c := course.Of(jobOf(append(begun("soft"), during("bonnet", 90, 90.2, 89.9, 70))...), reached)[0]
	require.NotEmpty(t, c.Chart.Signals)
	assert.Equal(t, drift.Outside, c.Chart.Signals[0].Kind)
	assert.True(t, c.Chart.Signals[0].Low)
}

func TestWhatWasSeenStandsBesideWhatWasPromised(t *testing.T) {
	bodies := begun("soft")
	found := bodies[1].(*history.Inspection)
	found.Panels[1].Gloss = []history.GlossSpot{{Spot: "a", At60GU: []float64{80, 82}}, {Spot: "b", At60GU: []float64{83}}, {Spot: "c", HazeHU: []float64{30}}}
	bodies = append(bodies, &history.Progress{Panel: "roof", Step: "polish", State: history.Done},
		&history.Readings{Panel: "roof", When: history.After, Gloss: []history.GlossSpot{{Spot: "a", At60GU: []float64{70}}, {Spot: "z", At60GU: []float64{90}}}},
		&history.Readings{Panel: "roof", When: history.After, Gloss: []history.GlossSpot{{Spot: "a", At60GU: []float64{89}}, {Spot: "b", At60GU: []float64{91}}}})
	job := jobOf(bodies...)
	outcomes := course.Outcomes(job, job.Panel("roof"), reached)
	require.Len(t, outcomes, 1, "haze was not read again, and spot z not before")
	o := outcomes[0]
	assert.Equal(t, 2, o.Spots)
	assert.InDelta(t, 82, o.Before, 1e-9)
	assert.InDelta(t, 90, o.Seen, 1e-9, "a spot read again counts by its last reading")
	require.NotNil(t, o.Promised)
	assert.InDelta(t, 90, *o.Promised, 1e-9)
	assert.Empty(t, course.Outcomes(job, job.Panel("bonnet"), reached))
}

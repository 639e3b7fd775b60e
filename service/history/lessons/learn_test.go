package lessons_test

import (
	"errors"
	"fmt"
	"iter"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/lessons"
)

func soft(step string, band lessons.Band) lessons.Class {
	return lessons.Class{Step: step, Softness: "soft", Band: band, Kind: "wash-marks"}
}

func TestManyTrialsSpeakForThemselvesAndFewDoNot(t *testing.T) {
	few := learn(t, recorded(many("a", "soft", 2, "finish", 2, 0)...), lessons.ByMark())
	plenty := learn(t, recorded(many("a", "soft", 2, "finish", 60, 20)...), lessons.ByMark())
	usual, err := expect(soft("finish", lessons.Moderate))
	require.NoError(t, err)

	one, ok := few.Lesson(soft("finish", lessons.Moderate))
	require.True(t, ok)
	assert.Equal(t, 2, one.Success.N)
	assert.Equal(t, 1.0, *one.Success.Own)
	assert.InDelta(t, usual.Success, one.Success.Usual, 1e-12)
	assert.Greater(t, *one.Success.Shrunk, 0.4, "two trials out of two prove little")
	assert.Less(t, one.Success.Mean, 0.75)

	two, ok := plenty.Lesson(soft("finish", lessons.Moderate))
	require.True(t, ok)
	assert.InDelta(t, 0.75, two.Success.Mean, 0.03)
	assert.Less(t, two.Success.High-two.Success.Low, one.Success.High-one.Success.Low)
	assert.Equal(t, 80, two.Jobs)
	assert.InDelta(t, 6, two.Gain[20].Mean, 0.2)
	assert.Equal(t, []int{20}, two.Angles())
	assert.Zero(t, two.RemovalUm.N)
	assert.Nil(t, two.RemovalUm.Own)
	assert.InDelta(t, 1, two.RemovalUm.Mean, 1e-9, "nothing measured: what is stated")
}

func TestAClassWithoutRecordsIsAnsweredWhenAskedFor(t *testing.T) {
	records := recorded(many("a", "soft", 2, "finish", 40, 0)...)
	asked := lessons.Class{Step: "finish", Softness: "hard", Band: lessons.Moderate, Kind: "wash-marks"}
	_, ok := learn(t, records, lessons.ByMark()).Lesson(asked)
	assert.False(t, ok)
	found, ok := learn(t, records, lessons.ByMark(), asked).Lesson(asked)
	require.True(t, ok)
	assert.Zero(t, found.Success.N)
	assert.Greater(t, found.Success.Mean, found.Success.Usual, "a shop that does better than usual on soft paint does better on hard")
	assert.Equal(t, 0, found.Jobs)
}

func TestOnlyWhatIsAskedForTellsClassesApart(t *testing.T) {
	records := recorded(append(many("a", "soft", 2, "finish", 5, 0), many("b", "hard", 3, "finish", 0, 5)...)...)
	whole, ok := learn(t, records, lessons.Split{}).Lesson(lessons.Class{Step: "finish", Softness: "soft", Kind: "haze"})
	require.True(t, ok)
	assert.Equal(t, 10, whole.Success.N)
	assert.InDelta(t, 0.5, *whole.Success.Own, 1e-12)
	all := learn(t, records, lessons.Split{Softness: true, Shade: true}).All()
	require.Len(t, all, 2)
	assert.Equal(t, "soft", all[0].Class.Softness)
	assert.Equal(t, "dark", all[0].Class.Shade)
	assert.Empty(t, all[0].Class.Kind)
}

// A step that is proven on some marks is no less proven on milder ones, and the numbers are those of a band that speaks for it.
func TestProvenNeverFallsAsMarksGetMilder(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 8))
	for range 60 {
		var jobs []*job
		for _, severity := range []float64{0.5, 1, 2, 3, 4} {
			n := r.IntN(12)
			k := r.IntN(n + 1)
			jobs = append(jobs, many(fmt.Sprint("s", severity*2), "soft", severity, "finish", k, n-k)...)
		}
		all := learn(t, recorded(jobs...), lessons.ByMark())
		before := 1.0
		for _, band := range lessons.Bands() {
			panels, low, ok := all.Proven(soft("finish", band))
			if !ok {
				before = 0
				continue
			}
			assert.LessOrEqual(t, low, before, "band %s", band)
			assert.Positive(t, panels)
			if own, has := all.Lesson(soft("finish", band)); has && own.Success.N > 0 {
				assert.GreaterOrEqual(t, low, own.Success.Low)
			}
			before = low
		}
		_, _, ok := all.Proven(soft("finish", lessons.NotGraded))
		assert.False(t, ok)
	}
}

// Over 200 simulated shops, drawn as the expectations say that shops are, intervals of 90 % hold the true chance and the true mean
// gain about nine times in ten, from events to estimate.
func TestLessonsHoldTheTruthAsOftenAsTheySay(t *testing.T) {
	if testing.Short() {
		t.Skip("takes long, and nothing in it runs at once")
	}
	r := rand.New(rand.NewPCG(21, 4))
	held, of := map[string]int{}, map[string]int{}
	for range 200 {
		level, shopGain := math.Log(2)*r.NormFloat64(), 3*r.NormFloat64()
		between := 2 * math.Abs(r.NormFloat64())
		kappa := 6 * math.Exp(r.NormFloat64())
		records := lessons.NewRecords()
		chances, gains := map[lessons.Class]float64{}, map[lessons.Class]float64{}
		for k, severity := range []float64{1, 2, 3, 4} {
			class := soft("finish", lessons.BandOf(&severity))
			usual, err := expect(class)
			require.NoError(t, err)
			odds := usual.Success / (1 - usual.Success) * math.Exp(level)
			chances[class] = beta(r, kappa*odds/(1+odds), kappa/(1+odds))
			gains[class] = usual.GainGU.Mean + shopGain + between*r.NormFloat64()
			for n := range []int{0, 2, 6, 20}[(k+r.IntN(4))%4] {
				j := newJob(fmt.Sprintf("s%d-%d", k, n))
				j.marks("soft", severity)
				verdict := "step-up"
				if r.Float64() < chances[class] {
					verdict = "accept"
				}
				j.try("finish", verdict, gained(gains[class]+2*r.NormFloat64()))
				records.Put(j.id, j.events)
			}
		}
		for _, lesson := range learn(t, records, lessons.ByMark()).All() {
			count(held, of, "chance of success", lesson.Success, chances[lesson.Class])
			count(held, of, "gain", lesson.Gain[20], gains[lesson.Class])
		}
	}
	for name := range of {
		share := float64(held[name]) / float64(of[name])
		t.Logf("%s: %.1f %% of %d", name, 100*share, of[name])
		assert.InDelta(t, 0.90, share, 0.04, name) // two standard errors of a share of some 600
	}
}

func count(held, of map[string]int, name string, e lessons.Estimate, truth float64) {
	of[name]++
	if e.Low <= truth && truth <= e.High {
		held[name]++
	}
}

// beta draws from a beta distribution as the share of two gamma draws, each the sum of what Marsaglia and Tsang's method gives.
func beta(r *rand.Rand, a, b float64) float64 {
	x, y := gamma(r, a), gamma(r, b)
	return x / (x + y)
}

func gamma(r *rand.Rand, shape float64) float64 {
	if shape < 1 {
		return gamma(r, shape+1) * math.Pow(r.Float64(), 1/shape)
	}
	d := shape - 1.0/3
	for {
		x := r.NormFloat64()
		v := math.Pow(1+x/math.Sqrt(9*d), 3)
		if v > 0 && math.Log(r.Float64()) < x*x/2+d-d*v+d*math.Log(v) {
			return d * v
		}
	}
}

func TestAnExpectationThatCannotBeIsTold(t *testing.T) {
	records := recorded(many("a", "soft", 2, "finish", 1, 0)...)
	_, err := lessons.Learn(records, lessons.ByMark(), func(c lessons.Class) (lessons.Expectation, error) {
		out, _ := expect(c)
		out.Success = 1
		return out, nil
	})
	require.EqualError(t, err, "what is expected of a finish: prior expectation is 1, allowed is over 0 and under 1, one for each group")
	none := errors.New("no rule")
	_, err = lessons.Learn(records, lessons.ByMark(), func(lessons.Class) (lessons.Expectation, error) { return lessons.Expectation{}, none })
	require.ErrorIs(t, err, none)
}

func TestOneMoreEventCostsOneJob(t *testing.T) {
	jobs := many("a", "soft", 2, "finish", 3, 0)
	records := recorded(jobs...)
	assert.Equal(t, 3, records.Jobs())
	jobs[1].add(&history.Correction{Sequence: 3, Why: "another vehicle's"})
	records.Put(jobs[1].id, jobs[1].events)
	assert.Equal(t, 2, records.Jobs(), "without its trial the job says nothing")
	assert.Empty(t, records.Of(jobs[1].id))
	assert.Len(t, records.Of(jobs[0].id), 1)
}

func TestReadingAScanIsPuttingEachJob(t *testing.T) {
	jobs := many("a", "soft", 2, "finish", 3, 2)
	put, read := recorded(jobs...), lessons.NewRecords()
	require.NoError(t, read.Read(scan(jobs)))
	assert.Equal(t, put, read)
	broken := errors.New("gone")
	require.ErrorIs(t, read.Read(func(yield func(history.Event, error) bool) { yield(history.Event{}, broken) }), broken)
}

func scan(jobs []*job) iter.Seq2[history.Event, error] {
	return func(yield func(history.Event, error) bool) {
		for _, j := range jobs {
			for _, e := range j.events {
				if !yield(e, nil) {
					return
				}
			}
		}
	}
}

// A record of 100,000 events, read whole and pooled, and the same after one more event.
func BenchmarkLessons(b *testing.B) {
	r := rand.New(rand.NewPCG(1, 1))
	var jobs []*job
	for events := 0; events < 100_000; {
		j := newJob(fmt.Sprintf("job-%d", len(jobs)))
		j.inspect([]string{"soft", "medium", "hard", ""}[r.IntN(4)], "dark",
			history.Defect{Kind: []string{"wash-marks", "haze", "holograms"}[r.IntN(3)], Severity: ptr(float64(1+r.IntN(10)) / 2)})
		for _, step := range []string{"finish", "polish", "cut"} {
			verdict := "step-up"
			if r.IntN(2) == 0 {
				verdict = "accept"
			}
			j.try(step, verdict, gained(6+2*r.NormFloat64()), took(1, true), lasted(5+r.Float64()))
		}
		events += len(j.events)
		jobs = append(jobs, j)
	}
	b.Run("read whole", func(b *testing.B) {
		for b.Loop() {
			records := lessons.NewRecords()
			require.NoError(b, records.Read(scan(jobs)))
			learn(b, records, lessons.ByMark())
		}
	})
	records := recorded(jobs...)
	b.Run("one more event", func(b *testing.B) {
		for b.Loop() {
			records.Put(jobs[0].id, jobs[0].events)
			learn(b, records, lessons.ByMark())
		}
	})
}

package film_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/film"
)

// fullLimitPct is the confidence of an interval of √3 standard uncertainties either side: a limit taken as limit/√3
// comes back whole. erf(√(3/2)) by definition of the normal distribution.
var fullLimitPct = 100 * math.Erf(math.Sqrt(1.5))

func removed(t *testing.T, g film.Gauge, use film.GaugeUse, before, after []film.Spot, confidencePct float64) film.Difference {
	t.Helper()
	d, err := film.Removed(g, use, steel(before...), steel(after...), confidencePct)
	require.NoError(t, err)
	return d
}

// ±(1 µm + 1 %) at 110 µm is 2.1 µm, and two such limits combine to 2.97 µm. One polishing step takes 0.5 to 1.5 µm
// (from memory), so one pair cannot show it.
func TestOnePairCannotShowAPolishingStep(t *testing.T) {
	d := removed(t, ordinary, film.SetAnew, []film.Spot{flat("a", 110)}, []film.Spot{flat("a", 108.5)}, fullLimitPct)
	assert.InDelta(t, 2.97, float64(d.LeastUm), 0.005)
	assert.InDelta(t, 1.5, float64(d.RemovedUm), exact)
	assert.False(t, d.Resolvable)
	assert.InDelta(t, float64(d.RemovedUm-d.LeastUm), float64(d.LowUm), exact)
	assert.InDelta(t, float64(d.RemovedUm+d.LeastUm), float64(d.HighUm), exact)
	assert.Equal(t, 1, d.Spots)
}

func TestSandingCanBeShown(t *testing.T) {
	d := removed(t, ordinary, film.SetAnew, []film.Spot{flat("a", 116)}, []film.Spot{flat("a", 110)}, 95)
	assert.True(t, d.Resolvable)
	assert.Greater(t, d.LowUm, film.Microns(0))
}

func TestFilmThatGrewIsResolvableToo(t *testing.T) {
	d := removed(t, ordinary, film.SetAnew, []film.Spot{flat("a", 110)}, []film.Spot{flat("a", 116)}, 95)
	assert.True(t, d.Resolvable)
	assert.Less(t, d.HighUm, film.Microns(0))
}

// Student's table of 1908 (Biometrika 6, 1), ten pairs: R's t.test prints a mean difference of -1.58 and a 95 % interval
// of -2.4598858 to -0.7001142. Shifted by 10 to make films of them, which changes no difference.
func TestPairedIntervalOfStudentsTable(t *testing.T) {
	first := []film.Microns{0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0}
	second := []film.Microns{1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4}
	d := removed(t, faultless, film.SetAnew, flats(first, 10), flats(second, 10), 95)
	assert.InDelta(t, -1.58, float64(d.RemovedUm), exact)
	assert.InDelta(t, -2.4598858, float64(d.LowUm), 5e-8) // half of the last digit printed
	assert.InDelta(t, -0.7001142, float64(d.HighUm), 5e-8)
	assert.True(t, d.Resolvable)
	assert.Equal(t, 10, d.Spots)
}

// Eight differences from a course in statistics (exercise 10.5.161 with R output: -43.51131 to 41.01131).
func TestPairedIntervalThatHoldsZero(t *testing.T) {
	differences := []film.Microns{-30, 30, -40, -40, 80, 60, -50, -20}
	d := removed(t, faultless, film.SetAnew, flats(differences, 100), flats(make([]film.Microns, 8), 100), 95)
	assert.InDelta(t, -1.25, float64(d.RemovedUm), exact)
	assert.InDelta(t, -43.51131, float64(d.LowUm), 5e-6)
	assert.InDelta(t, 41.01131, float64(d.HighUm), 5e-6)
	assert.False(t, d.Resolvable)
}

func flats(ums []film.Microns, shift film.Microns) []film.Spot {
	spots := make([]film.Spot, len(ums))
	for i, um := range ums {
		spots[i] = flat(fmt.Sprint("place ", i), um+shift)
	}
	return spots
}

// One spot, three readings either side, each set with a spread of 1 µm: t for two degrees of freedom, 4.303 at 97.5 %
// (NIST/SEMATECH e-Handbook 1.3.6.7.2), on the root of 1/3 + 1/3.
func TestOneSpotIsJudgedByItsFewerReadings(t *testing.T) {
	d := removed(t, faultless, film.SetAnew, []film.Spot{spot("a", 109, 110, 111)}, []film.Spot{spot("a", 107, 108, 109)}, 95)
	assert.InDelta(t, 4.303*math.Sqrt(2.0/3), float64(d.LeastUm), 0.0005)
	assert.False(t, d.Resolvable)

	more := removed(t, faultless, film.SetAnew, []film.Spot{spot("a", 109, 110, 111)}, []film.Spot{spot("a", 107, 107, 108, 108, 108, 109, 109)}, 95)
	assert.Greater(t, float64(more.LeastUm), 4.303/math.Sqrt(3), "seven readings after do not mend three before")
}

// Means over many readings with the gauge left as set show what one pair cannot.
func TestGaugeLeftAsSetShowsAPolishingStep(t *testing.T) {
	gauge := film.Gauge{Accuracy: ordinary.Accuracy, StepUm: 0.1}
	before := []film.Spot{spot("a", 110.2, 110.4, 110.3), spot("b", 114.0, 114.3, 114.1), spot("c", 107.8, 107.9, 107.6), spot("d", 112.1, 112.0, 112.3)}
	after := []film.Spot{spot("a", 109.1, 109.0, 109.2), spot("b", 112.8, 113.0, 113.1), spot("c", 106.5, 106.8, 106.6), spot("d", 110.9, 111.1, 110.8)}
	left := removed(t, gauge, film.LeftAsSet, before, after, 95)
	anew := removed(t, gauge, film.SetAnew, before, after, 95)
	assert.True(t, left.Resolvable, "%+v", left)
	assert.False(t, anew.Resolvable, "%+v", anew)
	assert.Equal(t, left.RemovedUm, anew.RemovedUm)
}

func TestDisplayStepKeepsAnIntervalFromClosing(t *testing.T) {
	gauge := film.Gauge{Accuracy: ordinary.Accuracy, StepUm: 1}
	d := removed(t, gauge, film.LeftAsSet, []film.Spot{flat("a", 110)}, []film.Spot{flat("a", 110)}, 95)
	// Two roundings of 0.29 of a step (GUM F.2.2.1) at 1.960.
	assert.InDelta(t, 1.960*0.29*math.Sqrt2, float64(d.LeastUm), 0.005)
}

func TestSpotsReadOnlyOnceAreLeftOut(t *testing.T) {
	d := removed(t, ordinary, film.SetAnew,
		[]film.Spot{flat("a", 110), flat("gone", 300)},
		[]film.Spot{flat("new", 50), flat("a", 104)}, 95)
	assert.Equal(t, 1, d.Spots)
	assert.InDelta(t, 6, float64(d.RemovedUm), exact)
}

func TestRemovedRefusesWhatCannotBeSubtracted(t *testing.T) {
	total := steel(flat("a", 110))
	top := film.Panel{Substrate: film.Steel, Layer: film.Top, Spots: []film.Spot{flat("a", 40)}}
	plastic := film.Panel{Substrate: film.Plastic, Spots: []film.Spot{flat("a", 110)}}
	ultrasonic := film.Gauge{Kind: film.Ultrasonic, Accuracy: ordinary.Accuracy}

	_, err := film.Removed(ordinary, film.SetAnew, total, steel(flat("b", 110)), 95)
	assert.ErrorIs(t, err, film.ErrNoCommonSpot)

	_, err = film.Removed(ultrasonic, film.SetAnew, total, top, 95)
	assert.ErrorIs(t, err, film.ErrNotSameLayer)

	_, err = film.Removed(ordinary, film.SetAnew, total, plastic, 95)
	var cannot *film.CannotReadError
	assert.ErrorAs(t, err, &cannot)

	_, err = film.Removed(ordinary, film.SetAnew, steel(spot("a", 1)), steel(spot("a", 1, 2)), 10)
	assert.ErrorContains(t, err, "film a has too few readings, 1")
	assert.ErrorContains(t, err, "film a has too few readings, 2")
	assert.ErrorContains(t, err, "confidence_pct is 10")
}

// Removing the same amount everywhere moves the interval by that amount and leaves its width alone.
func TestDifferenceShiftsWithWhatWasRemoved(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 1))
	gauge := film.Gauge{Accuracy: film.Accuracy{FixedUm: 1}}
	for range 200 {
		p := draw(random)
		q := shifted(p, func(r film.Microns) film.Microns { return r - film.Microns(random.Float64()) })
		further := shifted(q, func(r film.Microns) film.Microns { return r - 5 })
		near := removed(t, gauge, film.SetAnew, p.Spots, q.Spots, 95)
		far := removed(t, gauge, film.SetAnew, p.Spots, further.Spots, 95)
		require.InDelta(t, float64(near.RemovedUm)+5, float64(far.RemovedUm), exact)
		require.InDelta(t, float64(near.LeastUm), float64(far.LeastUm), exact)
		back := removed(t, gauge, film.SetAnew, q.Spots, p.Spots, 95)
		require.InDelta(t, -float64(near.RemovedUm), float64(back.RemovedUm), exact)
	}
}

// The interval must hold the true removal as often as it says. Seeded draws; 4000 trials put the count's own error at 0.35 points.
func TestDifferenceCoversTheTrueRemoval(t *testing.T) {
	const trials, confidencePct, truth = 4000, 95, 1.2
	for _, spots := range []int{1, 2, 5} {
		t.Run(fmt.Sprint(spots, " spots"), func(t *testing.T) {
			random := rand.New(rand.NewPCG(4, 2))
			read := func(um float64) (s film.Spot) {
				for range 3 {
					s.ReadingsUm = append(s.ReadingsUm, film.Microns(um+random.NormFloat64()))
				}
				return s
			}
			covered := 0
			for range trials {
				var before, after []film.Spot
				for range spots {
					before, after = append(before, read(110)), append(after, read(110-truth))
				}
				d := removed(t, faultless, film.LeftAsSet, before, after, confidencePct)
				if d.LowUm <= truth && truth <= d.HighUm {
					covered++
				}
			}
			assert.Greater(t, 100*float64(covered)/trials, confidencePct-1.0)
		})
	}
}

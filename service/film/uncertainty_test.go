package film_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/film"
)

// draw makes a panel of some spots whose readings scatter about films between 80 and 160 µm.
func draw(random *rand.Rand) film.Panel {
	p := steel()
	for i := range 1 + random.IntN(5) {
		s := film.Spot{NearEdge: i%2 == 1}
		about := 80 + 80*random.Float64()
		for range 3 + random.IntN(4) {
			s.ReadingsUm = append(s.ReadingsUm, film.Microns(about+3*random.NormFloat64()))
		}
		p.Spots = append(p.Spots, s)
	}
	return p
}

// shifted is the panel with a change applied to each reading.
func shifted(p film.Panel, change func(film.Microns) film.Microns) film.Panel {
	q := steel()
	for _, s := range p.Spots {
		readings := make([]film.Microns, len(s.ReadingsUm))
		for i, r := range s.ReadingsUm {
			readings[i] = change(r)
		}
		q.Spots = append(q.Spots, film.Spot{Name: s.Name, NearEdge: s.NearEdge, ReadingsUm: readings})
	}
	return q
}

func TestLowestBoundNeverExceedsAnySpotMean(t *testing.T) {
	random := rand.New(rand.NewPCG(2, 1))
	for range 500 {
		m := measure(t, ordinary, draw(random), 50+49*random.Float64())
		for _, s := range m.Spots {
			require.LessOrEqual(t, m.LowestBoundUm, s.LowUm)
			require.LessOrEqual(t, s.LowUm, s.MeanUm)
			require.LessOrEqual(t, s.MeanUm, s.HighUm)
			require.LessOrEqual(t, m.LowestUm, s.MeanUm)
		}
	}
}

func TestWorseGaugeNeverRaisesTheLowestBound(t *testing.T) {
	random := rand.New(rand.NewPCG(2, 2))
	for range 500 {
		p := draw(random)
		better := film.Gauge{Accuracy: film.Accuracy{FixedUm: film.Microns(random.Float64()), Percent: 3 * random.Float64()}}
		worse := better
		worse.Accuracy.FixedUm += film.Microns(random.Float64())
		worse.StepUm = film.Microns(random.Float64())
		require.LessOrEqual(t, measure(t, worse, p, 95).LowestBoundUm, measure(t, better, p, 95).LowestBoundUm)
	}
}

func TestMoreScatterNeverRaisesTheLowestBound(t *testing.T) {
	random := rand.New(rand.NewPCG(2, 3))
	for range 500 {
		calm := steel(draw(random).Spots[0])
		mean := measure(t, ordinary, calm, 95).MeanUm
		wild := shifted(calm, func(r film.Microns) film.Microns { return mean + 1.5*(r-mean) })
		require.LessOrEqual(t, measure(t, ordinary, wild, 95).LowestBoundUm, measure(t, ordinary, calm, 95).LowestBoundUm)
	}
}

func TestMoreConfidenceNeverRaisesTheLowestBound(t *testing.T) {
	random := rand.New(rand.NewPCG(2, 4))
	for range 200 {
		p := draw(random)
		last := film.Microns(math.Inf(1))
		for _, confidencePct := range []float64{50, 75, 90, 95, 99, 99.9} {
			low := measure(t, ordinary, p, confidencePct).LowestBoundUm
			require.LessOrEqual(t, low, last)
			last = low
		}
	}
}

func TestEvenConfidenceIsTheMeanItself(t *testing.T) {
	m := measure(t, ordinary, steel(spot("a", 100, 104, 111)), 50)
	assert.InDelta(t, 105, float64(m.LowestBoundUm), 1e-9)
}

func TestThickerFilmShiftsEveryFigureAlike(t *testing.T) {
	random := rand.New(rand.NewPCG(2, 5))
	fixed := film.Gauge{Accuracy: film.Accuracy{FixedUm: 2}}
	for range 200 {
		p := draw(random)
		here := measure(t, fixed, p, 95)
		there := measure(t, fixed, shifted(p, func(r film.Microns) film.Microns { return r + 40 }), 95)
		require.InDelta(t, float64(here.LowestBoundUm)+40, float64(there.LowestBoundUm), 1e-9)
		require.InDelta(t, float64(here.SpreadUm), float64(there.SpreadUm), 1e-9)
	}
}

// The bound must lie below the thinnest of the measured spots at least as often as it says, however many are looked at.
// Draws are seeded: the counts are the same on every run. 4000 trials put the count's own error at 0.35 points.
func TestLowestBoundCoversTheThinnestSpot(t *testing.T) {
	const trials, confidencePct = 4000, 95
	for name, films := range map[string][]float64{
		"one spot":                {100},
		"five spots, all alike":   {100, 100, 100, 100, 100},
		"five spots, one thin":    {90, 104, 110, 106, 112},
		"twelve spots, all alike": {100, 100, 100, 100, 100, 100, 100, 100, 100, 100, 100, 100},
	} {
		t.Run(name, func(t *testing.T) {
			random := rand.New(rand.NewPCG(2, 6))
			covered := 0
			for range trials {
				p := steel()
				thinnest := math.Inf(1)
				for _, um := range films {
					s := film.Spot{}
					for range 3 {
						s.ReadingsUm = append(s.ReadingsUm, film.Microns(um+2*random.NormFloat64()))
					}
					p.Spots = append(p.Spots, s)
					thinnest = min(thinnest, um)
				}
				if float64(measure(t, faultless, p, confidencePct).LowestBoundUm) <= thinnest {
					covered++
				}
			}
			assert.Greater(t, 100*float64(covered)/trials, confidencePct-1.0)
		})
	}
}

// The same with a gauge that is off by an amount anywhere within its stated limit, the same at all spots.
func TestLowestBoundCoversWithAGaugeThatIsOff(t *testing.T) {
	const trials, confidencePct = 4000, 95
	random := rand.New(rand.NewPCG(2, 7))
	covered := 0
	for range trials {
		off := 2.1 * (2*random.Float64() - 1)
		p := steel()
		for range 4 {
			s := film.Spot{}
			for range 3 {
				s.ReadingsUm = append(s.ReadingsUm, film.Microns(110+off+random.NormFloat64()))
			}
			p.Spots = append(p.Spots, s)
		}
		if measure(t, ordinary, p, confidencePct).LowestBoundUm <= 110 {
			covered++
		}
	}
	assert.Greater(t, 100*float64(covered)/trials, confidencePct-1.0)
}

package gloss_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/gloss"
)

// trials gives each property a few hundred random comparisons: paired, unpaired and on one spot, in 0.1 GU steps.
func trials(t *testing.T, check func(t *testing.T, trial gloss.BeforeAfter)) {
	t.Helper()
	random := rand.New(rand.NewPCG(2813, 523))
	for range 300 {
		check(t, randomTrial(random))
	}
}

func randomTrial(random *rand.Rand) gloss.BeforeAfter {
	spots, readings := 1+random.IntN(5), 2+random.IntN(4)
	trial := gloss.BeforeAfter{Meter: gloss.Meter{Scale: gloss.Gloss20, Accuracy: 1, Resolution: 0.1}}
	paired := random.IntN(3) > 0
	for i := range spots {
		name := fmt.Sprint("spot ", i)
		level := 60 + 20*random.Float64()
		trial.Before = append(trial.Before, gloss.Spot{Name: name, Readings: scatter(random, readings, level)})
		if !paired {
			name = fmt.Sprint("other ", i)
		}
		trial.After = append(trial.After, gloss.Spot{Name: name, Readings: scatter(random, readings, level+6*random.NormFloat64())})
	}
	return trial
}

func scatter(random *rand.Rand, count int, level float64) []float64 {
	values := make([]float64, count)
	for i := range values {
		values[i] = math.Round((level+random.NormFloat64())*10) / 10
	}
	return values
}

func mapped(trial gloss.BeforeAfter, f func(float64) float64) gloss.BeforeAfter {
	each := func(spots []gloss.Spot) []gloss.Spot {
		next := slices.Clone(spots)
		for i, s := range next {
			next[i].Readings = slices.Clone(s.Readings)
			for j, r := range s.Readings {
				next[i].Readings[j] = f(r)
			}
		}
		return next
	}
	trial.Before, trial.After = each(trial.Before), each(trial.After)
	return trial
}

func gainAt(t *testing.T, trial gloss.BeforeAfter, confidence float64) gloss.Gain {
	t.Helper()
	gain, err := trial.Gain(confidence)
	require.NoError(t, err, "%+v", trial)
	return gain
}

func TestGainIsTheSameAtAnyLevel(t *testing.T) {
	trials(t, func(t *testing.T, trial gloss.BeforeAfter) {
		plain := gainAt(t, trial, 0.95)
		shifted := gainAt(t, mapped(trial, func(r float64) float64 { return r + 100 }), 0.95)
		assert.InDelta(t, plain.Low, shifted.Low, 1e-9, "%+v", trial)
		assert.InDelta(t, plain.High, shifted.High, 1e-9, "%+v", trial)
	})
}

func TestGainScalesWithItsReadings(t *testing.T) {
	trials(t, func(t *testing.T, trial gloss.BeforeAfter) {
		plain := gainAt(t, trial, 0.95)
		double := mapped(trial, func(r float64) float64 { return 2 * r })
		double.Meter.Resolution *= 2
		scaled := gainAt(t, double, 0.95)
		assert.InDelta(t, 2*plain.Low, scaled.Low, 1e-9, "%+v", trial)
		assert.InDelta(t, 2*plain.High, scaled.High, 1e-9, "%+v", trial)
		// One over the degrees of freedom, since there may be no end of them.
		assert.InDelta(t, 1/plain.DF, 1/scaled.DF, 1e-9, "%+v", trial)
	})
}

func TestGainTurnsRoundWithTheOccasions(t *testing.T) {
	trials(t, func(t *testing.T, trial gloss.BeforeAfter) {
		forth := gainAt(t, trial, 0.95)
		trial.Before, trial.After = trial.After, trial.Before
		back := gainAt(t, trial, 0.95)
		assert.InDelta(t, forth.Low, -back.High, 1e-9, "%+v", trial)
		assert.InDelta(t, forth.High, -back.Low, 1e-9, "%+v", trial)
	})
}

func TestGainDoesNotMindTheOrderOfSpots(t *testing.T) {
	trials(t, func(t *testing.T, trial gloss.BeforeAfter) {
		plain := gainAt(t, trial, 0.95)
		turned := mapped(trial, func(r float64) float64 { return r })
		slices.Reverse(turned.After)
		other := gainAt(t, turned, 0.95)
		assert.InDelta(t, plain.Low, other.Low, 1e-9, "%+v", trial)
		assert.Equal(t, plain.Method, other.Method)
	})
}

func TestMoreConfidenceNeverNarrows(t *testing.T) {
	trials(t, func(t *testing.T, trial gloss.BeforeAfter) {
		width := 0.0
		for _, confidence := range []float64{0.5, 0.8, 0.95, 0.99, 0.9999} {
			gain := gainAt(t, trial, confidence)
			assert.Greater(t, gain.High-gain.Low, width, "%+v", trial)
			assert.InDelta(t, gain.Mean, (gain.High+gain.Low)/2, 1e-9*max(1, gain.High))
			width = gain.High - gain.Low
		}
	})
}

// The step counts in full on top of the spread, and alone where there is none.
func TestACoarserDisplayNeverNarrows(t *testing.T) {
	trials(t, func(t *testing.T, trial gloss.BeforeAfter) {
		width := 0.0
		for _, step := range []float64{0.001, 0.1, 0.5, 1, 5} {
			trial.Meter.Resolution = step
			gain := gainAt(t, trial, 0.95)
			assert.Greater(t, gain.High-gain.Low, width, "%+v", trial)
			assert.GreaterOrEqual(t, gain.High-gain.Low, 2*1.959963*gloss.DisplayStep(step)*math.Sqrt2, "%+v", trial)
			width = gain.High - gain.Low
		}
	})
}

// With the same spread, more of anything never widens the interval.
func TestMoreReadingsNeverWiden(t *testing.T) {
	for _, step := range []float64{0, 0.1, 1} {
		meter := gloss.Meter{Scale: gloss.Gloss60, Accuracy: 1, Resolution: step}
		oneBefore, pairedBefore, panelBefore := math.Inf(1), math.Inf(1), math.Inf(1)
		for count := 2; count < 60; count++ {
			one := gainAt(t, before(meter, oneSpot(sample(count, 70, 1.3)), oneSpot(sample(count, 75, 0.7))), 0.95)
			paired := gainAt(t, before(meter, singles(sample(count, 70, 0), 0), singles(sample(count, 75, 0.7), 0)), 0.95)
			panel, err := gloss.Measure(meter, singles(sample(count, 70, 1), 0), 0.95)
			require.NoError(t, err)
			require.LessOrEqual(t, one.High-one.Low, oneBefore, "readings %d, step %v", count, step)
			require.LessOrEqual(t, paired.High-paired.Low, pairedBefore, "spots %d, step %v", count, step)
			require.LessOrEqual(t, panel.Uncertainty.Expanded, panelBefore, "spots %d, step %v", count, step)
			oneBefore, pairedBefore, panelBefore = one.High-one.Low, paired.High-paired.Low, panel.Uncertainty.Expanded
		}
	}
}

func TestHazeIndexGainIsTheDifferenceOfGains(t *testing.T) {
	trials(t, func(t *testing.T, trial gloss.BeforeAfter) {
		at20, at60 := trial, mapped(trial, func(r float64) float64 { return 100 + r/2 })
		at60.Meter.Scale = gloss.Gloss60
		index, err := gloss.HazeIndexGain(at60, at20, 0.95)
		require.NoError(t, err)
		assert.InDelta(t, gainAt(t, at60, 0.95).Mean-gainAt(t, at20, 0.95).Mean, index.Mean, 1e-9, "%+v", trial)
	})
}

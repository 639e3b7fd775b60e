package gloss_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/gloss"
)

// world is how readings come about: a panel with spots of different gloss, a step whose gain differs from spot to
// spot, a hand that does not set the meter down in quite the same place, and a display that rounds.
type world struct {
	spots, readings     int
	gain, gainSD, hand  float64
	step                float64
	lowest, mostCovered float64
}

// The interval must hold the true gain as often as its confidence says. 3000 runs of 95 % lie within 0.938 and 0.962
// all but once in 400 times; the seed is fixed. Where rounding rules, intervals may hold more, never fewer. The spread
// between spots follows the pooled 0.904 GU of published clear-coat readings on 40 cars (Nelson, Coffin and
// Copeland, 2003).
func TestIntervalsHoldTheTrueGainAsOftenAsTheySay(t *testing.T) {
	const runs = 3000
	for name, w := range map[string]world{
		"paired, exact display":         {spots: 4, readings: 3, gain: 5, gainSD: 0.904, hand: 0.4, lowest: 0.938, mostCovered: 0.962},
		"two spots, exact display":      {spots: 2, readings: 3, gain: 5, gainSD: 0.904, hand: 0.4, lowest: 0.938, mostCovered: 0.962},
		"one spot, exact display":       {spots: 1, readings: 5, gain: 5, hand: 0.6, lowest: 0.938, mostCovered: 0.962},
		"one spot, three readings":      {spots: 1, readings: 3, gain: 5, hand: 0.6, lowest: 0.938, mostCovered: 0.975},
		"paired, tenths":                {spots: 3, readings: 3, gain: 5, gainSD: 0.904, hand: 0.4, step: 0.1, lowest: 0.938, mostCovered: 0.962},
		"two spots, tenths":             {spots: 2, readings: 3, gain: 5, gainSD: 0.904, hand: 0.4, step: 0.1, lowest: 0.938, mostCovered: 0.965},
		"two spots, halves":             {spots: 2, readings: 3, gain: 5, gainSD: 0.904, hand: 0.4, step: 0.5, lowest: 0.938, mostCovered: 1},
		"two spots, whole units":        {spots: 2, readings: 3, gain: 5, gainSD: 0.904, hand: 0.4, step: 1, lowest: 0.938, mostCovered: 1},
		"paired, whole units":           {spots: 3, readings: 3, gain: 5, gainSD: 0.904, hand: 0.4, step: 1, lowest: 0.938, mostCovered: 1},
		"whole units, very steady hand": {spots: 3, readings: 3, gain: 5.4, gainSD: 0.05, hand: 0.02, step: 1, lowest: 0.938, mostCovered: 1},
		"one spot, steady, whole units": {spots: 1, readings: 3, gain: 5.4, hand: 0.02, step: 1, lowest: 0.938, mostCovered: 1},
		"one spot twice, whole units":   {spots: 1, readings: 2, gain: 5, hand: 0.8, step: 1, lowest: 0.938, mostCovered: 1},
	} {
		random := rand.New(rand.NewPCG(1908, 1947))
		held := 0
		for range runs {
			gain, err := w.trial(random).Gain(0.95)
			require.NoError(t, err, name)
			if gain.Low <= w.gain && w.gain <= gain.High {
				held++
			}
		}
		share := float64(held) / runs
		t.Logf("%s: %.4f", name, share)
		assert.GreaterOrEqual(t, share, w.lowest, name)
		assert.LessOrEqual(t, share, w.mostCovered, name)
	}
}

func (w world) trial(random *rand.Rand) gloss.BeforeAfter {
	trial := gloss.BeforeAfter{Meter: gloss.Meter{Scale: gloss.Gloss20, Resolution: w.step}}
	for i := range w.spots {
		name := fmt.Sprint(i)
		level := 75 + 4*random.Float64()
		trial.Before = append(trial.Before, gloss.Spot{Name: name, Readings: w.read(random, level)})
		level += w.gain + w.gainSD*random.NormFloat64()
		trial.After = append(trial.After, gloss.Spot{Name: name, Readings: w.read(random, level)})
	}
	return trial
}

func (w world) read(random *rand.Rand, level float64) []float64 {
	values := make([]float64, w.readings)
	for i := range values {
		values[i] = level + w.hand*random.NormFloat64()
		if w.step > 0 {
			values[i] = math.Round(values[i]/w.step) * w.step
		}
	}
	return values
}

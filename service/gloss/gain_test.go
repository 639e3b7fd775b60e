package gloss_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/gloss"
)

func before(meter gloss.Meter, b, a []gloss.Spot) gloss.BeforeAfter {
	return gloss.BeforeAfter{Meter: meter, Before: b, After: a}
}

func TestGainIsWelchOnOneSpot(t *testing.T) {
	set := samples(t, "samples.txt")
	for name, c := range map[string]struct {
		after, before  []float64
		statistic, df  float64
		p              float64 // two-sided; zero where too small to ask for
		low, high      float64
		tolerance, tol float64 // of the statistic and df, and of the interval
	}{
		// Rosetta Code, Welch's t-test: p as published to 15 digits; t, df and interval computed with R 4.2.2.
		"set 1": {set["welch-1-x"], set["welch-1-y"], -2.455356398286, 24.988529290231, 0.021378001462867, -3.984096267141, -0.349237066192, 1e-11, 1e-9},
		"set 2": {set["welch-2-x"], set["welch-2-y"], -1.565433523599, 9.904741248651, 0.148841696605327, -3.698421325375, 0.648421325375, 1e-11, 1e-9},
		"set 3": {set["welch-3-x"], set["welch-3-y"], -2.219240915824, 24.496223124201, 0.0359722710297968, -4.282393535505, -0.157606464495, 1e-11, 1e-9},
		// NIST/SEMATECH e-Handbook 7.3.1 prints t 2.2694 and df 15.5; the rest computed with R 4.2.2.
		"assembly times": {set["assembly-old"], set["assembly-new"], 2.2693731, 15.5325144, 0.03787948, 0.2459435, 7.4914303, 1e-7, 1e-7},
		// NIST/SEMATECH e-Handbook 1.3.5.3 (car mileage), from n, mean and sd as published.
		"car mileage": {sample(249, 20.14458, 6.41470), sample(79, 30.48101, 6.10771), -12.94627, 136.8750, 0, math.NaN(), math.NaN(), 5e-6, 0},
		// Student 1908 (sleep), not paired; computed with R 4.2.2.
		"sleep, not paired": {raised(set["sleep-1"]), raised(set["sleep-2"]), -1.860813467, 17.776473516, 0.0793941402, -3.365483231, 0.205483231, 1e-9, 1e-8},
		// Nelson, Coffin and Copeland 2003, not paired: the trap. Computed with R 4.2.2.
		"lenses, not paired": {set["lens-a"], set["lens-b"], 0.1341446790, 17.9922869, 0, math.NaN(), math.NaN(), 1e-8, 0},
	} {
		gain, err := before(exact(gloss.Gloss20), oneSpot(c.before), oneSpot(c.after)).Gain(0.95)
		require.NoError(t, err, name)
		assert.Equal(t, gloss.OneSpot, gain.Method, name)
		assert.InEpsilon(t, c.statistic, gain.Mean/gain.Standard, c.tolerance, name)
		assert.InEpsilon(t, c.df, gain.DF, c.tolerance, name)
		if !math.IsNaN(c.low) {
			assert.InDelta(t, c.low, gain.Low, c.tol*10, name)
			assert.InDelta(t, c.high, gain.High, c.tol*10, name)
		}
		if c.p > 0 {
			touchesZero(t, before(exact(gloss.Gloss20), oneSpot(c.before), oneSpot(c.after)), c.p, name)
		}
	}
}

// touchesZero checks a published two-sided p: the interval at confidence 1−p ends at zero.
func touchesZero(t *testing.T, b gloss.BeforeAfter, p float64, name string) {
	t.Helper()
	gain, err := b.Gain(1 - p)
	require.NoError(t, err, name)
	assert.InDelta(t, 0, min(math.Abs(gain.Low), math.Abs(gain.High)), 1e-6*gain.Standard, "p of %s", name)
}

// raised keeps differences and lifts values to where gloss can be.
func raised(values []float64) []float64 {
	up := make([]float64, len(values))
	for i, v := range values {
		up[i] = v + 10
	}
	return up
}

func TestGainIsPairedOverSpots(t *testing.T) {
	set := samples(t, "samples.txt")
	for name, c := range map[string]struct {
		after, before         []float64
		confidence            float64
		mean, statistic, df   float64
		p, low, high, tol     float64
		sdOfDifferences, sdTo float64
	}{
		// Student 1908 (sleep): t −4.0621, df 9, p 0.002833 as widely published; further digits computed with R 4.2.2.
		"sleep": {raised(set["sleep-1"]), raised(set["sleep-2"]), 0.95, -1.58, -4.062127683382, 9, 0.00283289019738, -2.4598858, -0.7001142, 5e-8, 1.22999548, 5e-9},
		// Nelson, Coffin and Copeland 2003 (lenses); computed with R 4.2.2. Unpaired, the same numbers show nothing.
		"lenses": {set["lens-a"], set["lens-b"], 0.95, 0.22, 2.850765804, 9, 0.01906535647, 0.0454242509, 0.3945757491, 5e-10, 0.24404006957, 5e-11},
		// R package equivalence: interval at 90 %, standard error 0.1357514068.
		"equivalence": {set["equivalence-1"], set["equivalence-2"], 0.90, 0.1646666667, 1.213001549, 14, 0.2451999297, -0.0744336621, 0.4037669954, 5e-10, 0.1357514068 * math.Sqrt(15), 1e-9},
	} {
		trial := before(exact(gloss.Haze), singles(c.before, 0), singles(c.after, 0))
		gain, err := trial.Gain(c.confidence)
		require.NoError(t, err, name)
		assert.Equal(t, gloss.PairedSpots, gain.Method, name)
		assert.Len(t, gain.Spots, len(c.after), name)
		assert.InDelta(t, c.mean, gain.Mean, 5e-11, name)
		assert.InEpsilon(t, c.statistic, gain.Mean/gain.Standard, 5e-10, name)
		assert.InDelta(t, c.df, gain.DF, 1e-9, name)
		assert.InDelta(t, c.low, gain.Low, c.tol, name)
		assert.InDelta(t, c.high, gain.High, c.tol, name)
		assert.InDelta(t, c.sdOfDifferences, gain.Standard*math.Sqrt(float64(len(c.after))), c.sdTo, name)
		touchesZero(t, trial, c.p, name)
	}
}

// The published equivalence test finds the difference inside ±0.6 (p 0.0032) and the plain test finds no difference.
func TestGainCanBeConclusivelyTooSmall(t *testing.T) {
	set := samples(t, "samples.txt")
	gain, err := before(exact(gloss.Haze), singles(set["equivalence-2"], 0), singles(set["equivalence-1"], 0)).Gain(0.90)
	require.NoError(t, err)
	assert.False(t, gain.Real())
	verdict, err := gain.Judge(0.6)
	require.NoError(t, err)
	assert.Equal(t, gloss.TooSmall, verdict)
	assert.Equal(t, gloss.Above, gain.Against(-0.6))
	assert.Equal(t, gloss.Straddles, gain.Against(0))
}

func TestGainPicksTheBestMethod(t *testing.T) {
	spot := func(name string, readings ...float64) gloss.Spot { return gloss.Spot{Name: name, Readings: readings} }
	for name, c := range map[string]struct {
		before, after []gloss.Spot
		method        gloss.Method
		mean          float64
		used, left    []string
	}{
		"two spots pair, a third was not read after": {
			[]gloss.Spot{spot("a", 80), spot("b", 82), spot("c", 10)},
			[]gloss.Spot{spot("b", 87), spot("a", 84)},
			gloss.PairedSpots, 4.5,
			[]string{"a", "b"},
			[]string{"c"},
		},
		"one spot in common, repeated": {
			[]gloss.Spot{spot("a", 80, 81), spot("b", 60, 61)},
			[]gloss.Spot{spot("a", 85, 86), spot("c", 90, 91)},
			gloss.OneSpot, 5,
			[]string{"a"},
			[]string{"b", "c"},
		},
		"one spot in common, read once": {
			[]gloss.Spot{spot("a", 80), spot("b", 82)},
			[]gloss.Spot{spot("a", 85), spot("c", 87)},
			gloss.UnpairedSpots, 5,
			[]string{"a", "b", "c"},
			nil,
		},
		"no spot in common": {
			[]gloss.Spot{spot("a", 80, 80, 80, 80), spot("b", 84)},
			[]gloss.Spot{spot("c", 85), spot("d", 87)},
			gloss.UnpairedSpots, 4,
			[]string{"a", "b", "c", "d"},
			nil,
		},
		"one spot each, not the same": {
			[]gloss.Spot{spot("a", 80, 82)},
			[]gloss.Spot{spot("b", 85, 87)},
			gloss.PooledReadings, 5,
			[]string{"a", "b"},
			nil,
		},
	} {
		gain, err := before(exact(gloss.Gloss20), c.before, c.after).Gain(0.95)
		require.NoError(t, err, name)
		assert.Equal(t, c.method, gain.Method, name)
		assert.InDelta(t, c.mean, gain.Mean, 1e-12, name)
		assert.Equal(t, c.used, gain.Spots, name)
		assert.Equal(t, c.left, gain.LeftOut, name)
	}
}

func TestGainNeedsSomethingToGoBy(t *testing.T) {
	meter := exact(gloss.Gloss20)
	_, err := before(meter, oneSpot([]float64{80}), oneSpot([]float64{85, 86})).Gain(0.95)
	assert.EqualError(t, err, "before readings: have 1, need at least 2; set the meter down again for at least three readings, or read two spots before and after")

	_, err = before(meter, oneSpot([]float64{80, 80}), oneSpot([]float64{85, 85})).Gain(0.95)
	assert.ErrorIs(t, err, gloss.ErrNoSpread)

	// Equal in decimals, not in binary: 80.1 to 84.4 and 80.3 to 84.6 are both 4.3.
	_, err = before(meter, singles([]float64{80.1, 80.3, 70.7}, 0), singles([]float64{84.4, 84.6, 75}, 0)).Gain(0.95)
	assert.ErrorIs(t, err, gloss.ErrNoSpread)
}

// A meter that shows whole units and repeats itself exactly leaves a gain of 4 uncertain by the roundings of two
// displays: 2·1²/12, and no fewer for more readings.
func TestIdenticalReadingsKeepTheDisplayStep(t *testing.T) {
	meter := gloss.Meter{Scale: gloss.Gloss60, Accuracy: 2, Resolution: 1}
	for _, count := range []int{2, 3, 20} {
		gain, err := before(meter, oneSpot(sample(count, 80, 0)), oneSpot(sample(count, 84, 0))).Gain(0.95)
		require.NoError(t, err)
		assert.InDelta(t, math.Sqrt(1.0/6), gain.Standard, 1e-12)
		assert.InDelta(t, 4-1.959964*math.Sqrt(1.0/6), gain.Low, 1e-6)
		assert.True(t, math.IsInf(gain.DF, 1))
		assert.True(t, gain.Real())
	}
}

// An offset is the same before and after, so the stated accuracy may not widen a gain.
func TestGainIsFreeOfTheStatedAccuracy(t *testing.T) {
	b, a := singles([]float64{80, 81, 79}, 0), singles([]float64{84, 86, 82}, 0)
	fine, err := before(gloss.Meter{Scale: gloss.Gloss20, Resolution: 0.1}, b, a).Gain(0.95)
	require.NoError(t, err)
	coarse, err := before(gloss.Meter{Scale: gloss.Gloss20, Resolution: 0.1, Accuracy: 5}, b, a).Gain(0.95)
	require.NoError(t, err)
	assert.Equal(t, fine, coarse)
	for _, c := range coarse.Components {
		assert.NotContains(t, c.Source, "accuracy")
	}
}

// Two spots of three readings and the same gain on a panel whose spots differ by 20 GU: pairing sees it, pooling cannot.
func TestPairingSeesThroughDifferentSpots(t *testing.T) {
	b := []gloss.Spot{{Name: "sun side", Readings: []float64{60, 61, 60}}, {Name: "shade side", Readings: []float64{80, 81, 81}}, {Name: "middle", Readings: []float64{70, 71, 70}}}
	a := []gloss.Spot{{Name: "sun side", Readings: []float64{66, 67, 66}}, {Name: "shade side", Readings: []float64{86, 86, 87}}, {Name: "middle", Readings: []float64{76, 76, 77}}}
	meter := gloss.Meter{Scale: gloss.Gloss20, Resolution: 0.1}
	paired, err := before(meter, b, a).Gain(0.95)
	require.NoError(t, err)
	verdict, err := paired.Judge(2)
	require.NoError(t, err)
	assert.Equal(t, gloss.Worthwhile, verdict)
	for i := range a {
		a[i].Name = fmt.Sprint("elsewhere ", i)
	}
	apart, err := before(meter, b, a).Gain(0.95)
	require.NoError(t, err)
	verdict, err = apart.Judge(2)
	require.NoError(t, err)
	assert.Equal(t, gloss.NotConclusive, verdict)
}

package gloss_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/gloss"
)

// NIST Statistical Reference Datasets, univariate: certified mean and standard deviation. The tolerances of the
// last two are what rounding their decimals to binary costs by itself; a one-pass variance fails them outright. They
// are put on the haze scale, which has no upper end.
func TestSpotMeansAgreeWithCertifiedValues(t *testing.T) {
	sets := samples(t, "strd_univariate.txt")
	zigzag := func(first, low, high float64) []float64 {
		values := []float64{first}
		for range 500 {
			values = append(values, low, high)
		}
		return values
	}
	for name, c := range map[string]struct {
		values    []float64
		n         int
		mean, sd  float64
		tolerance float64
	}{
		"Lottery":  {sets["lottery"], 218, 518.958715596330, 291.699727470969, 1e-14},
		"Mavro":    {sets["mavro"], 50, 2.001856, 0.000429123454003053, 1e-11},
		"Michelso": {sets["michelso"], 100, 299.8524, 0.0790105478190518, 1e-12},
		"NumAcc1":  {[]float64{10000001, 10000003, 10000002}, 3, 10000002, 1, 0},
		"NumAcc2":  {zigzag(1.2, 1.1, 1.3), 1001, 1.2, 0.1, 1e-14},
		"NumAcc3":  {zigzag(1000000.2, 1000000.1, 1000000.3), 1001, 1000000.2, 0.1, 1e-9},
		"NumAcc4":  {zigzag(10000000.2, 10000000.1, 10000000.3), 1001, 10000000.2, 0.1, 1e-7},
	} {
		require.Len(t, c.values, c.n, name)
		spots, err := gloss.SpotMeans(gloss.Haze, oneSpot(c.values))
		require.NoError(t, err, name)
		assert.InDelta(t, c.mean, spots[0].Mean, 1e-14*c.mean, name)
		sd, ok := spots[0].SD()
		require.True(t, ok, name)
		assert.InDelta(t, c.sd, sd, c.tolerance*c.sd, name)
	}
}

func TestMeasureGivesPublishedIntervals(t *testing.T) {
	for name, c := range map[string]struct {
		readings             []float64
		mean, sd             float64
		low, high, tolerance float64
	}{
		// NIST/SEMATECH e-Handbook 7.2.2 for data, mean and sd; interval computed with R 4.2.2.
		"particles on wafers": {samples(t, "samples.txt")["wafers"], 53.7, 6.567, 49.0024291, 58.3975709, 1e-6},
		// NIST/SEMATECH e-Handbook 1.3.5.2 (ZARR13), from its n, mean and sd.
		"heat flow": {sample(195, 9.26146, 0.02278881), 9.26146, 0.02279, 9.25824, 9.26468, 5e-6},
		// Analyst 108 (1983) 64, from its n, mean and sd: three readings are not many.
		"mercury, three readings": {sample(3, 37.8, 0.964365), 37.8, 0.9644, 35.40438, 40.19562, 5e-5},
	} {
		panel, err := gloss.Measure(exact(gloss.Gloss60), oneSpot(c.readings), 0.95)
		require.NoError(t, err, name)
		assert.InDelta(t, c.mean, panel.Mean, 1e-9, name)
		sd, _ := panel.Spots[0].SD()
		assert.InDelta(t, c.sd, sd, 5e-4, name)
		assert.InDelta(t, c.low, panel.Mean-panel.Uncertainty.Expanded, c.tolerance, name)
		assert.InDelta(t, c.high, panel.Mean+panel.Uncertainty.Expanded, c.tolerance, name)
		// The same values as one reading on each of many spots are the same sample.
		spread, err := gloss.Measure(exact(gloss.Gloss60), singles(c.readings, 0), 0.95)
		require.NoError(t, err, name)
		assert.InDelta(t, panel.Uncertainty.Expanded, spread.Uncertainty.Expanded, 1e-12, name)
	}
}

func TestMeasureCountsSpotsNotReadings(t *testing.T) {
	panel, err := gloss.Measure(exact(gloss.Gloss20), []gloss.Spot{
		{Name: "hood, left", Readings: []float64{80, 80, 80, 80, 80, 80}},
		{Name: "hood, right", Readings: []float64{84}},
	}, 0.95)
	require.NoError(t, err)
	assert.InDelta(t, 82, panel.Mean, 1e-12)
	assert.InDelta(t, 1, panel.Uncertainty.DF, 1e-12)
	// Two values 4 apart: standard error 2; t 12.706 from any printed table.
	assert.InDelta(t, 12.706*2, panel.Uncertainty.Expanded, 0.001)
	_, known := panel.Spots[1].SD()
	assert.False(t, known, "one reading has no known spread")
	assert.Equal(t, 6, panel.Spots[0].Count)
}

func TestMeasureAddsTheMetersOwnParts(t *testing.T) {
	meter := gloss.Meter{Scale: gloss.Gloss60, Accuracy: 2, Resolution: 1}
	panel, err := gloss.Measure(meter, oneSpot([]float64{85, 85, 85}), 0.95)
	require.NoError(t, err)
	// Identical readings leave only 2/√3 and 1/√12: u² = 4/3 + 1/12.
	assert.InDelta(t, math.Sqrt(4.0/3+1.0/12), panel.Uncertainty.Standard, 1e-12)
	assert.True(t, math.IsInf(panel.Uncertainty.DF, 1))
	assert.InDelta(t, 1.959964*math.Sqrt(17.0/12), panel.Uncertainty.Expanded, 1e-5)
}

func TestSpotMeansKeepOrderAndRange(t *testing.T) {
	spots, err := gloss.SpotMeans(gloss.Gloss20, []gloss.Spot{
		{Name: "z", Readings: []float64{81, 79, 83}}, {Name: "a", Readings: []float64{70}},
	})
	require.NoError(t, err)
	require.Len(t, spots, 2)
	assert.Equal(t, "z", spots[0].Name)
	assert.Equal(t, []float64{79, 83, 81}, []float64{spots[0].Min, spots[0].Max, spots[0].Mean})
	sd, ok := spots[0].SD()
	assert.True(t, ok)
	assert.InDelta(t, 2, sd, 1e-12)
}

// ISO 5725-6 rounds the factor to 2.8. Pooling by degrees of freedom: two spots, variances 4 (df 2) and 1 (df 1), make 3.
func TestRepeatabilityPoolsSpots(t *testing.T) {
	got, err := gloss.RepeatabilityOf(gloss.Gloss60, []gloss.Spot{
		{Name: "a", Readings: []float64{78, 80, 82}},
		{Name: "b", Readings: sample(2, 90, 1)},
		{Name: "c", Readings: []float64{60}},
	})
	require.NoError(t, err)
	assert.InDelta(t, math.Sqrt(3), got.SD, 1e-12)
	assert.Equal(t, 3, got.DF)
	assert.InDelta(t, 2.8*got.SD, got.Limit, 0.05*got.SD)
	assert.InDelta(t, 2.7718*got.SD, got.Limit, 0.0001*got.SD)

	_, err = gloss.RepeatabilityOf(gloss.Gloss60, singles([]float64{80, 81, 82}, 0))
	assert.EqualError(t, err, "readings of any one spot: have 1, need at least 2; read at least one spot again")
}

func TestMeasureDoesNotMindTheOrder(t *testing.T) {
	readings := []float64{80.1, 84.7, 79.3, 82.2}
	first, err := gloss.Measure(exact(gloss.Gloss20), oneSpot(readings), 0.95)
	require.NoError(t, err)
	turned := slices.Clone(readings)
	slices.Reverse(turned)
	second, err := gloss.Measure(exact(gloss.Gloss20), oneSpot(turned), 0.95)
	require.NoError(t, err)
	assert.InDelta(t, first.Mean, second.Mean, 1e-12)
	assert.InDelta(t, first.Uncertainty.Expanded, second.Uncertainty.Expanded, 1e-12)
	assert.Equal(t, []float64{80.1, 84.7, 79.3, 82.2}, readings, "the caller's readings are left alone")
}

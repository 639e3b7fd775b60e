package film_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/film"
)

// ordinary is a gauge of the usual form ±(1 µm + 1 %); the form and figures are common practice, no source.
var ordinary = film.Gauge{Accuracy: film.Accuracy{FixedUm: 1, Percent: 1}}

// faultless has an accuracy too small to matter, so that a check sees the scatter alone.
var faultless = film.Gauge{Accuracy: film.Accuracy{FixedUm: 1e-12}}

// steel is a steel panel with these spots.
func steel(spots ...film.Spot) film.Panel {
	return film.Panel{Name: "left door", Substrate: film.Steel, Spots: spots}
}

func spot(name string, readings ...film.Microns) film.Spot {
	return film.Spot{Name: name, ReadingsUm: readings}
}

// flat is a spot that reads the same three times.
func flat(name string, um film.Microns) film.Spot { return spot(name, um, um, um) }

func measure(t *testing.T, g film.Gauge, p film.Panel, confidencePct float64) film.Measured {
	t.Helper()
	m, err := film.Measure(g, p, confidencePct)
	require.NoError(t, err)
	return m
}

// A spot is the mean of three readings or more (SSPC-PA 2).
func TestSpotMeanOfThreeReadings(t *testing.T) {
	m := measure(t, ordinary, steel(spot("", 112, 108, 119)), 95)
	require.Len(t, m.Spots, 1)
	s := m.Spots[0]
	assert.Equal(t, film.Microns(113), s.MeanUm)
	assert.InDelta(t, math.Sqrt(31), float64(s.SpreadUm), 1e-12) // deviations -1, -5, 6
	assert.Equal(t, 3, s.Readings)
	assert.Equal(t, "spot 1", s.Name)
	assert.Equal(t, film.Microns(113), m.LowestUm)
	assert.Equal(t, film.Microns(113), m.MeanUm)
	assert.Zero(t, m.SpreadUm)
	assert.Equal(t, s.LowUm, m.LowestBoundUm)
	assert.Nil(t, m.EdgeDropUm)
	assert.Equal(t, film.Total, m.Layer)
}

func TestTwoReadingsAreNotASpot(t *testing.T) {
	_, err := film.Measure(ordinary, steel(spot("by the handle", 112, 108)), 95)
	var few *film.TooFewReadingsError
	require.ErrorAs(t, err, &few)
	assert.Equal(t, film.TooFewReadingsError{Spot: "by the handle", Have: 2, Need: 3}, *few)
	assert.EqualError(t, err, "film by the handle has too few readings, 2, need >= 3; lift the gauge and read the spot again, or leave the spot out")
}

// Student's t and the normal quantiles, one-sided, as tabled in the NIST/SEMATECH e-Handbook 1.3.6.7.2 (three decimals).
func TestSpotBoundUsesStudentsT(t *testing.T) {
	for name, tt := range map[string]struct {
		readings      []film.Microns
		confidencePct float64
		quantile      float64
	}{
		"three readings, 95 %":   {[]film.Microns{99, 100, 101}, 95, 2.920},
		"three readings, 97.5 %": {[]film.Microns{99, 100, 101}, 97.5, 4.303},
		"three readings, 99 %":   {[]film.Microns{99, 100, 101}, 99, 6.965},
		"three readings, 99.9 %": {[]film.Microns{99, 100, 101}, 99.9, 22.327},
		"five readings, 95 %":    {[]film.Microns{98, 99, 100, 101, 102}, 95, 2.132},
		"ten readings, 90 %":     {[]film.Microns{96, 97, 98, 99, 100, 100, 101, 102, 103, 104}, 90, 1.383},
	} {
		t.Run(name, func(t *testing.T) {
			s := measure(t, faultless, steel(film.Spot{ReadingsUm: tt.readings}), tt.confidencePct).Spots[0]
			standard := float64(s.SpreadUm) / math.Sqrt(float64(len(tt.readings)))
			assert.InDelta(t, tt.quantile, float64(s.MeanUm-s.LowUm)/standard, 0.0005)
			assert.InDelta(t, tt.quantile, float64(s.HighUm-s.MeanUm)/standard, 0.0005)
		})
	}
}

// A stated limit counts as limit/√3 and a display step as 0.29 of it (GUM, JCGM 100:2008, 4.3.7 and F.2.2.1). The normal
// quantile at 97.5 % is 1.960 (NIST/SEMATECH e-Handbook 1.3.6.7.1).
func TestSpotBoundCountsTheGauge(t *testing.T) {
	for name, tt := range map[string]struct {
		gauge film.Gauge
		want  float64
	}{
		"accuracy alone": {ordinary, 1.960 * 2.1 / math.Sqrt(3)},
		"display alone":  {film.Gauge{Accuracy: faultless.Accuracy, StepUm: 10}, 1.960 * 2.9},
		"both": {
			film.Gauge{Accuracy: ordinary.Accuracy, StepUm: 10},
			1.960 * math.Hypot(2.1/math.Sqrt(3), 2.887),
		},
	} {
		t.Run(name, func(t *testing.T) {
			s := measure(t, tt.gauge, steel(flat("a", 110)), 97.5).Spots[0]
			assert.InEpsilon(t, tt.want, float64(s.MeanUm-s.LowUm), 0.005)
		})
	}
}

func TestPanelFigures(t *testing.T) {
	edge, deepEdge := flat("sill", 96), flat("rear edge", 90)
	edge.NearEdge, deepEdge.NearEdge = true, true
	m := measure(t, ordinary, steel(flat("middle", 118), edge, deepEdge, flat("top", 112)), 95)
	assert.Equal(t, film.Microns(104), m.MeanUm)
	assert.Equal(t, film.Microns(90), m.LowestUm)
	assert.Equal(t, "rear edge", m.LowestSpot)
	assert.Equal(t, film.Microns(118), m.HighestUm)
	assert.Equal(t, "middle", m.HighestSpot)
	assert.Equal(t, film.Microns(28), m.SpreadUm)
	require.NotNil(t, m.EdgeDropUm)
	assert.Equal(t, film.Microns(25), *m.EdgeDropUm) // (118 + 112)/2 less 90
	assert.True(t, m.Spots[1].NearEdge)
}

func TestEdgeDropIsNegativeWhereFilmGrowsTowardTheEdge(t *testing.T) {
	edge := flat("sill", 130)
	edge.NearEdge = true
	m := measure(t, ordinary, steel(flat("middle", 118), edge), 95)
	require.NotNil(t, m.EdgeDropUm)
	assert.Equal(t, film.Microns(-12), *m.EdgeDropUm)
}

func TestEdgeDropNeedsBothSortsOfSpot(t *testing.T) {
	edge := flat("sill", 96)
	edge.NearEdge = true
	assert.Nil(t, measure(t, ordinary, steel(edge), 95).EdgeDropUm)
	assert.Nil(t, measure(t, ordinary, steel(flat("middle", 96)), 95).EdgeDropUm)
}

// The lowest mean need not carry the lowest bound: a spot that scatters may be thinner.
func TestLowestBoundIsTheLeastOfAllBounds(t *testing.T) {
	m := measure(t, ordinary, steel(flat("quiet", 100), spot("wild", 90, 104, 112)), 95)
	assert.Equal(t, "quiet", m.LowestSpot)
	assert.Equal(t, m.Spots[1].LowUm, m.LowestBoundUm)
	assert.Less(t, m.LowestBoundUm, m.Spots[0].LowUm)
}

// Three readings that agree by luck claim no better repeatability than the panel shows.
func TestQuietSpotTakesThePooledScatter(t *testing.T) {
	m := measure(t, faultless, steel(flat("quiet", 100), spot("usual", 98, 100, 102)), 95)
	pooled := math.Sqrt((0 + 2*4) / 4.0)                                               // variances 0 and 4, two degrees each
	assert.InDelta(t, 2.132*pooled/math.Sqrt(3), float64(100-m.Spots[0].LowUm), 0.001) // t for four degrees
	assert.InDelta(t, 2.132*2/math.Sqrt(3), float64(100-m.Spots[1].LowUm), 0.001)      // keeps its own spread of 2
}

func TestLowerBoundIsNeverBelowZero(t *testing.T) {
	m := measure(t, ordinary, steel(spot("bare", 0, 0, 9)), 99)
	assert.Zero(t, m.LowestBoundUm)
}

func TestMeasureReportsEveryProblem(t *testing.T) {
	_, err := film.Measure(
		film.Gauge{StepUm: -1},
		steel(spot("a", 100, 101), spot("a", 100, -1, film.Microns(math.NaN())), spot("c", 100, 101, 4000)),
		200,
	)
	require.Error(t, err)
	for _, want := range []string{
		"gauge accuracy_um is 0", "gauge step_um is -1", "confidence_pct is 200, allowed is 50 to 99.9 %",
		"film a has too few readings, 2", "film a is given twice", "film a reading 2 is -1", "film a reading 3 is NaN",
		"film c reading 3 is 4000, allowed is 0 to 3000 µm",
	} {
		assert.ErrorContains(t, err, want)
	}
}

func TestMeasureRefusesAPanelWithoutSpots(t *testing.T) {
	_, err := film.Measure(ordinary, steel(), 95)
	assert.ErrorIs(t, err, film.ErrNoSpots)
}

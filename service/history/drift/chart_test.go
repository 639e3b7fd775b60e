package drift_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history/drift"
)

// flow is the worked example of the NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2: batches of a flow rate.
var flow = []float64{49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1}

func mean(values []float64) float64 {
	var sum float64
	for _, v := range values {
		sum += v
	}
	return sum / float64(len(values))
}

// The handbook prints a mean moving range of 1.8778, a centre of 50.81 and limits of 45.8159 and 55.8041; no batch is outside.
func TestHandbookExample(t *testing.T) {
	sigma, err := drift.SigmaOf(flow)
	require.NoError(t, err)
	assert.InDelta(t, 1.8778/1.128, sigma, 1e-3)

	chart, err := drift.Watch(mean(flow), sigma, flow)
	require.NoError(t, err)
	assert.InDelta(t, 50.81, chart.Centre, 1e-9)
	assert.InDelta(t, 45.8159, chart.Lower(), 2e-3, "the handbook rounds 1.1284 to 1.128")
	assert.InDelta(t, 55.8041, chart.Upper(), 2e-3)
	for _, s := range chart.Signals {
		assert.NotEqual(t, drift.Outside, s.Kind)
	}
}

func TestSignals(t *testing.T) {
	for _, row := range []struct {
		name   string
		values []float64
		want   []drift.Signal
	}{
		{"on course", []float64{0.1, -0.4, 0.3, -0.2, 0.5, -0.1, 0.2, -0.3}, nil},
		{"one far below", []float64{0.1, -3.1}, []drift.Signal{{At: 1, Kind: drift.Outside, Low: true}}},
		{"two of three above", []float64{2.1, 0.5, 2.2}, []drift.Signal{{At: 2, Kind: drift.TwoOfThree}}},
		{"two of three, not on one side", []float64{2.1, 0.5, -2.2}, nil},
		{"four of five below", []float64{-1.1, -1.2, 0.3, -1.3, -1.4}, []drift.Signal{{At: 4, Kind: drift.FourOfFive, Low: true}}},
		{
			"eight below",
			[]float64{-0.5, -0.4, -0.6, -0.1, -0.2, -0.5, -0.3, -0.4},
			[]drift.Signal{{At: 7, Kind: drift.EightBeside, Low: true}},
		},
		{"six falling", []float64{0.9, 0.6, 0.4, 0.1, -0.2, -0.4}, []drift.Signal{{At: 5, Kind: drift.SixTrend, Low: true}}},
		{"five falling", []float64{0.9, 0.6, 0.4, 0.1, -0.2, -0.1}, nil},
		{"exactly on a limit is inside", []float64{0, 3}, nil},
	} {
		t.Run(row.name, func(t *testing.T) {
			chart, err := drift.Watch(0, 1, row.values)
			require.NoError(t, err)
			assert.Equal(t, row.want, chart.Signals)
		})
	}
}

// Readings that follow their course set off few alarms; a course that falls away by a sigma and a half is called soon. The rates
// are those of simulation, not of a table: these rules together alarm about once in 90 readings on course.
func TestAlarmsAreRareOnCourseAndSoonOffIt(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 3))
	alarms, readings := 0, 0
	for range 400 {
		values := make([]float64, 25)
		for i := range values {
			values[i] = r.NormFloat64()
		}
		chart, err := drift.Watch(0, 1, values)
		require.NoError(t, err)
		alarms, readings = alarms+len(chart.Signals), readings+len(values)
	}
	assert.Less(t, float64(alarms)/float64(readings), 0.03)

	var waits []float64
	for range 400 {
		values := make([]float64, 30)
		for i := range values {
			values[i] = r.NormFloat64() - 1.5
		}
		chart, err := drift.Watch(0, 1, values)
		require.NoError(t, err)
		require.NotEmpty(t, chart.Signals)
		waits = append(waits, float64(chart.Signals[0].At+1))
	}
	assert.Less(t, mean(waits), 6.0, "readings until a shift of 1.5 sigma is called, on average")
}

func TestReadingsThatCannotBeCharted(t *testing.T) {
	_, err := drift.SigmaOf([]float64{1})
	require.ErrorIs(t, err, drift.ErrFewReadings)
	_, err = drift.SigmaOf([]float64{1, 1, 1})
	require.ErrorIs(t, err, drift.ErrNoScatter)
	_, err = drift.Watch(1, 1, []float64{1, math.Inf(1)})
	require.EqualError(t, err, "reading 2 is +Inf, allowed is a finite number")
	_, err = drift.Watch(1, 0, nil)
	require.EqualError(t, err, "sigma is 0, allowed is a number over 0")
	_, err = drift.Watch(math.NaN(), 1, nil)
	require.EqualError(t, err, "centre is NaN, allowed is a finite number")
}

func TestRunsCountTogetherAndTheGapBetweenThemDoesNot(t *testing.T) {
	whole, err := drift.SigmaOf(flow[:5], flow[5:])
	require.NoError(t, err)
	// Of the handbook's nine moving ranges the fifth, 51.2 less 47.8, lies between the runs.
	assert.InDelta(t, (9*1.8778-3.4)/8/1.128, whole, 1e-3)
	_, err = drift.SigmaOf([]float64{1}, []float64{2})
	require.ErrorIs(t, err, drift.ErrFewReadings)
}

func TestKindsInWords(t *testing.T) {
	for kind := drift.Outside; kind <= drift.SixTrend; kind++ {
		assert.Contains(t, kind.String(), "reading")
	}
}

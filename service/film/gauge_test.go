package film_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/film"
)

func TestAccuracyLimit(t *testing.T) {
	sum := film.Accuracy{FixedUm: 1, Percent: 1}
	// The form "±1 % or ±2.5 µm, whichever is greater" is printed at bamr.co.za/accuracy.shtml. That page lets 2.5 µm
	// rule up to 50 µm; by arithmetic it rules up to 250 µm.
	greater := film.Accuracy{FixedUm: 2.5, Percent: 1, GreaterOf: true}
	for name, tt := range map[string]struct {
		accuracy      film.Accuracy
		reading, want film.Microns
	}{
		"sum at nothing":                {sum, 0, 1},
		"sum at a usual film":           {sum, 110, 2.1},
		"greater at a usual film":       {greater, 110, 2.5},
		"greater past the misprint":     {greater, 51, 2.5},
		"greater where both are equal":  {greater, 250, 2.5},
		"greater on thick film":         {greater, 300, 3},
		"percent alone":                 {film.Accuracy{Percent: 5}, 100, 5},
		"an unstated accuracy has none": {film.Accuracy{}, 100, 0},
	} {
		t.Run(name, func(t *testing.T) {
			assert.InDelta(t, float64(tt.want), float64(tt.accuracy.Limit(tt.reading)), 1e-12)
		})
	}
}

func TestGaugeWithoutStatedAccuracyIsRefused(t *testing.T) {
	err := film.Gauge{}.Check()
	var wrong *film.RangeError
	require.ErrorAs(t, err, &wrong)
	assert.Equal(t, "gauge accuracy_um", wrong.Field)
	assert.ErrorContains(t, err, "as the gauge's papers state")
}

func TestGaugeCheckReportsEveryFigure(t *testing.T) {
	err := film.Gauge{Accuracy: film.Accuracy{FixedUm: -1, Percent: 101}, StepUm: film.Microns(math.Inf(1))}.Check()
	assert.ErrorContains(t, err, "accuracy_um is -1")
	assert.ErrorContains(t, err, "accuracy_pct is 101, allowed is 0 to 100 %")
	assert.ErrorContains(t, err, "step_um is +Inf")
	assert.NoError(t, film.Gauge{Accuracy: film.Accuracy{Percent: 1}}.Check())
}

package film_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/film"
)

// First guesses for whole steps, from memory.
var (
	cut    = film.Removal{LowUm: 1.5, LikelyUm: 2.5, HighUm: 4}
	polish = film.Removal{LowUm: 0.5, LikelyUm: 1, HighUm: 1.5}
	finish = film.Removal{LowUm: 0, LikelyUm: 0.25, HighUm: 0.5}
)

func TestLadderAddsItsSteps(t *testing.T) {
	got, err := film.Ladder(cut, polish, finish)
	require.NoError(t, err)
	assert.Equal(t, film.Removal{LowUm: 2, LikelyUm: 3.75, HighUm: 6}, got)

	none, err := film.Ladder()
	require.NoError(t, err)
	assert.Zero(t, none)
}

func TestLadderReportsEveryStepThatIsWrong(t *testing.T) {
	_, err := film.Ladder(film.Removal{LowUm: -1}, polish, film.Removal{LikelyUm: 2, HighUm: 1}, film.Removal{HighUm: film.Microns(math.NaN())})
	assert.ErrorContains(t, err, "low_um is -1")
	assert.ErrorContains(t, err, "likely_um 2, high_um 1")
	assert.ErrorContains(t, err, "high_um is NaN")
}

func TestAfterIsALowerBound(t *testing.T) {
	b := usable(t, usual, measureTop(t, 45), film.Removal{}) // 9.44 by the published limits
	left, err := b.After(cut)
	require.NoError(t, err)
	assert.InDelta(t, 5.44, float64(left.LowUm), exact)
	assert.InDelta(t, 6.94, float64(left.LikelyUm), exact)
	assert.InDelta(t, 41, float64(left.ClearUm), exact)
	assert.True(t, left.Fits())
}

func TestRemovalThatCannotBeAffordedGoesBelowZero(t *testing.T) {
	b := usable(t, usual, measureTop(t, 38.1), film.Removal{}) // 2.54 by the published limits
	left, err := b.After(cut)
	require.NoError(t, err)
	assert.InDelta(t, -1.46, float64(left.LowUm), exact)
	assert.InDelta(t, 0.04, float64(left.LikelyUm), exact)
	assert.False(t, left.Fits(), "it fits by luck only")
}

func TestRemovalOfTheWholeBudgetFits(t *testing.T) {
	left, err := film.Budget{UsableUm: 4, ClearUm: 3}.After(cut)
	require.NoError(t, err)
	assert.True(t, left.Fits())
	assert.Zero(t, left.LowUm)
	assert.Zero(t, left.ClearUm, "clear that stays is never below zero")
}

func TestAfterRefusesARemovalOutOfOrder(t *testing.T) {
	_, err := film.Budget{UsableUm: 4}.After(film.Removal{LowUm: 2, LikelyUm: 1, HighUm: 3})
	var order *film.OutOfOrderError
	assert.ErrorAs(t, err, &order)
}

package gloss_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/gloss"
)

// ASTM D4039: haze index is 60 degree gloss less 20 degree gloss.
func TestHazeIndexOfAPanel(t *testing.T) {
	at60, err := gloss.Measure(gloss.Meter{Scale: gloss.Gloss60, Resolution: 0.1}, oneSpot([]float64{88, 89, 90}), 0.95)
	require.NoError(t, err)
	at20, err := gloss.Measure(gloss.Meter{Scale: gloss.Gloss20, Resolution: 0.1}, oneSpot([]float64{75, 76, 80}), 0.95)
	require.NoError(t, err)
	got, err := gloss.HazeIndexOf(at60, at20)
	require.NoError(t, err)
	assert.InDelta(t, 12, got.GU, 1e-12)
	assert.InDelta(t, math.Hypot(at60.Uncertainty.Standard, at20.Uncertainty.Standard), got.Uncertainty.Standard, 1e-12)
	assert.Equal(t, "gloss at 60°, spread of readings", got.Uncertainty.Components[0].Source)
	assert.Equal(t, "spread of readings", at60.Uncertainty.Components[0].Source, "the panel is left alone")
}

// ASTM D4039 covers 60 degree gloss above 70 only.
func TestHazeIndexIsForHighGlossOnly(t *testing.T) {
	panel := func(scale gloss.Scale, mean float64) gloss.Panel {
		p, err := gloss.Measure(exact(scale), oneSpot(sample(3, mean, 1)), 0.95)
		require.NoError(t, err)
		return p
	}
	_, err := gloss.HazeIndexOf(panel(gloss.Gloss60, 70), panel(gloss.Gloss20, 50))
	assert.EqualError(t, err, "gloss at 60°: 70 GU is not above 70 and at most 999.44 GU; the haze index is defined for high gloss only")
	_, err = gloss.HazeIndexOf(panel(gloss.Gloss60, 71), panel(gloss.Gloss20, 50))
	assert.NoError(t, err)
	_, err = gloss.HazeIndexOf(panel(gloss.Gloss20, 90), panel(gloss.Gloss60, 80))
	assert.EqualError(t, err, "first scale of the haze index: gloss at 20° does not fit here; use gloss at 60°\n"+
		"second scale of the haze index: gloss at 60° does not fit here; use gloss at 20°")
}

func TestHazeIndexGainPairsAllFour(t *testing.T) {
	at60 := before(gloss.Meter{Scale: gloss.Gloss60, Resolution: 0.1},
		singles([]float64{85, 86, 84}, 0), singles([]float64{88, 88, 88}, 0))
	at20 := before(gloss.Meter{Scale: gloss.Gloss20, Resolution: 0.1},
		singles([]float64{70, 72, 69}, 0), singles([]float64{71, 73, 68}, 0))
	got, err := gloss.HazeIndexGain(at60, at20, 0.95)
	require.NoError(t, err)
	// Index before 15 14 15, after 17 15 20: differences 2 1 5, mean 8/3, sd √(13/3).
	assert.Equal(t, gloss.PairedSpots, got.Method)
	assert.Equal(t, gloss.HazeIndex, got.Scale)
	assert.InDelta(t, 8.0/3, got.Mean, 1e-12)
	assert.InDelta(t, math.Sqrt(13.0/9+4*0.01/12), got.Standard, 1e-12)
}

func TestHazeIndexGainOnOneSpotIsWelchOverFour(t *testing.T) {
	at60 := before(exact(gloss.Gloss60), oneSpot(sample(3, 85, 1)), oneSpot(sample(4, 88, 1.5)))
	at20 := before(exact(gloss.Gloss20), oneSpot(sample(5, 70, 2)), oneSpot(sample(6, 75, 0.5)))
	got, err := gloss.HazeIndexGain(at60, at20, 0.95)
	require.NoError(t, err)
	assert.Equal(t, gloss.OneSpot, got.Method)
	assert.InDelta(t, 3-5, got.Mean, 1e-12)
	assert.InDelta(t, math.Sqrt(1.0/3+2.25/4+4.0/5+0.25/6), got.Standard, 1e-12)
	at20.Before = oneSpot([]float64{70})
	_, err = gloss.HazeIndexGain(at60, at20, 0.95)
	assert.ErrorContains(t, err, "before at 20° readings: have 1, need at least 2")
}

func TestHazeIndexGainChecksBothOccasions(t *testing.T) {
	at20 := before(exact(gloss.Gloss20), oneSpot(sample(3, 50, 1)), oneSpot(sample(3, 60, 1)))
	at60 := before(exact(gloss.Gloss60), oneSpot(sample(3, 65, 1)), oneSpot(sample(3, 80, 1)))
	_, err := gloss.HazeIndexGain(at60, at20, 0.95)
	assert.ErrorContains(t, err, "gloss at 60° before: 65 GU")
	_, err = gloss.HazeIndexGain(at20, at60, 0.95)
	assert.ErrorContains(t, err, "first scale of the haze index")
}

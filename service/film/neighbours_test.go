package film_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/film"
)

func panelOf(t *testing.T, name string, s film.Substrate, spots ...film.Spot) film.Measured {
	t.Helper()
	return measure(t, ordinary, film.Panel{Name: name, Substrate: s, Spots: spots}, 95)
}

func TestGreatestStepIsTheLargestOfEitherSign(t *testing.T) {
	door := panelOf(t, "door", film.Steel, flat("a", 110), flat("b", 112))
	wing := panelOf(t, "wing", film.Steel, flat("a", 130), flat("b", 132))
	rear := panelOf(t, "rear wing", film.Steel, flat("a", 171), flat("b", 175))

	step, err := film.GreatestStep(&door, []*film.Measured{&wing, &rear}, 95)
	require.NoError(t, err)
	require.NotNil(t, step)
	assert.Equal(t, "door", step.From)
	assert.Equal(t, "rear wing", step.To)
	assert.Equal(t, film.Microns(-62), step.DiffUm)

	back, err := film.GreatestStep(&rear, []*film.Measured{&wing, &door}, 95)
	require.NoError(t, err)
	assert.Equal(t, "door", back.To)
	assert.Equal(t, -step.DiffUm, back.DiffUm)
	assert.InDelta(t, float64(step.HalfUm), float64(back.HalfUm), 1e-12)
}

// Two panels that read the same everywhere leave the gauge alone: two limits of 2.1 µm combine to 2.97 µm. An interval of
// 91.67 % reaches exactly √3 standard uncertainties, which is the limit itself.
func TestStepIntervalOfTwoFlatPanels(t *testing.T) {
	one := panelOf(t, "one", film.Steel, flat("a", 110), flat("b", 110))
	two := panelOf(t, "two", film.Steel, flat("a", 110), flat("b", 110))
	step, err := film.GreatestStep(&one, []*film.Measured{&two}, fullLimitPct)
	require.NoError(t, err)
	assert.InDelta(t, 2.97, float64(step.HalfUm), 0.005)
	assert.Zero(t, step.DiffUm)
}

func TestStepOfSingleSpotsUsesTheirReadings(t *testing.T) {
	one := panelOf(t, "one", film.Steel, spot("a", 108, 110, 112))
	two := panelOf(t, "two", film.Steel, spot("a", 128, 130, 132))
	step, err := film.GreatestStep(&one, []*film.Measured{&two}, 95)
	require.NoError(t, err)
	// Scatter: t(2, 97.5 %) = 4.303 on hypot(2, 2)/√3, by the table in the NIST/SEMATECH e-Handbook 1.3.6.7.2.
	assert.Greater(t, float64(step.HalfUm), 4.303*1.633)
	assert.Less(t, float64(step.HalfUm), 4.303*1.633+1)
}

func TestOnlyPanelsOfTheSameSubstrateAndLayerCompare(t *testing.T) {
	door := panelOf(t, "door", film.Steel, flat("a", 110))
	bonnet := panelOf(t, "bonnet", film.Aluminium, flat("a", 190))
	top := measureTop(t, 40)
	step, err := film.GreatestStep(&door, []*film.Measured{&bonnet, &top}, 95)
	require.NoError(t, err)
	assert.Nil(t, step)

	step, err = film.GreatestStep(&door, nil, 95)
	require.NoError(t, err)
	assert.Nil(t, step)
}

func TestGreatestStepRefusesAConfidenceOutOfRange(t *testing.T) {
	door := panelOf(t, "door", film.Steel, flat("a", 110))
	_, err := film.GreatestStep(&door, []*film.Measured{&door}, 100)
	assert.ErrorContains(t, err, "confidence_pct is 100, allowed is 50 to 99.9 %")
}

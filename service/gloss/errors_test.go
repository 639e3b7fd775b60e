package gloss_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/gloss"
)

func TestGainReportsEveryBadReadingAtOnce(t *testing.T) {
	trial := gloss.BeforeAfter{
		Meter: gloss.Meter{Scale: gloss.Gloss60, Resolution: 0.1},
		Before: []gloss.Spot{
			{Name: "hood 1", Readings: []float64{80, -1, math.NaN()}},
			{Name: "hood 1", Readings: []float64{80}},
			{Readings: []float64{80}},
		},
		After: []gloss.Spot{{Name: "hood 1", Readings: []float64{1200}}, {Name: "hood 2"}},
	}
	_, err := trial.Gain(0.95)
	require.EqualError(t, err, `before spot "hood 1" reading 2: -1 GU is outside 0 to 999.44 GU; read the spot again, or leave the reading out
before spot "hood 1" reading 3: NaN GU is outside 0 to 999.44 GU; read the spot again, or leave the reading out
before spot "hood 1": named twice; put all its readings in one list
before spot "": a spot needs a name, so that it can be found again
after spot "hood 1" reading 1: 1200 GU is outside 0 to 999.44 GU; read the spot again, or leave the reading out
after spot "hood 2" readings: have 0, need at least 1; leave out a spot that was not read`)
	var limits *gloss.RangeError
	require.ErrorAs(t, err, &limits)
	assert.Equal(t, -1.0, limits.Value)
	var spot *gloss.SpotError
	require.ErrorAs(t, err, &spot)
	assert.Equal(t, "before", spot.Side)
	var count *gloss.CountError
	require.ErrorAs(t, err, &count)
	assert.Equal(t, 1, count.Need)
}

func TestBadInputIsRefused(t *testing.T) {
	good := oneSpot([]float64{80, 81})
	for name, c := range map[string]struct {
		meter gloss.Meter
		spots []gloss.Spot
		want  string
	}{
		"no scale":            {gloss.Meter{}, good, "meter scale: no scale does not fit here; use gloss at 20°, gloss at 60°, gloss at 85°, haze"},
		"haze index is read":  {gloss.Meter{Scale: gloss.HazeIndex}, good, "meter scale: haze index does not fit here; use gloss at 20°, gloss at 60°, gloss at 85°, haze"},
		"negative accuracy":   {gloss.Meter{Scale: gloss.Gloss85, Accuracy: -2}, good, "meter accuracy: -2 GU is outside 0 to 161.512 GU; give the largest error the meter's certificate states"},
		"resolution unknown":  {gloss.Meter{Scale: gloss.Haze, Resolution: math.NaN()}, good, "meter resolution: NaN HU is not 0 HU or more; give the step the display moves in"},
		"endless haze":        {gloss.Meter{Scale: gloss.Haze}, oneSpot([]float64{1, math.Inf(1)}), `spot "a" reading 2: +Inf HU is not 0 HU or more; read the spot again, or leave the reading out`},
		"no spots":            {exact(gloss.Gloss60), nil, "spots: have 0, need at least 1; read at least one taped spot"},
		"one reading":         {exact(gloss.Gloss60), oneSpot([]float64{80}), "readings of the only spot: have 1, need at least 2; set the meter down again for at least three readings"},
		"readings all alike":  {exact(gloss.Gloss60), oneSpot([]float64{80, 80}), gloss.ErrNoSpread.Error()},
		"more than a mirror":  {exact(gloss.Gloss85), oneSpot([]float64{99, 162}), `spot "a" reading 2: 162 GU is outside 0 to 161.512 GU; read the spot again, or leave the reading out`},
		"infinite resolution": {gloss.Meter{Scale: gloss.Gloss20, Resolution: math.Inf(1)}, good, "meter resolution: +Inf GU is outside 0 to 2037.57 GU; give the step the display moves in"},
	} {
		_, err := gloss.Measure(c.meter, c.spots, 0.95)
		assert.EqualError(t, err, c.want, name)
	}
}

func TestBadMeterOrConfidenceFailsAGainToo(t *testing.T) {
	spots := oneSpot([]float64{80, 81})
	_, err := before(gloss.Meter{}, spots, spots).Gain(0.95)
	assert.ErrorContains(t, err, "meter scale")
	_, err = before(exact(gloss.Gloss60), spots, spots).Gain(1)
	assert.ErrorContains(t, err, "confidence: 1 is outside 0.5 to 0.9999")
	_, err = before(exact(gloss.Gloss60), nil, nil).Gain(0.95)
	assert.EqualError(t, err, "before spots: have 0, need at least 1; read at least one taped spot\n"+
		"after spots: have 0, need at least 1; read at least one taped spot")
}

func TestOpticsRefuse(t *testing.T) {
	_, err := gloss.CeilingGU(gloss.Haze, 1.5)
	assert.EqualError(t, err, "scale: haze does not fit here; use gloss at 20°, gloss at 60°, gloss at 85°")
	_, err = gloss.CeilingGU(gloss.Gloss20, 1500)
	assert.EqualError(t, err, "refractive index: 1500 is outside 1 to 3; clear coats lie near 1.5")
	_, err = gloss.HazeIndexFloorGU(math.NaN())
	assert.ErrorContains(t, err, "refractive index: NaN is outside")
	_, err = gloss.Fresnel(1.5, 91)
	assert.EqualError(t, err, "angle of incidence: 91 degrees is outside 0 to 90 degrees")
	_, err = gloss.Attenuation(gloss.Gloss20, -1, 550)
	assert.EqualError(t, err, "RMS height: -1 nm is not 0 nm or more")

	panel, err := gloss.Measure(exact(gloss.Haze), oneSpot([]float64{80, 81}), 0.95)
	require.NoError(t, err)
	_, err = gloss.HeadroomOf(panel, gloss.Index{N: 1.5})
	assert.ErrorContains(t, err, "panel scale: haze does not fit here")
	panel.Scale = gloss.Gloss20
	_, err = gloss.HeadroomOf(panel, gloss.Index{N: 1.5, HalfWidth: -0.1})
	assert.EqualError(t, err, "refractive index half width: -0.1 is outside 0 to 0.2")
	_, err = gloss.HeadroomOf(panel, gloss.Index{N: 1.05, HalfWidth: 0.1})
	assert.ErrorContains(t, err, "refractive index: 0.95 is outside 1 to 3")
	_, err = gloss.HeadroomOf(gloss.Panel{Scale: gloss.Gloss20}, gloss.Index{N: 1.5})
	assert.ErrorContains(t, err, "confidence: 0 is outside")
}

func TestWordsForPeople(t *testing.T) {
	for want, got := range map[string]interface{ String() string }{
		"gloss at 20°": gloss.Gloss20, "gloss at 85°": gloss.Gloss85, "haze": gloss.Haze, "haze index": gloss.HazeIndex, "no scale": gloss.Scale(0),
		"the same spots before and after": gloss.PairedSpots, "no method": gloss.Method(0),
		"not conclusive": gloss.NotConclusive, "a loss": gloss.Loss, "no verdict": gloss.Verdict(0),
		"wholly below the limit": gloss.Below, "no side": gloss.Side(0),
		"more readings at the same spots now": gloss.AfterReadings, "nothing": gloss.RemedyKind(0),
		"the gain sits exactly on the limit": gloss.OnTheLimit, "none": gloss.Obstacle(0),
	} {
		assert.Equal(t, want, got.String())
	}
	assert.Equal(t, "HU", gloss.Haze.Unit())
	assert.Equal(t, "GU", gloss.HazeIndex.Unit())
	assert.Empty(t, gloss.Scale(0).Unit())
}

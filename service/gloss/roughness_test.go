package gloss_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/gloss"
)

// Values of the formula at 550 nm computed independently with Python 3. The formula itself is from memory, so these
// hold the code to it and prove nothing of nature; the polymers below do that.
func TestAttenuationValues(t *testing.T) {
	for _, c := range []struct{ s, at20, at60, at85 float64 }{
		{0, 1, 1, 1},
		{1, 0.999539, 0.999870, 0.999996},
		{10, 0.954950, 0.987034, 0.999604},
		{20, 0.831615, 0.949136, 0.998415},
		{50, 0.315875, 0.721612, 0.990135},
		{100, 0.009956, 0.271153, 0.961122},
	} {
		for scale, want := range map[gloss.Scale]float64{gloss.Gloss20: c.at20, gloss.Gloss60: c.at60, gloss.Gloss85: c.at85} {
			got, err := gloss.Attenuation(scale, c.s, 550)
			require.NoError(t, err)
			assert.InDelta(t, want, got, 6e-7, "%v nm, %v", c.s, scale)
		}
	}
}

// Only s/λ matters: the Gaussian fall found by Simonsen et al., Phys. Rev. A 79, 063813 (2009).
func TestAttenuationDependsOnHeightOverWavelength(t *testing.T) {
	for _, s := range []float64{1, 7, 30} {
		one, err := gloss.Attenuation(gloss.Gloss20, s, 400)
		require.NoError(t, err)
		two, err := gloss.Attenuation(gloss.Gloss20, s*1.5, 600)
		require.NoError(t, err)
		assert.InDelta(t, one, two, 1e-12)
	}
}

func TestOpticalRoughnessInvertsAttenuation(t *testing.T) {
	for _, scale := range []gloss.Scale{gloss.Gloss20, gloss.Gloss60} {
		top, err := gloss.CeilingGU(scale, 1.50)
		require.NoError(t, err)
		for _, s := range []float64{0, 0.5, 4, 18, 40, 70} {
			share, err := gloss.Attenuation(scale, s, 550)
			require.NoError(t, err)
			got, err := gloss.OpticalRoughnessOf(scale, top*share, 1.50, 550)
			require.NoError(t, err)
			assert.InDelta(t, s, got.EffectiveNm, 1e-6, "%v", scale)
		}
	}
}

// The limits at 550 nm are 73.2 and 137.5 nm, the stricter ones 18.3 and 34.4 nm (criteria from memory).
func TestOpticalRoughnessKnowsItsLimits(t *testing.T) {
	for scale, limit := range map[gloss.Scale]struct{ strict, rayleigh float64 }{
		gloss.Gloss20: {18.3, 73.2},
		gloss.Gloss60: {34.4, 137.5},
	} {
		at := func(s float64) (gloss.OpticalRoughness, error) {
			top, err := gloss.CeilingGU(scale, 1.50)
			require.NoError(t, err)
			share, err := gloss.Attenuation(scale, s, 550)
			require.NoError(t, err)
			return gloss.OpticalRoughnessOf(scale, top*share, 1.50, 550)
		}
		sound, err := at(limit.strict - 0.1)
		require.NoError(t, err)
		assert.False(t, sound.Doubtful)
		rough, err := at(limit.strict + 0.1)
		require.NoError(t, err)
		assert.True(t, rough.Doubtful)
		_, err = at(limit.rayleigh - 0.1)
		require.NoError(t, err)
		_, err = at(limit.rayleigh + 0.1)
		var out *gloss.RangeError
		require.ErrorAs(t, err, &out)
		assert.Equal(t, scale.String(), out.Field)
	}
}

// Operative Dentistry 38(1), E9 (2013): polymer composites polished five ways. The glossiest group read 88.4 GU at 60
// degrees with Sa 133.6 nm by profilometer, the dullest 30.3 GU with Sq 748.7 nm. What gloss gives back is far less, so the
// result may never be shown as a profilometer's.
func TestOpticalRoughnessIsNotAProfilometers(t *testing.T) {
	for _, c := range []struct{ gu, profilometerNm, wantNm float64 }{
		{88.4, 133.6, 7.98},
		{30.3, 748.7, 90.93},
	} {
		got, err := gloss.OpticalRoughnessOf(gloss.Gloss60, c.gu, 1.50, 550)
		require.NoError(t, err)
		assert.InDelta(t, c.wantNm, got.EffectiveNm, 0.02)
		assert.Less(t, got.EffectiveNm, c.profilometerNm/8)
		predicted, err := gloss.Attenuation(gloss.Gloss60, c.profilometerNm, 550)
		require.NoError(t, err)
		assert.Less(t, 89.14*predicted, c.gu/3, "the formula on the profilometer's figure foretells far less gloss than was read")
	}
	named, err := gloss.OpticalRoughnessOf(gloss.Gloss60, 88, 1.50, 550)
	require.NoError(t, err)
	assert.Contains(t, named.String(), "nm effective optical roughness, not a profilometer's")
}

func TestOpticalRoughnessRefuses(t *testing.T) {
	for name, c := range map[string]struct {
		scale         gloss.Scale
		gu, n, lambda float64
		want          string
	}{
		"grazing angle":     {gloss.Gloss85, 95, 1.5, 550, "scale: gloss at 85° does not fit here; use gloss at 20°, gloss at 60°"},
		"haze":              {gloss.Haze, 95, 1.5, 550, "scale: haze does not fit here; use gloss at 20°, gloss at 60°"},
		"above the ceiling": {gloss.Gloss20, 83, 1.5, 550, "gloss at 20°: 83 GU is not above 6.95784 and at most 82.0452 GU; no effective optical roughness can be given"},
		"index":             {gloss.Gloss20, 80, 0.5, 550, "refractive index: 0.5 is outside 1 to 3; clear coats lie near 1.5"},
		"infrared":          {gloss.Gloss20, 80, 1.5, 900, "wavelength: 900 nm is outside 380 to 780 nm; 550 nm is the middle of daylight vision"},
	} {
		_, err := gloss.OpticalRoughnessOf(c.scale, c.gu, c.n, c.lambda)
		assert.EqualError(t, err, c.want, name)
	}
}

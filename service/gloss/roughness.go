package gloss

import "math"

// Attenuation returns what share of its smooth-surface gloss a surface with an RMS height of s_nm keeps at an angle and
// wavelength: exp[−(4π·s·cos θ/λ)²], the fall of the mirror-like part of scattered light in the smooth-surface limit
// (formula from memory; its Gaussian form in s/λ after Simonsen et al., Phys. Rev. A 79, 063813, 2009). Heights of 0
// and more, wavelengths of 380 to 780 nm.
func Attenuation(scale Scale, sNm, wavelengthNm float64) (float64, error) {
	height := &RangeError{Field: "RMS height", Value: sNm, Max: math.Inf(1), Unit: "nm"}
	if err := height.orNil(); err != nil {
		return 0, err
	}
	perNm, err := phasePerNm(scale, wavelengthNm)
	if err != nil {
		return 0, err
	}
	phase := perNm * sNm
	return math.Exp(-phase * phase), nil
}

// OpticalRoughness is the RMS height that, spread finely over an otherwise perfect surface, would explain a gloss.
type OpticalRoughness struct {
	EffectiveNm float64
	// Doubtful is set beyond λ/(32·cos θ), where the formula is only a rough guide.
	Doubtful bool
}

// String names the figure for what it is.
func (r OpticalRoughness) String() string {
	return number(r.EffectiveNm) + " nm effective optical roughness, not a profilometer's"
}

// OpticalRoughnessOf turns a gloss into an effective optical roughness under the ceiling for index n. It is a way to
// compare surfaces by their loss of gloss, and nothing a profilometer would find: polished polymers measured both
// ways differ by more than tenfold, since slow waviness scatters inside the meter's own window.
//
// It refuses, with a [*RangeError], a gloss above the ceiling and a result past the Rayleigh limit λ/(8·cos θ) (from
// memory); and, with a [*ScaleError], 85 degrees, where the theory's small angles do not hold.
func OpticalRoughnessOf(scale Scale, readingGU, n, wavelengthNm float64) (OpticalRoughness, error) {
	if scale != Gloss20 && scale != Gloss60 {
		return OpticalRoughness{}, &ScaleError{Field: "scale", Scale: scale, Allowed: []Scale{Gloss20, Gloss60}}
	}
	if err := checkIndex(n); err != nil {
		return OpticalRoughness{}, err
	}
	perNm, err := phasePerNm(scale, wavelengthNm)
	if err != nil {
		return OpticalRoughness{}, err
	}
	// s = λ/(8·cos θ) makes the phase 4π·s·cos θ/λ exactly π/2; a quarter of that height makes it π/8.
	const rayleighPhase, strictPhase = math.Pi / 2, math.Pi / 8
	top := ceiling(scale, n)
	reading := &RangeError{
		Field: scale.String(), Value: readingGU, Min: top * math.Exp(-rayleighPhase*rayleighPhase), Max: top,
		MinOpen: true, Unit: "GU", Advice: "no effective optical roughness can be given",
	}
	if err := reading.orNil(); err != nil {
		return OpticalRoughness{}, err
	}
	phase := math.Sqrt(math.Log(top / readingGU))
	return OpticalRoughness{EffectiveNm: phase / perNm, Doubtful: phase > strictPhase}, nil
}

// phasePerNm is 4π·cos θ/λ.
func phasePerNm(scale Scale, wavelengthNm float64) (float64, error) {
	if err := scale.checkGloss("scale"); err != nil {
		return 0, err
	}
	light := &RangeError{
		Field: "wavelength", Value: wavelengthNm, Min: 380, Max: 780, Unit: "nm",
		Advice: "550 nm is the middle of daylight vision",
	}
	if err := light.orNil(); err != nil {
		return 0, err
	}
	deg, _ := scale.Degrees()
	return 4 * math.Pi * math.Cos(deg*math.Pi/180) / wavelengthNm, nil
}

package gloss

import "math"

// Reflectance is the share of light a smooth surface sends back, 0 to 1.
type Reflectance struct {
	Rs, Rp float64 // across and along the plane of incidence
	R      float64 // unpolarised: their mean
}

// Fresnel returns the reflectance of a smooth clear surface of refractive index n, 1 to 3, seen from air at an angle
// of incidence of 0 to 90 degrees: Fresnel's equations for a real index (as ISO 2813 uses them for its reference).
func Fresnel(n, deg float64) (Reflectance, error) {
	if err := checkIndex(n); err != nil {
		return Reflectance{}, err
	}
	angle := &RangeError{Field: "angle of incidence", Value: deg, Max: 90, Unit: "degrees"}
	if err := angle.orNil(); err != nil {
		return Reflectance{}, err
	}
	return fresnel(n, deg), nil
}

func fresnel(n, deg float64) Reflectance {
	sin, cos := math.Sincos(deg * math.Pi / 180)
	q := math.Sqrt(n*n - sin*sin)
	s := (cos - q) / (cos + q)
	p := (n*n*cos - q) / (n*n*cos + q)
	return Reflectance{Rs: s * s, Rp: p * p, R: (s*s + p*p) / 2}
}

// CeilingGU returns what a perfectly smooth surface of refractive index n reads on a gloss scale: the most a clear
// coat of that index can show by its own reflection. Flakes below the clear can add to it. It is 100 GU
// for [ReferenceIndex] only: clear coats have a lower index.
func CeilingGU(scale Scale, n float64) (float64, error) {
	if err := scale.checkGloss("scale"); err != nil {
		return 0, err
	}
	if err := checkIndex(n); err != nil {
		return 0, err
	}
	return ceiling(scale, n), nil
}

func ceiling(scale Scale, n float64) float64 {
	deg, _ := scale.Degrees()
	return 100 * fresnel(n, deg).R / fresnel(ReferenceIndex, deg).R
}

// HazeIndexFloorGU returns the haze index of a perfectly smooth surface of refractive index n. It is not zero: a reading
// below it does not mean less haze than none, but another index or a meter out of calibration.
func HazeIndexFloorGU(n float64) (float64, error) {
	if err := checkIndex(n); err != nil {
		return 0, err
	}
	return ceiling(Gloss60, n) - ceiling(Gloss20, n), nil
}

func checkIndex(n float64) error {
	limits := &RangeError{
		Field: "refractive index", Value: n, Min: 1, Max: 3,
		Advice: "clear coats lie near 1.5",
	}
	return limits.orNil()
}

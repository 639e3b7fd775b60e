package gloss

import "math"

// ReferenceIndex is the refractive index (at 587.6 nm) of the black glass that reads 100 GU at every angle:
// ISO 2813 and ASTM D523. Paper gloss methods use another glass, so their numbers are not these.
const ReferenceIndex = 1.567

// Scale is what a reading counts. The zero value is no scale and is refused.
type Scale uint8

// The scales a reading or a result can be on.
const (
	// Gloss20 tells good from better on high gloss.
	Gloss20 Scale = iota + 1
	// Gloss60 is where every measurement starts.
	Gloss60
	// Gloss85 is for dull surfaces.
	Gloss85
	// Haze is the haze a meter shows by itself, in haze units.
	Haze
	// HazeIndex is 60 degree gloss less 20 degree gloss (ASTM D4039). It is reckoned, never read.
	HazeIndex
)

// String returns the name a person reads, such as "gloss at 60°".
func (s Scale) String() string {
	switch s {
	case Gloss20:
		return "gloss at 20°"
	case Gloss60:
		return "gloss at 60°"
	case Gloss85:
		return "gloss at 85°"
	case Haze:
		return "haze"
	case HazeIndex:
		return "haze index"
	}
	return "no scale"
}

// Unit returns "GU", "HU", or nothing for no scale.
func (s Scale) Unit() string {
	switch s {
	case Gloss20, Gloss60, Gloss85, HazeIndex:
		return "GU"
	case Haze:
		return "HU"
	}
	return ""
}

// Degrees returns the angle of incidence of a gloss scale; ok is false for the others.
func (s Scale) Degrees() (deg float64, ok bool) {
	switch s {
	case Gloss20:
		return 20, true
	case Gloss60:
		return 60, true
	case Gloss85:
		return 85, true
	}
	return 0, false
}

// Max returns the largest reading that can be true: what a perfect mirror reads on a gloss scale. The haze scale has
// no published end and returns +Inf.
func (s Scale) Max() float64 {
	deg, ok := s.Degrees()
	if !ok {
		return math.Inf(1)
	}
	return 100 / fresnel(ReferenceIndex, deg).R
}

// checkReadable refuses scales that no meter shows.
func (s Scale) checkReadable(field string) error {
	switch s {
	case Gloss20, Gloss60, Gloss85, Haze:
		return nil
	}
	return &ScaleError{Field: field, Scale: s, Allowed: []Scale{Gloss20, Gloss60, Gloss85, Haze}}
}

// checkGloss refuses scales without an angle.
func (s Scale) checkGloss(field string) error {
	if _, ok := s.Degrees(); ok {
		return nil
	}
	return &ScaleError{Field: field, Scale: s, Allowed: []Scale{Gloss20, Gloss60, Gloss85}}
}

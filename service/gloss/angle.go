package gloss

// The 60 degree readings at which another angle tells more: ISO 2813 and ASTM D523. Both ends are strict, so 70 and 10
// themselves stay at 60 degrees.
const (
	HighGloss60GU = 70.0
	LowGloss60GU  = 10.0
)

// ScaleFor returns the scale to read, given what the panel reads at 60 degrees: [Gloss20] above [HighGloss60GU], [Gloss85]
// below [LowGloss60GU], [Gloss60] between.
func ScaleFor(at60GU float64) (Scale, error) {
	reading := &RangeError{Field: "gloss at 60°", Value: at60GU, Max: Gloss60.Max(), Unit: "GU"}
	if err := reading.orNil(); err != nil {
		return 0, err
	}
	switch {
	case at60GU > HighGloss60GU:
		return Gloss20, nil
	case at60GU < LowGloss60GU:
		return Gloss85, nil
	}
	return Gloss60, nil
}

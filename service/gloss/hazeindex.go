package gloss

import "errors"

// HazeIndexReading is a panel's haze index with its uncertainty.
type HazeIndexReading struct {
	GU          float64
	Uncertainty Uncertainty
}

// HazeIndexOf returns 60 degree gloss less 20 degree gloss (ASTM D4039), for meters that show no haze. The standard covers
// surfaces above 70 GU at 60 degrees only; others return a [*RangeError]. The accuracies of the two angles are taken
// as independent. Compare it with [HazeIndexFloorGU], not with zero. The confidence is that of the 60 degree panel.
func HazeIndexOf(at60, at20 Panel) (HazeIndexReading, error) {
	if err := checkIndexScales(at60.Scale, at20.Scale); err != nil {
		return HazeIndexReading{}, err
	}
	if err := checkHighGloss("gloss at 60°", at60.Mean); err != nil {
		return HazeIndexReading{}, err
	}
	var parts []Component
	for _, panel := range []Panel{at60, at20} {
		for _, c := range panel.Uncertainty.Components {
			c.Source = panel.Scale.String() + ", " + c.Source
			parts = append(parts, c)
		}
	}
	u, err := Combine(at60.Uncertainty.Confidence, parts...)
	if err != nil {
		return HazeIndexReading{}, err
	}
	return HazeIndexReading{GU: at60.Mean - at20.Mean, Uncertainty: u}, nil
}

// HazeIndexGain returns how much the haze index changed, compared as [BeforeAfter.Gain] does: spot by spot where two
// spots or more were read at both angles on both occasions. A positive gain is more haze. Both occasions must read above
// 70 GU at 60 degrees.
func HazeIndexGain(at60, at20 BeforeAfter, confidence float64) (Gain, error) {
	if err := checkIndexScales(at60.Meter.Scale, at20.Meter.Scale); err != nil {
		return Gain{}, err
	}
	if err := errors.Join(at60.check(), at20.check()); err != nil {
		return Gain{}, err
	}
	strands := at60.strands(1)
	for _, s := range strands {
		mean, _ := meanVariance(meansOf(s.means))
		if err := checkHighGloss("gloss at 60° "+s.label, mean); err != nil {
			return Gain{}, err
		}
	}
	strands = append(strands, at20.strands(-1)...)
	for i, angle := range []string{"60°", "60°", "20°", "20°"} {
		strands[i].label += " at " + angle
	}
	return contrast(HazeIndex, strands, at60.resolution()+at20.resolution(), confidence)
}

func checkIndexScales(at60, at20 Scale) error {
	var problems []error
	if at60 != Gloss60 {
		problems = append(problems, &ScaleError{Field: "first scale of the haze index", Scale: at60, Allowed: []Scale{Gloss60}})
	}
	if at20 != Gloss20 {
		problems = append(problems, &ScaleError{Field: "second scale of the haze index", Scale: at20, Allowed: []Scale{Gloss20}})
	}
	return errors.Join(problems...)
}

func checkHighGloss(field string, meanGU float64) error {
	limits := &RangeError{
		Field: field, Value: meanGU, Min: HighGloss60GU, Max: Gloss60.Max(), MinOpen: true, Unit: "GU",
		Advice: "the haze index is defined for high gloss only",
	}
	return limits.orNil()
}

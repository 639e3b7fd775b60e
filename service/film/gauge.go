package film

import "errors"

// Gauge is the instrument that took the readings.
type Gauge struct {
	Kind     GaugeKind
	Accuracy Accuracy
	// StepUm is the smallest step of the display; zero means that it is not stated and adds nothing.
	StepUm Microns
}

// Accuracy is the maker's statement of how far a reading may be off, in one of the two usual forms:
// ±(a µm + b %) of the reading, or ±a µm or ±b %, whichever is greater. The zero value means "not stated" and is
// refused, for a gauge without a stated accuracy is not a perfect gauge.
type Accuracy struct {
	FixedUm Microns
	Percent float64
	// GreaterOf picks the second form.
	GreaterOf bool
}

// Limit is the stated bound at a reading, a half width: the true film lies within the reading ± Limit.
func (a Accuracy) Limit(reading Microns) Microns {
	part := Microns(a.Percent/100) * reading
	if a.GreaterOf {
		return max(a.FixedUm, part)
	}
	return a.FixedUm + part
}

// Check returns every complaint about the gauge's figures, each a [*RangeError].
func (g Gauge) Check() error {
	fixed, percent := g.Accuracy.FixedUm, g.Accuracy.Percent
	errs := []error{
		checkThickness("gauge accuracy_um", fixed),
		checkRange("gauge accuracy_pct", percent, 0, 100, "0 to 100 %"),
		checkThickness("gauge step_um", g.StepUm),
	}
	if fixed == 0 && percent == 0 {
		errs = append(errs, &RangeError{"gauge accuracy_um", 0, "over 0 µm, or over 0 % in accuracy_pct, as the gauge's papers state"})
	}
	return errors.Join(errs...)
}

// standardUm is what the gauge itself contributes at a reading, as a standard uncertainty. Nothing is known of how the
// error lies within the stated limit, so it is taken as equally likely anywhere in it: limit/√3 (GUM, JCGM 100:2008,
// 4.3.7); rounding to the display step adds step/√12 (GUM F.2.2.1). It does not average out over readings, since a
// gauge that is 1 % high is 1 % high everywhere.
func (g Gauge) standardUm(reading Microns) Microns {
	return hypot(g.Accuracy.Limit(reading)/sqrt(3), g.roundingUm())
}

func (g Gauge) roundingUm() Microns { return g.StepUm / sqrt(12) }

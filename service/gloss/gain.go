package gloss

import (
	"errors"
	"math"
)

// BeforeAfter is what one meter read on one scale before and after a step.
type BeforeAfter struct {
	Meter         Meter
	Before, After []Spot
}

// Gain is after less before, with the interval that holds the true gain at the given confidence. It is positive when
// the value rose, on the haze scales too. Values are in the unit of Scale.
type Gain struct {
	Scale      Scale
	Mean       float64
	Low, High  float64
	Confidence float64
	Standard   float64 // combined standard uncertainty of Mean
	Components []Component
	DF         float64 // of the spread; +Inf when there is none and the display step is all
	Method     Method
	Spots      []string // the spots the gain rests on, each once
	LeftOut    []string // spots measured on one occasion only, or otherwise not used

	evidence evidence
}

// Real says that the value rose for certain, at the gain's confidence, whether or not by enough to matter.
func (g Gain) Real() bool { return g.Low > 0 }

// Gain compares the two occasions. Where at least two spots were read on both, the difference is taken spot by spot and
// judged by paired t; otherwise by Welch's t, see [Method].
//
// The meter's stated accuracy does not appear: an offset is the same before and after and drops out of the difference,
// so this holds only for the same meter, not recalibrated in between. What remains is the spread seen in the
// readings and the display step, once for each occasion. The step's share is not divided by the number of readings
// or spots, since values that agree may all be rounded the same way. The spread is expanded by Student's t, the step
// by the normal quantile, and the two are added in quadrature (as ASME PTC 19.1 once did, from memory).
//
// Every bad reading of both occasions is reported at once. Too few readings for any interval return a [*CountError];
// readings without spread on a meter without display step return [ErrNoSpread].
func (b BeforeAfter) Gain(confidence float64) (Gain, error) {
	if err := b.check(); err != nil {
		return Gain{}, err
	}
	return contrast(b.Meter.Scale, b.strands(1), b.resolution(), confidence)
}

func (b BeforeAfter) check() error {
	if err := b.Meter.check(); err != nil {
		return err
	}
	return errors.Join(
		checkSpots("before", b.Meter.Scale, b.Before),
		checkSpots("after", b.Meter.Scale, b.After))
}

// resolution is the display step's variance in a difference of two occasions.
func (b BeforeAfter) resolution() float64 {
	step := DisplayStep(b.Meter.Resolution)
	return 2 * step * step
}

func (b BeforeAfter) strands(sign float64) []strand {
	return []strand{
		{label: "before", sign: -sign, spots: b.Before, means: summarise(b.Meter.Scale, b.Before)},
		{label: "after", sign: sign, after: true, spots: b.After, means: summarise(b.Meter.Scale, b.After)},
	}
}

// strand is one set of spots with the sign it enters a gain by.
type strand struct {
	label string
	sign  float64
	after bool
	spots []Spot
	means []SpotMean
}

// contrast adds up strands by their signs and gives the sum, which is on the scale named, an interval.
func contrast(scale Scale, strands []strand, resolution, confidence float64) (Gain, error) {
	if err := checkConfidence(confidence); err != nil {
		return Gain{}, err
	}
	gain, err := compare(strands)
	if err != nil {
		return Gain{}, err
	}
	gain.Scale, gain.evidence.resolution = scale, resolution
	u, err := gain.evidence.uncertainty(confidence)
	if err != nil {
		return Gain{}, err
	}
	gain.Confidence, gain.Standard, gain.DF, gain.Components = confidence, u.Standard, u.DF, u.Components
	gain.Low, gain.High = gain.Mean-u.Expanded, gain.Mean+u.Expanded
	return gain, nil
}

// evidence is what a gain's interval was made from, kept so that it can be asked what more readings would do. Either
// groups or differences are in use.
type evidence struct {
	resolution  float64
	groups      []group
	differences differences
}

// group is one sample in Welch's formula: spot means or single readings.
type group struct {
	label    string
	variance float64
	count    int
	after    bool
}

// differences is one sample of spot by spot differences, and how much of their variance comes from the repeats on the
// worked paint.
type differences struct {
	variance float64
	count    int
	repeats  []repeats
}

// repeats is the variance of a single reading on the worked paint and how many were taken at each spot.
type repeats struct {
	variance float64
	counts   []int
}

// share is what repeats add to the variance of a spot's mean, were extra readings taken at each spot.
func (r repeats) share(extra int) float64 {
	var sum float64
	for _, n := range r.counts {
		sum += 1 / float64(n+extra)
	}
	return r.variance * sum / float64(len(r.counts))
}

// uncertainty expands the spread and the display step each by its own factor and adds the two in quadrature. One
// factor from pooled degrees of freedom would not do: a known part, however small, raises them just when a few spots
// happen to agree, and intervals over two spots then hold the truth nine times in ten instead of nineteen in twenty.
// This way the interval is never narrower than Student's alone.
func (e evidence) uncertainty(confidence float64) (Uncertainty, error) {
	u, err := Combine(confidence, e.spread()...)
	step := math.Sqrt(e.resolution)
	switch {
	case errors.Is(err, ErrNoSpread) && step > 0:
		u = Uncertainty{Components: e.spread(), DF: math.Inf(1), Confidence: confidence}
	case err != nil:
		return Uncertainty{}, err
	}
	known := Component{Source: "display step", Standard: step, DF: math.Inf(1)}
	u.Components = append(u.Components, known)
	u.Standard = math.Hypot(u.Standard, step)
	u.Expanded = math.Hypot(u.Expanded, coverage(known.DF, confidence)*step)
	u.K = u.Expanded / u.Standard
	return u, nil
}

// spread lists what the readings themselves say of their uncertainty.
func (e evidence) spread() []Component {
	if e.differences.count > 0 {
		return []Component{standardError("spread between spots", e.differences.variance, e.differences.count)}
	}
	parts := make([]Component, len(e.groups))
	for i, g := range e.groups {
		parts[i] = standardError("spread "+g.label, g.variance, g.count)
	}
	return parts
}

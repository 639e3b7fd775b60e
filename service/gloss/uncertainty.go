package gloss

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// Component is one source of uncertainty, as a standard uncertainty with its degrees of freedom. DF is +Inf for a
// figure taken as known.
type Component struct {
	Source   string
	Standard float64
	DF       float64
}

// Uncertainty is what several independent components come to together.
type Uncertainty struct {
	Components []Component
	Standard   float64 // combined standard uncertainty
	DF         float64 // effective degrees of freedom; +Inf when only known figures contribute
	Confidence float64
	K          float64 // coverage factor
	Expanded   float64 // K times Standard: half the width of the interval
}

// Rectangular returns the standard uncertainty of a quantity known only to lie within halfWidth of its value:
// halfWidth/√3, GUM (JCGM 100:2008) 4.3.7.
func Rectangular(halfWidth float64) float64 { return halfWidth / math.Sqrt(3) }

// DisplayStep returns the standard uncertainty that rounding to a display step leaves: step/√12, GUM F.2.2.1.
func DisplayStep(step float64) float64 { return step / math.Sqrt(12) }

// Combine adds components in quadrature (GUM 5.1.2, sensitivities already applied), finds the effective degrees of
// freedom by the Welch-Satterthwaite formula (GUM G.4.1, not cut to a whole number) and expands to the confidence. Where
// most of the uncertainty has one or two degrees of freedom beside a smaller known part, the result is on the narrow side.
// Components that are all zero return [ErrNoSpread].
func Combine(confidence float64, components ...Component) (Uncertainty, error) {
	if err := checkConfidence(confidence); err != nil {
		return Uncertainty{}, err
	}
	var sum, share float64
	for _, c := range components {
		if err := c.check(); err != nil {
			return Uncertainty{}, err
		}
		variance := c.Standard * c.Standard
		sum += variance
		share += variance * variance / c.DF
	}
	if sum == 0 {
		return Uncertainty{}, ErrNoSpread
	}
	u := Uncertainty{Components: slices.Clone(components), Standard: math.Sqrt(sum), DF: sum * sum / share, Confidence: confidence}
	u.K = coverage(u.DF, confidence)
	u.Expanded = u.K * u.Standard
	return u, nil
}

func (c Component) check() error {
	standard := &RangeError{Field: c.Source + " standard uncertainty", Value: c.Standard, Max: math.Inf(1)}
	if err := standard.orNil(); err != nil {
		return err
	}
	return checkDF(c.Source+" degrees of freedom", c.DF)
}

// CoverageFactor returns how many standard uncertainties either side hold the value with the given confidence: the
// two-sided quantile of Student's t. df need not be whole, must be at least 1, and may be +Inf.
func CoverageFactor(df, confidence float64) (float64, error) {
	if err := checkConfidence(confidence); err != nil {
		return 0, err
	}
	if err := checkDF("degrees of freedom", df); err != nil {
		return 0, err
	}
	return coverage(df, confidence), nil
}

// largeDF is where the series in 1/df below is good to better than 1e-9, while the incomplete beta function that the
// exact quantile inverts starts to lose its tail.
const largeDF = 1e4

// coverage works in the lower tail: an upper tail taken as one less the lower loses its digits.
func coverage(df, confidence float64) float64 {
	tail := (1 - confidence) / 2
	if df <= largeDF {
		return -distuv.StudentsT{Sigma: 1, Nu: df}.Quantile(tail)
	}
	// Abramowitz and Stegun, Handbook of Mathematical Functions, 26.7.5.
	z := -distuv.UnitNormal.Quantile(tail)
	z3, z5 := z*z*z, z*z*z*z*z
	return z + (z3+z)/(4*df) + (5*z5+16*z3+3*z)/(96*df*df)
}

func checkConfidence(confidence float64) error {
	limits := &RangeError{
		Field: "confidence", Value: confidence, Min: 0.5, Max: 0.9999,
		Advice: "give 0.95 for 95 %",
	}
	return limits.orNil()
}

func checkDF(field string, df float64) error {
	if math.IsInf(df, 1) {
		return nil
	}
	limits := &RangeError{Field: field, Value: df, Min: 1, Max: math.Inf(1)}
	return limits.orNil()
}

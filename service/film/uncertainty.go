package film

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// quantiles are the multipliers that turn standard uncertainties into a bound at one confidence: Student's t for what
// was seen to scatter, the normal one for what the gauge's papers state.
type quantiles struct{ scatter, gauge Microns }

// below are the quantiles of a bound on one side: the truth lies above it with this confidence.
func below(confidencePct float64, degrees int) quantiles { return at(confidencePct/100, degrees) }

// between are the quantiles of an interval: the truth lies inside with this confidence.
func between(confidencePct float64, degrees int) quantiles {
	return at((1+confidencePct/100)/2, degrees)
}

func at(p float64, degrees int) quantiles {
	t := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(degrees)}
	return quantiles{Microns(t.Quantile(p)), Microns(distuv.UnitNormal.Quantile(p))}
}

// bound joins the two parts, each at the full confidence, by root sum of squares. The usual pooling of degrees of
// freedom (GUM G.4) is not used on purpose: with three readings a spot it can narrow a bound when the gauge's stated
// accuracy gets worse. This form never does, and is nowhere narrower than either part alone.
func (q quantiles) bound(scatter, gauge Microns) Microns {
	return hypot(q.scatter*scatter, q.gauge*gauge)
}

func checkConfidence(pct float64) error {
	return checkRange("confidence_pct", pct, 50, 99.9, "50 to 99.9 %")
}

// meanAndSpread returns the mean and the sample standard deviation (n - 1); the spread of a single value is 0.
func meanAndSpread(values []Microns) (mean, spread Microns) {
	n := Microns(len(values))
	for _, v := range values {
		mean += v
	}
	mean /= n
	if len(values) < 2 {
		return mean, 0
	}
	var squares Microns
	for _, v := range values {
		squares += (v - mean) * (v - mean)
	}
	return mean, sqrt(squares / (n - 1))
}

func standardError(spread Microns, n int) Microns { return spread / sqrt(Microns(n)) }

func sqrt(x Microns) Microns { return Microns(math.Sqrt(float64(x))) }

func hypot(a, b Microns) Microns { return Microns(math.Hypot(float64(a), float64(b))) }

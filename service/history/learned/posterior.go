package learned

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Posterior is what is known of a quantity after the records.
type Posterior struct {
	Mean float64
	SD   float64
	// below is the chance that the quantity lies below a value.
	below func(float64) float64
	// ends hold the quantity for sure, as far as numbers go.
	low, high float64
}

// Below is the chance that the quantity lies below a value.
func (p Posterior) Below(value float64) float64 { return p.below(value) }

// Quantile is the value that the quantity lies below with this chance. Chances outside 0 to 1 count as the nearer end.
func (p Posterior) Quantile(chance float64) float64 {
	low, high := p.low, p.high
	for range 80 {
		middle := (low + high) / 2
		if middle <= low || middle >= high {
			break
		}
		if p.below(middle) < chance {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2
}

// Interval holds the quantity with this confidence, as much chance left out on either side: 0.9 gives the quantiles 5 % and 95 %.
func (p Posterior) Interval(confidence float64) (low, high float64) {
	return p.Quantile((1 - confidence) / 2), p.Quantile((1 + confidence) / 2)
}

// normalPart is one normal of a mixture; log is the logarithm of its weight, then weight its share.
type normalPart struct{ mean, sd, log, weight float64 }

type normalMix []normalPart

// normalise turns the logarithms into shares.
func (m normalMix) normalise() {
	most := math.Inf(-1)
	for _, p := range m {
		most = max(most, p.log)
	}
	var sum float64
	for i := range m {
		m[i].weight = math.Exp(m[i].log - most)
		sum += m[i].weight
	}
	for i := range m {
		m[i].weight /= sum
	}
}

func (m normalMix) posterior() Posterior {
	out := Posterior{low: math.Inf(1), high: math.Inf(-1), below: m.below}
	var square float64
	for _, p := range m {
		out.Mean += p.weight * p.mean
		square += p.weight * (p.sd*p.sd + p.mean*p.mean)
		if p.weight > 0 {
			const far = 9 // standard deviations: beyond lies less than a float can tell from nothing
			out.low, out.high = min(out.low, p.mean-far*p.sd), max(out.high, p.mean+far*p.sd)
		}
	}
	out.SD = math.Sqrt(max(0, square-out.Mean*out.Mean))
	return out
}

func (m normalMix) below(value float64) float64 {
	var chance float64
	for _, p := range m {
		if p.weight > 0 {
			chance += p.weight * distuv.UnitNormal.CDF((value-p.mean)/p.sd)
		}
	}
	return chance
}

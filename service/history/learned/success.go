package learned

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// Tally is how often something was tried in a group, and how often it came off.
type Tally struct{ Tried, Succeeded int }

// SuccessPrior is what is believed of a chance of success before any record.
type SuccessPrior struct {
	// Mean chance over all groups, over 0 and under 1, believed as if seen in MeanTrials trials (over 0).
	Mean       float64
	MeanTrials float64
}

// Check returns a [*PriorError] unless the prior can be reckoned with.
func (p SuccessPrior) Check() error {
	if !(p.Mean > 0 && p.Mean < 1) {
		return &PriorError{"mean", p.Mean, "over 0 and under 1"}
	}
	if !(p.MeanTrials > 0) || math.IsInf(p.MeanTrials, 1) {
		return &PriorError{"mean_trials", p.MeanTrials, "a number over 0"}
	}
	return nil
}

// PoolSuccess returns the posterior of each group's chance of success.
//
// The model: a group's successes are binomial; its chance is Beta(κm, κ(1-m)). The prior of the shop's mean m is as stated; that
// of the likeness κ falls as κ^-3/2, which is the prior of Gelman and others, Bayesian Data Analysis, 3rd edition, (5.9).
// Both are integrated on a grid. Errors: [*PriorError], [*RecordError].
func PoolSuccess(groups []Tally, prior SuccessPrior) ([]Posterior, error) {
	if err := prior.Check(); err != nil {
		return nil, err
	}
	for g, t := range groups {
		if t.Tried < 0 || t.Succeeded < 0 || t.Succeeded > t.Tried {
			return nil, &RecordError{Group: g, Value: float64(t.Succeeded), Allowed: "0 to the number of trials"}
		}
	}
	shapes := shapeGrid(groups, prior)
	out := make([]Posterior, len(groups))
	for g, t := range groups {
		out[g] = shapes.after(t).posterior()
	}
	return out, nil
}

// betaPart is one Beta(a, b) of a mixture.
type betaPart struct{ a, b, weight float64 }

type betaMix []betaPart

// Points of the grid of the mean and of the likeness.
const (
	meanPoints     = 40
	likenessPoints = 30
)

// The likeness runs from groups that have nothing in common to groups that cannot be told apart.
const (
	leastLikeness = 0.5
	mostLikeness  = 2000
)

// shapeGrid is the posterior of what all groups share.
func shapeGrid(groups []Tally, prior SuccessPrior) betaMix {
	var out betaMix
	var logs []float64
	most := math.Inf(-1)
	for i := range meanPoints {
		// Equal shares of the chance by the prior: then every mean weighs the same before the records.
		m := mathext.InvRegIncBeta(prior.Mean*prior.MeanTrials, (1-prior.Mean)*prior.MeanTrials, (float64(i)+0.5)/meanPoints)
		if m <= 0 || m >= 1 {
			continue
		}
		for k := range likenessPoints {
			// Equal steps of log κ: the prior κ^-3/2 dκ is κ^-1/2 dlog κ.
			logKappa := math.Log(leastLikeness) + (float64(k)+0.5)/likenessPoints*math.Log(mostLikeness/leastLikeness)
			kappa := math.Exp(logKappa)
			a, b := kappa*m, kappa*(1-m)
			log := -logKappa / 2
			for _, t := range groups {
				if t.Tried > 0 {
					log += mathext.Lbeta(a+float64(t.Succeeded), b+float64(t.Tried-t.Succeeded)) - mathext.Lbeta(a, b)
				}
			}
			out, logs, most = append(out, betaPart{a: a, b: b}), append(logs, log), max(most, log)
		}
	}
	var sum float64
	for i := range out {
		out[i].weight = math.Exp(logs[i] - most)
		sum += out[i].weight
	}
	for i := range out {
		out[i].weight /= sum
	}
	return out
}

// after is the mixture once a group's own tally is taken in.
func (m betaMix) after(t Tally) betaMix {
	out := make(betaMix, len(m))
	for i, p := range m {
		out[i] = betaPart{a: p.a + float64(t.Succeeded), b: p.b + float64(t.Tried-t.Succeeded), weight: p.weight}
	}
	return out
}

func (m betaMix) posterior() Posterior {
	out := Posterior{low: 0, high: 1, below: m.below}
	var square float64
	for _, p := range m {
		n := p.a + p.b
		mean := p.a / n
		out.Mean += p.weight * mean
		square += p.weight * (mean*(1-mean)/(n+1) + mean*mean)
	}
	out.SD = math.Sqrt(max(0, square-out.Mean*out.Mean))
	return out
}

func (m betaMix) below(value float64) float64 {
	if value <= 0 {
		return 0
	}
	if value >= 1 {
		return 1
	}
	var chance float64
	for _, p := range m {
		const idle = 1e-9 // parts that weigh less than this change no digit that is shown
		if p.weight > idle {
			chance += p.weight * mathext.RegIncBeta(p.a, p.b, value)
		}
	}
	return chance
}

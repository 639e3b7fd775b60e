package learned

import (
	"math"
)

// NormalPrior is what is believed of a quantity before any record, in the quantity's own unit. Every spread must be over zero.
type NormalPrior struct {
	Mean   float64 // of all groups of a shop
	MeanSD float64 // how far a shop's mean may lie from it; +Inf for no opinion
	// BetweenSD is the scale of how far groups differ within a shop: the spread is half-normal with this scale, or flat for +Inf.
	BetweenSD float64
	// WithinSD is the scatter of single records in a group, believed as if seen in WithinDF records more than needed.
	WithinSD float64
	WithinDF float64
}

// Check returns a [*PriorError] unless the prior can be reckoned with.
func (p NormalPrior) Check() error {
	if math.IsNaN(p.Mean) || math.IsInf(p.Mean, 0) {
		return &PriorError{"mean", p.Mean, "a finite number"}
	}
	for _, each := range []struct {
		name  string
		value float64
		inf   bool
	}{{"mean_sd", p.MeanSD, true}, {"between_sd", p.BetweenSD, true}, {"within_sd", p.WithinSD, false}, {"within_df", p.WithinDF, false}} {
		if !(each.value > 0) || math.IsInf(each.value, 1) && !each.inf {
			return &PriorError{each.name, each.value, "a number over 0"}
		}
	}
	return nil
}

// sample is what a group's records come to: all that the model needs of them.
type sample struct {
	n    float64
	mean float64
}

// PoolNormal returns the posterior of each group's mean, given the records of each group. Groups without records are
// allowed and get what the shop's other groups lead one to expect.
//
// The model: records of group g are normal about θ_g with spread σ; θ_g are normal about μ with spread τ; μ, τ and σ have the
// stated priors. μ is integrated in closed form and τ and σ on a grid, as in Gelman and others, Bayesian Data Analysis,
// 3rd edition, section 5.4. Errors: [*PriorError], [*RecordError].
func PoolNormal(groups [][]float64, prior NormalPrior) ([]Posterior, error) {
	if err := prior.Check(); err != nil {
		return nil, err
	}
	samples, squares, degrees, err := summarise(groups)
	if err != nil {
		return nil, err
	}
	grid := spreads{
		between: betweenGrid(prior, spreadOf(samples)),
		within:  withinGrid(squares+prior.WithinDF*prior.WithinSD*prior.WithinSD, degrees+prior.WithinDF),
	}
	return grid.posteriors(samples, prior), nil
}

// PoolMeans is [PoolNormal] for groups of which only a mean and its standard error are known. A standard error of +Inf is a
// group without records. The prior's WithinSD and WithinDF are not used.
func PoolMeans(means, standardErrors []float64, prior NormalPrior) ([]Posterior, error) {
	prior.WithinSD, prior.WithinDF = 1, 1
	if err := prior.Check(); err != nil {
		return nil, err
	}
	samples := make([]sample, len(means))
	for i := range means {
		se := standardErrors[i]
		if !(se > 0) || math.IsNaN(means[i]) || math.IsInf(means[i], 0) {
			return nil, &RecordError{Group: i, Value: se, Allowed: "a mean and a standard error over 0"}
		}
		samples[i] = sample{n: 1 / (se * se), mean: means[i]}
	}
	grid := spreads{between: betweenGrid(prior, spreadOf(samples)), within: []weighted{{1, 0}}}
	return grid.posteriors(samples, prior), nil
}

func summarise(groups [][]float64) (samples []sample, squares, degrees float64, err error) {
	samples = make([]sample, len(groups))
	for g, records := range groups {
		for i, v := range records {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				return nil, 0, 0, &RecordError{Group: g, Record: i, Value: v, Allowed: "a finite number"}
			}
			samples[g].mean += v / float64(len(records))
		}
		for _, v := range records {
			squares += (v - samples[g].mean) * (v - samples[g].mean)
		}
		samples[g].n = float64(len(records))
		degrees += max(0, samples[g].n-1)
	}
	return samples, squares, degrees, nil
}

// spreadOf is how far the group means lie apart at most: between spreads far over it cannot be.
func spreadOf(samples []sample) float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for _, s := range samples {
		if s.n > 0 {
			low, high = min(low, s.mean), max(high, s.mean)
		}
	}
	return max(0, high-low)
}

// weighted is a point of a grid with the logarithm of its weight.
type weighted struct{ value, log float64 }

// Points of the grids. Twice as many change no interval of the tests in its third digit.
const (
	betweenPoints = 40
	withinPoints  = 15
)

// betweenGrid covers the spread of group means from none to four times what it may be.
func betweenGrid(p NormalPrior, seen float64) []weighted {
	most := 4 * p.BetweenSD
	if math.IsInf(most, 1) {
		most = 4 * max(seen, math.SmallestNonzeroFloat64)
	}
	out := make([]weighted, betweenPoints)
	for i := range out {
		// Denser near zero, where the posterior bends most; the cell's width is part of its weight.
		at := (float64(i) + 0.5) / betweenPoints
		tau := most * at * at
		out[i] = weighted{tau, math.Log(2 * most * at / betweenPoints)}
		if !math.IsInf(p.BetweenSD, 1) {
			out[i].log -= tau * tau / (2 * p.BetweenSD * p.BetweenSD)
		}
	}
	return out
}

// withinGrid covers the scatter of single records: a scaled inverse chi-squared by the records and the prior together, on
// equal steps of log σ over six standard deviations of it.
func withinGrid(squares, degrees float64) []weighted {
	centre := math.Log(squares/degrees) / 2
	half := 3 * math.Sqrt(1/(2*degrees)) * (1 + 1/degrees)
	out := make([]weighted, withinPoints)
	for i := range out {
		log := centre + half*(2*(float64(i)+0.5)/withinPoints-1)
		sigma := math.Exp(log)
		// p(σ²) ∝ σ^-(ν+2) exp(-S/2σ²); dσ² = 2σ² dlog σ leaves σ^-ν.
		out[i] = weighted{sigma, -degrees*log - squares/(2*sigma*sigma)}
	}
	return out
}

// spreads is the grid of both spreads.
type spreads struct{ between, within []weighted }

// posteriors mixes, over the grid, the normal posterior of each group.
func (grid spreads) posteriors(samples []sample, prior NormalPrior) []Posterior {
	mixes := make([]normalMix, len(samples))
	for g := range mixes {
		mixes[g] = make(normalMix, 0, len(grid.between)*len(grid.within))
	}
	for _, within := range grid.within {
		for _, between := range grid.between {
			tau2, sigma2 := between.value*between.value, within.value*within.value
			mean, precision, fit := shopMean(samples, tau2, sigma2, prior)
			log := between.log + within.log + fit
			for g, s := range samples {
				mixes[g] = append(mixes[g], groupMean(s, tau2, sigma2, mean, 1/precision, log))
			}
		}
	}
	out := make([]Posterior, len(mixes))
	for g, mix := range mixes {
		mix.normalise()
		out[g] = mix.posterior()
	}
	return out
}

// shopMean is the normal posterior of μ for given spreads, with the logarithm of how well the group means fit them.
// Bayesian Data Analysis, 3rd edition, (5.20) and (5.21), with a normal prior on μ beside.
func shopMean(samples []sample, tau2, sigma2 float64, prior NormalPrior) (mean, precision, fit float64) {
	if !math.IsInf(prior.MeanSD, 1) {
		precision = 1 / (prior.MeanSD * prior.MeanSD)
		mean = prior.Mean * precision
	}
	for _, s := range samples {
		if s.n > 0 {
			w := 1 / (sigma2/s.n + tau2)
			precision, mean = precision+w, mean+w*s.mean
		}
	}
	if precision == 0 {
		return prior.Mean, math.SmallestNonzeroFloat64, 0 // nothing known and nothing seen
	}
	mean /= precision
	fit = -math.Log(precision) / 2
	if !math.IsInf(prior.MeanSD, 1) {
		fit -= (mean - prior.Mean) * (mean - prior.Mean) / (2 * prior.MeanSD * prior.MeanSD)
	}
	for _, s := range samples {
		if s.n > 0 {
			variance := sigma2/s.n + tau2
			fit -= math.Log(variance)/2 + (s.mean-mean)*(s.mean-mean)/(2*variance)
		}
	}
	return mean, precision, fit
}

// groupMean is the normal posterior of θ for given spreads, μ integrated out.
func groupMean(s sample, tau2, sigma2, mean, meanVariance, log float64) normalPart {
	if s.n == 0 {
		return normalPart{mean: mean, sd: math.Sqrt(tau2 + meanVariance), log: log}
	}
	own := s.n / sigma2
	pull := 1 / tau2
	share := own / (own + pull)
	return normalPart{
		mean: share*s.mean + (1-share)*mean,
		sd:   math.Sqrt(1/(own+pull) + (1-share)*(1-share)*meanVariance),
		log:  log,
	}
}

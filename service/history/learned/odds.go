package learned

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// OddsPrior is what is believed, before any record, of chances of success that differ from group to group by more than luck:
// each group has an expectation of its own, and a shop may do better or worse than all of them.
type OddsPrior struct {
	// LevelSD is how far a shop's own level may lie from the expectations, as a standard deviation of the logarithm of the
	// odds: 0.7 doubles or halves the odds.
	LevelSD float64
	// Likeness is how many trials of its own the expectation of a group is worth. It is believed to within a factor of e.
	Likeness float64
}

// Check returns a [*PriorError] unless the prior can be reckoned with.
func (p OddsPrior) Check() error {
	for _, each := range []struct {
		name  string
		value float64
	}{{"level_sd", p.LevelSD}, {"likeness", p.Likeness}} {
		if !(each.value > 0) || math.IsInf(each.value, 1) {
			return &PriorError{each.name, each.value, "a number over 0"}
		}
	}
	return nil
}

// Points of the grid of the level and of the likeness.
const (
	levelPoints = 21
	oddsPoints  = 11
)

// PoolOdds returns the posterior of each group's chance of success, given what was expected of each.
//
// The model: a group's successes are binomial; its chance is Beta(κm, κ(1-m)) with logit m = logit e + δ, where e is the
// expectation, δ ~ N(0, LevelSD²) the shop's own level and log κ ~ N(log Likeness, 1). Both are integrated on a grid. It is
// the beta-binomial of [PoolSuccess] with a regression on the expectation in place of one mean; Gelman and others, Bayesian Data
// Analysis, 3rd edition, sections 5.3 and 16.4. Errors: [*PriorError], [*RecordError].
func PoolOdds(groups []Tally, expected []float64, prior OddsPrior) ([]Posterior, error) {
	if err := prior.Check(); err != nil {
		return nil, err
	}
	for g, t := range groups {
		if t.Tried < 0 || t.Succeeded < 0 || t.Succeeded > t.Tried {
			return nil, &RecordError{Group: g, Value: float64(t.Succeeded), Allowed: "0 to the number of trials"}
		}
		if g >= len(expected) || !(expected[g] > 0 && expected[g] < 1) {
			return nil, &PriorError{"expectation", at(expected, g), "over 0 and under 1, one for each group"}
		}
	}
	grid := oddsGrid(groups, expected, prior)
	out := make([]Posterior, len(groups))
	for g, t := range groups {
		mix := make(betaMix, 0, len(grid))
		for _, p := range grid {
			m := shifted(expected[g], p.level)
			mix = append(mix, betaPart{
				a: p.likeness*m + float64(t.Succeeded), b: p.likeness*(1-m) + float64(t.Tried-t.Succeeded), weight: p.weight,
			})
		}
		out[g] = mix.posterior()
	}
	return out, nil
}

func at(values []float64, i int) float64 {
	if i >= len(values) {
		return math.NaN()
	}
	return values[i]
}

// shifted is an expectation with its odds moved by a shop's level.
func shifted(expected, level float64) float64 {
	odds := expected / (1 - expected) * math.Exp(level)
	return odds / (1 + odds)
}

// oddsPart is one point of the grid of what all groups share.
type oddsPart struct{ level, likeness, weight float64 }

// oddsGrid is the posterior of the shop's level and of the likeness, without the points that weigh next to nothing.
func oddsGrid(groups []Tally, expected []float64, prior OddsPrior) []oddsPart {
	out := make([]oddsPart, 0, levelPoints*oddsPoints)
	logs := make([]float64, 0, cap(out))
	most := math.Inf(-1)
	const reach = 3.5 // standard deviations of either prior
	for i := range levelPoints {
		z := reach * (2*(float64(i)+0.5)/levelPoints - 1)
		level := prior.LevelSD * z
		for k := range oddsPoints {
			y := reach * (2*(float64(k)+0.5)/oddsPoints - 1)
			kappa := prior.Likeness * math.Exp(y)
			log := -(z*z + y*y) / 2
			for g, t := range groups {
				if t.Tried > 0 {
					m := shifted(expected[g], level)
					a, b := kappa*m, kappa*(1-m)
					log += mathext.Lbeta(a+float64(t.Succeeded), b+float64(t.Tried-t.Succeeded)) - mathext.Lbeta(a, b)
				}
			}
			out, logs, most = append(out, oddsPart{level: level, likeness: kappa}), append(logs, log), max(most, log)
		}
	}
	var sum float64
	for i := range out {
		out[i].weight = math.Exp(logs[i] - most)
		sum += out[i].weight
	}
	const idle = 1e-6 // all that is left out together changes no digit that is shown
	kept := out[:0]
	for _, p := range out {
		if p.weight /= sum; p.weight > idle {
			kept = append(kept, p)
		}
	}
	return kept
}

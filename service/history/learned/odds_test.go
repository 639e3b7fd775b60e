package learned_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"

	"github.com/glossladder/glossladder/service/history/learned"
)

// usualOdds is a prior for chances of success, and what is expected of each group (both invented for the test).
var (
	usualOdds = learned.OddsPrior{LevelSD: 0.7, Likeness: 8}
	chances   = []float64{0.9, 0.85, 0.75, 0.6, 0.5, 0.4, 0.3, 0.2, 0.1, 0.05}
)

// oddsShop draws a shop as the prior believes them to be: the true chance of each group, and its tally.
func oddsShop(r *rand.Rand) (truths []float64, groups []learned.Tally) {
	level := usualOdds.LevelSD * r.NormFloat64()
	kappa := usualOdds.Likeness * math.Exp(r.NormFloat64())
	for _, expected := range chances {
		odds := expected / (1 - expected) * math.Exp(level)
		m := odds / (1 + odds)
		p := distuv.Beta{Alpha: kappa * m, Beta: kappa * (1 - m), Src: r}.Rand()
		t := learned.Tally{Tried: []int{0, 1, 2, 4, 8, 25}[r.IntN(6)]}
		for range t.Tried {
			if r.Float64() < p {
				t.Succeeded++
			}
		}
		truths, groups = append(truths, p), append(groups, t)
	}
	return truths, groups
}

// Intervals of 90 % hold the true chance about nine times in ten over 1,000 simulated shops, whether a group has many trials,
// few or none.
func TestIntervalsOfOddsHoldTheTruthAsOftenAsTheySay(t *testing.T) {
	if testing.Short() {
		t.Skip("takes long, and nothing in it runs at once")
	}
	r := rand.New(rand.NewPCG(5, 17))
	held, of := map[string]int{}, map[string]int{}
	for range 1000 {
		truths, groups := oddsShop(r)
		out, err := learned.PoolOdds(groups, chances, usualOdds)
		require.NoError(t, err)
		for g := range groups {
			class := "none"
			switch n := groups[g].Tried; {
			case n >= 8:
				class = "eight or more"
			case n > 0:
				class = "one to four"
			}
			for _, name := range []string{class, "all"} {
				of[name]++
				if chance := out[g].Below(truths[g]); chance >= 0.05 && chance <= 0.95 {
					held[name]++
				}
			}
		}
	}
	for name := range of {
		share := float64(held[name]) / float64(of[name])
		t.Logf("%s: %.1f %% of %d", name, 100*share, of[name])
		assert.InDelta(t, 0.90, share, 0.03, name)
	}
}

func TestAGroupWithoutTrialsGetsItsExpectation(t *testing.T) {
	out, err := learned.PoolOdds(make([]learned.Tally, len(chances)), chances, usualOdds)
	require.NoError(t, err)
	for g, expected := range chances {
		// The spread of the level, taken over the odds, pulls a chance toward a half: by less than a tenth.
		assert.InDelta(t, expected, out[g].Mean, 0.06, "expected %v", expected)
		assert.LessOrEqual(t, math.Abs(out[g].Mean-0.5), math.Abs(expected-0.5)+1e-5, "expected %v", expected)
	}
}

// A shop that does better than expected in nine groups is believed to do better in the tenth, where it has no trial; and the more
// trials a group has, the nearer its estimate lies to its own share.
func TestTheLevelOfAShopCarriesOver(t *testing.T) {
	groups := make([]learned.Tally, len(chances))
	for g := range groups[:9] {
		groups[g] = learned.Tally{Tried: 20, Succeeded: 19}
	}
	out, err := learned.PoolOdds(groups, chances, usualOdds)
	require.NoError(t, err)
	assert.Greater(t, out[9].Mean, 2*chances[9])
	before := 0.0
	for _, n := range []int{1, 4, 16, 64} {
		alone := make([]learned.Tally, len(chances))
		alone[8] = learned.Tally{Tried: n, Succeeded: n}
		out, err := learned.PoolOdds(alone, chances, usualOdds)
		require.NoError(t, err)
		assert.Greater(t, out[8].Mean, before, "%d trials", n)
		before = out[8].Mean
	}
	assert.Greater(t, before, 0.85, "64 of 64 speak for themselves")
}

// With a level that cannot move and a likeness that cannot either, the posterior is the closed form Beta(κe + y, κ(1-e) + n - y);
// Bayesian Data Analysis, 3rd edition, section 2.4. The likeness is believed to within a factor of e, so that only its mean, by
// many trials, is compared.
func TestManyTrialsOfOneGroupAreTheClosedForm(t *testing.T) {
	out, err := learned.PoolOdds([]learned.Tally{{Tried: 400, Succeeded: 300}}, []float64{0.5}, learned.OddsPrior{LevelSD: 1e-6, Likeness: 4})
	require.NoError(t, err)
	plain := distuv.Beta{Alpha: 302, Beta: 102}
	assert.InDelta(t, plain.Mean(), out[0].Mean, 0.005)
	assert.InDelta(t, plain.StdDev(), out[0].SD, 0.002)
}

func TestOddsThatCannotBe(t *testing.T) {
	for _, c := range []struct {
		name     string
		groups   []learned.Tally
		expected []float64
		prior    learned.OddsPrior
		want     string
	}{
		{"no level", nil, nil, learned.OddsPrior{Likeness: 1}, "prior level_sd is 0, allowed is a number over 0"},
		{"no likeness", nil, nil, learned.OddsPrior{LevelSD: 1}, "prior likeness is 0, allowed is a number over 0"},
		{"sure before any trial", []learned.Tally{{}}, []float64{1}, usualOdds, "prior expectation is 1, allowed is over 0 and under 1, one for each group"},
		{"a group without expectation", []learned.Tally{{}}, nil, usualOdds, "prior expectation is NaN, allowed is over 0 and under 1, one for each group"},
		{"more than tried", []learned.Tally{{Tried: 1, Succeeded: 2}}, []float64{0.5}, usualOdds, "record 1 of group 1 is 2, allowed is 0 to the number of trials"},
	} {
		_, err := learned.PoolOdds(c.groups, c.expected, c.prior)
		require.EqualError(t, err, c.want, c.name)
	}
}

func BenchmarkPoolOdds(b *testing.B) {
	r := rand.New(rand.NewPCG(1, 1))
	var groups []learned.Tally
	var expected []float64
	for len(groups) < 90 {
		_, more := oddsShop(r)
		groups, expected = append(groups, more...), append(expected, chances...)
	}
	b.ReportAllocs()
	for b.Loop() {
		_, err := learned.PoolOdds(groups, expected, usualOdds)
		require.NoError(b, err)
	}
}

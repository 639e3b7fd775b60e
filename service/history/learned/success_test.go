package learned_test

import (
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"

	"github.com/glossladder/glossladder/service/history/learned"
)

// ratTumours is table 5.1 of Gelman and others, Bayesian Data Analysis, 3rd edition (data of Tarone, 1982): tumours of rats in 70
// earlier experiments and, last, in the present one.
const ratTumours = `0/20 0/20 0/20 0/20 0/20 0/20 0/20 0/19 0/19 0/19 0/19 0/18 0/18 0/17 1/20 1/20 1/20 1/20 1/19 1/19 1/18
1/18 2/25 2/24 2/23 2/20 2/20 2/20 2/20 2/20 2/20 1/10 5/49 2/19 5/46 3/27 2/17 7/49 7/47 3/20 3/20 2/13 9/48 10/50 4/20 4/20
4/20 4/20 4/20 4/20 4/20 10/48 4/19 4/19 4/19 5/22 11/46 12/49 5/20 5/20 6/23 5/19 6/22 6/20 6/20 6/20 16/52 15/46 15/47 9/24
4/14`

func rats(t *testing.T) []learned.Tally {
	t.Helper()
	var out []learned.Tally
	for _, text := range strings.Fields(ratTumours) {
		had, of, ok := strings.Cut(text, "/")
		require.True(t, ok)
		y, err := strconv.Atoi(had)
		require.NoError(t, err)
		n, err := strconv.Atoi(of)
		require.NoError(t, err)
		out = append(out, learned.Tally{Tried: n, Succeeded: y})
	}
	require.Len(t, out, 71)
	return out
}

// The book's section 5.3 gives E(α|y) = 2.4 and E(β|y) = 14.3 for these data: a new experiment, of which nothing is
// known, has a mean chance of about 2.4/16.7 = 0.144, and the present one of 4 in 14 about (2.4+4)/(16.7+14) = 0.208. The flat
// prior of the mean is that of the book but for the little that the likeness bends it.
func TestRatTumours(t *testing.T) {
	groups := append(rats(t), learned.Tally{})
	out, err := learned.PoolSuccess(groups, learned.SuccessPrior{Mean: 0.5, MeanTrials: 2})
	require.NoError(t, err)
	assert.InDelta(t, 0.144, out[71].Mean, 0.005)
	assert.InDelta(t, 0.208, out[70].Mean, 0.01)
	assert.Less(t, out[0].Mean, 0.10, "none in twenty is not never")
	assert.Greater(t, out[0].Mean, 0.04)
}

// Groups that are sure to be alike come to the closed form: Beta(1+s, 1+f) for a flat prior of the one chance.
func TestOneGroupFarFromItsPrior(t *testing.T) {
	out, err := learned.PoolSuccess([]learned.Tally{{Tried: 400, Succeeded: 300}}, learned.SuccessPrior{Mean: 0.5, MeanTrials: 2})
	require.NoError(t, err)
	exact := distuv.Beta{Alpha: 301, Beta: 101}
	low, high := out[0].Interval(0.9)
	assert.InDelta(t, exact.Mean(), out[0].Mean, 0.005)
	assert.InDelta(t, exact.Quantile(0.05), low, 0.01)
	assert.InDelta(t, exact.Quantile(0.95), high, 0.01)
}

func TestChancesHoldTheTruthAsOftenAsTheySay(t *testing.T) {
	if testing.Short() {
		t.Skip("takes long, and nothing in it runs at once")
	}
	r := rand.New(rand.NewPCG(5, 9))
	prior := learned.SuccessPrior{Mean: 0.7, MeanTrials: 6}
	held, of := 0, 0
	for range 1000 {
		m := distuv.Beta{Alpha: prior.Mean * prior.MeanTrials, Beta: (1 - prior.Mean) * prior.MeanTrials, Src: r}.Rand()
		kappa := 2 + 30*r.Float64()
		var truths []float64
		var groups []learned.Tally
		for range 8 {
			chance := distuv.Beta{Alpha: kappa * m, Beta: kappa * (1 - m), Src: r}.Rand()
			tally := learned.Tally{Tried: []int{0, 1, 3, 6, 15, 30}[r.IntN(6)]}
			for range tally.Tried {
				if r.Float64() < chance {
					tally.Succeeded++
				}
			}
			truths, groups = append(truths, chance), append(groups, tally)
		}
		out, err := learned.PoolSuccess(groups, prior)
		require.NoError(t, err)
		for g, truth := range truths {
			of++
			if chance := out[g].Below(truth); chance >= 0.05 && chance <= 0.95 {
				held++
			}
		}
	}
	t.Logf("%.1f %% of %d", 100*float64(held)/float64(of), of)
	assert.InDelta(t, 0.90, float64(held)/float64(of), 0.03)
}

func TestTalliesThatCannotBe(t *testing.T) {
	_, err := learned.PoolSuccess([]learned.Tally{{Tried: 2, Succeeded: 3}}, learned.SuccessPrior{Mean: 0.5, MeanTrials: 2})
	require.EqualError(t, err, "record 1 of group 1 is 3, allowed is 0 to the number of trials")
	_, err = learned.PoolSuccess(nil, learned.SuccessPrior{Mean: 1, MeanTrials: 2})
	require.EqualError(t, err, "prior mean is 1, allowed is over 0 and under 1")
}

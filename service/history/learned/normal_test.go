package learned_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history/learned"
)

// The eight schools of Rubin (1981), as in Gelman and others, Bayesian Data Analysis, 3rd edition, tables 5.2 and 5.3, with flat
// priors on μ and τ. The book's quantiles come from 200 draws and are printed whole, hence the slack of 2.
func TestEightSchools(t *testing.T) {
	effects := []float64{28, 8, -3, 7, -1, 1, 18, 12}
	errors := []float64{15, 10, 16, 11, 9, 11, 10, 18}
	out, err := learned.PoolMeans(effects, errors, learned.NormalPrior{MeanSD: math.Inf(1), BetweenSD: math.Inf(1)})
	require.NoError(t, err)
	for i, row := range []struct{ low, quarter, middle, threeQuarters float64 }{
		{-2, 7, 10, 16},
		{-5, 3, 8, 12},
		{-11, 2, 7, 11},
		{-7, 4, 8, 11},
		{-9, 1, 5, 10},
		{-7, 2, 6, 10},
		{-1, 7, 10, 15},
		{-6, 3, 8, 13},
	} {
		school := string(rune('A' + i))
		assert.InDelta(t, row.low, out[i].Quantile(0.025), 2, school)
		assert.InDelta(t, row.quarter, out[i].Quantile(0.25), 2, school)
		assert.InDelta(t, row.middle, out[i].Quantile(0.5), 2, school)
		assert.InDelta(t, row.threeQuarters, out[i].Quantile(0.75), 2, school)
	}
}

// With one group, a known mean and a known scatter the posterior is the closed form of a normal mean, Bayesian Data Analysis
// (2.11): here a prior of 10 ± 2 and four records of mean 14 with a scatter of 2 give 13.2 ± 0.894.
func TestOneGroupOfKnownScatterIsTheClosedForm(t *testing.T) {
	prior := learned.NormalPrior{Mean: 10, MeanSD: 2, BetweenSD: 1e-6, WithinSD: 2, WithinDF: 1e9}
	out, err := learned.PoolNormal([][]float64{{13, 15, 13, 15}}, prior)
	require.NoError(t, err)
	assert.InDelta(t, 13.2, out[0].Mean, 1e-3)
	assert.InDelta(t, math.Sqrt(0.8), out[0].SD, 1e-3)
	low, high := out[0].Interval(0.9)
	assert.InDelta(t, 13.2-1.6449*math.Sqrt(0.8), low, 2e-3)
	assert.InDelta(t, 13.2+1.6449*math.Sqrt(0.8), high, 2e-3)
}

// usual is a prior for a gain in gloss units (invented for the test).
var usual = learned.NormalPrior{Mean: 12, MeanSD: 4, BetweenSD: 3, WithinSD: 2.5, WithinDF: 4}

// shop draws a shop as the prior believes them to be: the truth of each group, and its records.
func shop(r *rand.Rand, p learned.NormalPrior) (truths []float64, groups [][]float64) {
	mu := p.Mean + p.MeanSD*r.NormFloat64()
	tau := p.BetweenSD * math.Abs(r.NormFloat64())
	var chi float64
	for range int(p.WithinDF) {
		chi += math.Pow(r.NormFloat64(), 2)
	}
	sigma := p.WithinSD * math.Sqrt(p.WithinDF/chi)
	for range 12 {
		theta := mu + tau*r.NormFloat64()
		records := make([]float64, []int{0, 1, 2, 3, 5, 8, 20}[r.IntN(7)])
		for k := range records {
			records[k] = theta + sigma*r.NormFloat64()
		}
		truths, groups = append(truths, theta), append(groups, records)
	}
	return truths, groups
}

// Intervals of 90 % hold the truth about nine times in ten, whether a group has many records, few or none.
func TestIntervalsHoldTheTruthAsOftenAsTheySay(t *testing.T) {
	if testing.Short() {
		t.Skip("takes long, and nothing in it runs at once")
	}
	r := rand.New(rand.NewPCG(11, 13))
	held, of := map[string]int{}, map[string]int{}
	for range 1000 {
		truths, groups := shop(r, usual)
		out, err := learned.PoolNormal(groups, usual)
		require.NoError(t, err)
		for g := range groups {
			class := "no records"
			switch n := len(groups[g]); {
			case n >= 5:
				class = "five or more"
			case n > 0:
				class = "one to three"
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

// The fewer records a group has, the nearer its estimate lies to the shop's mean and the wider is its interval.
func TestFewRecordsShrink(t *testing.T) {
	others := [][]float64{{10, 11, 12, 11}, {13, 12, 14, 13}, {11, 13, 12, 12}, {12, 13, 11, 12}}
	ratio, width := 1.0, math.Inf(1)
	var ratios []float64
	for n := 1; n <= 16; n *= 2 {
		own := make([]float64, n)
		for i := range own {
			own[i] = 20
		}
		out, err := learned.PoolNormal(append(others[:4:4], own), usual)
		require.NoError(t, err)
		share := (20 - out[4].Mean) / 8 // 0: its own mean; 1: the others'
		low, high := out[4].Interval(0.9)
		assert.Less(t, share, ratio, "%d records", n)
		assert.Less(t, high-low, width, "%d records", n)
		ratio, width, ratios = share, high-low, append(ratios, share)
	}
	t.Logf("share of the way to the other groups: %.2f", ratios)
	assert.Greater(t, ratios[0], 0.2, "a single record is not believed by itself")
	assert.Less(t, ratios[4], 0.1, "sixteen records speak for themselves")
}

func TestAShopWithoutRecordsGetsThePrior(t *testing.T) {
	out, err := learned.PoolNormal([][]float64{nil, nil}, usual)
	require.NoError(t, err)
	assert.InDelta(t, 12, out[0].Mean, 1e-9)
	// The variances of μ, and of a half-normal τ whose mean square is its scale squared, add up: √(16 + 9).
	assert.InDelta(t, 5, out[0].SD, 0.05)
	assert.Equal(t, out[0].Mean, out[1].Mean)
}

func TestQuantilesAndChancesAreInverse(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	_, groups := shop(r, usual)
	out, err := learned.PoolNormal(groups, usual)
	require.NoError(t, err)
	for _, p := range out {
		for _, chance := range []float64{0.001, 0.05, 0.5, 0.95, 0.999} {
			assert.InDelta(t, chance, p.Below(p.Quantile(chance)), 1e-9)
		}
	}
}

func TestPriorsAndRecordsThatCannotBe(t *testing.T) {
	bad := usual
	bad.WithinSD = 0
	_, err := learned.PoolNormal(nil, bad)
	require.EqualError(t, err, "prior within_sd is 0, allowed is a number over 0")
	_, err = learned.PoolNormal([][]float64{{1}, {2, math.NaN()}}, usual)
	require.EqualError(t, err, "record 2 of group 2 is NaN, allowed is a finite number")
	_, err = learned.PoolMeans([]float64{1}, []float64{0}, usual)
	require.EqualError(t, err, "record 1 of group 1 is 0, allowed is a mean and a standard error over 0")
}

func BenchmarkPoolNormal(b *testing.B) {
	for _, groups := range []int{12, 90} {
		b.Run(fmt.Sprintf("%d groups", groups), func(b *testing.B) {
			r := rand.New(rand.NewPCG(1, 1))
			var all [][]float64
			for len(all) < groups {
				_, more := shop(r, usual)
				all = append(all, more...)
			}
			b.ReportAllocs()
			for b.Loop() {
				_, err := learned.PoolNormal(all[:groups], usual)
				require.NoError(b, err)
			}
		})
	}
}

package plan_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/plan"
)

// randomPool is a small pool with everything in it that makes a cost more than the sum of its parts: pieces that wear, second
// pieces, pieces cheaper after the first, handling that the first panel decides, loads that are no whole number, and rounding of the
// whole. Ties are frequent.
func randomPool(r *rand.Rand, panels int) *plan.Pool {
	p := &plan.Pool{Fixed: r.Int64N(50), Rounding: 2}
	for k := range 1 + r.IntN(5) {
		t := plan.Thing{Step: r.IntN(k + 1), Twice: r.IntN(2) == 0}
		t.Kinds = make([]plan.Kind, 2)
		for i := range t.Kinds {
			each := r.Int64N(30)
			t.Kinds[i] = plan.Kind{Each: each, Off: r.Int64N(each + 1), Holds: float64(2+r.IntN(30)) / 2}
		}
		t.Kinds = t.Kinds[:1+r.IntN(2)]
		p.Things = append(p.Things, t)
	}
	sameKinds(p)
	for range panels {
		p.Panels = append(p.Panels, randomPanel(r, p, min(5, 11-panels)))
	}
	p.Order = r.Perm(panels)
	p.True = func(picks []int) (int64, error) { return trueCost(p, picks), nil }
	return p
}

// sameKinds gives all things of a step the same number of kinds.
func sameKinds(p *plan.Pool) {
	for i := range p.Things {
		for k := range p.Things {
			if p.Things[i].Step == p.Things[k].Step && len(p.Things[k].Kinds) < len(p.Things[i].Kinds) {
				p.Things[i].Kinds = p.Things[i].Kinds[:len(p.Things[k].Kinds)]
			}
		}
	}
}

func randomPanel(r *rand.Rand, p *plan.Pool, most int) plan.PoolPanel {
	var out plan.PoolPanel
	kind := r.IntN(2)
	for k := range 2 + r.IntN(most-1) {
		var w plan.Way
		if k > 0 || r.IntN(4) == 0 {
			w = plan.Way{Worth: r.IntN(12), TakesNm: 100 * r.IntN(4), Micros: r.Int64N(20)}
			w.Own = w.Micros * 2
			for _, thing := range r.Perm(len(p.Things))[:r.IntN(min(3, len(p.Things))+1)] {
				w.Uses = append(w.Uses, plan.Use{Thing: thing, Sections: 1 + r.IntN(9), Kind: min(kind, len(p.Things[thing].Kinds)-1)})
			}
		}
		out.Ways = append(out.Ways, w)
	}
	return out
}

// trueCost is rounded down to threes, as amounts of money are rounded.
func trueCost(p *plan.Pool, picks []int) int64 {
	cost := exactCost(p, picks)
	return cost - cost%3
}

// exactCost reckons a whole choice from scratch.
func exactCost(p *plan.Pool, picks []int) int64 {
	sum := p.Fixed
	sections, panels := make([]int, len(p.Things)), make([]int, len(p.Things))
	handled := map[int]int{}
	for place := range picks {
		i := place
		if p.Order != nil {
			i = p.Order[place]
		}
		k := picks[i]
		sum += p.Panels[i].Ways[k].Own
		for _, u := range p.Panels[i].Ways[k].Uses {
			if _, known := handled[p.Things[u.Thing].Step]; !known {
				handled[p.Things[u.Thing].Step] = u.Kind
			}
			sections[u.Thing] += u.Sections
			panels[u.Thing]++
		}
	}
	for k, t := range p.Things {
		if sections[k] == 0 {
			continue
		}
		kind := t.Kinds[handled[t.Step]]
		n := plan.Sections(float64(sections[k]), kind.Holds)
		if t.Twice && panels[k] > 1 {
			n = max(n, 2)
		}
		sum += int64(n)*kind.Each - kind.Off
	}
	return sum
}

// everyPick tries everything.
func everyPick(p *plan.Pool, limit int64) (best plan.Pooled, found bool) {
	picks := make([]int, len(p.Panels))
	var walk func(i int)
	walk = func(i int) {
		if i < len(picks) {
			for picks[i] = range p.Panels[i].Ways {
				walk(i + 1)
			}
			return
		}
		each := plan.Pooled{Cost: trueCost(p, picks), Picks: slices.Clone(picks)}
		for i, k := range picks {
			each.Worth, each.TakesNm = each.Worth+p.Panels[i].Ways[k].Worth, each.TakesNm+p.Panels[i].Ways[k].TakesNm
		}
		if each.Cost <= limit && (!found || before(each, best)) {
			best, found = each, true
		}
	}
	walk(0)
	return best, found
}

func before(a, b plan.Pooled) bool {
	if a.Worth != b.Worth {
		return a.Worth > b.Worth
	}
	if a.Cost != b.Cost {
		return a.Cost < b.Cost
	}
	return a.TakesNm < b.TakesNm
}

func TestThePoolsBestIsWhatTryingEverythingFinds(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 8))
	none, short := 0, 0
	for n := range 3000 {
		p := randomPool(r, 1+r.IntN(8))
		limit := r.Int64N(300)
		want, ok := everyPick(p, limit)
		got, found, err := p.Best(limit)
		require.NoError(t, err)
		require.Equal(t, ok, found, "pool %d", n)
		if !ok {
			none++
			least, err := p.Least()
			require.NoError(t, err)
			cheapest, _ := everyPick(p, least)
			require.Equal(t, least, cheapest.Cost, "pool %d", n)
			_, below := everyPick(p, least-1)
			require.False(t, below, "pool %d", n)
			continue
		}
		if most, _ := everyPick(p, 1<<40); most.Worth > want.Worth {
			short++
		}
		require.Equal(t, []int{want.Worth, int(want.Cost), want.TakesNm}, []int{got.Worth, int(got.Cost), got.TakesNm}, "pool %d", n)
		require.Equal(t, got.Worth, got.Most)
		require.Equal(t, got.Cost, trueCost(p, got.Picks), "what the picks come to")
	}
	assert.Greater(t, none, 100, "some must not fit at all")
	assert.Greater(t, short, 300, "the limit must bind in many")
}

// Where not everything can be followed, the answer fits, and the bound that it tells holds.
func TestAPoolThatIsGivenUpSaysWhatMayBeMissed(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 2))
	missed := 0
	for n := range 1000 {
		p := randomPool(r, 3+r.IntN(4))
		limit := 50 + r.Int64N(250)
		want, ok := everyPick(p, limit)
		got, found, err := p.BestFollowing(limit, 1+r.IntN(4))
		require.NoError(t, err)
		if !found {
			continue
		}
		require.True(t, ok)
		require.LessOrEqual(t, got.Cost, limit)
		require.Equal(t, got.Cost, trueCost(p, got.Picks))
		require.LessOrEqual(t, got.Worth, want.Worth, "pool %d", n)
		require.GreaterOrEqual(t, got.Most, want.Worth, "pool %d", n)
		if got.Worth < want.Worth {
			missed++
		}
	}
	assert.Positive(t, missed, "in some the best must be missed")
}

// What is cheaper so far can be dearer in the end: pieces that hold no whole number of sections, and handling that another pad of the
// same step is bound to.
func TestAPoolLooksAtWhatFollows(t *testing.T) {
	broken := plan.Pool{
		Things: []plan.Thing{{Kinds: []plan.Kind{{Each: 10, Holds: 2.5}}}},
		Panels: []plan.PoolPanel{
			{Ways: []plan.Way{{Uses: []plan.Use{{Sections: 5}}}, {Own: 11, Uses: []plan.Use{{Sections: 2}}}}},
			{Ways: []plan.Way{{Uses: []plan.Use{{Sections: 3}}}}},
		},
	}
	bound := plan.Pool{
		Things: []plan.Thing{
			{Kinds: []plan.Kind{{Holds: 9}, {Holds: 9}}}, {Kinds: []plan.Kind{{Each: 1, Holds: 9}, {Each: 40, Holds: 9}}},
		},
		Panels: []plan.PoolPanel{
			{Ways: []plan.Way{{Uses: []plan.Use{{Sections: 1, Kind: 1}}}, {Own: 5, Uses: []plan.Use{{Sections: 1}}}}},
			{Ways: []plan.Way{{Uses: []plan.Use{{Thing: 1, Sections: 1}}}}},
		},
	}
	for cost, p := range map[int64]*plan.Pool{31: &broken, 6: &bound} {
		p.True = func(picks []int) (int64, error) { return exactCost(p, picks), nil }
		best, found, err := p.Best(35)
		require.NoError(t, err)
		require.True(t, found, "a choice of %d fits", cost)
		assert.Equal(t, cost, best.Cost)
		assert.Equal(t, []int{1, 0}, best.Picks)
	}
}

func TestPoolsThatCannotBe(t *testing.T) {
	leave := plan.PoolPanel{Ways: []plan.Way{{}}}
	for says, p := range map[string]plan.Pool{
		"number of panels is 0, allowed is 1 to 60":                  {},
		"panel 1: number of ways is 0, allowed is 1 to 16":           {Panels: []plan.PoolPanel{{}}},
		"panel 1: worth is -1, allowed is 0 to 1000000000":           {Panels: []plan.PoolPanel{{Ways: []plan.Way{{Worth: -1}}}}},
		"fixed cost is -1, allowed is 0 to 1000000000000000":         {Panels: []plan.PoolPanel{leave}, Fixed: -1},
		"thing 1: cost less for the first is 3, allowed is 0 to 2":   {Panels: []plan.PoolPanel{leave}, Things: []plan.Thing{{Kinds: []plan.Kind{{Each: 2, Off: 3, Holds: 1}}}}},
		"thing 1: a piece holds 0.5 sections, it has to hold one":    {Panels: []plan.PoolPanel{leave}, Things: []plan.Thing{{Kinds: []plan.Kind{{Holds: 0.5}}}}},
		"panel 1: number of things is 1, but the pool shares only 0": {Panels: []plan.PoolPanel{{Ways: []plan.Way{{Uses: []plan.Use{{Sections: 1}}}}}}},
	} {
		_, _, err := p.Best(1)
		require.EqualError(t, err, says)
	}
}

// largePool is a vehicle of 25 panels with 5 ladders each: three steps, each with a large and a small pad, and three test spots.
func largePool(r *rand.Rand) (p *plan.Pool, full int64) {
	const cent = 1_000_000
	p = &plan.Pool{Fixed: 90 * 100 * cent, Rounding: 8 * cent}
	for step, holds := range []float64{40, 30, 20} {
		pad := plan.Thing{Step: step, Twice: true, Kinds: []plan.Kind{{Each: 470 * cent, Off: 53 * cent, Holds: holds}}}
		p.Things = append(p.Things, pad, pad)
	}
	all := make([]int, 25)
	proves := [3]float64{} // a test spot proves all panels of its group
	for i := range all {
		p.Panels, all[i] = append(p.Panels, largePanel(r)), 4
		proves[p.Panels[i].Ways[1].Uses[0].Thing-6]++
	}
	for spot, panels := range proves {
		p.Things = append(p.Things, plan.Thing{Step: 3 + spot, Kinds: []plan.Kind{{Each: 1600 * cent, Holds: panels}}})
	}
	p.True = func(picks []int) (int64, error) { return trueCost(p, picks), nil }
	return p, trueCost(p, all)
}

func largePanel(r *rand.Rand) (out plan.PoolPanel) {
	const cent = 1_000_000
	sections, small, seen, spot, worth := 5+r.IntN(14), r.IntN(4)/3, 1+r.IntN(10), r.IntN(3), 0
	for _, ladder := range [][]int{{}, {0}, {1}, {1, 0}, {2, 1, 0}} {
		var w plan.Way
		if len(ladder) > 0 {
			worth += 50 * r.IntN(5) * seen
			w = plan.Way{Worth: worth, Own: 500 * cent, Micros: 1, Uses: []plan.Use{{Thing: 6 + spot, Sections: 1}}}
		}
		for _, step := range ladder {
			w.Uses = append(w.Uses, plan.Use{Thing: 2*step + small, Sections: sections})
			w.Own += int64(float64(sections) * (1.1 + 0.3*float64(step)) * (1 + 0.05*r.Float64()) * 120 * cent)
			w.TakesNm += 300 * (step + 1)
		}
		out.Ways = append(out.Ways, w)
	}
	return out
}

// Twenty vehicles a round, so divide by twenty: they differ in how hard they are.
func BenchmarkTwentyPoolsOf25Panels5Ladders(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		for seed := range uint64(20) {
			r := rand.New(rand.NewPCG(seed, 3))
			p, full := largePool(r)
			best, found, err := p.Best(p.Fixed + int64(float64(full-p.Fixed)*(0.2+0.6*r.Float64())))
			require.NoError(b, err)
			require.True(b, found)
			require.Equal(b, best.Worth, best.Most, "searched whole")
		}
	}
}

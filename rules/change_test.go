package rules_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/gen"
)

var everyHit = []rules.Hit{rules.First, rules.Unique, rules.Any, rules.Priority, rules.Collect}

// randomTables calls visit with small random tables, clauses among them, and an
// input with and without gaps.
func randomTables(t *testing.T, n int, visit func(what string, s *rules.Schema, table *rules.Table, p point)) {
	s := smallSchema(t)
	r := rand.New(rand.NewPCG(31, 1))
	w := writer{Rand: r, division: true, knowing: true}
	built := 0
	for range n {
		whens := make([]string, 1+r.IntN(6))
		for i := range whens {
			whens[i] = w.condition(1 + r.IntN(2)).ours
		}
		hit := everyHit[r.IntN(len(everyHit))]
		table, err := rules.BuildTable(s, "t", hit, whens, results)
		if err != nil {
			continue
		}
		built++
		p := randomPoint(r, 0.2)
		visit(fmt.Sprintf("%s %q at %v", hit, whens, p), s, table, p)
	}
	require.Greater(t, built, n/3)
}

// TestFlipsAgreeWithTryingEveryValue compares with running every value of every
// fact: each value that changes the answer lies in one range, no other does, and
// the range's own answer is the one that its nearest value gives.
func TestFlipsAgreeWithTryingEveryValue(t *testing.T) {
	var d rules.Decision
	var flips rules.Flips
	seen := 0
	randomTables(t, 3000, func(what string, s *rules.Schema, table *rules.Table, p point) {
		in := p.input(t, s)
		table.Decide(in, &d)
		base := answerKey(table, &d)
		table.Flips(in, &flips)
		require.True(t, flips.Exact, what)
		for i, f := range smallFacts() {
			was := p[i]
			for k, v := range f.values {
				p[i] = v
				table.Decide(p.input(t, s), &d)
				got := answerKey(table, &d)
				held := 0
				for _, flip := range flips.List {
					if flip.Fact != rules.FactID(i) || !contains(flip, k) {
						continue
					}
					held++
					there := rules.Decision{Outcome: flip.Outcome}
					if flip.Outcome == rules.Answered {
						there.Winners = flip.Rules
					}
					require.Equal(t, got, answerKey(table, &there), "%s, with %s = %v", what, f.name, v)
				}
				want := 0
				if got != base {
					want = 1
				}
				require.Equal(t, want, held, "%s, with %s = %v", what, f.name, v)
				seen += want
			}
			p[i] = was
		}
	})
	require.Greater(t, seen, 2000)
}

func contains(f rules.Flip, code int) bool {
	if f.Mask != 0 {
		return f.Mask>>code&1 == 1
	}
	return int(f.Lo) <= code && code <= int(f.Hi)
}

// Running the changed input gives the answer that the flip promises, and one step
// less gives it not.
func TestFlipsAreTheNearestOfTheirRange(t *testing.T) {
	var d rules.Decision
	var flips rules.Flips
	randomTables(t, 500, func(what string, s *rules.Schema, table *rules.Table, p point) {
		in := p.input(t, s)
		table.Flips(in, &flips)
		require.True(t, slices.IsSortedFunc(flips.List, func(a, b rules.Flip) int {
			if a.Share < b.Share {
				return -1
			}
			if a.Share > b.Share {
				return 1
			}
			return 0
		}), what)
		for _, f := range flips.List {
			changed := in.Clone()
			changed.Apply(f)
			table.Decide(changed, &d)
			require.Equal(t, f.Outcome, d.Outcome, what)
			if d.Outcome == rules.Answered {
				require.Equal(t, d.Winners, f.Rules, what)
			}
		}
	})
}

// TestBorderAgreesWithTryingEveryPair compares every cell of a map with running
// the two values, missing ones too.
func TestBorderAgreesWithTryingEveryPair(t *testing.T) {
	var d rules.Decision
	r := rand.New(rand.NewPCG(32, 1))
	answers := 0
	randomTables(t, 600, func(what string, s *rules.Schema, table *rules.Table, p point) {
		facts := smallFacts()
		pair := r.Perm(len(facts))[:2]
		x, y := pair[0], pair[1]
		m := table.Border(p.input(t, s), rules.FactID(x), rules.FactID(y))
		require.True(t, m.Exact, what)
		answers += len(m.Answers)
		wasX, wasY := p[x], p[y]
		for yi, ys := range m.Ys {
			for xi, xs := range m.Xs {
				said := m.Answers[m.Cells[yi][xi]]
				there := rules.Decision{Outcome: said.Outcome}
				if said.Outcome == rules.Answered {
					there.Winners = said.Rules
				}
				for b := ys.Lo; b <= ys.Hi; b++ {
					for a := xs.Lo; a <= xs.Hi; a++ {
						p[x], p[y] = valueAt(facts[x], a), valueAt(facts[y], b)
						table.Decide(p.input(t, s), &d)
						require.Equal(t, answerKey(table, &d), answerKey(table, &there),
							"%s, %s = %v and %s = %v", what, facts[x].name, p[x], facts[y].name, p[y])
					}
				}
			}
		}
		p[x], p[y] = wasX, wasY
		require.Equal(t, len(facts[x].values)+1, covered(m.Xs), what)
		require.Equal(t, len(facts[y].values)+1, covered(m.Ys), what)
	})
	require.Greater(t, answers, 400)
}

func valueAt(f smallFact, code int32) any {
	if code < 0 {
		return nil
	}
	return f.values[code]
}

func covered(all []rules.Stretch) int {
	n := 0
	for _, s := range all {
		n += int(s.Hi-s.Lo) + 1
	}
	return n
}

// What has been made to hold holds, and nothing that held already was touched.
func TestMadeToHoldMakesTheRuleHold(t *testing.T) {
	made := 0
	randomTables(t, 800, func(what string, s *rules.Schema, table *rules.Table, p point) {
		in := p.input(t, s)
		for rule := range table.Rules() {
			held, ok := table.MadeToHold(in, rule)
			if table.BoxTruth(in, rule) == "true" {
				require.True(t, ok, what)
				for i := range p {
					require.Equal(t, in.Value(rules.FactID(i)), held.Value(rules.FactID(i)), what)
				}
			}
			if ok {
				made++
				require.Equal(t, "true", table.BoxTruth(held, rule), "%s, rule %d", what, rule)
			}
		}
	})
	require.Greater(t, made, 500)
}

func TestFlipsOverTheBakerySayTheRangeInWords(t *testing.T) {
	set := loadBakery(t)
	heat, _ := set.Table("heat")
	in := give(t, set.Schema(), map[string]any{
		"crust.wish": "pale", "dough.water_pct": 60, "dough.flour": "wheat", "dough.rise_h": 2, "oven.steam": false, "oven.stone_kg": 0,
	})
	var flips rules.Flips
	heat.Flips(in, &flips)
	require.NotEmpty(t, flips.List)
	var d rules.Decision
	for _, f := range flips.List {
		assert.NotEmpty(t, set.Schema().Range(f))
		changed := in.Clone()
		changed.Apply(f)
		heat.Decide(changed, &d)
		assert.Equal(t, f.Outcome, d.Outcome)
	}
	m := heat.Border(in, 0, 1)
	for _, x := range m.Xs {
		assert.NotEmpty(t, set.Schema().Stretch(m.X, x))
	}
}

// BenchmarkFlips finds all one-fact changes of the answer.
func BenchmarkFlips(b *testing.B) {
	everySize(b, func(b *testing.B, rows []gen.Row, at [][gen.Facts]float64) {
		s := gen.Schema()
		t := build(b, s, rules.First, rows)
		ins := inputs(s, at)
		var f rules.Flips
		for _, in := range ins {
			t.Flips(in, &f)
		}
		b.ReportAllocs()
		i, found := 0, 0
		for b.Loop() {
			t.Flips(ins[i%len(ins)], &f)
			found += len(f.List)
			i++
		}
		b.ReportMetric(float64(found)/float64(i), "flips/op")
	})
}

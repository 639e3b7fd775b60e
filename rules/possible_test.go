package rules_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
)

// answerKey tells the results of a decision apart.
func answerKey(t *rules.Table, d *rules.Decision) string {
	var parts []string
	for i, w := range d.Winners {
		if i > 0 && t.Hit() == rules.Any {
			break
		}
		parts = append(parts, t.Rules()[w].Result.String())
	}
	return fmt.Sprint(d.Outcome, " ", strings.Join(parts, " + "))
}

// tried is what trying every completion shows.
type tried struct {
	answers map[string]bool // other than the present
	facts   []rules.FactID  // whose measuring changes the answer somewhere
}

func tryAll(t testing.TB, s *rules.Schema, table *rules.Table, p point) tried {
	out := tried{answers: map[string]bool{}}
	var d rules.Decision
	facts := smallFacts()
	ids := map[string]int{} // a completion without one fact -> first answer seen
	names := []string{}
	moved := make([]bool, len(p))
	number := func(key string) int {
		for i, n := range names {
			if n == key {
				return i
			}
		}
		names = append(names, key)
		return len(names) - 1
	}
	p.completions(func(q point) bool {
		table.Decide(q.input(t, s), &d)
		n := number(answerKey(table, &d))
		for i := range p {
			if p[i] != nil {
				continue
			}
			held := q[i]
			q[i] = "*"
			key := fmt.Sprint(i, q)
			q[i] = held
			if first, ok := ids[key]; ok && first != n {
				moved[i] = true
			} else if !ok {
				ids[key] = n
			}
		}
		return true
	})
	table.Decide(p.input(t, s), &d)
	for _, n := range names {
		if n != answerKey(table, &d) {
			out.answers[n] = true
		}
	}
	for i := range facts {
		if moved[i] {
			out.facts = append(out.facts, rules.FactID(i))
		}
	}
	return out
}

func keyOf(t *rules.Table, a rules.PossibleAnswer) string {
	d := rules.Decision{Outcome: a.Outcome}
	if a.Outcome == rules.Answered {
		d.Winners = a.Rules
	}
	return answerKey(t, &d)
}

// TestPossibleAgreesWithTryingEverything compares Possible with brute force: when
// exact they must be equal; else what it is sure of must be so, and what is so
// must be in its lists.
func TestPossibleAgreesWithTryingEverything(t *testing.T) {
	s := smallSchema(t)
	r := rand.New(rand.NewPCG(21, 1))
	w := writer{Rand: r, division: true, knowing: true}
	exact, inexact, wanted := 0, 0, 0
	for range 700 {
		n := 1 + r.IntN(5)
		whens := make([]string, n)
		for i := range whens {
			whens[i] = w.condition(1 + r.IntN(2)).ours
		}
		hit := []rules.Hit{rules.First, rules.Unique, rules.Any, rules.Priority, rules.Collect}[r.IntN(5)]
		table, err := rules.BuildTable(s, "t", hit, whens, results)
		if err != nil {
			continue
		}
		p := randomPoint(r, 0.45)
		missing := 0
		for _, v := range p {
			if v == nil {
				missing++
			}
		}
		if missing > 4 {
			continue
		}
		what := fmt.Sprintf("%s %q at %v", hit, whens, p)
		got := table.Possible(p.input(t, s), 0)
		want := tryAll(t, s, table, p)
		answers := map[string]bool{}
		for _, a := range got.Answers {
			key := keyOf(table, a)
			require.False(t, answers[key], "%s lists %s twice", what, key)
			answers[key] = true
			if a.Sure {
				require.True(t, want.answers[key], "%s: %s cannot arise", what, key)
			}
		}
		for key := range want.answers {
			require.True(t, answers[key], "%s: %s can arise", what, key)
		}
		var facts []rules.FactID
		for _, f := range got.Facts {
			facts = append(facts, f.Fact)
			if f.Change == rules.CanChange {
				require.Contains(t, want.facts, f.Fact, what)
			}
		}
		for _, f := range want.facts {
			require.Contains(t, facts, f, what)
		}
		if got.Exact {
			exact++
			require.Equal(t, want.facts, facts, what)
			require.Len(t, got.Answers, len(want.answers), what)
		} else {
			inexact++
		}
		wanted += len(facts)
	}
	require.Greater(t, exact, 200)
	require.Greater(t, inexact, 5)
	require.Greater(t, wanted, 200)
}

func TestPossibleOverTheBakery(t *testing.T) {
	set := loadBakery(t)
	heat, _ := set.Table("heat")
	names := func(p rules.Possible) []string {
		var out []string
		for _, w := range p.Facts {
			out = append(out, set.Schema().Fact(w.Fact).Name+" "+w.Change.String())
		}
		return out
	}
	t.Run("nothing known", func(t *testing.T) {
		p := heat.Possible(set.Schema().NewInput(), 0)
		assert.Equal(t, []string{
			"dough.water_pct can change", "dough.rise_h can change", "dough.flour can change", "crust.wish can change",
			"oven.steam can change", "oven.stone_kg can change",
		}, names(p))
		assert.Len(t, p.Answers, 3)
	})
	t.Run("a fact that cannot matter is not listed", func(t *testing.T) {
		in := give(t, set.Schema(), map[string]any{"crust.wish": "pale", "dough.water_pct": 80})
		p := heat.Possible(in, 0)
		assert.Empty(t, p.Facts, "80 % is wet for any flour")
		assert.Empty(t, p.Answers)
		assert.True(t, p.Exact)
	})
	t.Run("only rye would tip it", func(t *testing.T) {
		in := give(t, set.Schema(), map[string]any{"crust.wish": "pale", "dough.water_pct": 72, "oven.stone_kg": 0})
		p := heat.Possible(in, 0)
		require.Equal(t, []string{"dough.flour can change"}, names(p)[:1])
		assert.Equal(t, "wet-dough", heat.Rules()[p.Facts[0].Rules[0]].ID)
	})
	t.Run("without budget nothing is claimed and nothing left out", func(t *testing.T) {
		p := heat.Possible(set.Schema().NewInput(), 1)
		assert.False(t, p.Exact)
		assert.Len(t, names(p), 6)
	})
}

func TestPossibleLeavesTheInputAlone(t *testing.T) {
	set := loadBakery(t)
	heat, _ := set.Table("heat")
	in := give(t, set.Schema(), map[string]any{"dough.water_pct": 60})
	before := in.Clone()
	heat.Possible(in, 0)
	for i := range set.Schema().Facts() {
		assert.Equal(t, before.Value(rules.FactID(i)), in.Value(rules.FactID(i)))
	}
	assert.True(t, slices.Contains([]int{-1, 3}, heat.First(in, nil)))
}

package rules_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
)

// learnable are the answers that come up when some facts of p are filled in and everything else stays as it is, told
// apart by key; for a collecting table the rules that come to hold.
func learnable(t testing.TB, s *rules.Schema, table *rules.Table, p point, group map[int]bool) map[string]bool {
	var base, d rules.Decision
	table.Decide(p.input(t, s), &base)
	out := map[string]bool{}
	held := map[int32]bool{}
	for _, w := range base.Winners {
		held[w] = true
	}
	was := answerKey(table, &base)
	only := append(point(nil), p...)
	for i := range p {
		if p[i] == nil && !group[i] {
			only[i] = "as it is"
		}
	}
	only.completions(func(q point) bool {
		full := append(point(nil), q...)
		for i := range p {
			if !group[i] {
				full[i] = p[i]
			}
		}
		table.Decide(full.input(t, s), &d)
		if table.Hit() != rules.Collect {
			if key := answerKey(table, &d); key != was {
				out[key] = true
			}
			return true
		}
		for _, w := range d.Winners {
			if !held[w] {
				out[table.Rules()[w].ID] = true
			}
		}
		return true
	})
	return out
}

// TestLearnAgreesWithTryingEverything compares Learn with filling in the facts in every way.
func TestLearnAgreesWithTryingEverything(t *testing.T) {
	if testing.Short() {
		t.Skip("takes long, and nothing in it runs at once")
	}
	s := smallSchema(t)
	r := rand.New(rand.NewPCG(33, 1))
	w := writer{Rand: r, division: true, knowing: true}
	alone, jointly, not := 0, 0, 0
	for range 1500 {
		whens := make([]string, 1+r.IntN(5))
		for i := range whens {
			whens[i] = w.condition(1 + r.IntN(2)).ours
		}
		hit := everyHit[r.IntN(len(everyHit))]
		table, err := rules.BuildTable(s, "t", hit, whens, results)
		if err != nil {
			continue
		}
		p := randomPoint(r, 0.45)
		group, facts := map[int]bool{}, []rules.FactID{}
		for i, v := range p {
			if v == nil && len(facts) < 2 && r.IntN(2) == 0 {
				group[i] = true
				facts = append(facts, rules.FactID(i))
			}
		}
		if len(facts) == 0 || p.missing() > 4 {
			continue
		}
		what := fmt.Sprintf("%s %q at %v, learning %v", hit, whens, p, facts)
		got := table.Learn(p.input(t, s), facts, 0)
		want := learnable(t, s, table, p, group)
		if got.Jointly || got.Change == 0 {
			require.Empty(t, want, what)
			switch matter := touching(facts, tryAll(t, s, table, p).facts); got.Change {
			case rules.CanChange:
				jointly++
				require.NotEmpty(t, matter, what)
			case 0:
				not++
				require.Empty(t, matter, what)
			}
			continue
		}
		told := map[string]bool{}
		for _, rule := range got.Rules {
			key := table.Rules()[rule].ID
			if hit != rules.Collect {
				key = answerKey(table, &rules.Decision{Outcome: rules.Answered, Winners: []int32{rule}})
			}
			told[key] = true
		}
		for key := range want {
			if hit == rules.Collect || key[0] == answered {
				require.True(t, told[key], "%s: %s can come of it", what, key)
			} else {
				require.True(t, got.Nothing, "%s: %s can come of it", what, key)
			}
		}
		if got.Change == rules.CanChange {
			alone++
			for key := range told {
				require.True(t, want[key], "%s: %s cannot come of it", what, key)
			}
		}
	}
	require.Greater(t, alone, 200)
	require.Greater(t, jointly, 20)
	require.Greater(t, not, 200)
}

// answered begins the key of a decision that came to an answer.
var answered = fmt.Sprint(rules.Answered)[0]

// touching are the facts of a group that brute force found to matter.
func touching(group, all []rules.FactID) (out []rules.FactID) {
	for _, f := range group {
		for _, g := range all {
			if f == g {
				out = append(out, f)
			}
		}
	}
	return out
}

func (p point) missing() (n int) {
	for _, v := range p {
		if v == nil {
			n++
		}
	}
	return n
}

func TestLearnOverTheBakery(t *testing.T) {
	set := loadBakery(t)
	heat, _ := set.Table("heat")
	in := give(t, set.Schema(), map[string]any{"crust.wish": "pale", "dough.water_pct": 72, "oven.stone_kg": 0})
	flour, _ := set.Schema().FactID("dough.flour")
	steam, _ := set.Schema().FactID("oven.steam")
	learned := heat.Learn(in, []rules.FactID{flour}, 0)
	require.Equal(t, rules.CanChange, learned.Change)
	assert.False(t, learned.Jointly)
	require.NotEmpty(t, learned.Rules)
	assert.Equal(t, "wet-dough", heat.Rules()[learned.Rules[0]].ID)
	assert.Zero(t, heat.Learn(give(t, set.Schema(), map[string]any{"crust.wish": "pale", "dough.water_pct": 80}), []rules.FactID{steam}, 0))
}

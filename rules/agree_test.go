package rules_test

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/expr-lang/expr"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
)

var results = []string{"x", "y", "z"}

// one builds a table of a single rule; skip says that the condition was refused,
// as random arithmetic on constants may be (a division by zero).
func one(t testing.TB, s *rules.Schema, when string) (table *rules.Table, skip bool) {
	table, err := rules.BuildTable(s, "t", rules.First, []string{when}, results)
	if err != nil {
		require.Regexp(t, "division by zero|no result|no number is in|more than", err.Error(), "%s", when)
		return nil, true
	}
	return table, false
}

// TestBoxesAgreeWithKleene compares boxes with the reference on inputs with
// missing facts. Where the reference is undecided and the boxes say no, every
// completion is tried: none may make the condition true.
func TestBoxesAgreeWithKleene(t *testing.T) {
	if testing.Short() {
		t.Skip("takes long, and nothing in it runs at once")
	}
	s := smallSchema(t)
	r := rand.New(rand.NewPCG(11, 1))
	w := writer{Rand: r, division: true, knowing: true}
	compared, sharper := 0, 0
	for range 4000 {
		when := w.condition(r.IntN(4)).ours
		table, skip := one(t, s, when)
		if skip {
			continue
		}
		ref, err := newReference(when)
		require.NoError(t, err, "%s", when)
		for range 6 {
			p := randomPoint(r, r.Float64())
			got, want := table.BoxTruth(p.input(t, s), 0), ref.truth(p)
			compared++
			if got == no && want == maybe {
				// a fact that known() asks about is a new condition once it is given; trying all is slow
				if sharper++; sharper%20 == 0 && !strings.Contains(when, "known") {
					p.completions(func(q point) bool {
						require.NotEqual(t, yes, ref.truth(q), "%s at %v holds at %v", when, p, q)
						return true
					})
				}
				continue
			}
			require.Equal(t, want, got, "%s at %v", when, p)
		}
	}
	require.Greater(t, compared, 15_000)
	require.Greater(t, sharper, 100, "some conditions are settled by all values of a missing fact")
}

// TestIndexScanAndPlainMachineAgree compares, on complete inputs, the index, a
// scan over the boxes and expr's machine run on the same condition.
func TestIndexScanAndPlainMachineAgree(t *testing.T) {
	if testing.Short() {
		t.Skip("takes long, and nothing in it runs at once")
	}
	s := smallSchema(t)
	r := rand.New(rand.NewPCG(12, 1))
	w := writer{Rand: r}
	held := 0
	for range 120 {
		n := 1 + r.IntN(90)
		whens, theirs := make([]string, n), make([]string, n)
		for i := range whens {
			p := w.condition(1 + r.IntN(3))
			whens[i], theirs[i] = p.ours, p.theirs
		}
		table, err := rules.BuildTable(s, "t", rules.First, whens, results)
		if err != nil {
			continue
		}
		var sc rules.Scratch
		var d rules.Decision
		for range 4 {
			p := randomPoint(r, 0)
			in := p.input(t, s)
			plain, scan := -1, -1
			for i := range whens {
				program, err := expr.Compile(theirs[i], expr.Env(p.env()), expr.AsBool())
				require.NoError(t, err, "%s", theirs[i])
				v, err := expr.Run(program, p.env())
				require.NoError(t, err, "%s", theirs[i])
				box := table.BoxTruth(in, i)
				require.Equal(t, word(v.(bool)), box, "%s at %v", whens[i], p)
				if v == true && plain < 0 {
					plain = i
				}
				if box == yes && scan < 0 {
					scan = i
				}
			}
			require.Equal(t, plain, table.First(in, &sc), "%v at %v", whens, p)
			require.Equal(t, plain, scan)
			table.Decide(in, &d)
			if plain < 0 {
				require.Equal(t, rules.NoRule, d.Outcome)
				continue
			}
			held++
			require.Equal(t, []int32{int32(plain)}, d.Winners)
			require.Empty(t, d.Pending, "nothing is missing and nothing divides")
		}
	}
	require.Greater(t, held, 100)
}

// TestDecisionsAgreeWithAScan compares every part of a decision under every hit
// policy with one made by scanning, facts missing.
func TestDecisionsAgreeWithAScan(t *testing.T) {
	s := smallSchema(t)
	r := rand.New(rand.NewPCG(13, 1))
	w := writer{Rand: r, division: true, knowing: true}
	for range 1500 {
		n := 1 + r.IntN(12)
		whens := make([]string, n)
		for i := range whens {
			whens[i] = w.condition(1 + r.IntN(2)).ours
		}
		hit := []rules.Hit{rules.First, rules.Unique, rules.Any, rules.Priority, rules.Collect}[r.IntN(5)]
		table, err := rules.BuildTable(s, "t", hit, whens, results)
		if err != nil {
			continue
		}
		var d rules.Decision
		for range 4 {
			in := randomPoint(r, 0.3).input(t, s)
			truths := make([]string, n)
			for i := range whens {
				truths[i] = table.BoxTruth(in, i)
			}
			want := decideByScan(table, truths)
			table.Decide(in, &d)
			require.Equal(t, want.outcome, d.Outcome, "%s %v", hit, whens)
			require.Equal(t, want.winners, append([]int32(nil), d.Winners...), "%s %v", hit, whens)
			var pending []int32
			for _, p := range d.Pending {
				pending = append(pending, p.Rule)
				require.True(t, len(p.Facts) > 0 || p.Stuck)
				for _, f := range p.Facts {
					require.False(t, in.Known(f))
				}
			}
			require.Equal(t, want.pending, pending, "%s %v", hit, whens)
			for _, near := range d.Near {
				require.Equal(t, no, truths[near.Rule])
			}
		}
	}
}

type scanned struct {
	outcome          rules.Outcome
	winners, pending []int32
}

// decideByScan applies the hit policies as OMG DMN 1.5 (clause Hit policy) means them.
func decideByScan(table *rules.Table, truths []string) scanned {
	order := make([]int, len(truths))
	for i := range order {
		order[i] = i
	}
	result := func(i int) string { v, _ := table.Rules()[i].Result.Word("word"); return v }
	if table.Hit() == rules.Priority { // z beats y beats x
		slices.SortStableFunc(order, func(a, b int) int { return int(result(b)[0]) - int(result(a)[0]) })
	}
	var out scanned
	var holders []int32
	for _, i := range order {
		switch {
		case truths[i] == yes:
			holders = append(holders, int32(i))
		case truths[i] == maybe && (len(holders) == 0 || table.Hit() != rules.First && table.Hit() != rules.Priority):
			out.pending = append(out.pending, int32(i))
		}
	}
	switch {
	case len(holders) == 0:
		return out
	case table.Hit() == rules.First || table.Hit() == rules.Priority:
		holders = holders[:1]
	case table.Hit() == rules.Unique && len(holders) > 1,
		table.Hit() == rules.Any && slices.ContainsFunc(holders, func(h int32) bool { return result(int(h)) != result(int(holders[0])) }):
		out.outcome = rules.Conflict
		return out
	}
	out.outcome, out.winners = rules.Answered, holders
	return out
}

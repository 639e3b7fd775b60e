package check_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/check"
)

// parcels is an invented schema, small enough to try every input.
func parcels(t testing.TB) *rules.Schema {
	t.Helper()
	s, err := rules.NewSchema([]rules.Fact{
		{Name: "box.kg", Label: "weight", Kind: rules.Number, Unit: "kg", Max: 6, Step: 1, Class: rules.Measurable},
		{Name: "box.size", Label: "size", Kind: rules.Word, Words: []string{"small", "middling", "large"}, Ordered: true},
		{Name: "box.fragile", Label: "fragile", Kind: rules.Flag},
		{Name: "box.cm", Label: "height", Kind: rules.Number, Unit: "cm", Max: 3, Step: 1, Class: rules.Measurable},
	}, []rules.ResultType{{Table: "shelf", Priority: "height", HighestWins: true, Fields: []rules.Field{
		{Name: "height", Kind: rules.Word, Words: []string{"low", "mid", "top"}, Ordered: true, Required: true},
	}}})
	require.NoError(t, err)
	return s
}

type row struct{ when, then string }

func text(hit string, rows ...row) string {
	var b strings.Builder
	fmt.Fprintf(&b, "table: shelf\nhit: %s\nrules:\n", hit)
	for i, r := range rows {
		fmt.Fprintf(&b, "  - id: r-%d\n    when: %s\n    then: {height: %s}\n    because: invented\n", i, r.when, r.then)
	}
	return b.String()
}

func loaded(t testing.TB, file string) *rules.Set {
	t.Helper()
	set, err := rules.Load(fstest.MapFS{"shelf.yaml": {Data: []byte(file)}}, parcels(t))
	require.NoError(t, err, file)
	return set
}

func table(t testing.TB, hit string, rows ...row) *rules.Table {
	t.Helper()
	return loaded(t, text(hit, rows...)).Tables()[0]
}

// holds says for which inputs a condition is true.
func holds(t testing.TB, when string) func(*rules.Input) bool {
	t.Helper()
	only := table(t, "first", row{when, "low"})
	return func(in *rules.Input) bool { return only.First(in, nil) == 0 }
}

func codes(fs []check.Finding) map[check.Code]int {
	out := map[check.Code]int{}
	for _, f := range fs {
		out[f.Code]++
	}
	return out
}

// all calls yield for every input.
func all(s *rules.Schema, yield func(in *rules.Input)) {
	for kg := int32(-1); kg <= 6; kg++ {
		for size := int32(-1); size < 3; size++ {
			for fragile := int32(-1); fragile < 2; fragile++ {
				for cm := int32(-1); cm <= 3; cm++ {
					yield(s.InputAt([]int32{kg, size, fragile, cm}))
				}
			}
		}
	}
}

func clause(r *rand.Rand) string {
	switch r.IntN(9) {
	case 0:
		return fmt.Sprintf("box.kg >= %d", r.IntN(7))
	case 1:
		return fmt.Sprintf("box.kg < %d", r.IntN(7))
	case 2:
		return "box.size >= \"middling\""
	case 3:
		return "box.size != \"middling\""
	case 4:
		return "not known(box.kg)"
	case 5:
		return "(not known(box.fragile) || box.fragile)"
	case 6:
		return fmt.Sprintf("box.kg + box.cm %s %d", []string{">", "<=", "=="}[r.IntN(3)], r.IntN(9))
	case 7:
		return fmt.Sprintf("box.cm <= %d", r.IntN(4))
	}
	return "box.fragile == false"
}

func randomRows(r *rand.Rand) []row {
	words := []string{"low", "mid", "top"}
	var rows []row
	for range 1 + r.IntN(6) {
		when := clause(r)
		if r.IntN(2) == 0 {
			when += " && " + clause(r)
		}
		if r.IntN(4) == 0 {
			when += " || " + clause(r)
		}
		rows = append(rows, row{when, words[r.IntN(3)]})
	}
	return rows
}

// The findings of random tables are those that trying every input gives, and what they
// say of inputs is so for each of these.
func TestFindingsAreWhatTryingEveryInputGives(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 2))
	seen := map[check.Code]int{}
	for n := range 500 {
		hit := []string{"first", "priority", "unique", "any"}[n%4]
		rows := randomRows(r)
		tab := table(t, hit, rows...)
		found := check.Table(tab, 0)
		more := false
		gaps, clashes := map[string]func(*rules.Input) bool{}, map[[2]int32]func(*rules.Input) bool{}
		for _, f := range found {
			switch f.Code {
			case check.Gap:
				if more = more || f.More > 0; f.More > 0 {
					continue
				}
				gaps[f.Input.When] = holds(t, f.Input.When)
			case check.Conflict:
				two, _ := tab.Rule(f.Places[0].Rule)
				one, _ := tab.Rule(f.Places[1].Rule)
				clashes[[2]int32{int32(one.Index), int32(two.Index)}] = holds(t, f.Input.When)
			case check.NotDecided:
				require.Fail(t, "a space as small as this is gone through", "%s", f)
			}
		}
		pairs, won, reached := map[[2]int32]bool{}, map[int32]bool{}, map[string]bool{}
		all(tab.Schema(), func(in *rules.Input) {
			var d rules.Decision
			tab.Decide(in, &d)
			told := false
			for when, in1 := range gaps {
				if in1(in) {
					told = true
					reached[when] = true
				}
			}
			require.Equal(t, d.Outcome == rules.NoRule, told || more && d.Outcome == rules.NoRule, "%s %v: %v", hit, rows, found)
			here := map[[2]int32]bool{}
			for i, p := range d.Conflict {
				for _, q := range d.Conflict[:i] {
					if hit == "unique" || rows[p].then != rows[q].then {
						here[[2]int32{min(p, q), max(p, q)}] = true
						pairs[[2]int32{min(p, q), max(p, q)}] = true
					}
				}
			}
			for pair, in1 := range clashes {
				if in1(in) {
					require.True(t, here[pair], "%s %v: %v", hit, rows, found)
				}
			}
			for _, w := range d.Winners {
				won[w] = true
			}
		})
		got := codes(found)
		require.Len(t, reached, len(gaps), "a gap that is no input's: %s %v: %v", hit, rows, found)
		require.Equal(t, len(pairs), got[check.Conflict], "%s %v: %v", hit, rows, found)
		if hit == "first" || hit == "priority" {
			require.Equal(t, len(rows)-len(won), got[check.NeverWins]+got[check.NeverTrue], "%s %v: %v", hit, rows, found)
		}
		for c, k := range got {
			seen[c] += k
		}
	}
	for _, c := range []check.Code{check.Gap, check.Conflict, check.NeverWins, check.NeverTrue, check.Duplicate, check.Mergeable, check.AlwaysTrue, check.UnusedWord} {
		assert.Greater(t, seen[c], 5, c)
	}
}

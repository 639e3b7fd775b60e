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
	}, []rules.ResultType{{Table: "shelf", Priority: "height", HighestWins: true, Fields: []rules.Field{
		{Name: "height", Kind: rules.Word, Words: []string{"low", "mid", "top"}, Ordered: true, Required: true},
	}}})
	require.NoError(t, err)
	return s
}

type row struct{ when, then string }

func table(t testing.TB, hit string, rows ...row) *rules.Table {
	t.Helper()
	var b strings.Builder
	fmt.Fprintf(&b, "table: shelf\nhit: %s\nrules:\n", hit)
	for i, r := range rows {
		fmt.Fprintf(&b, "  - id: r-%d\n    when: %s\n    then: {height: %s}\n    because: invented\n", i, r.when, r.then)
	}
	set, err := rules.Load(fstest.MapFS{"shelf.yaml": {Data: []byte(b.String())}}, parcels(t))
	require.NoError(t, err, b.String())
	return set.Tables()[0]
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
				yield(s.InputAt([]int32{kg, size, fragile}))
			}
		}
	}
}

func clause(r *rand.Rand) string {
	switch r.IntN(7) {
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
	}
	return "box.fragile == false"
}

// The findings of random tables are those that trying every input gives.
func TestFindingsAreWhatTryingEveryInputGives(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 2))
	words := []string{"low", "mid", "top"}
	seen := map[check.Code]int{}
	for n := range 1500 {
		hit := []string{"first", "priority", "unique", "any"}[n%4]
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
		tab := table(t, hit, rows...)
		gap, pairs, won := false, map[[2]int32]bool{}, map[int32]bool{}
		all(tab.Schema(), func(in *rules.Input) {
			var d rules.Decision
			tab.Decide(in, &d)
			gap = gap || d.Outcome == rules.NoRule
			for i, p := range d.Conflict {
				for _, q := range d.Conflict[:i] {
					if hit == "unique" || rows[p].then != rows[q].then {
						pairs[[2]int32{min(p, q), max(p, q)}] = true
					}
				}
			}
			for _, w := range d.Winners {
				won[w] = true
			}
		})
		found := check.Table(tab, 0)
		got := codes(found)
		require.Equal(t, gap, got[check.Gap] == 1, "%s %v: %v", hit, rows, found)
		require.Equal(t, len(pairs), got[check.Conflict], "%s %v: %v", hit, rows, found)
		if hit == "first" || hit == "priority" {
			require.Equal(t, len(rows)-len(won), got[check.NeverWins]+got[check.NeverTrue], "%s %v: %v", hit, rows, found)
		}
		require.Zero(t, got[check.NotDecided])
		for c, k := range got {
			seen[c] += k
		}
	}
	for _, c := range []check.Code{check.Gap, check.Conflict, check.NeverWins, check.NeverTrue} {
		assert.Greater(t, seen[c], 50, c)
	}
}

func TestFindingReadsAsASentence(t *testing.T) {
	for _, c := range []struct {
		name, hit string
		rows      []row
		want      string
	}{
		{
			"a gap names the facts that matter", "first",
			[]row{{"known(box.kg) && box.kg <= 4", "low"}, {"not known(box.kg)", "mid"}, {"box.size <= \"middling\"", "top"}},
			"shelf.yaml: no rule of shelf answers: weight 5 kg, size not known; add a rule for it, or a last one with when: true [gap]",
		},
		{
			"hidden by two rules together", "first",
			[]row{{"box.kg <= 3", "low"}, {"box.kg >= 4", "mid"}, {"box.kg >= 2 && box.kg <= 5", "top"}, {"true", "low"}},
			"shelf.yaml:12:9: r-2 can never win: rules in front of it take every input of it; narrow those in front, move it, or delete it [never-wins]",
		},
		{
			"never true", "first",
			[]row{{"box.kg > 4 && box.kg < 2", "low"}, {"box.kg > 3", "mid"}, {"true", "top"}},
			"shelf.yaml:4:9: the condition of r-0 is never true; mend its bounds or delete the rule [never-true]",
		},
		{
			"two rules that hold together", "unique",
			[]row{{"box.kg <= 3", "low"}, {"box.kg >= 3", "mid"}, {"not known(box.kg)", "top"}},
			"shelf.yaml:8:9: r-1 (height: mid) and r-0 (height: low) hold together: weight 3 kg; narrow one of them [conflict]",
		},
		{
			"said twice", "priority",
			[]row{{"box.kg <= 3", "low"}, {"not (box.kg > 3)", "low"}, {"true", "mid"}, {"box.fragile", "top"}},
			"shelf.yaml:8:9: r-1 holds for the same inputs as r-0 and gives the same; delete one of them [duplicate]",
		},
		{
			"always true without saying so", "first",
			[]row{{"known(box.kg) || not known(box.kg)", "low"}},
			"shelf.yaml:4:9: the condition of r-0 is true for every input; write when: true if that is meant [always-true]",
		},
		{
			"a word that no rule gives", "first",
			[]row{{"box.fragile", "low"}, {"true", "top"}},
			"shelf.yaml: no rule of shelf gives height mid [unused-word]",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			var lines []string
			for _, f := range check.Table(table(t, c.hit, c.rows...), 0) {
				lines = append(lines, f.String())
			}
			assert.Contains(t, lines, c.want)
		})
	}
}

func TestSearchWithoutStepsIsNotDecided(t *testing.T) {
	tab := table(t, "first", row{"box.kg <= 3", "low"}, row{"box.kg > 3", "mid"}, row{"not known(box.kg)", "top"})
	assert.Equal(t, 1, codes(check.Table(tab, 1))[check.NotDecided])
}

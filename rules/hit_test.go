package rules_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
)

// TestHitPolicies checks the hit policies against their definitions in OMG DMN
// 1.5, clause Hit policy (8.2.10 in its table of contents): single hit U, A, P
// and F, multiple hits R, put in our words beside each row.
func TestHitPolicies(t *testing.T) {
	s := smallSchema(t)
	// results go round x, y, z; z is the strongest
	same := []string{"x", "x", "x", "x"}
	for _, c := range []struct {
		name   string
		clause string
		hit    rules.Hit
		whens  []string
		words  []string
		n      float64
		want   rules.Outcome
		wins   []int32
		clash  []int32
	}{
		{"unique, one holds", "U: rules do not overlap", rules.Unique, []string{"a.n < 3", "a.n >= 3"}, results, 4, rules.Answered, []int32{1}, nil},
		{"unique, two hold", "U: at most one rule may match", rules.Unique, []string{"a.n < 3", "a.n < 4"}, results, 1, rules.Conflict, nil, []int32{0, 1}},
		{"unique, two hold with one result", "U: equal results do not excuse an overlap", rules.Unique, []string{"a.n < 3", "a.n < 4"}, same, 1, rules.Conflict, nil, []int32{0, 1}},
		{"any, equal results", "A: overlap is fine while results are equal", rules.Any, []string{"a.n < 3", "a.n < 4", "a.n > 5"}, same, 1, rules.Answered, []int32{0, 1}, nil},
		{"any, results differ", "A: with unequal results there is no answer", rules.Any, []string{"a.n < 3", "a.n < 4"}, results, 1, rules.Conflict, nil, []int32{0, 1}},
		{"priority, the later rule is stronger", "P: the strongest result of those that match", rules.Priority, []string{"a.n < 6", "a.n < 5", "a.n < 4"}, results, 1, rules.Answered, []int32{2}, nil},
		{"priority, the strongest does not hold", "P", rules.Priority, []string{"a.n < 6", "a.n < 5", "a.n < 4"}, results, 4, rules.Answered, []int32{1}, nil},
		{"priority, equal results", "P: the first of equals here", rules.Priority, []string{"a.n < 6", "a.n < 5"}, same, 4, rules.Answered, []int32{0}, nil},
		{"first, several hold", "F: rule order decides", rules.First, []string{"a.n > 5", "a.n < 5", "a.n < 6"}, results, 1, rules.Answered, []int32{1}, nil},
		{"collect, in file order", "R: every match, in rule order", rules.Collect, []string{"a.n < 6", "a.n > 5", "a.n < 2"}, results, 1, rules.Answered, []int32{0, 2}, nil},
		{"collect, none holds", "R", rules.Collect, []string{"a.n > 5"}, results, 1, rules.NoRule, nil, nil},
		{"a gap is no answer", "an incomplete table has no result there", rules.Unique, []string{"a.n > 5"}, results, 1, rules.NoRule, nil, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			table, err := rules.BuildTable(s, "t", c.hit, c.whens, c.words)
			require.NoError(t, err)
			var d rules.Decision
			in := give(t, s, map[string]any{"a.n": c.n})
			for range 2 { // a reused decision answers alike
				table.Decide(in, &d)
				assert.Equal(t, c.want, d.Outcome, c.clause)
				assert.Equal(t, c.wins, append([]int32(nil), d.Winners...), c.clause)
				assert.Equal(t, c.clash, append([]int32(nil), d.Conflict...), c.clause)
			}
		})
	}
}

func TestNothingFiresOnWhatIsMissing(t *testing.T) {
	s := smallSchema(t)
	for _, c := range []struct {
		when, truth string
	}{
		{"a.n < 7", maybe}, // true for every value, yet nobody gave one
		{"not (a.n < 3)", maybe},
		{"a.n != 3", maybe},
		{"not known(a.n)", yes},
		{"known(a.n) and a.n > 2", no},
		{"known(a.n) or d.on", yes},
		{"d.on or a.n > 2", yes},
		{"d.on and a.n > 2", maybe},
		{"not d.on and a.n > 2", no},
		{"a.n < 2 and a.n > 4", no}, // no value could make it true
		{`b.have == "low" or b.have != "low"`, maybe},
		{"10 / a.m > 1", maybe}, // a.m is 0: no result
		{"not (10 / a.m > 1)", maybe},
		{"(10 / a.m > 1) or d.on", yes},
		{"1 / (1 / a.m) == 0", maybe}, // the plain machine would say 1/Inf is 0
		{"min(1 / a.m, 5) == 5", maybe},
	} {
		t.Run(c.when, func(t *testing.T) {
			table, err := rules.BuildTable(s, "t", rules.First, []string{c.when}, results)
			require.NoError(t, err)
			in := give(t, s, map[string]any{"d.on": true, "a.m": 0.0})
			assert.Equal(t, c.truth, table.BoxTruth(in, 0))
		})
	}
}

func TestAStuckRuleSaysSo(t *testing.T) {
	s := smallSchema(t)
	table, err := rules.BuildTable(s, "t", rules.First, []string{"a.n / a.m > 1 and b.have == \"low\"", "10 / a.m > 1"}, results)
	require.NoError(t, err)
	in := give(t, s, map[string]any{"a.m": 0.0, "a.n": 2.0})
	var d rules.Decision
	table.Decide(in, &d)
	require.Len(t, d.Pending, 2)
	have, _ := s.FactID("b.have")
	assert.Equal(t, rules.Pending{Rule: 0, Facts: []rules.FactID{have}, Stuck: true}, d.Pending[0])
	assert.True(t, d.Pending[1].Stuck)
	assert.Empty(t, d.Pending[1].Facts)
}

// One text is one column, and its opposite the same column wanted false.
func TestClausesAreSharedAndLazy(t *testing.T) {
	s := smallSchema(t)
	table, err := rules.BuildTable(s, "t", rules.First, []string{
		"a.n + a.m > 2", "not (a.n+a.m > 2)", "(a.n + a.m) <= 2", "a.n + a.m < 2", "d.on and a.m * a.n > 3",
	}, results)
	require.NoError(t, err)
	assert.Equal(t, 3, table.ClauseCount())
	in := give(t, s, map[string]any{"a.n": 1.0, "a.m": 0.5, "d.on": false})
	assert.Equal(t, 1, table.First(in, nil))
}

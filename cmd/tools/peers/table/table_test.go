package table_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/cmd/tools/peers/table"
)

func TestAClauseLetsItsBoundsIn(t *testing.T) {
	for name, row := range map[string]struct {
		clause  table.Clause
		in, out []float64
	}{
		"at least": {table.Clause{Op: table.AtLeast, Lo: 5}, []float64{5, 6}, []float64{4.5}},
		"at most":  {table.Clause{Op: table.AtMost, Hi: 5}, []float64{4, 5}, []float64{5.5}},
		"between":  {table.Clause{Op: table.Between, Lo: 5, Hi: 7}, []float64{5, 6, 7}, []float64{4.5, 7.5}},
		"is":       {table.Clause{Op: table.Is, Lo: 1}, []float64{1}, []float64{0, 2}},
	} {
		for _, v := range row.in {
			assert.True(t, row.clause.Holds(v), "%s: %v", name, v)
		}
		for _, v := range row.out {
			assert.False(t, row.clause.Holds(v), "%s: %v", name, v)
		}
	}
}

func TestTheFirstRuleThatHoldsAnswers(t *testing.T) {
	rules := []table.Rule{
		{{Fact: 0, Op: table.AtLeast, Lo: 100}},
		{{Fact: 0, Op: table.AtLeast, Lo: 50}, {Fact: 12, Op: table.Is, Lo: 1}},
		{{Fact: 0, Op: table.AtLeast, Lo: 20}},
	}
	assert.Equal(t, 0, table.Decide(rules, table.Point{0: 120, 12: 1}))
	assert.Equal(t, 1, table.Decide(rules, table.Point{0: 60, 12: 1}))
	assert.Equal(t, 2, table.Decide(rules, table.Point{0: 60}), "the flag is down")
	assert.Equal(t, table.None, table.Decide(rules, table.Point{0: 10}))
}

func TestTablesHaveTheShapeTheyWereAskedFor(t *testing.T) {
	for _, s := range table.Shapes() {
		rules, at := table.Generate(s, 200, 40)
		again, atAgain := table.Generate(s, 200, 40)
		require.Equal(t, rules, again, "the same arguments give the same table")
		require.Equal(t, at, atAgain)
		require.Len(t, rules, 200)
		for i, r := range rules {
			facts := map[int]bool{}
			for _, c := range r {
				facts[c.Fact] = true
			}
			require.Len(t, facts, len(r), "%s, rule %d names a fact once", s.Name, i)
			require.GreaterOrEqual(t, len(r), s.Least)
			require.LessOrEqual(t, len(r), s.Most)
		}
		for i, p := range at {
			got := table.Decide(rules, p)
			if i%2 == 0 {
				require.NotEqual(t, table.None, got, "%s, point %d lies inside a rule", s.Name, i)
			} else if s.Empty {
				require.Equal(t, table.None, got, "%s, point %d lies in none", s.Name, i)
			}
		}
	}
}

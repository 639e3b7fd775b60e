package rules_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
)

// Decision tables of the OMG standard Decision Model and Notation, written as rule files. Clause numbers are those of DMN
// 1.5. The small approval tables and their answers are cases of the public compliance kit for the standard (DMN TCK, by the
// number beside each); everything is in our own spelling: an input entry that is "-" is a fact that the condition leaves out.

// dmnFacts are the inputs of the approval tables.
func dmnFacts() []rules.Fact {
	return []rules.Fact{
		{Name: "loan.age", Label: "age", Kind: rules.Number, Max: 120, Step: 1},
		{Name: "loan.risk", Label: "risk category", Kind: rules.Word, Words: []string{"High", "Low", "Medium"}},
		{Name: "loan.affordable", Label: "affordable", Kind: rules.Flag},
	}
}

// approval is a result with output values in decreasing priority, as the standard lists them.
func approval() rules.ResultType {
	return rules.ResultType{
		Table: "approval", Priority: "status",
		Fields: []rules.Field{
			{Name: "status", Kind: rules.Word, Words: []string{"Approved", "Declined"}, Ordered: true, Required: true},
			{Name: "rate", Kind: rules.Word, Words: []string{"Best", "Standard", "Basic"}},
		},
	}
}

// dmnTable loads a table from text: one "condition -> result" a line.
func dmnTable(t testing.TB, facts []rules.Fact, typ rules.ResultType, hit rules.Hit, lines ...string) *rules.Table {
	t.Helper()
	schema, err := rules.NewSchema(facts, []rules.ResultType{typ})
	require.NoError(t, err)
	var b strings.Builder
	fmt.Fprintf(&b, "table: %s\nhit: %s\nrules:\n", typ.Table, hit)
	for i, line := range lines {
		when, then, ok := strings.Cut(line, " -> ")
		require.True(t, ok, line)
		fmt.Fprintf(&b, "  - id: row-%d\n    when: >-\n      %s\n    then: {%s}\n    because: A row of the standard's table.\n", i+1, when, then)
	}
	set, err := rules.Load(fstest.MapFS{typ.Table + ".yaml": {Data: []byte(b.String())}}, schema)
	require.NoError(t, err)
	table, ok := set.Table(typ.Table)
	require.True(t, ok)
	return table
}

// answers are what the winning rules give, in the order of the answer; null is the standard's answer where no rule is hit.
func answers(t testing.TB, table *rules.Table, facts map[string]any) string {
	t.Helper()
	var d rules.Decision
	table.Decide(give(t, table.Schema(), facts), &d)
	switch d.Outcome {
	case rules.Conflict:
		return "undefined"
	case rules.NoRule:
		return "null"
	}
	var out []string
	for _, w := range d.Winners {
		var fields []string
		for _, f := range table.Rules()[w].Result.Fields() {
			fields = append(fields, f.Value)
		}
		out = append(out, strings.Join(fields, " "))
		if table.Hit() == rules.Any {
			break // equal outputs are one output
		}
	}
	return strings.Join(out, ", ")
}

var (
	allDeclined = []string{
		`loan.age >= 18 && loan.risk in ["Medium", "Low"] && loan.affordable -> status: Approved`,
		`loan.age < 18 -> status: Declined`,
		`loan.risk == "High" -> status: Declined`,
		`not loan.affordable -> status: Declined`,
	}
	byAge = []string{
		`loan.age >= 18 -> status: Approved, rate: Best`,
		`loan.age >= 12 -> status: Approved, rate: Standard`,
		`loan.age < 12 -> status: Declined, rate: Standard`,
	}
)

func TestDMNHitPoliciesGiveTheStandardsAnswers(t *testing.T) {
	type row struct {
		age        int
		risk       string
		affordable bool
		want       string
	}
	kit := []row{{18, "Medium", true, "Approved"}, {17, "Medium", true, "Declined"}, {18, "High", true, "Declined"}}
	for _, c := range []struct {
		name, clause string
		hit          rules.Hit
		lines        []string
		rows         []row
	}{
		{"unique", "8.2.10 U, kit 0004", rules.Unique, []string{
			`loan.age >= 18 && loan.risk in ["Medium", "Low"] && loan.affordable -> status: Approved`,
			`loan.age < 18 && loan.risk in ["Medium", "Low"] && loan.affordable -> status: Declined`,
			`loan.risk == "High" && loan.affordable -> status: Declined`,
			`not loan.affordable -> status: Declined`,
		}, append(kit, row{30, "Low", false, "Declined"})},
		{
			"unique with rules that overlap", "8.2.10 U: a unique table shall not contain overlapping rules", rules.Unique, allDeclined,
			[]row{{18, "Medium", true, "Approved"}, {17, "High", true, "undefined"}},
		},
		{"any, all that match agree", "8.2.10 A, kit 0005", rules.Any, allDeclined, append(kit, row{17, "High", false, "Declined"})},
		{
			"any, those that match differ", "8.2.10 A: with non-equal entries the result is undefined", rules.Any, byAge,
			[]row{{19, "Low", true, "undefined"}, {13, "Low", true, "Approved Standard"}, {10, "Low", true, "Declined Standard"}},
		},
		{"priority", "8.2.10 P, kit 0006", rules.Priority, allDeclined, kit},
		{"priority goes before rule order", "8.2.10 P: priorities are independent from rule sequence, kit 0007", rules.Priority, []string{
			`true -> status: Declined`,
			`loan.age >= 18 && loan.risk in ["Medium", "Low"] && loan.affordable -> status: Approved`,
		}, kit},
		{"priority over a compound output", "8.2.10: outputs without output values are not considered, kit 0118", rules.Priority, []string{
			`loan.age >= 18 && loan.risk in ["Medium", "Low"] && loan.affordable -> status: Approved, rate: Basic`,
			`loan.age < 18 -> status: Declined, rate: Standard`,
			`loan.risk == "High" -> status: Approved, rate: Standard`,
		}, []row{{17, "High", true, "Approved Standard"}, {19, "Low", true, "Approved Basic"}, {10, "Low", true, "Declined Standard"}}},
		{"first", "8.2.10 F, kit 0108", rules.First, []string{
			`loan.age >= 18 && loan.risk == "Medium" && loan.affordable -> status: Approved, rate: Best`,
			`loan.age >= 12 && loan.risk == "Medium" && loan.affordable -> status: Approved, rate: Standard`,
			`loan.age < 12 && loan.risk == "Low" && loan.affordable -> status: Declined, rate: Standard`,
		}, []row{{19, "Medium", true, "Approved Best"}, {13, "Medium", true, "Approved Standard"}, {10, "Low", true, "Declined Standard"}}},
		{
			"collect, in rule order", "8.2.10 R, and C, whose order is arbitrary; kit 0112", rules.Collect, byAge,
			[]row{{19, "Low", true, "Approved Best, Approved Standard"}, {13, "Low", true, "Approved Standard"}, {10, "Low", true, "Declined Standard"}},
		},
		{"no rule is hit", "10.3.2.10: without a default output value the result is null", rules.Unique, byAge[2:], []row{{12, "Low", true, "null"}}},
		{"nothing is collected", "10.3.2.10", rules.Collect, byAge[2:], []row{{12, "Low", true, "null"}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			table := dmnTable(t, dmnFacts(), approval(), c.hit, c.lines...)
			for _, r := range c.rows {
				got := answers(t, table, map[string]any{"loan.age": r.age, "loan.risk": r.risk, "loan.affordable": r.affordable})
				assert.Equal(t, r.want, got, "%s: age %d, risk %s, affordable %v", c.clause, r.age, r.risk, r.affordable)
			}
		})
	}
}

// Clause 8.2.11 lets a table name a default output. Rule files have no word for it: the last rule of a first table, which
// always holds, says the same and has an id and a reason (8.2.10 F calls it the catch-remainder; 8.3.3: a rule without input
// entries is always applicable).
func TestDMNDefaultOutputIsALastRule(t *testing.T) {
	table := dmnTable(t, dmnFacts(), approval(), rules.First, append([]string{byAge[0]}, "true -> status: Declined, rate: Standard")...)
	assert.Equal(t, "Approved Best", answers(t, table, map[string]any{"loan.age": 18}))
	assert.Equal(t, "Declined Standard", answers(t, table, map[string]any{"loan.age": 17}))
	assert.Equal(t, "Declined Standard", answers(t, table, nil), "no input at all")
}

// Clause 8.2.10, note 2: the sequence of the rules has no meaning, except in first and rule order tables.
func TestDMNRuleSequenceHasNoMeaningExceptUnderFirstAndCollect(t *testing.T) {
	random := rand.New(rand.NewPCG(8, 2))
	for _, hit := range []rules.Hit{rules.Unique, rules.Any, rules.Priority} {
		was := dmnTable(t, dmnFacts(), approval(), hit, allDeclined...)
		for range 6 {
			lines := append([]string(nil), allDeclined...)
			random.Shuffle(len(lines), func(i, k int) { lines[i], lines[k] = lines[k], lines[i] })
			now := dmnTable(t, dmnFacts(), approval(), hit, lines...)
			for age := 16; age <= 19; age++ {
				for _, risk := range []string{"High", "Low", "Medium"} {
					for _, affordable := range []bool{true, false} {
						in := map[string]any{"loan.age": age, "loan.risk": risk, "loan.affordable": affordable}
						require.Equal(t, answers(t, was, in), answers(t, now, in), "%s %v", hit, lines)
					}
				}
			}
		}
	}
	first := dmnTable(t, dmnFacts(), approval(), rules.First, byAge[1], byAge[0])
	assert.Equal(t, "Approved Standard", answers(t, first, map[string]any{"loan.age": 19}), "the other way round it was Best")
}

package rules_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/promise"
)

// loanFiles is the originations example of DMN 1.5, clause 11.1: eight decision tables with hit policies unique, priority and
// collect, closed, open and half-open intervals, strings, booleans, lists of entries and inputs that may be null.
const loanFiles = "testdata/loan"

func loanTables(t testing.TB) *rules.Set {
	t.Helper()
	risk := []string{"DECLINE", "HIGH", "MEDIUM", "LOW", "VERY LOW"}
	word := func(name string, words ...string) rules.Field {
		return rules.Field{Name: name, Kind: rules.Word, Words: words, Ordered: true, Required: true}
	}
	number := func(name string, most, step float64) rules.Field {
		return rules.Field{Name: name, Kind: rules.Number, Max: most, Step: step, Required: true}
	}
	schema, err := rules.NewSchema([]rules.Fact{
		{Name: "applicant.age", Label: "age", Kind: rules.Number, Min: 0, Max: 120, Step: 1},
		{Name: "applicant.marital", Label: "marital status", Kind: rules.Word, Words: []string{"S", "M"}},
		{Name: "applicant.work", Label: "employment status", Kind: rules.Word, Words: []string{"UNEMPLOYED", "EMPLOYED", "SELF-EMPLOYED", "STUDENT"}},
		{Name: "applicant.existing", Label: "existing customer", Kind: rules.Flag},
		{Name: "applicant.score", Label: "application risk score", Kind: rules.Number, Max: 200, Step: 1},
		{Name: "bureau.score", Label: "credit score", Kind: rules.Number, Max: 999, Step: 1},
		{Name: "bureau.bankrupt", Label: "bankrupt", Kind: rules.Flag},
		{Name: "loan.before", Label: "pre-bureau risk category", Kind: rules.Word, Words: risk},
		{Name: "loan.after", Label: "post-bureau risk category", Kind: rules.Word, Words: risk},
		{Name: "loan.affordable", Label: "affordable", Kind: rules.Flag},
		{Name: "loan.eligibility", Label: "eligibility", Kind: rules.Word, Words: []string{"INELIGIBLE", "ELIGIBLE"}},
		{Name: "loan.call", Label: "bureau call type", Kind: rules.Word, Words: []string{"FULL", "MINI", "NONE"}},
	}, []rules.ResultType{
		{Table: "points", Fields: []rules.Field{number("points", 100, 1)}},
		{Table: "before", Fields: []rules.Field{word("category", risk...)}},
		{Table: "after", Fields: []rules.Field{word("category", risk...)}},
		{Table: "contingency", Fields: []rules.Field{number("factor", 1, 0.1)}},
		{Table: "call", Fields: []rules.Field{word("call", "FULL", "MINI", "NONE")}},
		{Table: "eligibility", Priority: "eligibility", Fields: []rules.Field{word("eligibility", "INELIGIBLE", "ELIGIBLE")}},
		{Table: "strategy", Fields: []rules.Field{word("strategy", "DECLINE", "THROUGH", "BUREAU")}},
		{Table: "routing", Priority: "routing", Fields: []rules.Field{word("routing", "DECLINE", "REFER", "ACCEPT")}},
	})
	require.NoError(t, err)
	set, err := rules.Load(os.DirFS(loanFiles), schema)
	require.NoError(t, err)
	return set
}

func asked(t testing.TB, set *rules.Set, table string, facts map[string]any) string {
	t.Helper()
	tab, ok := set.Table(table)
	require.True(t, ok, table)
	return answers(t, tab, facts)
}

// The answers along one application, decision by decision: DMN TCK, model 0004-lending, case 001. Affordability, which is
// arithmetic and no table, is true there before and after the bureau.
func TestDMNLoanExampleDecidesAsTheStandardsCase(t *testing.T) {
	set := loanTables(t)
	assert.Equal(t, "40, 45, 45", asked(t, set, "points", map[string]any{"applicant.age": 35, "applicant.marital": "M", "applicant.work": "EMPLOYED"}), "C+ adds them up to 130")
	customer := map[string]any{"applicant.existing": true, "applicant.score": 130}
	assert.Equal(t, "LOW", asked(t, set, "before", customer))
	assert.Equal(t, "MINI", asked(t, set, "call", map[string]any{"loan.before": "LOW"}))
	assert.Equal(t, "ELIGIBLE", asked(t, set, "eligibility", map[string]any{"loan.before": "LOW", "loan.affordable": true, "applicant.age": 35}))
	assert.Equal(t, "BUREAU", asked(t, set, "strategy", map[string]any{"loan.eligibility": "ELIGIBLE", "loan.call": "MINI"}))
	customer["bureau.score"] = 649
	assert.Equal(t, "LOW", asked(t, set, "after", customer))
	assert.Equal(t, "0.8", asked(t, set, "contingency", map[string]any{"loan.after": "LOW"}))
	assert.Equal(t, "ACCEPT", asked(t, set, "routing", map[string]any{"loan.after": "LOW", "loan.affordable": true, "bureau.score": 649, "bureau.bankrupt": false}))
}

// Rows of the tables at the ends of their intervals, and the inputs that the standard calls null.
func TestDMNLoanExampleAtTheEndsOfItsIntervals(t *testing.T) {
	set := loanTables(t)
	type facts = map[string]any
	for _, c := range []struct {
		name, table string
		in          facts
		want        string
	}{
		{"[100..120) begins with 100", "before", facts{"applicant.existing": false, "applicant.score": 100}, "MEDIUM"},
		{"[100..120) ends before 120", "before", facts{"applicant.existing": false, "applicant.score": 119}, "MEDIUM"},
		{"[120..130) begins with 120", "before", facts{"applicant.existing": false, "applicant.score": 120}, "LOW"},
		{">130 is not 130, and [120..130) is not either", "before", facts{"applicant.existing": false, "applicant.score": 130}, "null"},
		{">130", "before", facts{"applicant.existing": false, "applicant.score": 131}, "VERY LOW"},
		{"[90..110] ends with 110", "before", facts{"applicant.existing": true, "applicant.score": 110}, "MEDIUM"},
		{">110", "before", facts{"applicant.existing": true, "applicant.score": 111}, "LOW"},
		{"[590..610] ends with 610", "after", facts{"applicant.existing": false, "applicant.score": 119, "bureau.score": 610}, "MEDIUM"},
		{">610", "after", facts{"applicant.existing": false, "applicant.score": 119, "bureau.score": 611}, "LOW"},
		{"- beside a credit score that is null", "after", facts{"applicant.existing": false, "applicant.score": 131}, "VERY LOW"},
		{"an interval beside a credit score that is null", "after", facts{"applicant.existing": false, "applicant.score": 119}, "null"},
		{"[18..21] and nothing else known", "points", facts{"applicant.age": 21}, "32"},
		{"no row for an age under 18", "points", facts{"applicant.age": 17}, "null"},
		{"the worst of several", "eligibility", facts{"loan.before": "DECLINE", "loan.affordable": true, "applicant.age": 40}, "INELIGIBLE"},
		{"<18", "eligibility", facts{"loan.before": "LOW", "loan.affordable": true, "applicant.age": 17}, "INELIGIBLE"},
		{"18 is not <18", "eligibility", facts{"loan.before": "LOW", "loan.affordable": true, "applicant.age": 18}, "ELIGIBLE"},
		{"THROUGH without a call", "strategy", facts{"loan.eligibility": "ELIGIBLE", "loan.call": "NONE"}, "THROUGH"},
		{"- beside any call", "strategy", facts{"loan.eligibility": "INELIGIBLE", "loan.call": "FULL"}, "DECLINE"},
		{"declined before it is referred", "routing", facts{"loan.after": "HIGH", "loan.affordable": true, "bureau.bankrupt": true, "bureau.score": 500}, "DECLINE"},
		{"<580 refers", "routing", facts{"loan.after": "LOW", "loan.affordable": true, "bureau.bankrupt": false, "bureau.score": 579}, "REFER"},
		{"bureau data that are null, when no bureau was asked", "routing", facts{"loan.after": "LOW", "loan.affordable": true}, "ACCEPT"},
	} {
		assert.Equal(t, c.want, asked(t, set, c.table, c.in), "%s: %s %v", c.name, c.table, c.in)
	}
}

// The standard calls these tables complete (11.1.3). With every input known they are, but for one score of a new customer;
// and where every input has an answer no two rows of a unique table overlap.
func TestDMNLoanExampleIsCompleteButForOneScore(t *testing.T) {
	text := "promises:\n"
	for _, p := range [][2]string{
		{"before", "known(applicant.existing) && known(applicant.score) && not known(before.category)"},
		{"after", "known(applicant.existing) && known(applicant.score) && known(bureau.score) && not known(after.category)"},
		{"call", "known(loan.before) && not known(call.call)"},
		{"contingency", "known(loan.after) && not known(contingency.factor)"},
		{"strategy", "known(loan.eligibility) && known(loan.call) && not known(strategy.strategy)"},
	} {
		text += "  - {id: " + p[0] + ", because: The standard says so., never: '" + p[1] + "'}\n"
	}
	text += "  - {id: eligibility, because: The standard says so., total: eligibility}\n  - {id: routing, because: The standard says so., total: routing}\n"
	promises, err := promise.Parse(promise.File, []byte(text))
	require.NoError(t, err)
	verdicts, err := promise.Verify(loanTables(t), promises, 0)
	require.NoError(t, err)
	for _, v := range verdicts {
		if v.Promise.ID == "before" {
			assert.Equal(t, "existing customer no, application risk score 130: before has no answer (no rule)", v.Example)
			continue
		}
		assert.Equal(t, promise.Kept, v.Outcome, "%s: %s", v.Promise.ID, v.Example)
	}
}

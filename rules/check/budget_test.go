package check_test

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/check"
)

// long is an invented schema whose products are too many to go through.
func long(t *testing.T, hit string, rows ...row) *rules.Set {
	t.Helper()
	var facts []rules.Fact
	for _, name := range []string{"x", "y", "z"} {
		facts = append(facts, rules.Fact{Name: "n." + name, Label: name, Kind: rules.Number, Max: 1000, Step: 0.001})
	}
	facts = append(facts, rules.Fact{Name: "n.on", Label: "on", Kind: rules.Flag})
	s, err := rules.NewSchema(facts, []rules.ResultType{{Table: "long", Fields: []rules.Field{
		{Name: "word", Kind: rules.Word, Words: []string{"low", "mid"}, Required: true},
	}}})
	require.NoError(t, err)
	var b strings.Builder
	fmt.Fprintf(&b, "table: long\nhit: %s\nrules:\n", hit)
	for i, r := range rows {
		fmt.Fprintf(&b, "- {id: r-%d, when: '%s', then: {word: %s}, because: invented}\n", i, r.when, r.then)
	}
	set, err := rules.Load(fstest.MapFS{"long.yaml": {Data: []byte(b.String())}}, s)
	require.NoError(t, err, b.String())
	return set
}

// What no search gets through: two products that are the same and do not look it.
const (
	over  = "n.x * n.y > n.z"
	under = "n.y * n.x <= n.z"
	rest  = "not known(n.x) || not known(n.y) || not known(n.z)"
)

func TestEveryQuestionHasOneOfThreeAnswers(t *testing.T) {
	for _, c := range []struct {
		name, hit             string
		rows                  []row
		budget                int
		answers, agrees, wins check.Outcome
		codes                 map[check.Code]int
	}{
		{
			"bounds alone are proved", "first",
			[]row{{"n.x <= 3", "low"}, {"n.x > 3", "mid"}, {"not known(n.x) && n.on", "low"}, {"not known(n.x) && (not known(n.on) || n.on == false)", "mid"}},
			0, check.Proved, check.NotAsked, check.Proved,
			map[check.Code]int{},
		},
		{
			"no steps, no answer", "first",
			[]row{{"n.x <= 3", "low"}, {"n.x > 3", "mid"}, {"not known(n.x) && n.on", "low"}, {"not known(n.x) && (not known(n.on) || n.on == false)", "mid"}},
			1, check.Undecided, check.NotAsked, check.Proved,
			map[check.Code]int{check.NotDecided: 1},
		},
		{
			"a clause and its opposite answer everything", "unique",
			[]row{{over, "low"}, {"not (" + over + ")", "mid"}, {rest, "low"}},
			0, check.Proved, check.Proved, check.Proved,
			map[check.Code]int{},
		},
		{
			"a clause that a catch-all stands behind weakens nothing", "first",
			[]row{{over, "low"}, {under, "low"}, {"true", "mid"}},
			0, check.Proved, check.NotAsked, check.Proved,
			map[check.Code]int{},
		},
		{
			"a sum is settled by its bounds", "first",
			[]row{{"n.x + n.y > 2001", "low"}, {"n.x + n.y >= 0", "low"}, {"not known(n.x) || not known(n.y)", "mid"}},
			0, check.Proved, check.NotAsked, check.Refuted,
			map[check.Code]int{check.NeverTrue: 1},
		},
		{
			"what hangs on a clause is not decided", "first",
			[]row{{over, "low"}, {under, "mid"}, {rest, "low"}},
			0, check.Undecided, check.NotAsked, check.Proved,
			map[check.Code]int{check.NotDecided: 1},
		},
		{
			"a hole beside such a clause is found all the same", "first",
			[]row{{over + " && n.on", "low"}, {under + " && n.on", "mid"}, {rest, "low"}, {"not known(n.on)", "mid"}},
			0, check.Refuted, check.NotAsked, check.Proved,
			map[check.Code]int{check.Gap: 1, check.NotDecided: 1},
		},
		{
			"two clauses that may hold together", "unique",
			[]row{{over, "low"}, {under, "mid"}},
			0, check.Refuted, check.Undecided, check.Proved,
			map[check.Code]int{check.Gap: 3, check.NotDecided: 2},
		},
		{
			"two rules in conflict beside such a pair", "unique",
			[]row{{over, "low"}, {under, "mid"}, {"not known(n.x)", "low"}, {"not known(n.x) && n.on", "mid"}, {"known(n.x) && (not known(n.y) || not known(n.z))", "low"}},
			0, check.Undecided, check.Refuted, check.Proved,
			map[check.Code]int{check.Conflict: 1, check.NotDecided: 2},
		},
		{
			"a rule that only such a pair may hide", "first",
			[]row{{over, "low"}, {under, "mid"}, {"n.x >= 0 && n.y >= 0 && n.z >= 0", "low"}, {"true", "mid"}},
			0, check.Proved, check.NotAsked, check.Undecided,
			map[check.Code]int{check.NotDecided: 1},
		},
		{
			"a condition that only such a pair makes true", "first",
			[]row{{over + " && " + under, "low"}, {"n.on", "low"}, {"true", "mid"}},
			0, check.Proved, check.NotAsked, check.Undecided,
			map[check.Code]int{check.NotDecided: 1},
		},
		{
			"a table that collects need not answer", "collect",
			[]row{{"n.x <= 3", "low"}, {"n.on", "mid"}},
			0, check.NotAsked, check.NotAsked, check.Proved,
			map[check.Code]int{},
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			report := check.Run(long(t, c.hit, c.rows...), c.budget)
			require.Len(t, report.Tables, 1)
			got := report.Tables[0]
			assert.Equal(t, c.answers, got.Answers, "answers: %v", report.Findings)
			assert.Equal(t, c.agrees, got.Agrees, "agrees: %v", report.Findings)
			assert.Equal(t, c.wins, got.Wins, "wins: %v", report.Findings)
			assert.Equal(t, c.codes, codes(report.Findings), "%v", report.Findings)
			for _, f := range report.Findings {
				assert.NotZero(t, f.Places[0].Line, "%s", f)
				assert.NotEmpty(t, f.Effect, "%s", f)
				assert.NotEmpty(t, f.Mend, "%s", f)
			}
		})
	}
}

func TestWhatIsNotDecidedNamesTheClause(t *testing.T) {
	report := check.Run(long(t, "first", row{over, "low"}, row{under, "mid"}, row{rest, "low"}), 0)
	require.Len(t, report.Findings, 1)
	f := report.Findings[0]
	assert.Equal(t, check.Warning, f.Level)
	assert.Contains(t, f.Message, "it hangs on n.x * n.y > n.z, n.y * n.x <= n.z")
	assert.Equal(t, []string{"r-0", "r-1"}, []string{f.Places[0].Rule, f.Places[1].Rule})
}

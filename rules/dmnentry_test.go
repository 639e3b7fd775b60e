package rules_test

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
)

// Input entries of DMN 1.5 (unary tests, clause 10.3.1.2 grammar rules 7 to 15; S-FEEL 9.2 rules 5 to 12), each beside our
// spelling. The values that satisfy an entry follow from clause 9.4 and table 55 of clause 10.3.2.15:
//
//	(e1..e2) and ]e1..e2[ are o > e1 and o < e2;  (e1..e2] and ]e1..e2] are o > e1 and o <= e2
//	[e1..e2) and [e1..e2[ are o >= e1 and o < e2; [e1..e2] is o >= e1 and o <= e2
//
// The same clause prints "o < e1" for the upper end of the open interval, a slip: table 55 has e3, the upper end.
func TestDMNNumericEntriesHoldForTheStandardsValues(t *testing.T) {
	values := []float64{0.9, 1, 1.1, 3, 4.9, 5, 5.1}
	for _, c := range []struct {
		entry, when string
		holds       []float64
	}{
		{"[1..5]", "x.n in 1..5", []float64{1, 1.1, 3, 4.9, 5}},
		{"(1..5)", "x.n > 1 and x.n < 5", []float64{1.1, 3, 4.9}},
		{"]1..5[", "not (x.n <= 1 or x.n >= 5)", []float64{1.1, 3, 4.9}},
		{"(1..5]", "x.n > 1 and x.n <= 5", []float64{1.1, 3, 4.9, 5}},
		{"]1..5]", "x.n != 1 and x.n in 1..5", []float64{1.1, 3, 4.9, 5}},
		{"[1..5)", "x.n >= 1 and x.n < 5", []float64{1, 1.1, 3, 4.9}},
		{"[1..5[", "x.n in 1..5 and x.n != 5", []float64{1, 1.1, 3, 4.9}},
		{"<1", "x.n < 1", []float64{0.9}},
		{"<=1", "x.n <= 1", []float64{0.9, 1}},
		{">5", "x.n > 5", []float64{5.1}},
		{">=5", "x.n >= 5", []float64{5, 5.1}},
		{"3", "x.n == 3", []float64{3}},
		{"3.0 (9.3: precision is not part of a number)", "x.n == 3.0", []float64{3}},
		{"!=3", "x.n != 3", []float64{0.9, 1, 1.1, 4.9, 5, 5.1}},
		{"1, [3..5), >5 (9.4: at least one of the list)", "x.n == 1 or x.n >= 3 and x.n < 5 or x.n > 5", []float64{1, 3, 4.9, 5.1}},
		{"not([1..5])", "not (x.n in 1..5)", []float64{0.9, 5.1}},
		{"not(1, 5)", "not (x.n in [1, 5])", []float64{0.9, 1.1, 3, 4.9, 5.1}},
		{"not(<=1, >=5)", "not (x.n <= 1 or x.n >= 5)", []float64{1.1, 3, 4.9}},
		{"-", "true", values},
		{"[1..1]", "x.n in 1..1", []float64{1}},
	} {
		table := entryTable(t, c.when)
		for _, v := range values {
			want := "null"
			for _, h := range c.holds {
				if h == v {
					want = "yes"
				}
			}
			assert.Equal(t, want, answers(t, table, map[string]any{"x.n": v}), "%v against %s, written %s", v, c.entry, c.when)
		}
	}
}

// Strings are compared for equality, codepoint by codepoint (9.4); an entry of several is an or (9.4), not(...) its negation.
func TestDMNStringEntriesHoldForTheStandardsValues(t *testing.T) {
	words := []string{"High", "high", "Medium", `5" rim`, "Größe"}
	for _, c := range []struct {
		entry, when string
		holds       []string
	}{
		{`"High"`, `x.word == "High"`, []string{"High"}},
		{`"Medium","High"`, `x.word in ["Medium", "High"]`, []string{"High", "Medium"}},
		{`not("High")`, `x.word != "High"`, []string{"high", "Medium", `5" rim`, "Größe"}},
		{`not("High","Medium")`, `not (x.word in ["High", "Medium"])`, []string{"high", `5" rim`, "Größe"}},
		{`"5\" rim"`, `x.word == "5\" rim"`, []string{`5" rim`}},
		{`"Größe"`, `x.word == "Größe"`, []string{"Größe"}},
		{"-", "true", words},
	} {
		table := entryTable(t, c.when)
		for _, w := range words {
			want := "null"
			for _, h := range c.holds {
				if h == w {
					want = "yes"
				}
			}
			assert.Equal(t, want, answers(t, table, map[string]any{"x.word": w}), "%q against %s, written %s", w, c.entry, c.when)
		}
	}
}

// A missing input is the standard's null. An entry is satisfied only where its test is true, and not(...) only where the test
// is false (10.3.2.10); a comparison with null is neither (10.3.2.2: values of different kinds give no truth), so no entry holds.
func TestDMNNoEntryHoldsForNull(t *testing.T) {
	for _, when := range []string{
		"x.n in 1..5", "x.n > 1 and x.n < 5", "x.n < 1", "x.n == 3", "x.n != 3", "not (x.n in 1..5)", "not (x.n in [1, 5])", "x.n < 3 or x.n >= 3",
		`x.word == "High"`, `x.word != "High"`, `not (x.word in ["High", "Medium"])`, "x.yes", "not x.yes", "x.yes == false",
	} {
		assert.Equal(t, "null", answers(t, entryTable(t, when), nil), when)
	}
	// 49.a of 10.3.2.15: "e = null" and "e != null" ask for null itself.
	assert.Equal(t, "yes", answers(t, entryTable(t, "not known(x.n)"), nil), "= null")
	assert.Equal(t, "null", answers(t, entryTable(t, "known(x.n)"), nil), "!= null")
	assert.Equal(t, "yes", answers(t, entryTable(t, "known(x.n)"), map[string]any{"x.n": 3}), "!= null")
}

// Ternary logic of 10.3.2.15, table 50 (and, or) and table 51 (not), with a missing flag as what the standard calls otherwise.
func TestDMNTernaryLogic(t *testing.T) {
	truths := []string{yes, no, maybe}
	and := map[string]string{yes + yes: yes, yes + no: no, yes + maybe: maybe, no + yes: no, no + no: no, no + maybe: no, maybe + yes: maybe, maybe + no: no, maybe + maybe: maybe}
	or := map[string]string{yes + yes: yes, yes + no: yes, yes + maybe: yes, no + yes: yes, no + no: no, no + maybe: maybe, maybe + yes: yes, maybe + no: maybe, maybe + maybe: maybe}
	not := map[string]string{yes: no, no: yes, maybe: maybe}
	both, either, negation := entryTable(t, "x.yes and x.too"), entryTable(t, "x.yes or x.too"), entryTable(t, "not x.yes")
	for _, a := range truths {
		for _, b := range truths {
			facts := map[string]any{}
			if a != maybe {
				facts["x.yes"] = a == yes
			}
			if b != maybe {
				facts["x.too"] = b == yes
			}
			assert.Equal(t, and[a+b], both.BoxTruth(give(t, both.Schema(), facts), 0), "%s and %s", a, b)
			assert.Equal(t, or[a+b], either.BoxTruth(give(t, either.Schema(), facts), 0), "%s or %s", a, b)
			assert.Equal(t, not[a], negation.BoxTruth(give(t, negation.Schema(), facts), 0), "not %s", a)
		}
	}
}

// Where rule files differ from the standard on purpose.
func TestDMNDifferences(t *testing.T) {
	t.Run("an input that is left out may be null", func(t *testing.T) {
		// 10.3.2.10 satisfies "-" where the input is not null, while clause 11.1.4 routes with a credit score that is null. What a
		// condition does not name cannot stand in its way here.
		assert.Equal(t, "yes", answers(t, entryTable(t, "x.yes"), map[string]any{"x.yes": true}))
		assert.Equal(t, "yes", answers(t, entryTable(t, "true"), nil))
	})
	t.Run("a test that no value can fail is not true for null, and one that no value can pass is false", func(t *testing.T) {
		// The standard computes null < 3 and null > 5 to null. Here "no value could make it true" counts, so that nobody is asked
		// to measure what cannot matter.
		table := entryTable(t, "x.n < 3 and x.n > 5")
		assert.Equal(t, no, table.BoxTruth(give(t, table.Schema(), nil), 0))
	})
	t.Run("a conditional on null is not its else", func(t *testing.T) {
		// 10.3.2.15: if a then b else c is c where a is null. Here it is unknown, unless both sides say the same.
		table := entryTable(t, "(x.yes ? x.n < 3 : x.n < 5)")
		assert.Equal(t, maybe, table.BoxTruth(give(t, table.Schema(), map[string]any{"x.n": 4}), 0))
		assert.Equal(t, yes, table.BoxTruth(give(t, table.Schema(), map[string]any{"x.n": 2}), 0))
	})
	t.Run("a value outside the input values does not load", func(t *testing.T) {
		// 8.2.7 says that such an entry should be reported; here it is an error with its place.
		for when, says := range map[string]string{
			`x.word == "Hihg"`: `x.word is never "Hihg"; did you mean "High"?`,
			`x.word < "High"`:  "x.word has no order",
			`x.n in 5..1`:      "no number is in 5..1",
		} {
			schema, err := rules.NewSchema(entryFacts(), []rules.ResultType{held()})
			require.NoError(t, err)
			_, err = rules.Load(fstest.MapFS{"held.yaml": {Data: []byte("table: held\nhit: unique\nrules:\n  - {id: a, when: '" + when + "', then: {is: yes}, because: b}\n")}}, schema)
			require.ErrorContains(t, err, says)
		}
	})
	t.Run("under priority equals go by file order", func(t *testing.T) {
		// 8.2.10 decides ties of a compound output by its further outputs, from left to right. Here one field decides.
		table := dmnTable(t, dmnFacts(), approval(), rules.Priority, "true -> status: Approved, rate: Basic", "true -> status: Approved, rate: Best")
		assert.Equal(t, "Approved Basic", answers(t, table, nil))
	})
}

func entryFacts() []rules.Fact {
	return []rules.Fact{
		{Name: "x.n", Label: "n", Kind: rules.Number, Min: -10, Max: 10, Step: 0.1},
		{Name: "x.word", Label: "word", Kind: rules.Word, Words: []string{"High", "high", "Medium", `5" rim`, "Größe"}},
		{Name: "x.yes", Label: "yes", Kind: rules.Flag},
		{Name: "x.too", Label: "too", Kind: rules.Flag},
	}
}

func held() rules.ResultType {
	return rules.ResultType{Table: "held", Fields: []rules.Field{{Name: "is", Kind: rules.Word, Words: []string{"yes"}, Required: true}}}
}

// entryTable is a table of one rule.
func entryTable(t testing.TB, when string) *rules.Table {
	t.Helper()
	return dmnTable(t, entryFacts(), held(), rules.Unique, when+" -> is: yes")
}

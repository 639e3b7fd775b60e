package cases_test

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/cases"
)

// notes is an invented table that collects.
func notes(t *testing.T, worked string) (*rules.Set, error) {
	t.Helper()
	s, err := rules.NewSchema([]rules.Fact{
		{Name: "parcel.mass_kg", Label: "mass", Kind: rules.Number, Unit: "kg", Max: 60, Step: 0.1},
		{Name: "parcel.fragile", Label: "fragile", Kind: rules.Flag},
	}, []rules.ResultType{{Table: "notes", Fields: []rules.Field{
		{Name: "about", Kind: rules.Word, Words: []string{"lifting", "stacking", "label"}, Required: true},
		{Name: "say", Kind: rules.Text},
	}}})
	require.NoError(t, err)
	return rules.Load(fstest.MapFS{"notes.yaml": {Data: []byte(`
table: notes
hit: collect
rules:
  - {id: two-people, when: parcel.mass_kg > 25, then: {about: lifting, say: Lift with two people.}, because: Backs.}
  - {id: trolley, when: parcel.mass_kg > 10, then: {about: lifting, say: Take the trolley.}, because: Backs.}
  - {id: nothing-on-top, when: parcel.fragile, then: {about: stacking}, because: It breaks.}
`)}, "cases/notes.yaml": {Data: []byte(worked)}}, s)
}

// A case of a table that collects may say what several of its rules give. Each is
// given by one rule as a whole: two rules that give half of it each will not do.
func TestSeveralResultsAreExpectedOfATableThatCollects(t *testing.T) {
	set, err := notes(t, `
table: notes
cases:
  - name: a heavy vase
    given: {parcel.mass_kg: 30, parcel.fragile: true}
    expect:
      rules: [two-people, trolley, nothing-on-top]
      then:
        - {about: lifting, say: Take the trolley.}
        - {about: stacking}
  - name: half of one and half of another
    given: {parcel.mass_kg: 30, parcel.fragile: true}
    expect: {then: {about: stacking, say: Take the trolley.}}
  - name: rules that do not hold, and one too many
    given: {parcel.mass_kg: 12, parcel.fragile: false}
    expect: {rules: [two-people, nothing-on-top]}
`)
	require.NoError(t, err)
	report := cases.Run(set)
	require.Len(t, report.Results, 3)
	assert.True(t, report.Results[0].Passed(), report.Results[0])
	assert.Equal(t, `cases/notes.yaml:11: half of one and half of another
           expected           got
    rule   -                  two-people (notes.yaml:5), trolley (notes.yaml:6), nothing-on-top (notes.yaml:7)
  ! about  stacking           lifting
    say    Take the trolley.  Take the trolley.
    got this because mass is 30 kg, which is at least 25.1 kg (4.9 kg to spare); mass is 30 kg, which is at least 10.1 kg (19.9 kg to spare); fragile is yes`,
		report.Results[1].String())
	assert.Equal(t, `cases/notes.yaml:14: rules that do not hold, and one too many
          expected        got
  ! rule  two-people      -
  ! rule  nothing-on-top  -
  ! rule  -               trolley (notes.yaml:6)
    not two-people (notes.yaml:5): mass is 12 kg and must be at least 25.1 kg (13.1 kg short)
    not nothing-on-top (notes.yaml:7): fragile is no and must be yes
    got this because mass is 12 kg, which is at least 10.1 kg (1.9 kg to spare)`,
		report.Results[2].String())
}

func TestAListOfResultsIsForTablesThatCollect(t *testing.T) {
	_, err := notes(t, "table: notes\ncases:\n  - {name: a, given: {}, expect: {then: [{abuot: lifting}]}}\n")
	assert.ErrorContains(t, err, "abuot is no field of table notes; did you mean about?")
}

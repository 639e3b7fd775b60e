package cases_test

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/cases"
)

const parcels = `
table: shelf
hit: first
rules:
  - id: heavy
    when: parcel.mass_kg > 20
    then: {shelf: floor}
    because: A heavy parcel must not fall.
  - id: fragile
    when: parcel.fragile and parcel.mass_kg <= 5
    then: {shelf: top}
    because: Light and fragile goes on top.
  - id: rest
    when: parcel.mass_kg <= 20
    then: {shelf: middle}
    because: The rest fits anywhere.
`

func load(t *testing.T, worked string) *rules.Set {
	t.Helper()
	s, err := rules.NewSchema([]rules.Fact{
		{Name: "parcel.mass_kg", Label: "mass", Kind: rules.Number, Unit: "kg", Max: 60, Step: 0.1, Class: rules.Measurable},
		{Name: "parcel.fragile", Label: "fragile", Kind: rules.Flag},
	}, []rules.ResultType{{Table: "shelf", Fields: []rules.Field{
		{Name: "shelf", Kind: rules.Word, Words: []string{"floor", "middle", "top"}, Required: true},
	}}})
	require.NoError(t, err)
	set, err := rules.Load(fstest.MapFS{"shelf.yaml": {Data: []byte(parcels)}, "cases/shelf.yaml": {Data: []byte(worked)}}, s)
	require.NoError(t, err)
	return set
}

func TestCasesThatPassAreCoverage(t *testing.T) {
	report := cases.Run(load(t, `
table: shelf
cases:
  - name: a light vase
    given: {parcel.mass_kg: 1.5, parcel.fragile: true}
    expect: {rule: fragile, then: {shelf: top}}
    misses: [heavy, rest]
  - name: a heavier vase
    given: {parcel.mass_kg: 5.1, parcel.fragile: true}
    expect: {then: {shelf: middle}}
    misses: fragile
  - name: not weighed
    given: {parcel.fragile: true}
    expect: {none: true}
`))
	for _, r := range report.Results {
		assert.True(t, r.Passed(), "%s", r)
	}
	assert.Empty(t, report.Failed())
	won, missed := report.Unwon(), report.Unmissed()
	require.Len(t, won, 1)
	assert.Equal(t, "heavy", won[0].Rule)
	assert.Empty(t, missed)
	assert.Equal(t, []string{"a light vase"}, report.Rules[1].Won)
}

func TestAFailureSaysWhatWasGotAndWhy(t *testing.T) {
	report := cases.Run(load(t, `
table: shelf
cases:
  - name: a heavier vase
    given: {parcel.mass_kg: 5.1, parcel.fragile: true}
    expect: {rule: fragile, then: {shelf: top}}
    misses: rest
  - name: a crate
    given: {parcel.mass_kg: 30, parcel.fragile: false}
    expect: {none: true}
    misses: fragile
`))
	require.Len(t, report.Failed(), 2)
	assert.Equal(t, `cases/shelf.yaml:4: a heavier vase
            expected  got
  ! rule    fragile   rest (shelf.yaml:13)
  ! shelf   top       middle
  ! misses  rest      it wins
    not fragile (shelf.yaml:9): mass is 5.1 kg and must be at most 5 kg (0.1 kg too much)
    got this because mass is 5.1 kg, which is at most 20 kg (14.9 kg to spare)`, report.Failed()[0].String())
	assert.Equal(t, `cases/shelf.yaml:8: a crate
            expected  got
  ! rule    no rule   heavy (shelf.yaml:5)
  ! misses  fragile   it misses by 2 things: mass is 30 kg and must be at most 5 kg (25 kg too much); fragile is no and must be yes
    got this because mass is 30 kg, which is at least 20.1 kg (9.9 kg to spare)`, report.Failed()[1].String())
	assert.Equal(t, "rule: expected fragile, got rest (shelf.yaml:13)", report.Failed()[0].Failures[0])
	assert.Len(t, report.Unwon(), 3, "a failed case covers nothing")
}

// The quick verdict and the one in words are the same, whatever differs.
func TestPassesIsTheVerdictOfRun(t *testing.T) {
	set := load(t, `
table: shelf
cases:
  - {name: right, given: {parcel.mass_kg: 1.5, parcel.fragile: true}, expect: {rule: fragile, then: {shelf: top}}, misses: heavy}
  - {name: another rule, given: {parcel.mass_kg: 1.5, parcel.fragile: true}, expect: {rule: rest}}
  - {name: another result, given: {parcel.mass_kg: 1.5, parcel.fragile: true}, expect: {then: {shelf: floor}}}
  - {name: something after all, given: {parcel.mass_kg: 30}, expect: {none: true}}
  - {name: nothing after all, given: {}, expect: {rule: rest}}
  - {name: missed by more than one thing, given: {parcel.mass_kg: 30, parcel.fragile: false}, expect: {rule: heavy}, misses: fragile}
`)
	report := cases.Run(set)
	table, _ := set.Table("shelf")
	var d rules.Decision
	for _, r := range report.Results {
		answer, misses := cases.Passes(table, &r.Case, &d)
		assert.Equal(t, r.Passed(), answer && misses, r.Case.Name)
		assert.Equal(t, r.Case.Name == "right" || r.Case.Name == "missed by more than one thing", answer, r.Case.Name)
	}
	assert.Len(t, report.Failed(), 5)
}

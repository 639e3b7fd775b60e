package advisor_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/advisor"
)

// ownRules is a shop that never cuts a vehicle of its fleet customers, and not within a week of a coat of wax either.
var ownRules = map[string]string{
	"facts.yaml": `facts:
  - {name: shop.fleet, meaning: The vehicle belongs to a fleet., kind: flag, learn: ask whether it belongs to a fleet}
  - {name: shop.waxed_days, label: days since waxing, meaning: Days since it was waxed., kind: number, unit: days, min: 0, max: 365, step: 1, class: measured, learn: ask when it was waxed}
  - {name: shop.contract, meaning: What is agreed., kind: word, words: [single, yearly, full], ordered: true, class: chosen}
`,
	"limit.yaml": `table: limit
hit: first
rules:
  - id: no-step-on-fresh-wax
    when: shop.waxed_days < 7
    then: {step: none}
    because: Wax has to settle first.
  - id: fleet-is-only-finished
    when: shop.fleet && shop.contract < "full"
    then: {step: finish}
    because: Fleet vehicles come often; the film has to last.
  - id: polish-at-most
    when: true
    then: {step: polish}
    because: Enough for this test.
`,
}

func TestRulesSeeTheShopsOwnFacts(t *testing.T) {
	fleet := func(in *advisor.Inspection) { in.Own = advisor.Own{"fleet": true, "contract": "yearly"} }
	for name, at := range map[string]struct {
		change func(*advisor.Inspection)
		rule   string
	}{
		"nothing is known":                     {func(*advisor.Inspection) {}, "polish-at-most"},
		"the whole vehicle":                    {fleet, "fleet-is-only-finished"},
		"the panel says otherwise":             {func(in *advisor.Inspection) { fleet(in); in.Panels[0].Own = advisor.Own{"contract": "full"} }, "polish-at-most"},
		"a number":                             {func(in *advisor.Inspection) { in.Panels[0].Own = advisor.Own{"waxed_days": 6.0} }, "no-step-on-fresh-wax"},
		"a number is rounded to its own steps": {func(in *advisor.Inspection) { in.Panels[0].Own = advisor.Own{"waxed_days": 6.6} }, "polish-at-most"},
	} {
		t.Run(name, func(t *testing.T) {
			assert.Equal(t, at.rule, recommend(t, shopWith(t, ownRules), inspection(at.change)).LimitReason.Rule)
		})
	}
}

func TestWhatCannotBeAFactOfTheShopsOwnIsRefused(t *testing.T) {
	_, err := shopWith(t, ownRules).Recommend(inspection(func(in *advisor.Inspection) {
		in.Own = advisor.Own{"fleet": "yes", "contarct": "full", "waxed_days": 400.0}
		in.Panels[0].Own = advisor.Own{"contract": "half", "fleet": map[string]any{}, "floot": true}
	}))
	wrong, ok := errors.AsType[*advisor.InputError](err)
	require.True(t, ok, "%v", err)
	assert.Equal(t, []advisor.Trouble{
		{Field: "shop[contarct]", Says: "shop.contarct is not a fact of the rules in force; did you mean contract?"},
		{Field: "shop[fleet]", Says: `"yes" is not allowed: true or false`},
		{Field: "shop[waxed_days]", Says: "400 is not allowed: from 0 to 365 days"},
		{Field: "panels[0].shop[contract]", Says: `"half" is not allowed: one of single, yearly, full`},
		{Field: "panels[0].shop[fleet]", Says: "a list or a map is not allowed: true or false"},
		{Field: "panels[0].shop[floot]", Says: "shop.floot is not a fact of the rules in force; did you mean fleet?"},
	}, wrong.Troubles)
	_, err = shop(t).Recommend(inspection(func(in *advisor.Inspection) { in.Own = advisor.Own{"fleet": true} }))
	require.ErrorContains(t, err, "shop[fleet]: shop.fleet is not a fact of the rules in force; they declare none of the shop's own")
}

func TestTheShopsOwnFactsAreAskedForAndExplained(t *testing.T) {
	a := shopWith(t, ownRules)
	rec, err := a.Recommend(inspection())
	require.NoError(t, err)
	var learn []string
	for _, wanted := range rec.MeasureNext {
		learn = append(learn, wanted.Learn)
	}
	assert.Contains(t, learn, "ask when it was waxed")

	in := inspection(func(in *advisor.Inspection) { in.Own = advisor.Own{"waxed_days": 5.0} })
	e := mustExplain(t, a, in, "polish")
	limit := decisionOf(t, e, "limit")
	assert.Contains(t, limit.Why, "days since waxing")
	var changes []string
	for _, c := range limit.Changes {
		changes = append(changes, c.Fact)
	}
	assert.Contains(t, changes, "shop.waxed_days")
}

package jsonschema_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestDeclaredFactsAreHeldToTheirKind(t *testing.T) {
	schemas := validators(t)
	for name, at := range map[string]struct {
		facts string
		ok    bool
	}{
		"one of each kind": {`facts:
  - {name: shop.washed_days, meaning: Days since it was washed., kind: number, unit: days, min: 0, max: 365, step: 1, class: measured, learn: ask the owner}
  - {name: shop.tier, meaning: Which contract., kind: word, words: [single, fleet], ordered: true}
  - {name: shop.express, meaning: It has to go today., kind: flag, class: chosen}
`, true},
		"none":                     {"facts: []", true},
		"in another group":         {"facts: [{name: paint.mood, meaning: m, kind: flag}]", false},
		"without a meaning":        {"facts: [{name: shop.mood, kind: flag}]", false},
		"a number without a range": {"facts: [{name: shop.mood, meaning: m, kind: number}]", false},
		"a flag with a unit":       {"facts: [{name: shop.mood, meaning: m, kind: flag, unit: kg}]", false},
		"a word without words":     {"facts: [{name: shop.mood, meaning: m, kind: word}]", false},
		"a kind that there is not": {"facts: [{name: shop.mood, meaning: m, kind: text}]", false},
	} {
		t.Run(name, func(t *testing.T) {
			err := schemas["facts"].Validate(read(t, []byte(at.facts)))
			assert.Equal(t, at.ok, err == nil, "%v", err)
		})
	}
}

func TestCasesAndPromisesMayNameFactsOfTheShopsOwn(t *testing.T) {
	schemas := validators(t)
	assert.NoError(t, schemas["cases"].Validate(read(t, []byte(`table: start
cases:
  - {name: a fleet car, given: {shop.fleet: true}, expect: {none: true}}
`))))
	assert.Error(t, schemas["cases"].Validate(read(t, []byte(`table: start
cases:
  - {name: a fleet car, given: {stall.fleet: true}, expect: {none: true}}
`))))
	assert.NoError(t, schemas["promises"].Validate(read(t, []byte(`promises:
  - {id: patient, because: x, monotone: {rises: shop.washed_days, never-falls: start.step}}
  - {id: fair, because: x, blind: {tables: [limit], to: shop}}
`))))
}

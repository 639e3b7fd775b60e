package promise_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules/promise"
)

func TestBlindTablesNameNoFactOfAGroup(t *testing.T) {
	for _, c := range []struct {
		name, when, says string
		outcome          promise.Outcome
		example          string
	}{
		{"no fact at all", "true", "blind: {tables: [lift], to: box}", promise.Kept, ""},
		{"a bound", "box.kg >= 4", "blind: {tables: [lift], to: box}", promise.Broken, "r-0 of lift (lift.yaml:4) asks for box.kg"},
		{"whether it is known", "not known(box.kg)", "blind: {tables: [lift], to: box}", promise.Broken, "r-0 of lift (lift.yaml:4) asks for box.kg"},
		{"to no effect", "box.kg >= 0 || not known(box.kg)", "blind: {tables: [lift], to: box}", promise.Broken, "r-0 of lift (lift.yaml:4) asks for box.kg"},
		{"another table does", "true", "blind: {tables: [lift, shelf], to: box}", promise.Broken, "r-0 of shelf (shelf.yaml:4) asks for box.kg"},
	} {
		set := load(t, "first", []row{{"box.kg > 1", "low"}}, []row{{c.when, "one"}}, []row{{"true", "glass"}})
		verdicts, err := promise.Verify(set, parse(t, c.says), 0)
		require.NoError(t, err, c.name)
		assert.Equal(t, c.outcome, verdicts[0].Outcome, c.name)
		assert.Equal(t, c.example, verdicts[0].Example, c.name)
	}
}

func TestMistakesInBlindPromises(t *testing.T) {
	set := load(t, "first", []row{{"true", "low"}}, []row{{"true", "one"}}, []row{{"true", "glass"}})
	for _, c := range []struct{ says, want string }{
		{"{tables: [lift]}", "blind needs tables and to"},
		{"{tables: lift, to: box}", "tables are a list"},
		{"{tables: [left], to: box}", "there is no table left"},
		{"{tables: [lift], to: parcel}", "there is no group of facts parcel"},
		{"{tables: [lift], two: box}", "blind has no key two"},
	} {
		ps, err := promise.Parse("promises.yaml", []byte("promises:\n  - {id: a, because: b, blind: "+c.says+"}\n"))
		if err == nil {
			_, err = promise.Verify(set, ps, 0)
		}
		require.ErrorContains(t, err, c.want)
	}
}

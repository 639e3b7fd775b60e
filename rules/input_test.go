package rules_test

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
)

func TestInputRefusesWhatAFactCannotBe(t *testing.T) {
	s := bakery(t)
	water, _ := s.FactID("dough.water_pct")
	core, _ := s.FactID("dough.core_c")
	flour, _ := s.FactID("dough.flour")
	steam, _ := s.FactID("oven.steam")
	for _, c := range []struct {
		name string
		set  func(*rules.Input) error
		want string
	}{
		{
			"beside the steps", func(in *rules.Input) error { return in.SetNumber(water, 70.2) },
			"dough.water_pct cannot be 70.2 %: it comes in steps of 0.5; the nearest is 70 %",
		},
		{
			"above the bounds", func(in *rules.Input) error { return in.SetNumber(core, 110.1) },
			"dough.core_c cannot be 110.1 °C: it must be -5 to 110 °C",
		},
		{
			"far below the bounds", func(in *rules.Input) error { return in.SetNumber(core, -1e300) },
			"it must be -5 to 110 °C",
		},
		{"not a number", func(in *rules.Input) error { return in.SetNumber(core, math.NaN()) }, "leave the fact out"},
		{"infinite", func(in *rules.Input) error { return in.SetNumber(core, math.Inf(-1)) }, "leave the fact out"},
		{
			"a misspelt word", func(in *rules.Input) error { return in.SetWord(flour, "wheet") },
			`dough.flour cannot be "wheet": did you mean "wheat"?`,
		},
		{"a strange word", func(in *rules.Input) error { return in.SetWord(flour, "concrete") }, "it is one of wheat, rye, spelt"},
		{"a word for a number", func(in *rules.Input) error { return in.SetWord(core, "hot") }, "it is a number"},
		{"a flag for a word", func(in *rules.Input) error { return in.SetFlag(flour, true) }, "it is a word"},
		{"no such fact", func(in *rules.Input) error { return in.SetFlag(99, true) }, "there is no such fact"},
	} {
		t.Run(c.name, func(t *testing.T) {
			in := s.NewInput()
			require.NoError(t, in.SetFlag(steam, true))
			err := c.set(in)
			_, ok := errors.AsType[*rules.FactError](err)
			require.True(t, ok, "%v", err)
			assert.Contains(t, err.Error(), c.want)
			for _, id := range []rules.FactID{water, core, flour} {
				assert.False(t, in.Known(id), "a refused value leaves the fact as it was")
			}
		})
	}
}

func TestInputGivesBackWhatItTook(t *testing.T) {
	s := bakery(t)
	core, _ := s.FactID("dough.core_c")
	in := s.NewInput()
	_, ok := in.Number(core)
	assert.False(t, ok, "missing is not zero")
	for k := range 1151 { // every tenth of a degree from -5 to 110
		v := float64(k-50) / 10
		require.NoError(t, in.SetNumber(core, v))
		got, ok := in.Number(core)
		require.True(t, ok)
		require.Equal(t, v, got, "the decimal itself, not a neighbour")
	}
	require.NoError(t, in.SetNumber(core, 0.1+0.2), "the noise of binary arithmetic is no reading between two steps")
	got, _ := in.Number(core)
	assert.Equal(t, 0.3, got)
	copied := in.Clone()
	in.Reset()
	assert.False(t, in.Known(core))
	assert.Equal(t, "0.3 °C", copied.Value(core))
	in.CopyFrom(copied)
	assert.Equal(t, "0.3 °C", in.Value(core))
	assert.True(t, in.Equal(copied))
	in.Clear(core)
	assert.False(t, in.Equal(copied))
	assert.Equal(t, "not measured", in.Value(core))
}

func TestSchemaComplainsOfEverythingAtOnce(t *testing.T) {
	_, err := rules.NewSchema([]rules.Fact{
		{Name: "Bad Name", Kind: rules.Flag},
		{Name: "let.x", Kind: rules.Flag},
		{Name: "a.step", Kind: rules.Number, Min: 0, Max: 1},
		{Name: "a.bounds", Kind: rules.Number, Min: 1, Max: 1, Step: 1},
		{Name: "a.steps", Kind: rules.Number, Min: 0, Max: 1, Step: 0.3},
		{Name: "a.words", Kind: rules.Word},
		{Name: "a.twice", Kind: rules.Word, Words: []string{"x", "x"}},
		{Name: "a.twice", Kind: rules.Flag},
		{Name: "a.flag", Kind: rules.Flag, Words: []string{"x"}},
		{Name: "a.kind", Kind: rules.Text},
		{Name: "s.one", Kind: rules.Word, Words: []string{"x"}, Scale: "s"},
		{Name: "s.two", Kind: rules.Word, Words: []string{"y"}, Scale: "s"},
	}, []rules.ResultType{
		{Table: "Heat"},
		{Table: "a", Hits: []rules.Hit{"sometimes", rules.Priority}, Fields: []rules.Field{{Name: "x", Kind: rules.Flag, List: true}}},
		{Table: "a", Priority: "y", Fields: []rules.Field{{Name: "y", Kind: rules.Number}}},
	})
	require.Error(t, err)
	for _, want := range []string{
		"fact Bad Name needs a name", "fact let.x starts with let", "fact a.step has no grid", "leave no room",
		"not a whole number of steps", "fact a.words has 0 words", `the word "x" twice`, "fact a.twice is declared twice",
		"fact a.flag is no word", "fact a.kind must be", "fact s.two shares scale s with s.one", "table Heat needs a name",
		"table Heat has no fields", `"sometimes", which does not exist`, "names no field for it", "only words and texts come in lists",
		"table a is declared twice", `priority from "y"`, "has bounds 0 to 0",
	} {
		assert.ErrorContains(t, err, want)
	}
}

func TestWhyNotMeasuresTheDistance(t *testing.T) {
	set := loadBakery(t)
	table, _ := set.Table("readiness")
	in := give(t, set.Schema(), map[string]any{"dough.core_c": 91.5, "crust.now": "pale", "crust.wish": "dark"})
	not := table.WhyNot(in, 0)
	core, _ := set.Schema().FactID("dough.core_c")
	require.Len(t, not.Failed, 1)
	assert.Equal(t, core, not.Failed[0].Fact)
	assert.InDelta(t, 1.6, not.Failed[0].Off, 1e-12)
	assert.True(t, table.WhyNot(in, 1).Won)
}

func TestChecksCarryTheirMargins(t *testing.T) {
	set := loadBakery(t)
	table, _ := set.Table("readiness")
	in := give(t, set.Schema(), map[string]any{"dough.core_c": 95.5, "crust.now": "dark", "crust.wish": "golden"})
	var d rules.Decision
	table.Decide(in, &d)
	require.Equal(t, []int32{2}, d.Winners)
	core, _ := set.Schema().FactID("dough.core_c")
	require.Equal(t, core, d.Checks[0].Fact)
	assert.Equal(t, 1.5, d.Checks[0].Margin, "94 is nearer than 99")
	e := table.Why(in, &d)
	assert.Equal(t, "1.5 °C to spare", e.Winners[0].Conditions[0].Spare)
	assert.Equal(t, "94 to 99 °C", e.Winners[0].Conditions[0].Bound)
}

package rules_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
)

// bakery is an invented schema about something that is not paint: how to bake a
// loaf. Its numbers prove nothing about bread.
func bakery(t testing.TB) *rules.Schema {
	t.Helper()
	s, err := rules.NewSchema(
		[]rules.Fact{
			{Name: "dough.water_pct", Label: "water in the dough", Meaning: "Water as a share of flour.", Kind: rules.Number, Unit: "%", Min: 50, Max: 100, Step: 0.5, Class: rules.Choosable},
			{Name: "dough.core_c", Label: "core temperature", Meaning: "Temperature in the middle of the dough.", Kind: rules.Number, Unit: "°C", Min: -5, Max: 110, Step: 0.1, Class: rules.Measurable},
			{Name: "dough.rise_h", Label: "hours risen", Meaning: "Time since kneading.", Kind: rules.Number, Unit: "h", Min: 0, Max: 48, Step: 0.25, Class: rules.Given},
			{Name: "dough.flour", Label: "flour", Meaning: "Main flour.", Kind: rules.Word, Words: []string{"wheat", "rye", "spelt"}},
			{Name: "crust.wish", Label: "wished crust", Meaning: "How dark the crust should be.", Kind: rules.Word, Words: []string{"pale", "golden", "dark"}, Ordered: true, Scale: "crust", Class: rules.Choosable},
			{Name: "crust.now", Label: "crust", Meaning: "How dark the crust is.", Kind: rules.Word, Words: []string{"pale", "golden", "dark"}, Ordered: true, Scale: "crust", Class: rules.Measurable},
			{Name: "oven.steam", Label: "steam", Meaning: "The oven can steam.", Kind: rules.Flag},
			{Name: "oven.stone_kg", Label: "stone", Meaning: "Mass of the baking stone.", Kind: rules.Number, Unit: "kg", Min: 0, Max: 40, Step: 1},
		},
		[]rules.ResultType{
			{
				Table: "heat", Meaning: "How to set the oven.", Hits: []rules.Hit{rules.First, rules.Unique},
				Fields: []rules.Field{
					{Name: "oven_c", Meaning: "oven temperature", Unit: "°C", Kind: rules.Number, Min: 150, Max: 280, Step: 5, Required: true},
					{Name: "steam", Meaning: "with steam", Kind: rules.Flag},
				},
			},
			{
				Table: "readiness", Meaning: "May the loaf come out.", Priority: "verdict", HighestWins: true,
				Fields: []rules.Field{
					{Name: "verdict", Meaning: "what to do", Kind: rules.Word, Words: []string{"wait", "look", "out"}, Ordered: true, Required: true},
				},
			},
			{
				Table: "hints", Meaning: "What to watch.", Hits: []rules.Hit{rules.Collect},
				Fields: []rules.Field{
					{Name: "say", Meaning: "the hint", Kind: rules.Text, Required: true},
					{Name: "tools", Meaning: "what it takes", Kind: rules.Word, Words: []string{"peel", "probe", "spray"}, List: true},
				},
			},
		})
	require.NoError(t, err)
	return s
}

// give fills an input from names and values.
func give(t testing.TB, s *rules.Schema, facts map[string]any) *rules.Input {
	t.Helper()
	in := s.NewInput()
	for name, v := range facts {
		id, ok := s.FactID(name)
		require.True(t, ok, name)
		switch v := v.(type) {
		case int:
			require.NoError(t, in.SetNumber(id, float64(v)))
		case float64:
			require.NoError(t, in.SetNumber(id, v))
		case string:
			require.NoError(t, in.SetWord(id, v))
		case bool:
			require.NoError(t, in.SetFlag(id, v))
		}
	}
	return in
}

package rules_test

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
)

func bakerySet(t testing.TB) *rules.Set {
	t.Helper()
	set, err := rules.Load(os.DirFS("testdata/bakery"), bakery(t))
	require.NoError(t, err)
	return set
}

func TestWithTableReplacesOneTableAndLeavesTheSetAlone(t *testing.T) {
	set := bakerySet(t)
	src, ok := set.Source("heat.yaml")
	require.True(t, ok)
	in := give(t, set.Schema(), map[string]any{"dough.water_pct": 80})
	winner := func(s *rules.Set) string {
		table, _ := s.Table("heat")
		return table.Rules()[table.First(in, nil)].ID
	}
	require.Equal(t, "wet-dough", winner(set))

	same, err := set.WithTable("heat", src)
	require.NoError(t, err)
	assert.Equal(t, set.Hash(), same.Hash())
	edited, err := set.WithTable("heat", []byte(strings.Replace(string(src), "let.wet > 75", "let.wet > 85", 1)))
	require.NoError(t, err)
	assert.Equal(t, "else", winner(edited))
	assert.Equal(t, "wet-dough", winner(set))
	assert.NotEqual(t, set.Hash(), edited.Hash())
	assert.Equal(t, set.Cases(), edited.Cases())
	assert.Equal(t, set.Files(), edited.Files())
}

func TestWithTableRefusesWhatLoadWould(t *testing.T) {
	set := bakerySet(t)
	src, _ := set.Source("heat.yaml")
	for name, text := range map[string]string{
		"a misspelt key":         strings.Replace(string(src), "hit:", "hti:", 1),
		"no YAML":                "table: [",
		"nothing":                "",
		"the text of another":    "table: hints\nhit: collect\nrules:\n  - {id: a, when: true, then: {say: x}, because: y}\n",
		"a condition that fails": strings.Replace(string(src), "let.wet > 75", "let.wet >", 1),
	} {
		edited, err := set.WithTable("heat", []byte(text))
		assert.Nil(t, edited, name)
		var problems rules.Problems
		if assert.ErrorAs(t, err, &problems, name) {
			assert.Equal(t, "heat.yaml", problems[0].File, name)
		}
	}
	_, err := set.WithTable("cold", src)
	assert.ErrorContains(t, err, "there is no table cold")
}

func TestHoldsIsTheConditionAlone(t *testing.T) {
	table, _ := bakerySet(t).Table("heat")
	in := give(t, table.Schema(), map[string]any{"crust.wish": "dark", "oven.steam": true, "dough.water_pct": 80})
	var held []string
	var sc rules.Scratch
	for i, r := range table.Rules() {
		assert.Equal(t, table.Holds(in, i, nil), table.Holds(in, i, &sc))
		if table.Holds(in, i, &sc) {
			held = append(held, r.ID)
		}
	}
	assert.Equal(t, []string{"dark-and-steamed", "wet-dough", "else"}, held, "heavy-stone waits for the stone")
	for _, scratch := range []*rules.Scratch{nil, &sc} {
		var all []string
		for _, i := range table.Held(in, scratch, nil) {
			all = append(all, table.Rules()[i].ID)
		}
		assert.Equal(t, held, all, "all at once")
	}
}

func TestCodesAreWhatInputAtTakes(t *testing.T) {
	s := bakery(t)
	in := give(t, s, map[string]any{"crust.wish": "dark", "dough.core_c": 96.5})
	again := s.InputAt(in.Codes())
	id, _ := s.FactID("dough.core_c")
	assert.Equal(t, "96.5 °C", again.Value(id))
	again.SetCode(id, -1)
	assert.False(t, again.Known(id))
	assert.True(t, in.Known(id))
}

func TestAResultIsWithinOneThatSaysTheSameAndMore(t *testing.T) {
	table, _ := bakerySet(t).Table("heat")
	full, plain, other := table.Rules()[0].Result, table.Rules()[1].Result, table.Rules()[3].Result
	assert.True(t, full.Within(full))
	assert.False(t, plain.Within(full), "another heat")
	assert.False(t, full.Within(plain), "it says nothing of steam")
	assert.False(t, other.Within(full))
	assert.True(t, rules.Result{}.Within(plain))
	assert.False(t, plain.Within(rules.Result{}))
}

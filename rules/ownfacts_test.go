package rules_test

import (
	"errors"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/compare"
)

// openBakery lets every bakery declare facts of its own.
func openBakery(t testing.TB) *rules.Schema {
	t.Helper()
	s, err := bakery(t).LetOwn("house")
	require.NoError(t, err)
	return s
}

const houseFacts = `facts:
  - name: house.guests
    meaning: How many are waiting for it.
    kind: number
    unit: people
    min: 0
    max: 40
    step: 1
    class: measured
    learn: count the guests
  - name: house.day
    label: kind of day
    meaning: Feast days are baked for otherwise.
    kind: word
    words: [plain, market, feast]
    ordered: true
  - {name: house.wood_fired, meaning: The oven burns wood., kind: flag}
`

const houseHeat = `table: heat
hit: first
rules:
  - id: feast
    when: house.day >= "market" && house.guests > 20 && !house.wood_fired
    then: {oven_c: 250}
    because: Many are waiting.
  - {id: else, when: "true", then: {oven_c: 220}, because: As always.}
`

// house is the bakery's folder with some files replaced.
func house(t testing.TB, replaced map[string]string) fstest.MapFS {
	t.Helper()
	files := fstest.MapFS{}
	for _, name := range []string{"hints.yaml", "readiness.yaml", "heat.yaml"} {
		src, err := os.ReadFile("testdata/bakery/" + name)
		require.NoError(t, err)
		files[name] = &fstest.MapFile{Data: src}
	}
	for name, src := range replaced {
		files[name] = &fstest.MapFile{Data: []byte(src)}
	}
	return files
}

func loadHouse(t testing.TB, replaced map[string]string) *rules.Set {
	t.Helper()
	set, err := rules.Load(house(t, replaced), openBakery(t))
	require.NoError(t, err)
	return set
}

func TestAFolderDeclaresFactsOfItsOwn(t *testing.T) {
	schema := openBakery(t)
	set := loadHouse(t, map[string]string{"facts.yaml": houseFacts, "heat.yaml": houseHeat})
	assert.Empty(t, schema.Own(), "the schema itself stays as it was")
	require.Len(t, set.Schema().Own(), 3)
	assert.Equal(t, rules.Fact{
		Name: "house.guests", Label: "guests", Meaning: "How many are waiting for it.", Kind: rules.Number, Unit: "people", Max: 40, Step: 1,
		Class: rules.Measurable, Learn: "count the guests",
	}, set.Schema().Own()[0])
	assert.Equal(t, "kind of day", set.Schema().Own()[1].Label)
	assert.Contains(t, set.Files(), "facts.yaml", "it counts in the hash")
	heat, _ := set.Table("heat")
	winner := func(facts map[string]any) string {
		return heat.Rules()[heat.First(give(t, set.Schema(), facts), nil)].ID
	}
	assert.Equal(t, "feast", winner(map[string]any{"house.day": "feast", "house.guests": 21, "house.wood_fired": false}))
	assert.Equal(t, "else", winner(map[string]any{"house.day": "feast", "house.guests": 20, "house.wood_fired": false}))
	assert.Equal(t, "else", winner(map[string]any{"house.day": "feast", "house.guests": 21}), "what is not known is no reason")
	for i, fact := range schema.Facts() {
		assert.Equal(t, fact.Name, set.Schema().Facts()[i].Name, "facts of the schema keep their places")
	}
}

func TestDeclarationsAtFaultAreToldWithTheirPlaces(t *testing.T) {
	_, err := rules.Load(house(t, map[string]string{"heat.yaml": houseHeat, "facts.yaml": `facts:
  - {name: oven.heat, meaning: In the wrong group., kind: flag}
  - {name: house.guests, kind: number, min: 0, max: 40.5, step: 1}
  - {name: house.day, meaning: Which day., kind: wrod, words: [plain]}
  - {name: house.day, meaning: Twice., kind: word, words: [plain, plain]}
  - {name: house.wood_fired, meaning: Wood., kind: flag, unit: kg, clas: given}
  - {name: house.a, meaning: No words., kind: word}
  - {name: house.b, meaning: No range., kind: number, min: "1", step: 1, class: guessed}
  - {name: house.c, meaning: Bad words., kind: word, words: [Plain], ordered: yes}
`}), openBakery(t))
	require.Error(t, err)
	golden(t, "testdata/ownfacts.golden", err.Error()+"\n")
	assert.NotContains(t, err.Error(), "heat.yaml", "rules that name facts which are declared badly are not to blame")
}

func TestFactsOfItsOwnAreAskedForByName(t *testing.T) {
	for name, at := range map[string]struct{ group, says string }{
		"a group that has facts":         {"oven", "group oven has the fact oven.steam already"},
		"a word that conditions keep":    {"let", `group "let" needs a lower-case name`},
		"a group with a capital":         {"House", `group "House" needs a lower-case name`},
		"a group that is a path of them": {"a.b", `group "a.b" needs a lower-case name`},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := bakery(t).LetOwn(at.group)
			require.ErrorContains(t, err, at.says)
		})
	}
	_, err := rules.Load(house(t, map[string]string{"facts.yaml": houseFacts}), bakery(t))
	require.ErrorContains(t, err, "facts.yaml:1:1:", "a schema that lets no folder declare any takes it for a table")
	_, err = rules.Load(house(t, map[string]string{"heat.yaml": houseHeat}), openBakery(t))
	require.ErrorContains(t, err, "heat.yaml:5:11: house.day is not a fact")
}

func TestSetsWithDifferentFactsOfTheirOwnAreCompared(t *testing.T) {
	plain := loadHouse(t, nil)
	own := loadHouse(t, map[string]string{"facts.yaml": houseFacts, "heat.yaml": houseHeat})
	wider := loadHouse(t, map[string]string{
		"facts.yaml": strings.Replace(houseFacts, "max: 40", "max: 60", 1), "heat.yaml": strings.Replace(houseHeat, "> 20", "> 50", 1),
	})
	report, err := compare.Sets(plain, own, 0)
	require.NoError(t, err)
	require.Len(t, report.Tables, 1)
	assert.Equal(t, compare.Changed, report.Tables[0].Effect.Outcome)
	assert.Equal(t, own.Hash(), report.B, "sets keep their hashes")
	assert.Equal(t, []compare.File{{Name: "facts.yaml", Kind: compare.Added}}, report.Files)

	report, err = compare.Sets(own, wider, 0)
	require.NoError(t, err)
	require.Len(t, report.Tables[0].Effect.Regions, 1)
	assert.Contains(t, strings.Join(report.Tables[0].Effect.Regions[0].Words(), ", "), "21 to 50")

	other := loadHouse(t, map[string]string{"facts.yaml": strings.Replace(houseFacts, "[plain, market, feast]", "[plain, feast, market]", 1)})
	_, err = compare.Sets(own, other, 0)
	require.ErrorIs(t, err, rules.ErrOwnFacts)
	require.ErrorContains(t, err, "house.day")
	same, _, err := rules.Together(own, loadHouse(t, map[string]string{"facts.yaml": strings.Replace(houseFacts, "kind of day", "day", 1)}))
	require.NoError(t, err)
	assert.Same(t, own, same, "a label is not what answers hang on")
}

// FuzzOwnFacts gives the loader any bytes as declarations: it answers with a set whose schema holds, or with problems inside files.
func FuzzOwnFacts(f *testing.F) {
	f.Add(houseFacts)
	f.Add("facts: []")
	f.Add("facts:\n  - {name: house.x, meaning: m, kind: number, min: 0, max: 1e9, step: 0.1}")
	f.Add("facts:\n  - {name: house.x, meaning: m, kind: word, words: [a, b], ordered: true, class: chosen}")
	schema := openBakery(f)
	f.Fuzz(func(t *testing.T, facts string) {
		set, err := rules.Load(house(t, map[string]string{"facts.yaml": facts}), schema)
		if err == nil {
			for _, fact := range set.Schema().Own() {
				require.True(t, strings.HasPrefix(fact.Name, "house."), fact.Name)
				require.NotEmpty(t, fact.Meaning)
			}
			return
		}
		problems, ok := errors.AsType[rules.Problems](err)
		require.True(t, ok)
		for _, p := range problems {
			require.LessOrEqual(t, p.Line, strings.Count(facts, "\n")+1, "%v", p)
		}
	})
}

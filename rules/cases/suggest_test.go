package cases_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/cases"
)

func TestSuggestionsPickARuleAndJustMissIt(t *testing.T) {
	set := load(t, "table: shelf\ncases:\n  - {name: any, given: {}, expect: {none: true}}\n")
	table, _ := set.Table("shelf")
	var list []cases.Suggestion
	for i := range table.Rules() {
		wins, misses := cases.Suggest(table, i)
		require.NotNil(t, wins)
		require.NotNil(t, misses)
		list = append(list, *wins, *misses)
	}
	assert.Equal(t, `table: shelf
cases:
  - name: mass 20.1 kg
    given: {parcel.mass_kg: 20.1}
    expect: {rule: heavy, then: {shelf: floor}}

  - name: mass 20 kg
    given: {parcel.mass_kg: 20}
    expect: {rule: rest, then: {shelf: middle}}
    misses: heavy

  - name: mass 5 kg, fragile yes
    given: {parcel.mass_kg: 5, parcel.fragile: true}
    expect: {rule: fragile, then: {shelf: top}}

  - name: mass 5.1 kg, fragile yes
    given: {parcel.mass_kg: 5.1, parcel.fragile: true}
    expect: {rule: rest, then: {shelf: middle}}
    misses: fragile

  - name: mass 20 kg, again
    given: {parcel.mass_kg: 20}
    expect: {rule: rest, then: {shelf: middle}}

  - name: mass 20.1 kg, again
    given: {parcel.mass_kg: 20.1}
    expect: {rule: heavy, then: {shelf: floor}}
    misses: rest
`, cases.File("shelf", list))
	report := cases.Run(load(t, cases.File("shelf", list)))
	assert.Empty(t, report.Failed())
	assert.Empty(t, report.Unwon())
	assert.Empty(t, report.Unmissed())
}

// boxes is an invented schema, small enough to try every input.
func boxes(t testing.TB) *rules.Schema {
	t.Helper()
	s, err := rules.NewSchema([]rules.Fact{
		{Name: "box.kg", Label: "weight", Kind: rules.Number, Unit: "kg", Max: 6, Step: 1, Class: rules.Measurable},
		{Name: "box.size", Label: "size", Kind: rules.Word, Words: []string{"small", "middling", "large"}, Ordered: true},
		{Name: "box.kind", Label: "kind", Kind: rules.Word, Words: []string{"no", "#9", "a: b"}},
		{Name: "box.fragile", Label: "fragile", Kind: rules.Flag},
	}, []rules.ResultType{{Table: "shelf", Priority: "height", HighestWins: true, Fields: []rules.Field{
		{Name: "height", Kind: rules.Word, Words: []string{"low", "mid", "top"}, Ordered: true, Required: true},
	}}})
	require.NoError(t, err)
	return s
}

func clause(r *rand.Rand) string {
	return []string{
		fmt.Sprintf("box.kg >= %d", r.IntN(7)), fmt.Sprintf("box.kg < %d", r.IntN(7)), `box.size >= "middling"`,
		`box.size != "middling"`, "not known(box.kg)", "(not known(box.fragile) || box.fragile)", `box.kind in ["#9", "no"]`,
		"not box.fragile", `box.kind == "a: b"`, "known(box.size)",
	}[r.IntN(10)]
}

func random(r *rand.Rand, hit string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "table: shelf\nhit: %s\nrules:\n", hit)
	for i := range 1 + r.IntN(5) {
		when := clause(r)
		if r.IntN(2) == 0 {
			when += " && " + clause(r)
		}
		if r.IntN(4) == 0 {
			when += " || " + clause(r)
		}
		fmt.Fprintf(&b, "  - {id: r-%d, when: '%s', then: {height: %s}, because: invented}\n", i, when, []string{"low", "mid", "top"}[r.IntN(3)])
	}
	return b.String()
}

// every calls visit for every input.
func every(s *rules.Schema, visit func(in *rules.Input)) {
	for n := range 8 * 4 * 4 * 3 {
		kg, size, kind, fragile := n%8, n/8%4, n/32%4, n/128
		visit(s.InputAt([]int32{int32(kg) - 1, int32(size) - 1, int32(kind) - 1, int32(fragile) - 1}))
	}
}

// Whatever the rules: what is suggested loads and passes, and where no case that a
// rule wins is suggested, trying every input finds none either.
func TestSuggestionsForRandomTables(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 2))
	none, missed := 0, 0
	for n := range 400 {
		src := random(r, []string{"first", "priority", "collect", "unique", "any"}[n%5])
		set, err := rules.Load(fstest.MapFS{"shelf.yaml": {Data: []byte(src)}}, boxes(t))
		require.NoError(t, err, src)
		table, _ := set.Table("shelf")
		var list []cases.Suggestion
		for i := range table.Rules() {
			wins, misses := cases.Suggest(table, i)
			if misses != nil {
				missed++
				list = append(list, *misses)
			}
			if wins != nil {
				list = append(list, *wins)
				continue
			}
			none++
			var d rules.Decision
			every(set.Schema(), func(in *rules.Input) {
				table.Decide(in, &d)
				for _, w := range d.Winners {
					require.NotEqual(t, int32(i), w, "%s: rule %d", src, i)
				}
			})
		}
		text := cases.File("shelf", list)
		again, err := rules.Load(fstest.MapFS{"shelf.yaml": {Data: []byte(src)}, "cases/shelf.yaml": {Data: []byte(text)}}, boxes(t))
		require.NoError(t, err, "%s%s", src, text)
		for _, failed := range cases.Run(again).Failed() {
			t.Errorf("%s%s", src, failed)
		}
	}
	assert.Greater(t, none, 50)
	assert.Greater(t, missed, 800)
}

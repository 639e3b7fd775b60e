package cases_test

import (
	"math/rand/v2"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/cases"
)

func TestBoundsWantACaseOnBothSides(t *testing.T) {
	set := load(t, `
table: shelf
cases:
  - {name: a light vase, given: {parcel.mass_kg: 1.5, parcel.fragile: true}, expect: {rule: fragile}}
  - {name: a vase of 5.1 kg, given: {parcel.mass_kg: 5.1, parcel.fragile: true}, expect: {rule: rest}, misses: fragile}
  - {name: a light book, given: {parcel.mass_kg: 1.5, parcel.fragile: false}, expect: {rule: rest}, misses: fragile}
  - {name: a crate of 20.1 kg, given: {parcel.mass_kg: 20.1, parcel.fragile: false}, expect: {rule: heavy}, misses: rest}
`)
	tables := cases.Cover(set, cases.Run(set))
	require.Len(t, tables, 1)
	got := tables[0]
	assert.Equal(t, [8]int{4, 3, 3, 3, 2, 4, 1, 3},
		[8]int{got.Cases, got.Rules, got.Matched, got.Won, got.Missed, got.Bounds, got.Tested, len(got.Untested)})
	var said []string
	for i := range got.Untested {
		b := &got.Untested[i]
		text := b.Rule + ": " + b.Inner + " | " + b.Outer + " (" + b.Inside + " | " + b.Outside + ")"
		for _, s := range b.Suggest {
			text += "\n" + s.YAML()
		}
		said = append(said, text)
	}
	assert.Equal(t, []string{
		// The crate is just inside, and nothing is just outside.
		`heavy: 20.1 kg | 20 kg (a crate of 20.1 kg | )
  - name: mass 20 kg
    given: {parcel.mass_kg: 20, parcel.fragile: false}
    expect: {rule: rest, then: {shelf: middle}}
    misses: heavy
`,
		// A vase of 1.5 kg is far inside.
		`fragile: 5 kg | 5.1 kg ( | a vase of 5.1 kg)
  - name: mass 5 kg, fragile yes
    given: {parcel.mass_kg: 5, parcel.fragile: true}
    expect: {rule: fragile, then: {shelf: top}}
`,
		`rest: 20 kg | 20.1 kg ( | a crate of 20.1 kg)
  - name: mass 20 kg
    given: {parcel.mass_kg: 20}
    expect: {rule: rest, then: {shelf: middle}}
`,
	}, said)
}

// Whatever the rules, unless they may quarrel: with the cases that are suggested every
// bound that counts is tested.
func TestSuggestedCasesTestTheBounds(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 9))
	bounds := 0
	for n := range 200 {
		src := random(r, []string{"first", "priority", "collect"}[n%3])
		load := func(list []cases.Suggestion) *rules.Set {
			files := fstest.MapFS{"shelf.yaml": {Data: []byte(src)}}
			if len(list) > 0 {
				files["cases/shelf.yaml"] = &fstest.MapFile{Data: []byte(cases.File("shelf", list))}
			}
			set, err := rules.Load(files, boxes(t))
			require.NoError(t, err, src)
			return set
		}
		set := load(nil)
		first := cases.Cover(set, cases.Run(set))[0]
		bounds += first.Bounds
		var list []cases.Suggestion
		for i := range first.Untested {
			list = append(list, first.Untested[i].Suggest...)
		}
		set = load(list)
		again := cases.Cover(set, cases.Run(set))[0]
		assert.Equal(t, first.Bounds, again.Bounds, src)
		assert.Equal(t, again.Bounds, again.Tested, "%s%s", src, cases.File("shelf", list))
	}
	assert.Greater(t, bounds, 500)
}

package example_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/cond"
	"github.com/glossladder/glossladder/rules/internal/example"
	"github.com/glossladder/glossladder/rules/internal/region"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// parcels is an invented schema, small enough to try every input.
func parcels(t testing.TB) (*rules.Schema, *space.Space) {
	t.Helper()
	sizes := []string{"small", "middling", "large", "huge"}
	s, err := rules.NewSchema([]rules.Fact{
		{Name: "box.c", Label: "warmth", Kind: rules.Number, Unit: "°C", Min: -3, Max: 3, Step: 1.5, Class: rules.Measurable},
		{Name: "box.size", Label: "size", Kind: rules.Word, Words: sizes, Ordered: true},
		{Name: "box.wrap", Label: "wrapping", Kind: rules.Word, Words: []string{"paper", "foil", "none"}},
		{Name: "box.fragile", Label: "fragile", Kind: rules.Flag},
	}, nil)
	require.NoError(t, err)
	g, err := space.NewGrid(-3, 3, 1.5)
	require.NoError(t, err)
	return s, space.New([]space.Axis{
		{Name: "box.c", Kind: space.Number, Grid: g},
		{Name: "box.size", Kind: space.Word, Words: sizes, Ordered: true},
		{Name: "box.wrap", Kind: space.Word, Words: []string{"paper", "foil", "none"}},
		{Name: "box.fragile", Kind: space.Flag},
	})
}

// randomCell is some of the values of an axis, at least one.
func randomCell(r *rand.Rand, a *space.Axis) region.Cell {
	for {
		c := region.Cell{Lo: 1, Missing: r.IntN(3) == 0}
		switch {
		case a.Kind != space.Number:
			c.Mask = r.Uint64N(1 << a.Size())
		case r.IntN(4) > 0:
			c.Lo = r.Int32N(a.Size())
			c.Hi = c.Lo + r.Int32N(a.Size()-c.Lo)
		}
		if c.Missing || c.Mask != 0 || c.Lo <= c.Hi {
			return c
		}
	}
}

// The condition of a region is true for the inputs of the region, and for no other.
func TestConditionIsTrueInTheRegionAlone(t *testing.T) {
	_, s := parcels(t)
	r := rand.New(rand.NewPCG(12, 1))
	inside := 0
	for range 3000 {
		part := region.Whole(s.Axes)
		for a := range part {
			if r.IntN(2) == 0 {
				part[a] = randomCell(r, &s.Axes[a])
			}
		}
		text := example.Condition(s.Axes, part)
		compiler := cond.NewCompiler(s)
		c, mistakes := compiler.Compile(text)
		require.Empty(t, mistakes, text)
		for range 40 {
			codes := make([]int32, len(part))
			for a := range codes {
				codes[a] = r.Int32N(s.Axes[a].Size()+1) - 1
			}
			holds := false
			for b := range c.Boxes {
				holds = holds || c.Boxes[b].Truth(codes) == space.True
			}
			require.Equal(t, part.Has(codes), holds, "%s at %v", text, codes)
			if holds {
				inside++
			}
		}
	}
	assert.Greater(t, inside, 5000)
}

func TestRegionReadsAsAPhrase(t *testing.T) {
	schema, s := parcels(t)
	whole := region.Whole(s.Axes)
	for _, c := range []struct {
		name  string
		part  map[int]region.Cell
		words string
		when  string
	}{
		{"every input", nil, "any input", "true"},
		{"a range", map[int]region.Cell{0: {Lo: 1, Hi: 3}}, "warmth -1.5 to 1.5 °C", "box.c in -1.5..1.5"},
		{"up to the end", map[int]region.Cell{0: {Lo: 3, Hi: 4}}, "warmth 1.5 to 3 °C", "box.c >= 1.5"},
		{"one value", map[int]region.Cell{0: {Lo: 0, Hi: 0}}, "warmth -3 °C", "box.c == -3"},
		{"measured or not", map[int]region.Cell{0: {Lo: 0, Hi: 1, Missing: true}}, "warmth -3 to -1.5 °C or not measured", "(not known(box.c) || box.c <= -1.5)"},
		{"whatever it is", map[int]region.Cell{0: {Lo: 0, Hi: 4}}, "warmth known", "known(box.c)"},
		{"words that rise", map[int]region.Cell{1: {Lo: 1, Mask: 0b1110}}, "size middling to huge", `box.size >= "middling"`},
		{"two words", map[int]region.Cell{1: {Lo: 1, Mask: 0b0101}}, "size small or large", `box.size in ["small", "large"]`},
		{"all but one", map[int]region.Cell{1: {Lo: 1, Mask: 0b1101}}, "size anything but middling", `box.size != "middling"`},
		{"two words or missing", map[int]region.Cell{2: {Lo: 1, Mask: 0b011, Missing: true}}, "wrapping paper, foil or not known", `(not known(box.wrap) || box.wrap != "none")`},
		{
			"what is missing stands last",
			map[int]region.Cell{0: {Lo: 1, Missing: true}, 3: {Lo: 1, Mask: 0b01}},
			"fragile no, warmth not measured", "not known(box.c) && not box.fragile",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			part := append(region.Region(nil), whole...)
			for a, cell := range c.part {
				part[a] = cell
			}
			assert.Equal(t, c.words, example.RegionWords(schema, s.Axes, part))
			assert.Equal(t, c.when, example.Condition(s.Axes, part))
		})
	}
}

package space_test

import (
	"math/rand/v2"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules/internal/space"
)

// Every value of a grid is the decimal that a person writes for it.
func TestGridValuesAreTheDecimalsThatPeopleWrite(t *testing.T) {
	for _, c := range []struct {
		min, max, step float64
		places         int
	}{
		{0, 100, 0.1, 1}, {-20, 60, 0.5, 1}, {0, 5, 1, 0}, {0, 3000, 0.01, 2}, {1, 2, 0.0001, 4}, {-7, 93, 5, 0}, {0.25, 9.75, 0.25, 2},
	} {
		g, err := space.NewGrid(c.min, c.max, c.step)
		require.NoError(t, err)
		for k := range g.Size() {
			text := strconv.FormatFloat(g.Value(k), 'f', c.places, 64)
			want, err := strconv.ParseFloat(text, 64)
			require.NoError(t, err)
			require.Equal(t, want, g.Value(k), "value %d of %v", k, c)
			code, on := g.Code(want)
			require.True(t, on)
			require.Equal(t, k, code)
		}
		assert.Equal(t, c.min, g.Value(0))
		assert.Equal(t, c.max, g.Value(g.Size()-1))
	}
}

func TestGridRefusesWhatHasNoSteps(t *testing.T) {
	for _, c := range []struct {
		name           string
		min, max, step float64
	}{
		{"no step", 0, 1, 0},
		{"backwards", 1, 0, 1},
		{"empty", 1, 1, 1},
		{"a part of a step over", 0, 1, 0.3},
		{"too fine", 0, 1, 1e-10},
		{"too many", 0, 1e9, 0.1},
		{"beyond reason", 0, 1e300, 1},
	} {
		_, err := space.NewGrid(c.min, c.max, c.step)
		assert.Error(t, err, c.name)
	}
}

// Meet and Join agree with and and or, code by code, in all three truths.
func TestSetsAreLogic(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 1))
	g, err := space.NewGrid(0, 9, 1)
	require.NoError(t, err)
	axis := &space.Axis{Name: "n", Kind: space.Number, Grid: g}
	random := func() space.Set {
		bits := r.Uint64()
		s := space.Collect(0, axis, func(k int32) bool { return bits>>k&1 == 1 })
		s.Missing = space.Truth(r.IntN(3))
		return s
	}
	for range 2000 {
		a, b := random(), random()
		both, either := space.Meet(a, b), space.Join(a, b)
		for k := space.Missing; k < axis.Size(); k++ {
			require.Equal(t, min(a.Truth(k), b.Truth(k)), both.Truth(k), "%v and %v at %d", a, b, k)
			require.Equal(t, max(a.Truth(k), b.Truth(k)), either.Truth(k), "%v or %v at %d", a, b, k)
		}
		for i := 1; i < len(either.Spans); i++ {
			require.Greater(t, either.Spans[i].Lo, either.Spans[i-1].Hi+1, "spans stand apart")
		}
	}
}

// A box that covers another is at least as true everywhere.
func TestCoversMeansAtLeastAsTrue(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 1))
	random := func() space.Box {
		var b space.Box
		if r.IntN(3) > 0 {
			lo := r.Int32N(5)
			b.Dims = append(b.Dims, space.Dim{Axis: 0, Lo: lo, Hi: lo + r.Int32N(3), Missing: space.Truth(r.IntN(3))})
		}
		if r.IntN(3) > 0 {
			b.Dims = append(b.Dims, space.Dim{Axis: 1, Lo: 1, Hi: 0, Mask: r.Uint64N(8), Missing: space.Truth(r.IntN(3))})
		}
		return b
	}
	covered := 0
	for range 20_000 {
		a, b := random(), random()
		if !a.Covers(&b) {
			continue
		}
		covered++
		for x := space.Missing; x < 8; x++ {
			for y := space.Missing; y < 3; y++ {
				at := []int32{x, y}
				require.GreaterOrEqual(t, a.Truth(at), b.Truth(at), "%v covers %v at %v", a, b, at)
			}
		}
	}
	require.Greater(t, covered, 1000)
}

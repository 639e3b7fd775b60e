package index_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules/internal/cond"
	"github.com/glossladder/glossladder/rules/internal/index"
	"github.com/glossladder/glossladder/rules/internal/space"
)

func axes(n int) *space.Space {
	g, err := space.NewGrid(0, 99, 1)
	if err != nil {
		panic(err) // the grid is fixed
	}
	out := make([]space.Axis, n)
	for i := range out {
		out[i] = space.Axis{Name: "a" + string(rune('a'+i%26)) + string(rune('a'+i/26)), Kind: space.Number, Grid: g}
	}
	return space.New(out)
}

// More axes than a machine word has bits, and no axis at all.
func TestScanAgreesWithBoxesForAnyNumberOfAxes(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 1))
	for _, n := range []int{0, 1, 2, 3, 7, 80} {
		s := axes(n)
		boxes := make([]space.Box, 130)
		for b := range boxes {
			for a := range n {
				if r.IntN(n) < 3 {
					lo := r.Int32N(60)
					boxes[b].Dims = append(boxes[b].Dims, space.Dim{Axis: int32(a), Lo: lo, Hi: lo + r.Int32N(60), Missing: space.Truth(r.IntN(3))})
				}
			}
		}
		ix := index.New(s, cond.NewClauses(s), boxes)
		var sc index.Scratch
		var f index.Finding
		for range 200 {
			codes := make([]int32, n)
			for a := range codes {
				codes[a] = r.Int32N(101) - 1
			}
			ix.Scan(codes, false, len(boxes), &sc, &f)
			var holds, pending []int32
			near := 0
			for b := range boxes {
				switch boxes[b].Truth(codes) {
				case space.True:
					holds = append(holds, int32(b))
				case space.Unknown:
					pending = append(pending, int32(b))
				case space.False:
					if misses(&boxes[b], codes) == 1 {
						near++
					}
				}
			}
			require.Equal(t, holds, append([]int32(nil), f.Holds...))
			require.Equal(t, pending, append([]int32(nil), f.Pending...))
			require.Len(t, f.Near, near)
			want := int32(-1)
			if len(holds) > 0 {
				want = holds[0]
			}
			require.Equal(t, want, ix.First(codes, &sc))
		}
	}
}

// misses counts the dims that fail; one that is only unknown counts as two.
func misses(b *space.Box, codes []int32) int {
	n := 0
	for i := range b.Dims {
		n += 2 - int(b.Dims[i].Truth(codes[b.Dims[i].Axis]))
		if b.Dims[i].Truth(codes[b.Dims[i].Axis]) == space.False {
			n--
		}
		if b.Dims[i].Truth(codes[b.Dims[i].Axis]) == space.Unknown {
			n++
		}
	}
	return n
}

// A clause is asked only for boxes that everything else lets hold, and only until
// one holds.
func TestClausesAreAskedOnlyWhereTheyMatter(t *testing.T) {
	s := axes(3)
	compiler := cond.NewCompiler(s)
	var boxes []space.Box
	for _, when := range []string{
		"aaa > 50 and aba * 2 > aca", // the first part fails below
		"aaa < 50 and aba * 3 > aca", // asked, does not hold
		"aaa < 50 and aba * 4 > aca", // asked, holds
		"aaa < 50 and aba * 5 > aca", // behind the answer
	} {
		c, mistakes := compiler.Compile(when)
		require.Empty(t, mistakes)
		boxes = append(boxes, c.Boxes...)
	}
	ix := index.New(s, compiler.Clauses(), boxes)
	require.Equal(t, 4, ix.Clauses().Len())
	var sc index.Scratch
	assert.Equal(t, int32(2), ix.First([]int32{10, 10, 35}, &sc))
	assert.Equal(t, 2, sc.Asked())
}

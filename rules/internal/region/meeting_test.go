package region_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules/internal/region"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// everywhere calls visit with every input of the axes.
func everywhere(axes []space.Axis, visit func(codes []int32), codes ...int32) {
	if len(codes) == len(axes) {
		visit(codes)
		return
	}
	for k := space.Missing; k < axes[len(codes)].Size(); k++ {
		everywhere(axes, visit, append(codes, k)...)
	}
}

// Two boxes meet when some input makes both true.
func TestMeetingsAreWhatTryingEveryInputGives(t *testing.T) {
	axes := smallAxes(t)
	r := rand.New(rand.NewPCG(8, 3))
	met := 0
	for range 20 {
		boxes := randomBoxes(r, axes, 70)
		together := map[[2]int32]bool{}
		everywhere(axes, func(codes []int32) {
			var holds []int32
			for b := range boxes {
				if boxes[b].Truth(codes) == space.True {
					holds = append(holds, int32(b))
				}
			}
			for _, a := range holds {
				for _, b := range holds {
					together[[2]int32{a, b}] = true
				}
			}
		})
		m := region.NewMeetings(axes, boxes)
		var row []uint64
		for a := range boxes {
			row = m.With(&boxes[a], row)
			for b := range boxes {
				want := together[[2]int32{int32(a), int32(b)}]
				require.Equal(t, want, row[b/64]>>(b%64)&1 == 1, "%v with %v", boxes[a], boxes[b])
				require.Equal(t, want, region.Together(&boxes[a], &boxes[b]))
				if want {
					met++
				}
			}
		}
	}
	assert.Greater(t, met, 1000)
}

// On an axis with more ends than rows the answer is as exact.
func TestMeetingsOnALongAxis(t *testing.T) {
	g, err := space.NewGrid(0, 100_000, 1)
	require.NoError(t, err)
	axes := []space.Axis{{Name: "n", Kind: space.Number, Grid: g}}
	r := rand.New(rand.NewPCG(8, 4))
	boxes := make([]space.Box, 3000)
	for b := range boxes {
		lo := r.Int32N(99_000)
		boxes[b].Dims = []space.Dim{{Lo: lo, Hi: lo + r.Int32N(1000)}}
	}
	m := region.NewMeetings(axes, boxes)
	for range 50 {
		a := r.IntN(len(boxes))
		row := m.With(&boxes[a], nil)
		for b := range boxes {
			p, q := boxes[a].Dims[0], boxes[b].Dims[0]
			require.Equal(t, max(p.Lo, q.Lo) <= min(p.Hi, q.Hi), row[b/64]>>(b%64)&1 == 1, "%v %v", p, q)
		}
	}
}

// A widened region holds its point and nothing that a box lets in, and no axis of it
// can be made wider.
func TestWidestRegionIsFreeAndCannotGrow(t *testing.T) {
	axes := smallAxes(t)
	r := rand.New(rand.NewPCG(9, 1))
	grown := 0
	for range 400 {
		boxes := randomBoxes(r, axes, 1+r.IntN(8))
		point := make([]int32, len(axes))
		for a := range point {
			point[a] = r.Int32N(axes[a].Size()+1) - 1
		}
		if anyHolds(boxes, point) {
			continue
		}
		grow := region.Grow{Axes: axes, Avoid: boxes}
		found := grow.Widest(point)
		require.True(t, found.Has(point))
		everywhere(axes, func(codes []int32) {
			if found.Has(codes) {
				require.False(t, anyHolds(boxes, codes), "%v holds %v, boxes %v", found, codes, boxes)
			}
		})
		for a := range axes {
			if found[a].Whole(&axes[a]) {
				grown++
				continue
			}
			open := append(region.Region(nil), found...)
			open[a] = region.Whole(axes)[a]
			meets := false
			for b := range boxes {
				meets = meets || open.Meets(&boxes[b])
			}
			require.True(t, meets, "axis %d of %v could be open, boxes %v", a, found, boxes)
		}
	}
	require.Greater(t, grown, 150)
}

package region_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules/internal/region"
	"github.com/glossladder/glossladder/rules/internal/space"
)

func smallAxes(t testing.TB) []space.Axis {
	g, err := space.NewGrid(0, 5, 1)
	require.NoError(t, err)
	return []space.Axis{
		{Name: "n", Kind: space.Number, Grid: g},
		{Name: "m", Kind: space.Number, Grid: g},
		{Name: "w", Kind: space.Word, Words: []string{"a", "b", "c"}},
		{Name: "f", Kind: space.Flag},
	}
}

func randomBoxes(r *rand.Rand, axes []space.Axis, n int) []space.Box {
	boxes := make([]space.Box, n)
	for i := range boxes {
		for a := range axes {
			if r.IntN(2) == 0 {
				continue
			}
			d := space.Dim{Axis: int32(a), Lo: 1, Missing: space.Truth(r.IntN(3))}
			if axes[a].Kind == space.Number {
				d.Lo = r.Int32N(5)
				d.Hi = min(5, d.Lo+r.Int32N(5))
			} else {
				d.Mask = 1 + r.Uint64N(1<<axes[a].Size()-1)
			}
			boxes[i].Dims = append(boxes[i].Dims, d)
		}
	}
	return boxes
}

func anyHolds(boxes []space.Box, codes []int32) bool {
	for i := range boxes {
		if boxes[i].Truth(codes) == space.True {
			return true
		}
	}
	return false
}

// gap tries every input.
func gap(axes []space.Axis, boxes []space.Box, codes ...int32) bool {
	if len(codes) == len(axes) {
		return !anyHolds(boxes, codes)
	}
	for k := space.Missing; k < axes[len(codes)].Size(); k++ {
		if gap(axes, boxes, append(codes, k)...) {
			return true
		}
	}
	return false
}

func gapSearch(axes []space.Axis, boxes []space.Box, fewer bool) *region.Search {
	return &region.Search{
		Axes: axes, Boxes: boxes, Within: region.Whole(axes), Budget: 100_000, Fewer: fewer,
		Judge: func(_ region.Region, in, open []int32) (region.Verdict, []int32) {
			switch {
			case len(in) > 0:
				return region.Safe, nil
			case len(open) == 0:
				return region.Broken, nil
			}
			return region.Split, open
		},
		Breaks: func(codes []int32) bool { return !anyHolds(boxes, codes) },
	}
}

func TestSearchFindsWhatTryingEveryInputFinds(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 1))
	axes := smallAxes(t)
	gaps := 0
	for range 3000 {
		boxes := randomBoxes(r, axes, 1+r.IntN(24))
		want := region.Proved
		if gap(axes, boxes) {
			want = region.Refuted
			gaps++
		}
		for _, fewer := range []bool{false, true} {
			got := gapSearch(axes, boxes, fewer).Run()
			require.Equal(t, want, got.Outcome, "fewer %v, boxes %v", fewer, boxes)
			if want == region.Refuted {
				require.False(t, anyHolds(boxes, got.Point), "%v is no gap of %v", got.Point, boxes)
			}
		}
	}
	require.Greater(t, gaps, 300)
	require.Less(t, gaps, 2900)
}

func TestSearchThatRunsOutOfStepsSaysSo(t *testing.T) {
	axes := smallAxes(t)
	full := []space.Box{
		{Dims: []space.Dim{{Axis: 3, Lo: 1, Mask: 1, Missing: space.False}}},
		{Dims: []space.Dim{{Axis: 3, Lo: 1, Mask: 2, Missing: space.True}}},
	}
	s := gapSearch(axes, full, false)
	require.Equal(t, region.Proved, s.Run().Outcome)
	s.Budget = 1
	require.Equal(t, region.Undecided, s.Run().Outcome)
}

func TestClauseThatNoPointSettlesIsNotProved(t *testing.T) {
	axes := smallAxes(t)
	boxes := []space.Box{{Literals: []space.Literal{{Clause: 0, Want: true}}}}
	s := gapSearch(axes, boxes, false)
	s.Breaks = func([]int32) bool { return false }
	require.Equal(t, region.Undecided, s.Run().Outcome)
}

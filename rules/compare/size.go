package compare

import (
	"math/bits"
	"math/rand/v2"
	"slices"

	"github.com/glossladder/glossladder/rules/internal/region"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// samples is how many points of a block tell how much of it rules that come first take.
const samples = 64

// size is the share of all input that a finding has.
func (j *joint) size(f *finding) float64 {
	share := j.share(f.cells)
	if len(f.except) == 0 {
		return share
	}
	var asked []int32 // the axes on which it hangs whether a rule takes a point
	for _, b := range f.except {
		for _, d := range j.boxes[b].Dims {
			asked = append(asked, d.Axis)
		}
	}
	slices.Sort(asked)
	asked = slices.Compact(asked)
	r := rand.New(rand.NewPCG(1, 2)) // the same points each time
	free := 1                        // it has some input, so never none
	codes := make([]int32, len(f.cells))
	for range samples {
		for _, a := range asked {
			codes[a] = random(r, &f.cells[a])
		}
		if !slices.ContainsFunc(f.except, func(b int32) bool { return j.boxes[b].Truth(codes) == space.True }) {
			free++
		}
	}
	return share * float64(free) / (samples + 1)
}

// random is a value of a cell: missing in half of the cases where it can be.
func random(r *rand.Rand, c *region.Cell) int32 {
	switch {
	case c.Missing && (c.Mask == 0 && c.Lo > c.Hi || r.IntN(2) == 0):
		return space.Missing
	case c.Mask == 0:
		return c.Lo + r.Int32N(c.Hi-c.Lo+1)
	}
	mask := c.Mask
	for range r.IntN(bits.OnesCount64(mask)) {
		mask &= mask - 1
	}
	return int32(bits.TrailingZeros64(mask))
}

// share is the size of a block.
func (j *joint) share(cells region.Region) float64 {
	out := 1.0
	for a := range cells {
		c := &cells[a]
		count := float64(bits.OnesCount64(c.Mask))
		if c.Lo <= c.Hi {
			count = float64(c.Hi-c.Lo) + 1
		}
		part := count / float64(j.axes[a].Size())
		if int32(a) < j.facts {
			part /= 2
			if c.Missing {
				part += 0.5
			}
		}
		out *= part
	}
	return out
}

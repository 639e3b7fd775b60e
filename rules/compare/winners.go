package compare

import (
	"cmp"
	"slices"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/region"
)

const nothing int32 = -1 // stands for no box at all

// winners settles tables whose first box that holds gives the answer. Where the
// answers differ, a box that changed wins in one of them. So each such box is paired
// with each that may win in the other table: both hold there, and none in front of
// them does.
func (f *finder) winners() {
	for _, c := range f.changed {
		block, ok := f.whole().Within(&f.boxes[c])
		if !ok {
			continue
		}
		for side := range f.seats {
			if f.seats[side][c].rank >= 0 {
				f.against(c, side, block)
			}
		}
	}
}

// against pairs a changed box that wins in one table with what wins in the other.
func (f *finder) against(c int32, side int, block region.Region) {
	near := f.meeting(block)
	front := f.before(side, c, near)
	rivals := near[1-side]
	for i, p := range rivals {
		if side == 0 && f.differs[p] {
			// its own turn, as the winner of the second table, settles that pair
			if block.Inside(&f.boxes[p]) {
				return
			}
			continue
		}
		part, ok := block.Within(&f.boxes[p])
		if ok && p != c && !f.sameClass(c, side, p) {
			f.pair(part, side, c, p, merged(front, sorted(rivals[:i])))
		}
		if block.Inside(&f.boxes[p]) {
			return // nothing behind it can win
		}
	}
	f.pair(block, side, c, nothing, merged(front, sorted(rivals)))
}

func (f *finder) sameClass(c int32, side int, p int32) bool {
	return f.seats[side][c].class == f.seats[1-side][p].class
}

// meeting are the boxes of either table that hold somewhere in a block, in the order
// in which they win.
func (f *finder) meeting(block region.Region) [2][]int32 {
	var out [2][]int32
	for b := range f.boxes {
		if !block.Meets(&f.boxes[b]) {
			continue
		}
		for side := range out {
			if f.seats[side][b].rank >= 0 {
				out[side] = append(out[side], int32(b))
			}
		}
	}
	for side := range out {
		slices.SortFunc(out[side], func(x, y int32) int {
			return cmp.Compare(f.seats[side][x].rank, f.seats[side][y].rank)
		})
	}
	return out
}

// before are the boxes in front of c, rising.
func (f *finder) before(side int, c int32, near [2][]int32) []int32 {
	return sorted(near[side][:slices.Index(near[side], c)])
}

func sorted(boxes []int32) []int32 {
	out := slices.Clone(boxes)
	slices.Sort(out)
	return out
}

// pair notes the part of a block that no box in front takes, if there is any.
func (f *finder) pair(block region.Region, side int, c, p int32, front []int32) {
	var says [2]said
	says[side] = said{rules.Answered, []int32{f.seats[side][c].class}}
	if p != nothing {
		says[1-side] = said{rules.Answered, []int32{f.seats[1-side][p].class}}
	}
	f.free(block, front, says)
}

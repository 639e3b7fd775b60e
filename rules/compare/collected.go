package compare

import (
	"slices"

	"github.com/glossladder/glossladder/rules"
)

// collected settles tables in which all rules that hold are told. Each result stands
// for itself: it is told no more, or newly, where a box that changed tells it and no
// box of the other table does. What is told no more and what is told instead, in the
// same block, are one finding.
func (f *finder) collected() {
	for at, c := range f.changed {
		side := 0
		if f.seats[0][c].rank < 0 {
			side = 1
		}
		class := f.seats[side][c].class
		var taken []int32
		for b, s := range f.seats[1-side] {
			if s.rank >= 0 && s.class == class {
				taken = append(taken, int32(b))
			}
		}
		for _, b := range f.changed[:at] { // its own turn was before
			if s := f.seats[side][b]; s.rank >= 0 && s.class == class {
				taken = append(taken, b)
			}
		}
		block, ok := f.whole().Within(&f.boxes[c])
		if !ok {
			continue
		}
		var says [2]said
		says[side] = said{rules.Answered, []int32{class}}
		known := len(f.found)
		f.free(block, sorted(taken), says)
		if len(f.found) > known {
			f.instead(known, side)
		}
	}
}

// instead joins the last finding to one before it that tells something of the other
// table in the same block.
func (f *finder) instead(last, side int) {
	now := &f.found[last]
	for i := range f.found[:last] {
		was := &f.found[i]
		if len(was.says[side].classes) > 0 || !slices.Equal(was.cells, now.cells) || !slices.Equal(was.except, now.except) {
			continue
		}
		was.says[side] = now.says[side]
		f.found = f.found[:last]
		return
	}
}

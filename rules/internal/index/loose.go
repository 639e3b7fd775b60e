package index

import "math/bits"

// Loose is a box that all axes but at most one surely let through. Clauses are
// not asked.
type Loose struct {
	Box  int32
	Axis int32 // the one axis that does not, or -1
}

// Loose appends, in box order, every box that holds on all axes but at most
// one; a box that waits for a missing value does not hold on that axis.
func (ix *Index) Loose(codes []int32, sc *Scratch, out []Loose) []Loose {
	ix.pick(codes, sc)
	rows := sc.sure[:len(ix.cols)]
	for w := range ix.words {
		var fails, twice uint64
		for _, r := range rows {
			no := ^r[w]
			twice |= fails & no
			fails |= no
		}
		for open := ix.inUse(w) &^ twice; open != 0; open &= open - 1 {
			bit := open & -open
			l := Loose{Box: int32(w*64 + bits.TrailingZeros64(open)), Axis: -1}
			if fails&bit != 0 {
				for i, r := range rows {
					if r[w]&bit == 0 {
						l.Axis = ix.cols[i].axis
						break
					}
				}
			}
			out = append(out, l)
		}
	}
	return out
}

// Axes calls visit with every axis that some box asks for.
func (ix *Index) Axes(visit func(axis int32)) {
	for i := range ix.cols {
		visit(ix.cols[i].axis)
	}
}

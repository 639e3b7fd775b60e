package region

import (
	"math/bits"
	"slices"

	"github.com/glossladder/glossladder/rules/internal/space"
)

// cut parts one cell in two.
type cut struct {
	axis int32
	a, b Cell
	cost int
}

// bestCut parts the live boxes into two halves that share few. It is false when
// no live box is cut by any axis.
func (w *walk) bestCut(r Region, live []int32) (best cut, ok bool) {
	asked := w.asked(r, live)
	for axis, boxes := range asked {
		if len(boxes) == 0 {
			continue
		}
		free := len(live) - len(boxes)
		for _, c := range w.cuts(r[axis], int32(axis), boxes) {
			left, right := free, free
			for _, d := range boxes {
				if some, _ := c.a.relate(d); some {
					left++
				}
				if some, _ := c.b.relate(d); some {
					right++
				}
			}
			if c.cost = left*left + right*right; !ok || c.cost < best.cost {
				best, ok = c, true
			}
		}
	}
	return best, ok
}

// asked are, for each axis, the dims of live boxes that hold in some of its cell only.
func (w *walk) asked(r Region, live []int32) [][]*space.Dim {
	asked := make([][]*space.Dim, len(r))
	for _, b := range live {
		for i := range w.Boxes[b].Dims {
			d := &w.Boxes[b].Dims[i]
			if _, all := r[d.Axis].relate(d); !all {
				asked[d.Axis] = append(asked[d.Axis], d)
			}
		}
	}
	return asked
}

// maxTries bounds the cuts of one axis that are weighed: past that they are taken
// at even distances.
const maxTries = 24

func (w *walk) cuts(c Cell, axis int32, dims []*space.Dim) []cut {
	var out []cut
	if c.Missing && c.known() {
		known := c
		known.Missing = false
		out = append(out, cut{axis: axis, a: Cell{Lo: 1, Missing: true}, b: known})
	}
	if c.Mask&(c.Mask-1) != 0 {
		for k := range w.Axes[axis].Size() {
			if bit := uint64(1) << k; c.Mask&bit != 0 {
				rest := c
				rest.Mask &^= bit
				out = append(out, cut{axis: axis, a: Cell{Lo: 1, Mask: bit}, b: rest})
			}
		}
		return out
	}
	if c.Lo >= c.Hi {
		return out
	}
	starts := starts(c, dims)
	for i := range min(len(starts), maxTries) {
		at := starts[i*len(starts)/min(len(starts), maxTries)]
		low, high := c, c
		low.Hi, high.Lo, high.Missing = at-1, at, false
		out = append(out, cut{axis: axis, a: low, b: high})
	}
	return out
}

// starts are the codes inside the cell at which some dim changes its mind.
func starts(c Cell, dims []*space.Dim) []int32 {
	var out []int32
	for _, d := range dims {
		if d.Lo > d.Hi {
			continue
		}
		if c.Lo < d.Lo && d.Lo <= c.Hi {
			out = append(out, d.Lo)
		}
		if c.Lo <= d.Hi && d.Hi < c.Hi {
			out = append(out, d.Hi+1)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// clauseCut halves the longest cell that an open clause of a live box reads. It is
// false when no such cell can be parted, or when clauses are not asked about parts.
func (w *walk) clauseCut(r Region, live []int32) (best cut, ok bool) {
	if w.Literal == nil {
		return best, false
	}
	longest := int64(1)
	for _, b := range live {
		for _, l := range w.Boxes[b].Literals {
			if _, all := w.Literal(r, l); all {
				continue
			}
			for _, a := range w.Reads(l.Clause) {
				if n := r[a].count(); n > longest {
					longest, ok = n, true
					best = cut{axis: a}
					best.a, best.b = r[a].halves()
				}
			}
		}
	}
	return best, ok
}

// count is the number of values in a cell, a missing one among them.
func (c *Cell) count() int64 {
	n := int64(bits.OnesCount64(c.Mask))
	if c.Lo <= c.Hi {
		n += int64(c.Hi) - int64(c.Lo) + 1
	}
	if c.Missing {
		n++
	}
	return n
}

// halves parts a cell of two values or more: missing from known, else in the middle.
func (c *Cell) halves() (a, b Cell) {
	a, b = *c, *c
	switch {
	case c.Missing:
		a, b.Missing = Cell{Lo: 1, Missing: true}, false
	case c.Mask != 0:
		for n := bits.OnesCount64(c.Mask) / 2; n > 0; n-- {
			b.Mask &= b.Mask - 1
		}
		a.Mask &^= b.Mask
	default:
		a.Hi = c.Lo + (c.Hi-c.Lo)/2
		b.Lo = a.Hi + 1
	}
	return a, b
}

// shrink keeps, of every cell, a value at which the fewest live boxes hold, if all
// other values of the cell have those boxes and more: what breaks anywhere in the
// cell then breaks there. It reports whether it kept less than there was.
func (w *walk) shrink(r Region, live []int32) bool {
	shrunk := false
	for axis, dims := range w.asked(r, live) {
		c := &r[axis]
		if !c.Missing || !c.known() {
			continue
		}
		reads, holds := w.missingHolds(r, int32(axis), live)
		if holds || len(dims) == 0 && !reads {
			continue
		}
		if !slices.ContainsFunc(dims, func(d *space.Dim) bool { return d.Missing == space.True }) {
			*c = Cell{Lo: 1, Missing: true}
			shrunk = true
		}
	}
	return shrunk
}

// missingHolds says whether a clause of a live box reads an axis, and whether such a
// clause may come out as wanted while the value is missing.
func (w *walk) missingHolds(r Region, axis int32, live []int32) (reads, holds bool) {
	if w.Literal == nil {
		return false, false
	}
	kept := r[axis]
	defer func() { r[axis] = kept }()
	r[axis] = Cell{Lo: 1, Missing: true}
	for _, b := range live {
		for _, l := range w.Boxes[b].Literals {
			if !slices.Contains(w.Reads(l.Clause), axis) {
				continue
			}
			reads = true
			if some, _ := w.Literal(r, l); some {
				return true, true
			}
		}
	}
	return reads, false
}

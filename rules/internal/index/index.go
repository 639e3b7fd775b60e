package index

import (
	"math/bits"
	"slices"
	"sort"

	"github.com/glossladder/glossladder/rules/internal/cond"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// Index answers which boxes hold. It is immutable and safe for concurrent use.
type Index struct {
	boxes   []space.Box
	clauses *cond.Clauses
	cols    []column // of the axes that some box asks for, most selective first
	words   int
	valid   uint64   // the bits in use of the last word
	opaque  []uint64 // boxes with literals
}

// column holds the bitsets of one axis: row 0 and 1 for a missing value (what is
// surely true, what may be), then one for each stretch of codes.
type column struct {
	axis int32
	cuts []int32  // first code of each stretch
	dir  []uint16 // code -> stretch, for short axes
	rows []uint64
}

const (
	rowSure  = 0
	rowMay   = 1
	rowFirst = 2
	// maxDir is the longest axis with a direct table, two bytes a code.
	maxDir = 1 << 14
)

// New builds the index of boxes, which it keeps.
func New(s *space.Space, clauses *cond.Clauses, boxes []space.Box) *Index {
	ix := &Index{boxes: boxes, clauses: clauses, words: (len(boxes) + 63) / 64, valid: ^uint64(0)}
	if n := len(boxes) % 64; n != 0 {
		ix.valid = 1<<n - 1
	}
	ix.opaque = make([]uint64, ix.words)
	asked := make([][]int32, len(s.Axes))
	for b := range boxes {
		if len(boxes[b].Literals) > 0 {
			ix.opaque[b/64] |= 1 << (b % 64)
		}
		for i := range boxes[b].Dims {
			a := boxes[b].Dims[i].Axis
			asked[a] = append(asked[a], int32(b))
		}
	}
	for a := range asked {
		if len(asked[a]) > 0 {
			ix.cols = append(ix.cols, ix.column(int32(a), &s.Axes[a], asked[a]))
		}
	}
	share := make(map[int32]float64, len(ix.cols))
	for i := range ix.cols {
		share[ix.cols[i].axis] = ix.cols[i].density()
	}
	slices.SortStableFunc(ix.cols, func(a, b column) int {
		switch d := share[a.axis] - share[b.axis]; {
		case d < 0:
			return -1
		case d > 0:
			return 1
		}
		return 0
	})
	return ix
}

// density is the share of boxes that an average stretch lets through.
func (c *column) density() float64 {
	n := 0
	for _, w := range c.rows {
		n += bits.OnesCount64(w)
	}
	return float64(n) / float64(len(c.rows))
}

func (ix *Index) column(axis int32, a *space.Axis, asking []int32) column {
	c := column{axis: axis, cuts: cuts(a, ix.boxes, asking, axis)}
	free := make([]uint64, ix.words) // boxes that do not ask
	for b := range ix.boxes {
		free[b/64] |= 1 << (b % 64)
	}
	for _, b := range asking {
		free[b/64] &^= 1 << (b % 64)
	}
	c.rows = make([]uint64, 0, (rowFirst+len(c.cuts))*ix.words)
	for range rowFirst + len(c.cuts) {
		c.rows = append(c.rows, free...)
	}
	for _, b := range asking {
		d := ix.boxes[b].Dim(axis)
		word, bit := int(b/64), uint64(1)<<(b%64)
		if d.Missing == space.True {
			c.rows[rowSure*ix.words+word] |= bit
		}
		if d.Missing != space.False {
			c.rows[rowMay*ix.words+word] |= bit
		}
		from, to := 0, len(c.cuts)
		if d.Mask == 0 {
			from = sort.Search(to, func(i int) bool { return c.cuts[i] >= d.Lo })
			to = sort.Search(to, func(i int) bool { return c.cuts[i] > d.Hi })
		}
		for k := from; k < to; k++ {
			if d.Has(c.cuts[k]) {
				c.rows[(rowFirst+k)*ix.words+word] |= bit
			}
		}
	}
	if n := a.Size(); n <= maxDir && len(c.cuts) < 1<<16-rowFirst {
		c.dir = make([]uint16, n)
		k := 0
		for code := range n {
			for k+1 < len(c.cuts) && c.cuts[k+1] <= code {
				k++
			}
			c.dir[code] = uint16(rowFirst + k)
		}
	}
	return c
}

// cuts are the first codes of the stretches on which no box changes its mind.
func cuts(a *space.Axis, boxes []space.Box, asking []int32, axis int32) []int32 {
	if a.Kind != space.Number {
		out := make([]int32, a.Size())
		for k := range out {
			out[k] = int32(k)
		}
		return out
	}
	out := []int32{0}
	for _, b := range asking {
		d := boxes[b].Dim(axis)
		if d.Lo > d.Hi {
			continue
		}
		out = append(out, d.Lo)
		if d.Hi+1 < a.Size() {
			out = append(out, d.Hi+1)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// row is the number of the bitset for a given code.
func (c *column) row(code int32) int {
	if c.dir != nil {
		return int(c.dir[code])
	}
	lo, hi := 0, len(c.cuts) // the last cut that is not past the code
	for lo+1 < hi {
		m := int(uint(lo+hi) / 2)
		if c.cuts[m] <= code {
			lo = m
		} else {
			hi = m
		}
	}
	return rowFirst + lo
}

// Boxes are the boxes in their order.
func (ix *Index) Boxes() []space.Box { return ix.boxes }

// Clauses are the columns that the boxes' literals name.
func (ix *Index) Clauses() *cond.Clauses { return ix.clauses }

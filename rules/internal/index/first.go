package index

import (
	"math/bits"

	"github.com/glossladder/glossladder/rules/internal/cond"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// Scratch is the room that a search needs. Its zero value is ready; it is
// reusable, for any index, and not safe for concurrent use.
type Scratch struct {
	memo cond.Memo
	sure [][]uint64
	may  [][]uint64
	lack []bool
}

// Asked is the number of clauses that the last search evaluated.
func (sc *Scratch) Asked() int { return sc.memo.Asked() }

// First is the first box that is surely true, or -1. It does not allocate once
// the scratch has grown, clauses aside.
func (ix *Index) First(codes []int32, sc *Scratch) int32 {
	if cap(sc.sure) < len(ix.cols) {
		sc.sure = make([][]uint64, len(ix.cols))
	}
	rows := sc.sure[:len(ix.cols)]
	words := ix.words
	for i := range ix.cols {
		c := &ix.cols[i]
		at := rowSure
		if code := codes[c.axis]; code >= 0 {
			at = c.row(code)
		}
		rows[i] = c.rows[at*words : at*words+words : at*words+words]
	}
	ready := false
	switch {
	case words == 0:
		return -1
	case len(rows) < 2:
		return ix.firstFew(codes, rows, sc)
	}
	// six at a time without a branch: in a large table a word seldom empties
	// sooner, and a wrong guess costs more than the ANDs. Short lists repeat a row.
	n := len(rows) - 1
	r0 := rows[0]
	r1, r2, r3, r4, r5 := rows[1][:len(r0)], rows[min(2, n)][:len(r0)], rows[min(3, n)][:len(r0)], rows[min(4, n)][:len(r0)], rows[min(5, n)][:len(r0)]
	rest := rows[min(6, n):]
	for w, acc := range r0 {
		acc &= r1[w] & r2[w] & r3[w] & r4[w] & r5[w]
		if acc == 0 {
			continue
		}
		for _, r := range rest {
			if acc &= r[w]; acc == 0 {
				break
			}
		}
		if acc == 0 {
			continue
		}
		if acc&ix.opaque[w] == 0 {
			return int32(w*64 + bits.TrailingZeros64(acc))
		}
		if !ready {
			sc.memo.Reset(ix.clauses)
			ready = true
		}
		if b := ix.firstOf(w, acc, codes, sc); b >= 0 {
			return b
		}
	}
	return -1
}

// firstFew searches an index with fewer than two columns.
func (ix *Index) firstFew(codes []int32, rows [][]uint64, sc *Scratch) int32 {
	sc.memo.Reset(ix.clauses)
	for w := range ix.words {
		acc := ix.inUse(w)
		for _, r := range rows {
			acc &= r[w]
		}
		if b := ix.firstOf(w, acc, codes, sc); b >= 0 {
			return b
		}
	}
	return -1
}

// firstOf is the first of the boxes of a word whose literals come out as wanted.
func (ix *Index) firstOf(w int, acc uint64, codes []int32, sc *Scratch) int32 {
	for ; acc != 0; acc &= acc - 1 {
		b := int32(w*64 + bits.TrailingZeros64(acc))
		if ix.literals(b, codes, sc) == space.True {
			return b
		}
	}
	return -1
}

func (ix *Index) inUse(w int) uint64 {
	if w == ix.words-1 {
		return ix.valid
	}
	return ^uint64(0)
}

// literals is the truth of a box's literals.
func (ix *Index) literals(b int32, codes []int32, sc *Scratch) space.Truth {
	t := space.True
	for _, l := range ix.boxes[b].Literals {
		v := ix.clauses.Truth(l.Clause, codes, &sc.memo)
		if !l.Want {
			v = v.Not()
		}
		if t = min(t, v); t == space.False {
			break
		}
	}
	return t
}

package index

import (
	"math/bits"

	"github.com/glossladder/glossladder/rules/internal/space"
)

// Near is a box that fails on exactly one thing: the given value of an axis, or
// a clause (the other is -1).
type Near struct {
	Box    int32
	Axis   int32
	Clause int32
}

// Finding is what a scan found, in box order. Its slices are reused.
type Finding struct {
	Holds   []int32 // surely true; only the first when the scan asks for one
	Pending []int32 // neither surely true nor surely false; before the first holder when the scan asks for one
	Near    []Near
}

// Scan looks at every box once. With one set it wants only the first box that
// holds and what waits before it.
func (ix *Index) Scan(codes []int32, one bool, near int, sc *Scratch, f *Finding) {
	f.Holds, f.Pending, f.Near = f.Holds[:0], f.Pending[:0], f.Near[:0]
	ix.pick(codes, sc)
	sc.memo.Reset(ix.clauses)
	n := len(ix.cols)
	sure, may, lack := sc.sure[:n], sc.may[:n], sc.lack[:n]
	for w := range ix.words {
		var fails, twice, waits uint64
		for i, s := range sure {
			no := ^s[w]
			if lack[i] {
				no = ^may[i][w]
				waits |= may[i][w] &^ s[w]
			}
			twice |= fails & no
			fails |= no
			if twice == ^uint64(0) {
				break
			}
		}
		use := ix.inUse(w)
		done := one && len(f.Holds) > 0
		if open := use &^ fails; open != 0 && !done {
			ix.open(w, open, waits, one, near, codes, sc, f)
		}
		if len(f.Near) < near {
			ix.near(w, use&fails&^twice&^waits&^ix.opaque[w], near, sc, f)
		}
		if len(f.Near) >= near && one && len(f.Holds) > 0 {
			return
		}
	}
}

// pick chooses the rows of an input.
func (ix *Index) pick(codes []int32, sc *Scratch) {
	n := len(ix.cols)
	if cap(sc.sure) < n {
		sc.sure = make([][]uint64, n)
	}
	if cap(sc.may) < n {
		sc.may, sc.lack = make([][]uint64, n), make([]bool, n)
	}
	for i := range ix.cols {
		c := &ix.cols[i]
		code := codes[c.axis]
		sc.lack[:n][i] = code < 0
		if code >= 0 {
			at := c.row(code) * ix.words
			sc.sure[:n][i] = c.rows[at : at+ix.words : at+ix.words]
			continue
		}
		sc.sure[:n][i] = c.rows[rowSure*ix.words : (rowSure+1)*ix.words]
		sc.may[:n][i] = c.rows[rowMay*ix.words : (rowMay+1)*ix.words]
	}
}

// open sorts the boxes of a word that no axis excludes into holding, pending and
// failing on one clause.
func (ix *Index) open(w int, open, waits uint64, one bool, near int, codes []int32, sc *Scratch, f *Finding) {
	for ; open != 0; open &= open - 1 {
		bit := open & -open
		b := int32(w*64 + bits.TrailingZeros64(open))
		t := space.True
		if waits&bit != 0 {
			t = space.Unknown
		}
		if ix.opaque[w]&bit != 0 {
			t = min(t, ix.literals(b, codes, sc))
		}
		switch t {
		case space.True:
			f.Holds = append(f.Holds, b)
			if one {
				return
			}
		case space.Unknown:
			f.Pending = append(f.Pending, b)
		default:
			if waits&bit == 0 && len(f.Near) < near {
				if c, ok := ix.onlyClause(b, codes, sc); ok {
					f.Near = append(f.Near, Near{Box: b, Axis: -1, Clause: c})
				}
			}
		}
	}
}

// onlyClause is the clause that alone keeps a box from holding.
func (ix *Index) onlyClause(b int32, codes []int32, sc *Scratch) (int32, bool) {
	only := int32(-1)
	for _, l := range ix.boxes[b].Literals {
		if ix.clauses.Truth(l.Clause, codes, &sc.memo) == space.Of(l.Want) {
			continue
		}
		if only >= 0 {
			return -1, false
		}
		only = l.Clause
	}
	return only, only >= 0
}

func (ix *Index) near(w int, boxes uint64, limit int, sc *Scratch, f *Finding) {
	n := len(ix.cols)
	for ; boxes != 0 && len(f.Near) < limit; boxes &= boxes - 1 {
		bit := boxes & -boxes
		for i := range n {
			row := sc.sure[i]
			if sc.lack[i] {
				row = sc.may[i]
			}
			if row[w]&bit == 0 {
				f.Near = append(f.Near, Near{Box: int32(w*64 + bits.TrailingZeros64(boxes)), Axis: ix.cols[i].axis, Clause: -1})
				break
			}
		}
	}
}

// Truth is the truth of one box, its clauses asked.
func (ix *Index) Truth(b int32, codes []int32, sc *Scratch) space.Truth {
	t := ix.boxes[b].Truth(codes)
	if t == space.False || len(ix.boxes[b].Literals) == 0 {
		return t
	}
	return min(t, ix.literals(b, codes, sc))
}

// Begin forgets the clause answers of an earlier input, before [Index.Truth] or
// [Index.Clause] are asked about another.
func (ix *Index) Begin(sc *Scratch) { sc.memo.Reset(ix.clauses) }

// Clause is the truth of a clause.
func (ix *Index) Clause(c int32, codes []int32, sc *Scratch) space.Truth {
	return ix.clauses.Truth(c, codes, &sc.memo)
}

package check

import (
	"math/bits"
	"slices"

	"github.com/glossladder/glossladder/rules/internal/cond"
	"github.com/glossladder/glossladder/rules/internal/region"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// A clause is a part of a condition that is no bound on one fact. Over a part of the
// space interval arithmetic can often say what it comes to; where it cannot, the part
// is cut further. So a clause costs steps, and seldom certainty.

// literal says whether a literal may come out as wanted in a part, and whether it
// surely does everywhere in it.
func (c *checker) literal(part region.Region, l space.Literal) (some, all bool) {
	ts := c.within(part, l.Clause)
	want := space.Of(l.Want)
	return ts.Has(want), ts.Has(want) && !ts.Has(want.Not()) && !ts.Has(space.Unknown)
}

func (c *checker) within(part region.Region, clause int32) cond.Truths {
	if codes, ok := c.fixed(part, clause); ok {
		c.memo.Reset(c.geometry.Clauses)
		return 1 << c.geometry.Clauses.Truth(clause, codes, &c.memo)
	}
	return c.geometry.Clauses.Within(clause, func(axis int32) cond.Stretch {
		cell := &part[axis]
		s := cond.Stretch{Lo: cell.Lo, Hi: cell.Hi, Mask: cell.Mask, Missing: cell.Missing}
		if cell.Mask != 0 {
			s.Lo, s.Hi = int32(bits.TrailingZeros64(cell.Mask)), int32(63-bits.LeadingZeros64(cell.Mask))
		}
		return s
	})
}

// fixed is an input of a part that leaves a clause no choice; its other facts are
// whatever they are.
func (c *checker) fixed(part region.Region, clause int32) ([]int32, bool) {
	for _, a := range c.reads(clause) {
		if part[a].First() != part[a].Last() {
			return nil, false
		}
	}
	return part.Point(), true
}

func (c *checker) reads(clause int32) []int32 { return c.geometry.Clauses.At(clause).Reads }

// maxClauses bounds the clauses whose combinations are gone through.
const maxClauses = 8

// covering are open boxes of which one holds wherever in a part some literals do,
// since between them they let in every way in which their clauses can come out; nil
// when there are none.
func (c *checker) covering(part region.Region, boxes []space.Box, open []int32, given []space.Literal) []int32 {
	var usable, clauses []int32
	for _, b := range open {
		if len(boxes[b].Literals) == 0 || !part.Inside(&boxes[b]) || c.mayStayOpen(part, &boxes[b], given) {
			continue
		}
		usable = append(usable, b)
		for _, l := range boxes[b].Literals {
			if !slices.Contains(clauses, l.Clause) {
				clauses = append(clauses, l.Clause)
			}
		}
	}
	if len(usable) == 0 || len(clauses) > maxClauses {
		return nil
	}
	for way := range 1 << len(clauses) {
		if agrees(given, clauses, way) && !slices.ContainsFunc(usable, func(b int32) bool { return agrees(boxes[b].Literals, clauses, way) }) {
			return nil
		}
	}
	return usable
}

// mayStayOpen says whether some clause of a box may be neither true nor false in a
// part where literals hold.
func (c *checker) mayStayOpen(part region.Region, b *space.Box, given []space.Literal) bool {
	return slices.ContainsFunc(b.Literals, func(l space.Literal) bool {
		settled := slices.ContainsFunc(given, func(g space.Literal) bool { return g.Clause == l.Clause })
		return !settled && c.within(part, l.Clause).Has(space.Unknown)
	})
}

// agrees says whether literals want their clauses as they come out in a way, bit k for
// clause k. Clauses that are not among them do not matter.
func agrees(ls []space.Literal, clauses []int32, way int) bool {
	return !slices.ContainsFunc(ls, func(l space.Literal) bool {
		k := slices.Index(clauses, l.Clause)
		return k >= 0 && l.Want != (way>>k&1 == 1)
	})
}

// boxHolds decides for real whether a box holds.
func (c *checker) boxHolds(b *space.Box, codes []int32) bool {
	if b.Truth(codes) != space.True {
		return false
	}
	if len(b.Literals) == 0 {
		return true
	}
	c.memo.Reset(c.geometry.Clauses)
	for _, l := range b.Literals {
		if c.geometry.Clauses.Truth(l.Clause, codes, &c.memo) != space.Of(l.Want) {
			return false
		}
	}
	return true
}

// holds decides for real whether some rule holds.
func (c *checker) holds(codes []int32) bool {
	return c.t.First(c.t.Schema().InputAt(codes), &c.scratch) >= 0
}

// may says whether literals may come out as wanted in a part, as far as each is asked alone.
func (c *checker) may(part region.Region, ls []space.Literal) bool {
	return !slices.ContainsFunc(ls, func(l space.Literal) bool {
		some, _ := c.literal(part, l)
		return !some
	})
}

// must says whether literals surely come out as wanted everywhere in a part.
func (c *checker) must(part region.Region, ls []space.Literal) bool {
	return !slices.ContainsFunc(ls, func(l space.Literal) bool {
		_, all := c.literal(part, l)
		return !all
	})
}

// texts are the clauses of boxes as people write them, each once, at most three.
func (c *checker) texts(boxes []space.Box, open []int32) []string {
	var out []string
	for _, b := range open {
		for _, l := range boxes[b].Literals {
			text := c.geometry.Clauses.At(l.Clause).Says(l.Want)
			if len(out) < 3 && !slices.Contains(out, text) {
				out = append(out, text)
			}
		}
	}
	return out
}

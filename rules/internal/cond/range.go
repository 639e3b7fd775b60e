package cond

import (
	"math"

	"github.com/glossladder/glossladder/rules/internal/space"
)

// Outcomes are the truths that a clause can come to when missing facts are
// measured, wherever within their bounds: true, false, or both. It never leaves
// one out that is possible.
func (cs *Clauses) Outcomes(i int32, codes []int32) []space.Truth {
	c := &cs.list[i]
	both := []space.Truth{space.True, space.False}
	if c.tree != nil {
		return both
	}
	l, ok1 := c.l.span(cs.space, codes)
	r, ok2 := c.r.span(cs.space, codes)
	if !ok1 || !ok2 {
		return both
	}
	switch {
	case c.cmp == "==" && (l.hi < r.lo || r.hi < l.lo),
		c.cmp == "<" && l.lo >= r.hi,
		c.cmp == "<=" && l.lo > r.hi:
		return both[1:]
	case c.cmp == "<" && l.hi < r.lo,
		c.cmp == "<=" && l.hi <= r.lo:
		return both[:1]
	}
	return both
}

// extent is a closed interval of values.
type extent struct{ lo, hi float64 }

// span bounds a term over all values of its missing facts. Rounding of floats is
// monotone, so the ends are as the machine would reckon them. ok is false where
// the term may leave the finite numbers.
func (t *term) span(s *space.Space, codes []int32) (extent, bool) {
	switch t.op {
	case tConst:
		return extent{t.k, t.k}, true
	case tFact:
		a := &s.Axes[t.axis]
		if c := codes[t.axis]; c != space.Missing {
			return extent{a.Value(c), a.Value(c)}, true
		}
		return extent{a.Value(0), a.Value(a.Size() - 1)}, true
	}
	x, ok := t.kids[0].span(s, codes)
	if !ok {
		return x, false
	}
	for _, k := range t.kids[1:] {
		y, ok := k.span(s, codes)
		if !ok || t.op == tDiv && y.lo <= 0 && y.hi >= 0 {
			return x, false
		}
		x = x.with(t.op, y)
	}
	switch t.op {
	case tAbs:
		if x.lo < 0 && x.hi > 0 {
			x = extent{0, max(-x.lo, x.hi)}
		} else {
			x = hull(math.Abs(x.lo), math.Abs(x.hi))
		}
	default:
		x = hull(shape(t.op, x.lo), shape(t.op, x.hi))
	}
	return x, !math.IsNaN(x.lo) && !math.IsInf(x.lo, 0) && !math.IsNaN(x.hi) && !math.IsInf(x.hi, 0)
}

// with combines two intervals; every operation takes its extremes at their ends.
func (x extent) with(op termOp, y extent) extent {
	return hull(combine(op, x.lo, y.lo), combine(op, x.lo, y.hi), combine(op, x.hi, y.lo), combine(op, x.hi, y.hi))
}

func hull(vs ...float64) extent {
	out := extent{vs[0], vs[0]}
	for _, v := range vs[1:] {
		out.lo, out.hi = math.Min(out.lo, v), math.Max(out.hi, v)
	}
	return out
}

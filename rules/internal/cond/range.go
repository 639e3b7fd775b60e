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
	at := func(axis int32) extent {
		a := &cs.space.Axes[axis]
		if k := codes[axis]; k != space.Missing {
			return extent{a.Value(k), a.Value(k)}
		}
		return extent{a.Value(0), a.Value(a.Size() - 1)}
	}
	l, ok1 := c.l.span(at)
	r, ok2 := c.r.span(at)
	if !ok1 || !ok2 {
		return both
	}
	switch yes, no := compared(c.cmp, l, r); {
	case !yes:
		return both[1:]
	case !no:
		return both[:1]
	}
	return both
}

// compared says whether l cmp r may be so for values of the two intervals, and
// whether it may not.
func compared(cmp string, l, r extent) (yes, no bool) {
	switch cmp {
	case "<":
		return l.lo < r.hi, l.hi >= r.lo
	case "<=":
		return l.lo <= r.hi, l.hi > r.lo
	}
	apart := l.hi < r.lo || r.hi < l.lo
	return !apart, apart || l.lo != l.hi || r.lo != r.hi
}

// extent is a closed interval of values.
type extent struct{ lo, hi float64 }

// span bounds a term over all values that its facts have at a place. Rounding of
// floats is monotone, so the ends are as the machine would reckon them. ok is false
// where the term may leave the finite numbers.
func (t *term) span(at func(axis int32) extent) (extent, bool) {
	switch t.op {
	case tConst:
		return extent{t.k, t.k}, true
	case tFact:
		return at(t.axis), true
	}
	x, ok := t.kids[0].span(at)
	if !ok {
		return x, false
	}
	for _, k := range t.kids[1:] {
		y, ok := k.span(at)
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

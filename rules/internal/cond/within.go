package cond

import "github.com/glossladder/glossladder/rules/internal/space"

// Stretch is the values of one axis in a part of the space: given codes from Lo to
// Hi (none when Lo > Hi; of words and flags Mask says which of them), and whether a
// missing value is among them.
type Stretch struct {
	Lo, Hi  int32
	Mask    uint64 // of words and flags
	Missing bool
}

// Truths are some of the three truths, bit t for truth t.
type Truths uint8

// Has says whether a truth is among them.
func (ts Truths) Has(t space.Truth) bool { return ts>>t&1 == 1 }

const (
	mayFalse   Truths = 1 << space.False
	mayUnknown Truths = 1 << space.Unknown
	mayTrue    Truths = 1 << space.True
)

// Within are the truths that a clause may have in a part of the space. It never
// leaves one out that some input of the part has; it may name one that none has.
func (cs *Clauses) Within(i int32, at func(axis int32) Stretch) Truths {
	c := &cs.list[i]
	if c.tree != nil {
		return cs.treeWithin(c.tree, at)
	}
	var out Truths
	known := true
	for _, a := range c.Reads {
		s := at(a)
		if s.Missing {
			out |= mayUnknown
		}
		known = known && s.Lo <= s.Hi
	}
	if !known { // no input of the part has all that the clause reads
		return mayUnknown
	}
	values := func(axis int32) extent {
		s, a := at(axis), &cs.space.Axes[axis]
		return extent{a.Value(s.Lo), a.Value(s.Hi)}
	}
	l, ok1 := c.l.span(values)
	r, ok2 := c.r.span(values)
	if !ok1 || !ok2 {
		return mayFalse | mayUnknown | mayTrue
	}
	yes, no := compared(c.cmp, l, r)
	if yes {
		out |= mayTrue
	}
	if no {
		out |= mayFalse
	}
	return out
}

// treeWithin joins the truths of a tree's parts as if they had nothing to do with
// each other, which can only name too many.
func (cs *Clauses) treeWithin(n *node, at func(axis int32) Stretch) Truths {
	switch n.op {
	case nTrue:
		return mayTrue
	case nFalse:
		return mayFalse
	case nSet:
		return setWithin(&n.set, at(n.set.Axis))
	case nClause:
		ts := cs.Within(n.lit.Clause, at)
		if !n.lit.Want {
			return ts.not()
		}
		return ts
	}
	out := mayTrue
	pick := func(a, b space.Truth) space.Truth { return min(a, b) }
	if n.op == nOr {
		out, pick = mayFalse, func(a, b space.Truth) space.Truth { return max(a, b) }
	}
	for _, k := range n.kids {
		kid := cs.treeWithin(k, at)
		var next Truths
		for a := space.False; a <= space.True; a++ {
			for b := space.False; b <= space.True; b++ {
				if out.Has(a) && kid.Has(b) {
					next |= 1 << pick(a, b)
				}
			}
		}
		out = next
	}
	return out
}

func (ts Truths) not() Truths {
	out := ts & mayUnknown
	if ts.Has(space.True) {
		out |= mayFalse
	}
	if ts.Has(space.False) {
		out |= mayTrue
	}
	return out
}

func setWithin(set *space.Set, s Stretch) Truths {
	var out Truths
	if s.Missing {
		out |= 1 << set.Missing
	}
	if s.Lo > s.Hi {
		return out
	}
	if s.Mask != 0 {
		if s.Mask&set.Mask != 0 {
			out |= mayTrue
		}
		if s.Mask&^set.Mask != 0 {
			out |= mayFalse
		}
		return out
	}
	inside := int32(0)
	for _, p := range set.Spans {
		if lo, hi := max(p.Lo, s.Lo), min(p.Hi, s.Hi); lo <= hi {
			inside += hi - lo + 1
		}
	}
	if inside > 0 {
		out |= mayTrue
	}
	if inside <= s.Hi-s.Lo {
		out |= mayFalse
	}
	return out
}

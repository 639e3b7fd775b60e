package cond

import "github.com/glossladder/glossladder/rules/internal/space"

type nodeOp uint8

const (
	nTrue nodeOp = iota
	nFalse
	nAnd
	nOr
	nSet    // the fact is in the set
	nClause // the clause comes out as wanted
)

// node is a condition in negation normal form.
type node struct {
	op   nodeOp
	kids []*node
	set  space.Set
	lit  space.Literal
}

var (
	always = &node{op: nTrue}
	never  = &node{op: nFalse}
)

func constant(b bool) *node {
	if b {
		return always
	}
	return never
}

// both joins with and. Sets of one fact meet; a meeting that is empty for every
// value is false although a missing value would leave it unknown.
func both(kids ...*node) *node { return gather(nAnd, kids) }

// either joins with or. Sets of one fact unite: "not known(x) || x < 3" is one set
// that a missing value is in.
func either(kids ...*node) *node { return gather(nOr, kids) }

func gather(op nodeOp, kids []*node) *node {
	neutral, absorbing := nTrue, nFalse
	if op == nOr {
		neutral, absorbing = nFalse, nTrue
	}
	var flat []*node
	for _, k := range kids {
		switch k.op {
		case neutral:
		case absorbing:
			return k
		case op:
			flat = append(flat, k.kids...)
		default:
			flat = append(flat, k)
		}
	}
	flat = mergeSets(op, flat)
	if op == nAnd {
		for _, k := range flat {
			if k.op == nSet && k.set.Empty() && k.set.Missing != space.True {
				return never
			}
		}
	}
	switch len(flat) {
	case 0:
		return constant(op == nAnd)
	case 1:
		return flat[0]
	}
	return &node{op: op, kids: flat}
}

// mergeSets makes one set of all sets of one axis, which keeps all three truths: few
// boxes come of few sets.
func mergeSets(op nodeOp, kids []*node) []*node {
	var out []*node
	for _, k := range kids {
		merged := false
		for i, o := range out {
			if k.op != nSet || o.op != nSet || k.set.Axis != o.set.Axis {
				continue
			}
			if op == nAnd {
				out[i] = &node{op: nSet, set: space.Meet(o.set, k.set)}
			} else {
				out[i] = &node{op: nSet, set: space.Join(o.set, k.set)}
			}
			merged = true
			break
		}
		if !merged {
			out = append(out, k)
		}
	}
	return out
}

// truth evaluates a node; answer gives the truth of a clause.
func (n *node) truth(codes []int32, answer func(clause int32) space.Truth) space.Truth {
	switch n.op {
	case nTrue:
		return space.True
	case nFalse:
		return space.False
	case nSet:
		return n.set.Truth(codes[n.set.Axis])
	case nClause:
		t := answer(n.lit.Clause)
		if !n.lit.Want {
			t = t.Not()
		}
		return t
	case nAnd:
		t := space.True
		for _, k := range n.kids {
			if t = min(t, k.truth(codes, answer)); t == space.False {
				break
			}
		}
		return t
	}
	t := space.False
	for _, k := range n.kids {
		if t = max(t, k.truth(codes, answer)); t == space.True {
			break
		}
	}
	return t
}

// reads adds the axes that a node's sets and clauses read.
func (n *node) reads(into map[int32]bool, clause func(int32) []int32) {
	switch n.op {
	case nSet:
		into[n.set.Axis] = true
	case nClause:
		for _, a := range clause(n.lit.Clause) {
			into[a] = true
		}
	}
	for _, k := range n.kids {
		k.reads(into, clause)
	}
}

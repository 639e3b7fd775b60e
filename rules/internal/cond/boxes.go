package cond

import (
	"slices"

	"github.com/glossladder/glossladder/rules/internal/space"
)

// maxBoxes bounds the boxes of one condition. What would need more is kept as a
// clause of its own.
const maxBoxes = 256

// boxes is the disjunctive normal form of a node.
func (w *lowering) boxes(n *node) []space.Box {
	switch n.op {
	case nTrue:
		return []space.Box{{}}
	case nFalse:
		return nil
	case nSet:
		return w.setBoxes(n.set)
	case nClause:
		return []space.Box{{Literals: []space.Literal{n.lit}}}
	case nOr:
		return w.unite(n)
	}
	acc := []space.Box{{}}
	for _, k := range narrowFirst(n.kids) {
		kid := w.boxes(k)
		if len(acc)*len(kid) > maxBoxes {
			kid = w.asClause(k)
		}
		acc = product(acc, kid)
	}
	return prune(acc)
}

// narrowFirst puts the parts that multiply least in front.
func narrowFirst(kids []*node) []*node {
	out := slices.Clone(kids)
	slices.SortStableFunc(out, func(a, b *node) int { return width(a) - width(b) })
	return out
}

func width(n *node) int {
	switch n.op {
	case nOr:
		return len(n.kids)
	case nSet:
		return max(1, len(n.set.Spans))
	}
	return 1
}

func (w *lowering) unite(n *node) []space.Box {
	var out []space.Box
	for _, k := range n.kids {
		out = append(out, w.boxes(k)...)
		if len(out) > maxBoxes {
			return w.asClause(n)
		}
	}
	return prune(out)
}

func (w *lowering) asClause(n *node) []space.Box {
	return []space.Box{{Literals: []space.Literal{{Clause: w.clauses.tree(n), Want: true}}}}
}

func (w *lowering) setBoxes(s space.Set) []space.Box {
	if s.Empty() && s.Missing != space.True {
		return nil
	}
	if len(s.Spans) > maxBoxes {
		return w.asClause(&node{op: nSet, set: s})
	}
	if len(s.Spans) == 0 { // words, flags, and "not known"
		return []space.Box{{Dims: []space.Dim{{Axis: s.Axis, Lo: 1, Hi: 0, Mask: s.Mask, Missing: s.Missing}}}}
	}
	out := make([]space.Box, len(s.Spans))
	for i, p := range s.Spans {
		out[i].Dims = []space.Dim{{Axis: s.Axis, Lo: p.Lo, Hi: p.Hi, Missing: s.Missing}}
	}
	return out
}

func product(a, b []space.Box) []space.Box {
	var out []space.Box
	for i := range a {
		for j := range b {
			if m, ok := meet(&a[i], &b[j]); ok {
				out = append(out, m)
			}
		}
	}
	return out
}

// meet joins the demands of two boxes; ok is false when no input meets both.
func meet(a, b *space.Box) (space.Box, bool) {
	out := space.Box{Dims: make([]space.Dim, 0, len(a.Dims)+len(b.Dims))}
	for i, j := 0, 0; i < len(a.Dims) || j < len(b.Dims); {
		switch {
		case j == len(b.Dims) || i < len(a.Dims) && a.Dims[i].Axis < b.Dims[j].Axis:
			out.Dims = append(out.Dims, a.Dims[i])
			i++
		case i == len(a.Dims) || b.Dims[j].Axis < a.Dims[i].Axis:
			out.Dims = append(out.Dims, b.Dims[j])
			j++
		default:
			d, e := a.Dims[i], b.Dims[j]
			d.Lo, d.Hi, d.Mask, d.Missing = max(d.Lo, e.Lo), min(d.Hi, e.Hi), d.Mask&e.Mask, min(d.Missing, e.Missing)
			if d.Mask == 0 && d.Lo > d.Hi && d.Missing != space.True {
				return space.Box{}, false
			}
			out.Dims = append(out.Dims, d)
			i, j = i+1, j+1
		}
	}
	out.Literals = slices.Clone(a.Literals)
	for _, l := range b.Literals {
		if slices.Contains(out.Literals, space.Literal{Clause: l.Clause, Want: !l.Want}) {
			return space.Box{}, false
		}
		if !slices.Contains(out.Literals, l) {
			out.Literals = append(out.Literals, l)
		}
	}
	return out, true
}

// prune drops every box that another one covers in all three truths.
func prune(boxes []space.Box) []space.Box {
	if len(boxes) < 2 {
		return boxes
	}
	var out []space.Box
	for i := range boxes {
		covered := false
		for j := range boxes {
			if i == j || !boxes[j].Covers(&boxes[i]) {
				continue
			}
			// of two equal boxes the first stays
			if j < i || !boxes[i].Covers(&boxes[j]) {
				covered = true
				break
			}
		}
		if !covered {
			out = append(out, boxes[i])
		}
	}
	return out
}

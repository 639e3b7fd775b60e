package cond

import (
	"fmt"
	"sort"

	"github.com/glossladder/glossladder/rules/internal/space"
)

const (
	// maxCases bounds the comparisons that one condition may become: every
	// conditional inside arithmetic makes three of one.
	maxCases = 1500
	// maxTable is the longest axis on which a formula is tried value by value.
	maxTable = 1 << 13
)

// lowering brings one condition to negation normal form.
type lowering struct {
	space   *space.Space
	clauses *Clauses
	codes   []int32 // room to try values in
	cases   int
	failed  error
}

// formula lowers f, or its opposite. "Not true" is lowered as definitely false,
// which a missing fact is not.
func (w *lowering) formula(f *formula, not bool) *node {
	switch f.op {
	case fConst:
		return constant(f.yes != not)
	case fFlag:
		bit := uint64(0b10)
		if not {
			bit = 0b01
		}
		return &node{op: nSet, set: space.Set{Axis: f.axis, Mask: bit, Missing: space.Unknown}}
	case fKnown:
		return w.known(f.axis, not)
	case fNot:
		return w.formula(f.kids[0], !not)
	case fCase:
		return w.choose(f.kids[0], not, func(side int, not bool) *node { return w.formula(f.kids[1+side], not) })
	case fCompare:
		return w.compare(f, not)
	}
	kids := make([]*node, len(f.kids))
	for i, k := range f.kids {
		kids[i] = w.formula(k, not)
	}
	if (f.op == fAnd) != not {
		return both(kids...)
	}
	return either(kids...)
}

func (w *lowering) known(axis int32, not bool) *node {
	if not {
		return &node{op: nSet, set: space.Set{Axis: axis, Missing: space.True}}
	}
	set := space.All(axis, &w.space.Axes[axis])
	set.Missing = space.False
	return &node{op: nSet, set: set}
}

// choose lowers "test ? side 0 : side 1". The third case decides it when both
// sides agree and the test is unknown.
func (w *lowering) choose(test *formula, not bool, side func(int, bool) *node) *node {
	if w.tooMany() {
		return never
	}
	a, b := side(0, not), side(1, not)
	return either(both(w.formula(test, false), a), both(w.formula(test, true), b), both(a, b))
}

func (w *lowering) tooMany() bool {
	w.cases++
	if w.cases > maxCases && w.failed == nil {
		w.failed = fmt.Errorf("the condition falls into more than %d cases", maxCases)
	}
	return w.failed != nil
}

// compare lowers a comparison: conditionals first, then the cheapest exact way.
func (w *lowering) compare(f *formula, not bool) *node {
	if w.tooMany() {
		return never
	}
	c := f.l.findCase()
	if c == nil {
		c = f.r.findCase()
	}
	if c != nil {
		return w.choose(c.test, not, func(side int, not bool) *node {
			g := *f
			g.l, g.r = f.l.replace(c, c.kids[side]), f.r.replace(c, c.kids[side])
			return w.compare(&g, not)
		})
	}
	read := map[int32]bool{}
	f.l.reads(read)
	f.r.reads(read)
	axes := make([]int32, 0, len(read))
	for a := range read {
		axes = append(axes, a)
	}
	sort.Slice(axes, func(i, j int) bool { return axes[i] < axes[j] })
	switch len(axes) {
	case 0:
		return w.fixed(f, not)
	case 1:
		if set, ok := w.oneFact(f, axes[0], not); ok {
			return &node{op: nSet, set: set}
		}
		if n := w.distance(f, not); n != nil {
			return n
		}
	case 2:
		if n := w.twoWords(f, axes, not); n != nil {
			return n
		}
	}
	return &node{op: nClause, lit: space.Literal{Clause: w.clauses.compare(f, axes), Want: !not}}
}

func (w *lowering) fixed(f *formula, not bool) *node {
	l, st1 := f.l.eval(w.space, nil)
	r, st2 := f.r.eval(w.space, nil)
	if st1 != fine || st2 != fine {
		w.failed = fmt.Errorf("%s %s %s has no result", f.l.text(w.space), f.cmp, f.r.text(w.space))
		return never
	}
	return constant(holds(f.cmp, l, r) != not)
}

// twoWords lowers a comparison of two word facts to a union of boxes: for each
// set of words the second may have, the words of the first that allow it.
func (w *lowering) twoWords(f *formula, axes []int32, not bool) *node {
	a, b := &w.space.Axes[axes[0]], &w.space.Axes[axes[1]]
	if a.Kind == space.Number || b.Kind == space.Number {
		return nil
	}
	codes := w.codes
	var rows []space.Set // of the second axis
	var from []uint64
	for k := range a.Size() {
		codes[axes[0]] = k
		good := true
		row := space.Collect(axes[1], b, func(code int32) bool {
			codes[axes[1]] = code
			l, st1 := f.l.eval(w.space, codes)
			r, st2 := f.r.eval(w.space, codes)
			good = good && st1 == fine && st2 == fine
			return holds(f.cmp, l, r) != not
		})
		if !good {
			return nil
		}
		found := false
		for i := range rows {
			if rows[i].Mask == row.Mask {
				from[i] |= 1 << k
				found = true
				break
			}
		}
		if !found && !row.Empty() {
			rows, from = append(rows, row), append(from, 1<<k)
		}
	}
	if len(rows) == 0 { // never so; still unknown while a word is missing, as the reader expects
		return never
	}
	var kids []*node
	for i := range rows {
		left := &node{op: nSet, set: space.Set{Axis: axes[0], Mask: from[i], Missing: space.Unknown}}
		kids = append(kids, both(left, &node{op: nSet, set: rows[i]}))
	}
	return either(kids...)
}

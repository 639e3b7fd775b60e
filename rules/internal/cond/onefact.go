package cond

import (
	"sort"

	"github.com/glossladder/glossladder/rules/internal/space"
)

// oneFact draws the set where a comparison of one fact holds, or where it does
// not. It gives up where the arithmetic breaks for some value, since a set has
// no third answer for that.
func (w *lowering) oneFact(f *formula, axis int32, not bool) (space.Set, bool) {
	if set, ok := w.bisect(f, axis, not); ok {
		return set, true
	}
	a := &w.space.Axes[axis]
	if a.Size() > maxTable {
		return space.Set{}, false
	}
	codes := w.codes
	good := true
	set := space.Collect(axis, a, func(code int32) bool {
		codes[axis] = code
		l, st1 := f.l.eval(w.space, codes)
		r, st2 := f.r.eval(w.space, codes)
		good = good && st1 == fine && st2 == fine
		return holds(f.cmp, l, r) != not
	})
	return set, good
}

// bisect finds the ends of a monotone formula against a constant without
// trying every value.
func (w *lowering) bisect(f *formula, axis int32, not bool) (space.Set, bool) {
	a := &w.space.Axes[axis]
	if a.Kind != space.Number {
		return space.Set{}, false
	}
	g, k, cmp := f.l, f.r, f.cmp
	if f.l.op == tConst {
		g, k, cmp = f.r, f.l, map[string]string{"==": "==", "<": ">", "<=": ">="}[f.cmp]
	}
	sign, ok := g.slope()
	if !ok || k.op != tConst {
		return space.Set{}, false
	}
	codes := w.codes
	last := a.Size() - 1
	at := func(code int32) (float64, state) {
		codes[axis] = code
		return g.eval(w.space, codes)
	}
	for _, end := range []int32{0, last} { // monotone: finite ends, finite between
		if _, st := at(end); st != fine {
			return space.Set{}, false
		}
	}
	// the number of codes, from the low end of g, where g is below k, or at most k
	first := func(past func(v float64) bool) int32 {
		return int32(sort.Search(int(a.Size()), func(i int) bool {
			if sign < 0 {
				i = int(last) - i
			}
			v, _ := at(int32(i))
			return past(v)
		}))
	}
	below := first(func(v float64) bool { return v >= k.k })
	upTo := first(func(v float64) bool { return v > k.k })
	var spans []space.Span
	add := func(from, to int32) { // half open, counted from the low end of g
		if from >= to {
			return
		}
		if sign < 0 {
			from, to = last+1-to, last+1-from
		}
		spans = append(spans, space.Span{Lo: from, Hi: to - 1})
	}
	size := a.Size()
	switch {
	case cmp == "<" && !not, cmp == ">=" && not:
		add(0, below)
	case cmp == "<" && not, cmp == ">=" && !not:
		add(below, size)
	case cmp == "<=" && !not, cmp == ">" && not:
		add(0, upTo)
	case cmp == "<=" && not, cmp == ">" && !not:
		add(upTo, size)
	case !not:
		add(below, upTo)
	default:
		add(0, below)
		add(upTo, size)
		if len(spans) == 2 && spans[0].Lo > spans[1].Lo {
			spans[0], spans[1] = spans[1], spans[0]
		}
	}
	return space.Set{Axis: axis, Spans: spans, Missing: space.Unknown}, true
}

// distance lowers abs(u) against a constant on an axis too long to try: two
// comparisons of u, which is as a rule monotone.
func (w *lowering) distance(f *formula, not bool) *node {
	if f.l.op != tAbs || f.r.op != tConst || f.cmp == "==" {
		if f.r.op != tAbs || f.l.op != tConst || f.cmp == "==" {
			return nil
		}
		// k <= abs(u) is the opposite of abs(u) < k
		flipped := map[string]string{"<": "<=", "<=": "<"}[f.cmp]
		return w.distance(&formula{op: fCompare, cmp: flipped, l: f.r, r: f.l, at: f.at}, !not)
	}
	u, k := f.l.kids[0], f.r
	minus := &term{op: tConst, k: -k.k, at: k.at}
	above := w.compare(&formula{op: fCompare, cmp: f.cmp, l: minus, r: u, at: f.at}, not)
	below := w.compare(&formula{op: fCompare, cmp: f.cmp, l: u, r: k, at: f.at}, not)
	if not {
		return either(above, below)
	}
	return both(above, below)
}

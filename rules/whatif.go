package rules

import (
	"slices"

	"github.com/glossladder/glossladder/rules/internal/space"
)

// variable is something a completion settles: a missing axis, or a free clause.
type variable struct {
	axis   int32 // -1 for a clause
	clause int32
}

// order lists the variables: those of the group last, so that at its start
// everything else is settled.
func (w *whatIf) order(group func(variable) bool) (vars []variable, tail int) {
	var last []variable
	for _, a := range w.axes {
		v := variable{axis: a, clause: -1}
		if group(v) {
			last = append(last, v)
		} else {
			vars = append(vars, v)
		}
	}
	for _, c := range w.clauses {
		v := variable{axis: -1, clause: c}
		if group(v) {
			last = append(last, v)
		} else {
			vars = append(vars, v)
		}
	}
	return append(vars, last...), len(vars)
}

// asks says whether a box asks for a variable.
func (w *whatIf) asks(b int32, v variable) bool {
	box := &w.t.index.Boxes()[b]
	if v.axis >= 0 {
		return box.Dim(v.axis) != nil
	}
	return slices.ContainsFunc(box.Literals, func(l space.Literal) bool { return l.Clause == v.clause })
}

// option is one way to settle a variable: a code, or a truth of a clause.
type option struct {
	code int32
	live []int32
}

// options are the ways to settle a variable that leave different boxes alive. A
// box stays alive where it is surely true. They last until [whatIf.forget].
func (w *whatIf) options(v variable, live []int32) []option {
	from := len(w.ways)
	boxes := w.t.index.Boxes()
	if v.axis < 0 {
		for _, truth := range w.outcomes[v.clause] {
			w.way(from, int32(truth), live, func(b int32) bool {
				for _, l := range boxes[b].Literals {
					if l.Clause == v.clause && truth != space.Of(l.Want) {
						return false
					}
				}
				return true
			})
		}
		return w.ways[from:]
	}
	for _, code := range w.places(v.axis, live) {
		w.way(from, code, live, func(b int32) bool {
			d := boxes[b].Dim(v.axis)
			return d == nil || d.Truth(code) == space.True
		})
	}
	return w.ways[from:]
}

// way adds a way to settle a variable, unless one since from leaves the same boxes alive.
func (w *whatIf) way(from int, code int32, live []int32, holds func(b int32) bool) {
	start := len(w.alive)
	for _, b := range live {
		if holds(b) {
			w.alive = append(w.alive, b)
		}
	}
	left := w.alive[start:len(w.alive):len(w.alive)]
	for _, o := range w.ways[from:] {
		if slices.Equal(o.live, left) {
			w.alive = w.alive[:start]
			return
		}
	}
	w.ways = append(w.ways, option{code: code, live: left})
}

// forget gives back the room of options made since a mark. The search goes deep first, so the last made go first.
func (w *whatIf) forget(ways, alive int) { w.ways, w.alive = w.ways[:ways], w.alive[:alive] }

// places are one code from each stretch of an axis that live boxes tell apart,
// and missing.
func (w *whatIf) places(axis int32, live []int32) []int32 {
	a := &w.t.schema.space.Axes[axis]
	out := []int32{space.Missing, 0}
	if a.Kind != space.Number {
		for k := int32(1); k < a.Size(); k++ {
			out = append(out, k)
		}
		return out
	}
	for _, b := range live {
		d := w.t.index.Boxes()[b].Dim(axis)
		if d == nil || d.Lo > d.Hi {
			continue
		}
		out = append(out, d.Lo)
		if d.Hi+1 < a.Size() {
			out = append(out, d.Hi+1)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// trim drops the boxes behind one that holds whatever is still open: under first
// and priority they cannot win.
func (w *whatIf) trim(live []int32, open []variable) []int32 {
	if w.t.hit != First && w.t.hit != Priority {
		return live
	}
	for i, b := range live {
		if !slices.ContainsFunc(open, func(v variable) bool { return w.asks(b, v) }) {
			return live[:i+1]
		}
	}
	return live
}

// walk settles vars[at:stop] in every way that makes a difference and calls
// visit with the boxes left; visit returns false to end the walk. walk returns
// false when it was ended or ran out of budget.
func (w *whatIf) walk(vars []variable, at, stop int, live []int32, visit func(live []int32) bool) bool {
	live = w.trim(live, vars[at:])
	for at < stop && !slices.ContainsFunc(live, func(b int32) bool { return w.asks(b, vars[at]) }) {
		at++
	}
	if stop < len(vars) && !slices.ContainsFunc(live, func(b int32) bool { return w.asksAny(b, vars[stop:]) }) {
		return true // nothing left hangs on the group
	}
	if at == stop {
		return visit(live)
	}
	if w.budget--; w.budget < 0 {
		return false
	}
	if w.been(at, live) {
		return true
	}
	v := vars[at]
	defer w.forget(len(w.ways), len(w.alive))
	for _, o := range w.options(v, live) {
		if v.axis >= 0 {
			w.codes[v.axis] = o.code
		}
		going := w.walk(vars, at+1, stop, o.live, visit)
		if v.axis >= 0 {
			w.codes[v.axis] = space.Missing
		}
		if !going {
			return false
		}
	}
	return true
}

// been notes a state of the search, and says whether it was there before.
func (w *whatIf) been(at int, live []int32) bool {
	w.state = appendCode(w.state[:0], int32(at))
	for _, b := range live {
		w.state = appendCode(w.state, b)
	}
	if w.seen[string(w.state)] {
		return true
	}
	w.seen[string(w.state)] = true
	return false
}

func (w *whatIf) asksAny(b int32, vars []variable) bool {
	return slices.ContainsFunc(vars, func(v variable) bool { return w.asks(b, v) })
}

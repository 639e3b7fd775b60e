package rules

import (
	"slices"

	"github.com/glossladder/glossladder/rules/internal/space"
)

// answers lists the other answers that could arise; false when the budget ran out.
func (w *whatIf) answers(out *Possible) bool {
	vars, _ := w.order(func(variable) bool { return false })
	w.seen = map[string]bool{}
	at := map[string]int{}
	w.walk(vars, 0, len(vars), w.live, func(live []int32) bool {
		key, rules := w.t.key(live)
		if key == w.base {
			return true
		}
		i, known := at[key]
		if !known {
			i = len(out.Answers)
			at[key] = i
			out.Answers = append(out.Answers, PossibleAnswer{Outcome: outcomeOf(key), Rules: slices.Clone(rules)})
		}
		if a := &out.Answers[i]; !a.Sure {
			a.Sure = len(w.clauses) == 0 || w.reached(key)
		}
		return true
	})
	return w.budget >= 0
}

// reached looks for real values of what free clauses read that lead to an answer.
func (w *whatIf) reached(key string) bool {
	hit := false
	w.samples(-1, func() bool {
		got, _ := w.answer(w.codes)
		hit = got == key
		return !hit
	})
	return hit
}

// matters says whether measuring an axis can change the answer.
func (w *whatIf) matters(axis int32) Wanted {
	out := Wanted{Fact: FactID(axis)}
	vars, tail := w.order(func(v variable) bool {
		return v.axis == axis || v.clause >= 0 && slices.Contains(w.t.index.Clauses().At(v.clause).Reads, axis)
	})
	w.seen = map[string]bool{}
	if w.guess(axis, &out) {
		return out
	}
	w.walk(vars, 0, tail, w.live, func(live []int32) bool {
		keys := map[string]bool{}
		w.group(vars[tail:], live, func(left []int32) {
			key, _ := w.t.key(left)
			keys[key] = true
		})
		if len(keys) < 2 {
			return true
		}
		out.Change = MightChange
		w.samples(axis, func() bool { return !w.differs(axis, &out) })
		return out.Change != CanChange
	})
	if out.Change == 0 && w.budget < 0 {
		out.Change = MightChange
	}
	return out
}

// group settles the last variables in every way.
func (w *whatIf) group(vars []variable, live []int32, visit func(left []int32)) {
	w.budget--
	if len(vars) == 0 || w.budget < 0 {
		visit(live)
		return
	}
	defer w.forget(len(w.ways), len(w.alive))
	for _, o := range w.options(vars[0], live) {
		w.group(vars[1:], o.live, visit)
	}
}

// differs compares the answer without the axis with the answers along it, for
// real, and notes a change.
func (w *whatIf) differs(axis int32, out *Wanted) bool {
	w.codes[axis] = space.Missing
	without, before := w.answer(w.codes)
	before = slices.Clone(before)
	defer func() { w.codes[axis] = space.Missing }()
	places := w.places(axis, w.live)
	if len(w.clauses) > 0 {
		size := w.t.schema.space.Axes[axis].Size()
		places = append(places, size/2, size-1)
	}
	for _, code := range places {
		w.codes[axis] = code
		with, rules := w.answer(w.codes)
		if with == without {
			continue
		}
		out.Change = CanChange
		for _, r := range append(rules, before...) {
			if !slices.Contains(out.Rules, r) && slices.Contains(w.t.rules[r].Reads, FactID(axis)) {
				out.Rules = append(out.Rules, r)
			}
		}
	}
	return out.Change == CanChange
}

// samples calls try with a few values for each missing axis that a free clause
// reads and that the walk has not settled, axis except left out, until it
// returns false.
func (w *whatIf) samples(except int32, try func() bool) {
	var open []int32
	for _, c := range w.clauses {
		for _, a := range w.t.index.Clauses().At(c).Reads {
			if a != except && w.codes[a] < 0 && !slices.Contains(open, a) && len(open) < maxSampled {
				open = append(open, a)
			}
		}
	}
	var settle func(i int) bool
	settle = func(i int) bool {
		if i == len(open) {
			return try()
		}
		size := w.t.schema.space.Axes[open[i]].Size()
		defer func() { w.codes[open[i]] = space.Missing }()
		for _, code := range []int32{space.Missing, 0, size / 2, size - 1} {
			w.codes[open[i]] = code
			if !settle(i + 1) {
				return false
			}
		}
		return true
	}
	settle(0)
}

// maxSampled axes at four values each are 256 tries.
const maxSampled = 4

// guess tries, for the first live boxes that ask for the axis, to make everything
// else in them hold and see whether the axis changes the answer.
func (w *whatIf) guess(axis int32, out *Wanted) bool {
	const tries = 16
	n := 0
	for _, b := range w.live {
		box := &w.t.index.Boxes()[b]
		if box.Dim(axis) == nil {
			continue
		}
		if n++; n > tries {
			break
		}
		var touched []int32
		for i := range box.Dims {
			d := &box.Dims[i]
			if w.codes[d.Axis] >= 0 || d.Axis == axis || d.Missing == space.True {
				continue
			}
			touched = append(touched, d.Axis)
			for k := range w.t.schema.space.Axes[d.Axis].Size() {
				if d.Mask == 0 {
					k = max(d.Lo, 0)
				}
				if d.Has(k) {
					w.codes[d.Axis] = k
					break
				}
				if d.Mask == 0 {
					break
				}
			}
		}
		changed := w.differs(axis, out)
		for _, a := range touched {
			w.codes[a] = space.Missing
		}
		if changed {
			return true
		}
	}
	return false
}

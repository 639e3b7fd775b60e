package rules

import (
	"slices"

	"github.com/glossladder/glossladder/rules/internal/space"
)

// Learned is what learning some missing facts at once could make of an answer:
// facts that come to be known together, such as all that one reading tells. Each
// may turn out anywhere within its bounds, or stay missing.
type Learned struct {
	// Rules could come to give the answer, or under collect to hold, and do not now;
	// in file order. A rule that gives the present result is not among them.
	Rules []int32
	// Nothing says that no rule might answer, or several that must not.
	Nothing bool
	// Jointly says that the facts alone change nothing, but do together with others
	// that are missing. Rules are then some of those that hang on them.
	Jointly bool
	// Change is zero when learning the facts can change nothing, whatever else is
	// learned.
	Change Change
}

// Learn finds what learning facts could change. It is exact within the budget of
// search steps (0: [DefaultBudget]) where no clause outside the bounds of single
// facts reads a missing one; otherwise it may answer MightChange.
func (t *Table) Learn(in *Input, facts []FactID, budget int) Learned {
	if budget <= 0 {
		budget = DefaultBudget
	}
	room, giveBack := t.borrowRoom()
	defer giveBack()
	l := learner{whatIf: whatIf{t: t, in: in, budget: budget, room: room}, facts: facts}
	out := l.alone()
	if out.Change != 0 {
		return out
	}
	return l.jointly(budget)
}

// learner searches the ways in which some missing facts may turn out.
type learner struct {
	whatIf
	facts []FactID
}

func (l *learner) learns(axis int32) bool {
	return l.in.codes[axis] < 0 && slices.Contains(l.facts, FactID(axis))
}

// alone varies the facts and leaves all else missing that is.
func (l *learner) alone() (out Learned) {
	if l.t.index.Clauses().Len() > 0 {
		l.outcomes = map[int32][]space.Truth{}
		l.begin() // the clauses are looked up as this found them
	}
	l.findLearned()
	if !l.open {
		return out
	}
	if l.t.hit == Collect {
		return l.collected()
	}
	l.begin()
	l.codes = slices.Clone(l.in.codes)
	l.seen = map[string]bool{}
	vars, _ := l.order(func(variable) bool { return false })
	sure := true
	ended := l.walk(vars, 0, len(vars), l.live, func(live []int32) bool {
		key, rules := l.t.key(live)
		switch {
		case key == l.base:
			return true
		case outcomeOf(key) != Answered:
			out.Nothing = true
		case !slices.Contains(out.Rules, rules[0]):
			out.Rules = append(out.Rules, rules[0])
		}
		out.Change = CanChange
		sure = sure && len(l.clauses) == 0
		return true
	})
	if out.Change != 0 && !sure || !ended {
		out.Change = MightChange
	}
	slices.Sort(out.Rules)
	return out
}

// collected is the rules of a collecting table that come to hold in some way.
func (l *learner) collected() (out Learned) {
	for _, b := range l.live {
		r := l.t.owner[b]
		if slices.Contains(out.Rules, r) || l.holdsNow(r) {
			continue
		}
		out.Rules = append(out.Rules, r)
		out.Change = max(out.Change, CanChange)
		if len(l.t.index.Boxes()[b].Literals) > 0 {
			out.Change = MightChange
		}
	}
	return out
}

func (l *learner) holdsNow(rule int32) bool {
	for b := l.t.boxes[rule][0]; b < l.t.boxes[rule][1]; b++ {
		box := &l.t.index.Boxes()[b]
		holds := box.Truth(l.in.codes) == space.True
		for _, lit := range box.Literals {
			holds = holds && l.t.literal(lit, l.in, &l.probe.scratch) == space.True
		}
		if holds {
			return true
		}
	}
	return false
}

// findLearned keeps the boxes that could hold with the facts known and everything
// else as it is, and the axes and clauses on which that hangs.
func (l *learner) findLearned() {
	one := l.t.onlyOne()
	for b := range l.t.index.Boxes() {
		alive, open := l.lets(&l.t.index.Boxes()[b])
		if !alive {
			continue
		}
		l.open = l.open || open
		l.live = append(l.live, int32(b))
		if one && !open {
			break
		}
	}
	for _, b := range l.live {
		box := &l.t.index.Boxes()[b]
		for i := range box.Dims {
			if a := box.Dims[i].Axis; l.learns(a) && !slices.Contains(l.axes, a) {
				l.axes = append(l.axes, a)
			}
		}
		for _, lit := range box.Literals {
			if l.lacking(lit.Clause) && !slices.Contains(l.clauses, lit.Clause) {
				l.clauses = append(l.clauses, lit.Clause)
			}
		}
	}
}

// lets says whether a box could hold, and whether that hangs on the facts.
func (l *learner) lets(box *space.Box) (alive, open bool) {
	for i := range box.Dims {
		d := &box.Dims[i]
		code := l.in.codes[d.Axis]
		learns := l.learns(d.Axis)
		open = open || learns
		if learns && (d.Missing == space.True || !l.t.schema.letsNothingIn(d)) {
			continue
		}
		if d.Truth(code) != space.True {
			return false, false
		}
	}
	for _, lit := range box.Literals {
		free := l.lacking(lit.Clause)
		open = open || free
		if free && slices.ContainsFunc(l.t.index.Clauses().At(lit.Clause).Reads, func(a int32) bool {
			return l.in.codes[a] < 0 && !l.learns(a)
		}) {
			return false, false // it stays without an answer
		}
		if !l.canBe(lit, free) {
			return false, false
		}
	}
	return true, open
}

// jointly asks whether the facts matter together with others that are missing.
func (l *learner) jointly(budget int) (out Learned) {
	// The present answer, if it was looked for, is the same.
	w := &whatIf{t: l.t, in: l.in, room: l.room, probe: l.probe, base: l.base}
	w.find()
	for _, f := range l.facts {
		if !slices.Contains(w.wanted, int32(f)) {
			continue
		}
		w.budget = budget
		want := w.matters(int32(f))
		if want.Change == 0 {
			continue
		}
		if out.Change == 0 || want.Change == CanChange {
			out.Change = want.Change
		}
		for _, r := range want.Rules {
			out.Rules = appendRule(out.Rules, r)
		}
	}
	out.Jointly = out.Change != 0
	slices.Sort(out.Rules)
	return out
}

func appendRule(rules []int32, r int32) []int32 {
	if slices.Contains(rules, r) {
		return rules
	}
	return append(rules, r)
}

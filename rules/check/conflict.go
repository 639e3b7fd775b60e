package check

import (
	"fmt"
	"slices"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/region"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// clash is two rules of which some boxes meet, the earlier in front.
type clash struct{ one, two int32 }

// conflicts finds all rules that may not hold together and do. The first are told
// one by one, of the others the number and the places.
func (c *checker) conflicts() {
	if c.t.Hit() != rules.Unique && c.t.Hit() != rules.Any {
		return
	}
	c.report.Agrees = Proved
	told := 0
	more := map[Code]*untold{Conflict: {rules: make([]bool, len(c.t.Rules()))}, NotDecided: {rules: make([]bool, len(c.t.Rules()))}}
	c.clashes(func(p clash) {
		f, ok := c.conflict(p, told < maxOfAKind)
		switch {
		case !ok:
		case told < maxOfAKind:
			c.add(f)
			told++
		default:
			more[f.Code].add(p)
		}
	})
	for _, code := range []Code{Conflict, NotDecided} {
		if more[code].pairs > 0 {
			c.moreConflicts(code, more[code])
		}
	}
}

// untold is pairs of rules that are not told one by one.
type untold struct {
	pairs int
	rules []bool // along the rules: has a part in it
}

func (u *untold) add(p clash) {
	u.pairs++
	u.rules[p.one], u.rules[p.two] = true, true
}

// clashes calls visit with every two rules that may not hold together and of which
// some boxes meet, clauses left out.
func (c *checker) clashes(visit func(clash)) {
	g := &c.geometry
	last := make([]int32, len(c.t.Rules())) // rule -> the rule it was met for last, plus one
	var met []int32
	for p := range c.t.Rules() {
		one := int32(p)
		met = met[:0]
		for _, b := range c.boxesOf[p] {
			c.row = c.meetings.With(&g.Boxes[b], c.row)
			for e := range region.Bits(c.row) {
				two := g.Owner[e]
				if two <= one || last[two] == one+1 || c.t.Hit() == rules.Any && g.Class[two] == g.Class[one] {
					continue
				}
				last[two] = one + 1
				met = append(met, two)
			}
		}
		slices.Sort(met)
		for _, two := range met {
			visit(clash{one, two})
		}
	}
}

// meeting is two boxes that hold together, and where.
type meeting struct {
	one, two *space.Box
	part     region.Region
}

// meetings of two rules, the widest first.
func (c *checker) meetingsOf(p clash) []meeting {
	var out []meeting
	for _, a := range c.boxesOf[p.one] {
		for _, b := range c.boxesOf[p.two] {
			one, two := &c.geometry.Boxes[a], &c.geometry.Boxes[b]
			part, ok := region.Whole(c.geometry.Axes).Within(one)
			if ok {
				part, ok = part.Within(two)
			}
			if ok {
				out = append(out, meeting{one, two, part})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b meeting) int { return a.part.Named(c.geometry.Axes) - b.part.Named(c.geometry.Axes) })
	return out
}

// conflict says where two rules hold together. It is false when clauses keep them
// apart after all. Without tell it only decides that.
func (c *checker) conflict(p clash, tell bool) (Finding, bool) {
	var m meeting
	outcome, q, point := c.decide(p, &m, tell)
	code := Conflict
	if outcome == region.Undecided {
		code = NotDecided
	}
	if outcome == region.Proved || !tell {
		return Finding{Code: code}, outcome != region.Proved
	}
	one, two := c.rule(p.one), c.rule(p.two)
	f := Finding{
		Code: code, Level: Error, Places: c.places([]int32{p.two, p.one}), Subject: two.ID + " " + one.ID,
		Message: fmt.Sprintf("%s (%s) and %s (%s) hold together", two.ID, two.Result, one.ID, one.Result),
		Effect:  "for these inputs " + c.t.Name() + " gives no answer, since the two may not hold together",
	}
	if code == NotDecided {
		f.Level, f.Message = Warning, "possibly "+f.Message+": "+q.why(q.budget)
		f.Effect, f.Mend = "for some inputs "+c.t.Name()+" may give no answer", "bound both by single facts that keep them apart"
		return f, true
	}
	c.tell(&f, m.part, point, func(codes []int32) bool { return c.boxHolds(m.one, codes) && c.boxHolds(m.two, codes) })
	f.Mend = c.apart(p, &f)
	return f, true
}

// decide says whether two rules of which boxes meet never hold together after all,
// do, or may, and notes it. When they do it gives the widest meeting and an input.
func (c *checker) decide(p clash, at *meeting, tell bool) (region.Outcome, *question, []int32) {
	if !tell && c.plain(p) {
		return region.Refuted, nil, nil
	}
	var unsure *question
	for _, m := range c.meetingsOf(p) {
		point := m.part.Point()
		if len(m.one.Literals)+len(m.two.Literals) > 0 {
			q, answer := c.together(m)
			if answer.Outcome == region.Undecided && unsure == nil {
				unsure = q
			}
			if answer.Outcome != region.Refuted {
				continue
			}
			point = answer.Point
			c.hold(m.part, point, m.one, m.two)
		}
		*at = m
		c.report.Agrees = Refuted
		return region.Refuted, nil, point
	}
	if unsure == nil {
		return region.Proved, nil, nil
	}
	c.report.Agrees = orUndecided(c.report.Agrees)
	return region.Undecided, unsure, nil
}

// plain says whether no clause stands in either of two rules, so that boxes that meet
// are all there is to say.
func (c *checker) plain(p clash) bool {
	return c.bounded(p.one) && c.bounded(p.two)
}

func (c *checker) bounded(rule int32) bool {
	return !slices.ContainsFunc(c.boxesOf[rule], func(b int32) bool { return len(c.geometry.Boxes[b].Literals) > 0 })
}

// clashBudget is what a question about two rules takes at most: there may be many.
const clashBudget = 2000

// together looks for an input at which two boxes that meet hold, clauses and all.
func (c *checker) together(m meeting) (*question, region.Answer) {
	both := space.Box{Literals: slices.Concat(m.one.Literals, m.two.Literals)}
	for _, l := range m.one.Literals {
		if slices.Contains(m.two.Literals, space.Literal{Clause: l.Clause, Want: !l.Want}) {
			return nil, region.Answer{Outcome: region.Proved}
		}
	}
	q := &question{checker: c, boxes: []space.Box{both}, within: m.part, budget: min(c.budget, clashBudget)}
	q.breaks = func(codes []int32) bool { return c.boxHolds(m.one, codes) && c.boxHolds(m.two, codes) }
	answer := q.held()
	return q, answer
}

// hold keeps of a part what is around a point and surely makes the literals of boxes
// come out as wanted.
func (c *checker) hold(part region.Region, point []int32, boxes ...*space.Box) {
	whole := slices.Clone(part)
	var ls []space.Literal
	var read []int32
	for _, b := range boxes {
		ls = append(ls, b.Literals...)
		for _, l := range b.Literals {
			for _, a := range c.reads(l.Clause) {
				read = append(read, a)
				part[a] = region.At(&c.geometry.Axes[a], point[a])
			}
		}
	}
	slices.Sort(read)
	for _, a := range slices.Compact(read) {
		part.Reach(a, whole[a], func(r region.Region) bool { return c.must(r, ls) })
	}
}

func (c *checker) moreConflicts(code Code, u *untold) {
	var rs []int32
	for r := range c.t.Rules() {
		if u.rules[r] {
			rs = append(rs, int32(r))
		}
	}
	f := Finding{
		Code: code, Level: Error, Places: c.places(rs), More: u.pairs, Subject: c.t.Name(),
		Message: fmt.Sprintf("%s of rules of %s hold together and may not, %s among them", plural(u.pairs, "more pair"), c.t.Name(), plural(len(rs), "rule")),
		Effect:  "for their inputs " + c.t.Name() + " gives no answer", Mend: "mend those told one by one and look again",
	}
	if code == NotDecided {
		f.Level, f.Effect = Warning, "for their inputs "+c.t.Name()+" may give no answer"
		f.Message = fmt.Sprintf("%s of rules of %s may hold together: not decided, %s among them", plural(u.pairs, "more pair"), c.t.Name(), plural(len(rs), "rule"))
	}
	c.add(f)
}

// plural is a number with its noun.
func plural(n int, noun string) string {
	if n != 1 {
		noun += "s"
	}
	return fmt.Sprintf("%d %s", n, noun)
}

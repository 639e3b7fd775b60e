package rules

import (
	"math"
	"slices"

	"github.com/glossladder/glossladder/rules/internal/index"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// Scratch is the room that First needs; reusable, for any table. Its zero value
// is ready. It is not safe for concurrent use.
type Scratch struct{ s index.Scratch }

// First is the place of the first rule that holds, in the order of the hit policy
// (under priority the strongest result first, else file order), or -1. It is the
// fastest way to an answer: it allocates nothing, clauses outside the bounds of
// single facts aside, which are evaluated only for rules that everything else
// lets hold. A nil scratch is allowed and costs allocations.
func (t *Table) First(in *Input, sc *Scratch) int {
	if sc == nil {
		sc = &Scratch{}
	}
	b := t.index.First(in.codes, &sc.s)
	if b < 0 {
		return -1
	}
	return int(t.owner[b])
}

// Decide answers and explains. It allocates nothing once d has grown, clauses
// outside the bounds of single facts aside.
func (t *Table) Decide(in *Input, d *Decision) {
	t.decide(in, MaxNear, d)
	t.near(in, d)
}

// Answer is Decide without the near misses: for callers that tell why, and not
// what just missed.
func (t *Table) Answer(in *Input, d *Decision) {
	t.decide(in, 0, d)
	d.Near = d.Near[:0]
}

func (t *Table) decide(in *Input, near int, d *Decision) {
	one := t.hit == First || t.hit == Priority
	t.index.Scan(in.codes, one, near, &d.scratch, &d.finding)
	d.Outcome = NoRule
	d.Winners, d.Conflict = d.Winners[:0], d.Conflict[:0]
	d.Checks, d.Clauses = d.Checks[:0], d.Clauses[:0]
	for i, b := range d.finding.Holds {
		r := t.owner[b]
		if i > 0 && d.Winners[len(d.Winners)-1] == r {
			continue
		}
		d.Winners = append(d.Winners, r)
		t.checks(r, b, in, d)
	}
	t.settle(d)
	t.pending(in, d)
}

// settle applies the hit policy to the rules that hold.
func (t *Table) settle(d *Decision) {
	if len(d.Winners) == 0 {
		return
	}
	d.Outcome = Answered
	if t.clash(d.Winners) {
		d.Outcome = Conflict
		d.Conflict = append(d.Conflict, d.Winners...)
		d.Winners, d.Checks, d.Clauses = d.Winners[:0], d.Checks[:0], d.Clauses[:0]
	}
}

// clash says whether rules that all hold are a conflict under the hit policy.
func (t *Table) clash(holders []int32) bool {
	switch t.hit {
	case Unique:
		return len(holders) > 1
	case Any:
		for _, r := range holders[1:] {
			if t.class[r] != t.class[holders[0]] {
				return true
			}
		}
	}
	return false
}

// checks notes what the box of a winner asked.
func (t *Table) checks(rule, box int32, in *Input, d *Decision) {
	b := &t.index.Boxes()[box]
	for i := range b.Dims {
		dim := &b.Dims[i]
		code := in.codes[dim.Axis]
		d.Checks = append(d.Checks, Check{
			Rule: rule, Fact: FactID(dim.Axis), Code: code, Lo: dim.Lo, Hi: dim.Hi,
			Mask: dim.Mask, Margin: t.margin(dim, code),
		})
	}
	for _, l := range b.Literals {
		d.Clauses = append(d.Clauses, ClauseCheck{Rule: rule, Text: t.index.Clauses().At(l.Clause).Says(l.Want)})
	}
}

// margin is how far a code that is let in can move and still be let in.
func (t *Table) margin(d *space.Dim, code int32) float64 {
	a := &t.schema.space.Axes[d.Axis]
	switch {
	case code < 0:
		return math.Inf(1)
	case a.Kind == space.Number:
		best := math.Inf(1)
		if d.Lo > 0 {
			best = a.Grid.Span(d.Lo, code)
		}
		if d.Hi < a.Size()-1 {
			best = min(best, a.Grid.Span(code, d.Hi))
		}
		return best
	case a.Ordered:
		best := math.Inf(1)
		for k := range a.Size() {
			if d.Mask>>k&1 == 0 {
				best = min(best, math.Abs(float64(k-code))-1)
			}
		}
		return best
	}
	return 0
}

// pending gathers the rules that could yet hold, box by box.
func (t *Table) pending(in *Input, d *Decision) {
	d.Pending, d.facts = d.Pending[:0], d.facts[:0]
	last := int32(-1)
	for _, b := range d.finding.Pending {
		r := t.owner[b]
		if t.holdsIn(r, d) {
			continue
		}
		if r != last {
			d.Pending = append(d.Pending, Pending{Rule: r})
			last = r
		}
		t.wants(b, in, d)
	}
}

func (t *Table) holdsIn(rule int32, d *Decision) bool {
	for _, b := range d.finding.Holds {
		if t.owner[b] == rule {
			return true
		}
	}
	return false
}

// wants adds to the last pending rule what its box b waits for. The facts of one
// rule lie together in d.facts; moving that slice leaves earlier views valid.
func (t *Table) wants(b int32, in *Input, d *Decision) {
	p := &d.Pending[len(d.Pending)-1]
	from := len(d.facts) - len(p.Facts)
	add := func(axis int32) {
		for _, f := range d.facts[from:] {
			if f == FactID(axis) {
				return
			}
		}
		d.facts = append(d.facts, FactID(axis))
	}
	box := &t.index.Boxes()[b]
	for i := range box.Dims {
		if dim := &box.Dims[i]; in.codes[dim.Axis] < 0 && dim.Missing == space.Unknown {
			add(dim.Axis)
		}
	}
	for _, l := range box.Literals {
		if t.index.Clause(l.Clause, in.codes, &d.scratch) != space.Unknown {
			continue
		}
		lacks := false
		for _, a := range t.index.Clauses().At(l.Clause).Reads {
			if in.codes[a] < 0 {
				lacks = true
				add(a)
			}
		}
		p.Stuck = p.Stuck || !lacks
	}
	p.Facts = d.facts[from:len(d.facts):len(d.facts)]
}

// near turns boxes that fail on one thing into rules, leaving out rules that
// hold or may hold by another of their boxes.
func (t *Table) near(in *Input, d *Decision) {
	d.Near = d.Near[:0]
	for _, n := range d.finding.Near {
		r := t.owner[n.Box]
		if k := len(d.Near); k > 0 && d.Near[k-1].Rule == r || t.alive(r, in, d) {
			continue
		}
		near := Near{Rule: r, Fact: FactID(n.Axis), box: n.Box}
		if n.Clause >= 0 {
			near.Clause = t.index.Clauses().At(n.Clause).Says(t.wanted(n.Box, n.Clause))
		}
		d.Near = append(d.Near, near)
	}
}

// wanted is what a box wants of a clause.
func (t *Table) wanted(box, clause int32) bool {
	return !slices.Contains(t.index.Boxes()[box].Literals, space.Literal{Clause: clause, Want: false})
}

// alive says whether some box of a rule is not false.
func (t *Table) alive(rule int32, in *Input, d *Decision) bool {
	for b := t.boxes[rule][0]; b < t.boxes[rule][1]; b++ {
		if t.index.Truth(b, in.codes, &d.scratch) != space.False {
			return true
		}
	}
	return false
}

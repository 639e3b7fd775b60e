package rules

import (
	"cmp"
	"math"
	"slices"

	"github.com/glossladder/glossladder/rules/internal/index"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// Flip is a range of one fact that gives another answer, all other facts as they are.
type Flip struct {
	Fact FactID
	// Lo and Hi bound a number's codes; Mask has bit k for word k, or bits 0 and 1
	// for false and true. A range is as wide as it can be for its answer.
	Lo, Hi int32
	Mask   uint64
	// Nearest is the code of the range that lies nearest to the present value.
	Nearest int32
	// Away is how far the present number is from Nearest, in the fact's unit; for
	// an ordered word it counts words, for other facts and a missing one it is 0.
	Away float64
	// Share is that distance as a share of the fact's whole range, so that facts can
	// be compared; 1 for what has no distance.
	Share float64
	// Outcome and Rules are the answer at Nearest. Another rule may give the same
	// answer elsewhere in the range.
	Outcome Outcome
	Rules   []int32
}

// Flips are all the ways in which a change of one fact changes the answer. Its
// slices are reused. The zero value is ready; it is not safe for concurrent use.
type Flips struct {
	// List is nearest first.
	List []Flip
	// Exact is false when a clause outside the bounds of single facts reads a fact
	// with too many values to try; what is listed is then true, but may not be all.
	Exact bool

	scratch index.Scratch
	loose   []index.Loose
	asking  []candidate
	cuts    []int32
	codes   []int32
	rules   []int32
	holds   []int32
	base    ruling
}

// candidate is a box that holds or not by the value of one axis alone.
type candidate struct {
	box int32
	dim *space.Dim // nil when the axis is not asked
}

// ruling is an answer: how it came out and the rules that gave it.
type ruling struct {
	outcome Outcome
	rules   []int32
}

// maxTried is the most values of a fact that are tried one by one for a clause.
const maxTried = 1 << 13

// Flips finds every range of every single fact that gives another answer; to take
// away what is known is no such change. It looks at the stretches between the
// bounds that rules name, on which all inputs behave alike, so it is exact.
func (t *Table) Flips(in *Input, out *Flips) {
	out.List, out.rules, out.Exact = out.List[:0], out.rules[:0], true
	out.codes = append(out.codes[:0], in.codes...)
	out.loose = t.index.Loose(in.codes, &out.scratch, out.loose[:0])
	t.present(out)
	t.index.Axes(func(axis int32) { t.along(axis, true, out) })
	for axis := range t.schema.space.Axes {
		if t.onlyInClauses(int32(axis)) {
			t.along(int32(axis), false, out)
		}
	}
	slices.SortStableFunc(out.List, func(a, b Flip) int {
		return cmp.Or(cmp.Compare(a.Share, b.Share), cmp.Compare(a.Fact, b.Fact))
	})
}

// onlyInClauses says whether clauses read an axis that no bound asks for.
func (t *Table) onlyInClauses(axis int32) bool {
	clauses := t.index.Clauses()
	if clauses.Len() == 0 {
		return false
	}
	asked := false
	t.index.Axes(func(a int32) { asked = asked || a == axis })
	for c := range clauses.Len() {
		if !asked && slices.Contains(clauses.At(int32(c)).Reads, axis) {
			return true
		}
	}
	return false
}

// present notes the answer as things are.
func (t *Table) present(out *Flips) {
	t.index.Begin(&out.scratch)
	out.holds = out.holds[:0]
	for _, l := range out.loose {
		if l.Axis < 0 && t.index.Truth(l.Box, out.codes, &out.scratch) == space.True {
			out.holds = append(out.holds, l.Box)
			if t.onlyOne() {
				break
			}
		}
	}
	out.base = t.rule(out.holds, &out.rules)
}

func (t *Table) onlyOne() bool { return t.hit == First || t.hit == Priority }

// along walks one axis from stretch to stretch.
func (t *Table) along(axis int32, bounded bool, out *Flips) {
	opaque := t.candidates(axis, bounded, out)
	a := &t.schema.space.Axes[axis]
	read := opaque && slices.ContainsFunc(out.asking, func(c candidate) bool { return t.reads(c.box, axis) })
	if !t.stretches(a, read, out) {
		out.Exact = false
	}
	was := out.codes[axis]
	defer func() { out.codes[axis] = was }()
	last := ruling{}
	open := -1 // the flip that the stretch before belongs to
	for i, from := range out.cuts {
		to := a.Size() - 1
		if i+1 < len(out.cuts) {
			to = out.cuts[i+1] - 1
		}
		out.codes[axis] = from
		now := t.among(axis, opaque, out)
		if t.sameAnswer(now, out.base) {
			open, last = -1, now
			continue
		}
		joins := open >= 0 && (a.Kind == space.Number || a.Ordered) && t.sameAnswer(now, last)
		if !joins {
			out.List = append(out.List, Flip{Fact: FactID(axis), Lo: from, Hi: to, Nearest: -1})
			open = len(out.List) - 1
		}
		t.widen(&out.List[open], a, was, from, to, now)
		last = now
	}
}

// widen takes a stretch into a flip.
func (t *Table) widen(f *Flip, a *space.Axis, was, from, to int32, now ruling) {
	f.Hi = to
	near := from
	if was > to {
		near = to
	}
	if f.Nearest < 0 || was >= 0 && absolute(near-was) < absolute(f.Nearest-was) {
		f.Nearest, f.Outcome, f.Rules = near, now.outcome, now.rules
	}
	f.Share = 1
	switch {
	case a.Kind != space.Number:
		f.Mask |= (1<<(to-from+1) - 1) << from
		if was >= 0 && a.Ordered {
			f.Away = float64(absolute(f.Nearest - was))
			f.Share = f.Away / float64(a.Size())
		}
	case was >= 0:
		f.Away = math.Abs(a.Grid.Span(was, f.Nearest))
		f.Share = float64(absolute(f.Nearest-was)) / float64(a.Size())
	}
}

func absolute(n int32) int32 { return max(n, -n) }

// candidates gathers the boxes that hang on one axis alone, or hold whatever it
// is, and says whether one of them has clauses.
func (t *Table) candidates(axis int32, bounded bool, out *Flips) (opaque bool) {
	out.asking = out.asking[:0]
	boxes := t.index.Boxes()
	for _, l := range out.loose {
		if l.Axis >= 0 && l.Axis != axis {
			continue
		}
		c := candidate{box: l.Box}
		if bounded {
			c.dim = boxes[l.Box].Dim(axis)
		}
		out.asking = append(out.asking, c)
		clauses := len(boxes[l.Box].Literals) > 0
		opaque = opaque || clauses
		if c.dim == nil && !clauses && t.onlyOne() {
			break // it holds whatever comes, and nothing behind it can win
		}
	}
	return opaque
}

func (t *Table) reads(box, axis int32) bool {
	for _, l := range t.index.Boxes()[box].Literals {
		if slices.Contains(t.index.Clauses().At(l.Clause).Reads, axis) {
			return true
		}
	}
	return false
}

// stretches cuts an axis where a candidate changes its mind; false when a clause
// may do so anywhere and there are too many values to try.
func (t *Table) stretches(a *space.Axis, read bool, out *Flips) bool {
	out.cuts = append(out.cuts[:0], 0)
	size := a.Size()
	if a.Kind != space.Number || read && size <= maxTried {
		for k := int32(1); k < size; k++ {
			out.cuts = append(out.cuts, k)
		}
		return true
	}
	for _, c := range out.asking {
		if c.dim == nil || c.dim.Lo > c.dim.Hi {
			continue
		}
		out.cuts = append(out.cuts, c.dim.Lo)
		if c.dim.Hi+1 < size {
			out.cuts = append(out.cuts, c.dim.Hi+1)
		}
	}
	slices.Sort(out.cuts)
	out.cuts = slices.Compact(out.cuts)
	return !read
}

// among is the answer of the candidates with the axis as out.codes has it.
func (t *Table) among(axis int32, opaque bool, out *Flips) ruling {
	if opaque {
		t.index.Begin(&out.scratch)
	}
	out.holds = out.holds[:0]
	for _, c := range out.asking {
		if c.dim != nil && !c.dim.Has(out.codes[axis]) {
			continue
		}
		if opaque && t.index.Truth(c.box, out.codes, &out.scratch) != space.True {
			continue
		}
		out.holds = append(out.holds, c.box)
		if t.onlyOne() {
			break
		}
	}
	return t.rule(out.holds, &out.rules)
}

// rule applies the hit policy to boxes that hold, in box order. The rules of the
// ruling lie in room, which only grows, so earlier views stay valid.
func (t *Table) rule(boxes []int32, room *[]int32) ruling {
	from := len(*room)
	for _, b := range boxes {
		if r := t.owner[b]; len(*room) == from || (*room)[len(*room)-1] != r {
			*room = append(*room, r)
		}
	}
	out := ruling{outcome: Answered, rules: (*room)[from:len(*room):len(*room)]}
	switch {
	case len(out.rules) == 0:
		out.outcome = NoRule
	case t.onlyOne():
		out.rules = out.rules[:1:1]
	case t.clash(out.rules):
		out.outcome = Conflict
	}
	return out
}

// sameAnswer says whether two rulings give the same result.
func (t *Table) sameAnswer(a, b ruling) bool {
	if a.outcome != b.outcome || a.outcome != Answered {
		return a.outcome == b.outcome
	}
	if t.hit != Collect {
		return t.class[a.rules[0]] == t.class[b.rules[0]]
	}
	return slices.EqualFunc(a.rules, b.rules, func(x, y int32) bool { return t.class[x] == t.class[y] })
}

// Range is a flip's range in words that follow "if it were": "at least 30 µm".
func (s *Schema) Range(f Flip) string {
	return s.bound(&space.Dim{Axis: int32(f.Fact), Lo: f.Lo, Hi: f.Hi, Mask: f.Mask})
}

// Apply gives the fact of a flip its nearest value in an input of the same schema.
func (in *Input) Apply(f Flip) { in.codes[f.Fact] = f.Nearest }

// MadeToHold is a copy of an input in which what keeps a rule from holding has
// been given the nearest value that will do; ok is false when clauses outside the
// bounds of single facts, or a value that must be missing, stand in the way.
func (t *Table) MadeToHold(in *Input, rule int) (held *Input, ok bool) {
	var sc index.Scratch
	t.index.Begin(&sc)
	b := t.closest(int32(rule), in, &sc)
	if b < 0 {
		return nil, false
	}
	held = in.Clone()
	for _, d := range t.index.Boxes()[b].Dims {
		if d.Truth(in.codes[d.Axis]) == space.True {
			continue
		}
		code, found := t.nearestIn(&d, in.codes[d.Axis])
		if !found {
			return nil, false
		}
		held.codes[d.Axis] = code
	}
	t.index.Begin(&sc)
	return held, t.index.Truth(b, held.codes, &sc) == space.True
}

// nearestIn is the code that a dim lets in and that is nearest to another.
func (t *Table) nearestIn(d *space.Dim, code int32) (int32, bool) {
	if t.schema.letsNothingIn(d) {
		return 0, false
	}
	if t.schema.space.Axes[d.Axis].Kind == space.Number {
		return min(max(code, d.Lo), d.Hi), true
	}
	best, found := int32(0), false
	for k := range t.schema.space.Axes[d.Axis].Size() {
		if d.Mask>>k&1 == 1 && (!found || absolute(k-code) < absolute(best-code)) {
			best, found = k, true
		}
	}
	return best, found
}

package check

import (
	"slices"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/example"
	"github.com/glossladder/glossladder/rules/internal/region"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// gaps looks for inputs that no rule answers. Under collect no answer is one, too.
func (c *checker) gaps() {
	if c.t.Hit() == rules.Collect {
		return
	}
	c.report.Answers = Proved
	whole := region.Whole(c.geometry.Axes)
	q := question{checker: c, boxes: c.geometry.Boxes, within: whole, budget: c.budget}
	q.breaks = func(codes []int32) bool { return !c.holds(codes) }
	answer := q.uncovered()
	switch answer.Outcome {
	case region.Proved:
		return
	case region.Undecided:
		c.gapUndecided(&q, answer.Steps)
		return
	case region.Refuted:
	}
	g := gapSearch{question: question{checker: c, boxes: c.geometry.Boxes, within: whole, budget: c.budget, breaks: q.breaks}}
	g.keep(answer.Point, q.breaks)
	s := g.search()
	s.Judge, s.Breaks = g.judge, g.meet
	answer = g.run(s)
	for _, gap := range g.told {
		c.gap(gap.part, gap.point)
	}
	switch {
	case g.more:
		c.moreGaps(len(g.told))
	case answer.Outcome != region.Proved:
		c.gapUndecided(&g.question, answer.Steps)
	}
}

// gapSearch goes through the whole space once and keeps every hole that it meets. One
// that only asks for the first may pass over others: missing values stand for known ones.
type gapSearch struct {
	question
	told  []hole
	boxes []space.Box // of the holes
	more  bool        // there are more than are told
}

// hole is a gap and the input that it was found by.
type hole struct {
	part  region.Region
	point []int32
}

func (g *gapSearch) judge(part region.Region, in, open []int32) (region.Verdict, []int32) {
	switch {
	case g.more, len(in) > 0:
		return region.Safe, nil
	case len(open) > 0 && len(g.covering(part, g.question.boxes, open, nil)) > 0:
		return region.Safe, nil
	case len(open) > 0:
		return region.Split, open
	}
	g.take(part)
	return region.Safe, nil
}

// meet keeps the hole around an input that is tried on the way, and lets the search go on.
func (g *gapSearch) meet(codes []int32) bool {
	if !g.more && g.breaks(codes) && g.isNew(codes) {
		if g.more = len(g.told) == maxOfAKind; !g.more {
			g.keep(codes, func(codes []int32) bool { return g.breaks(codes) && g.isNew(codes) })
		}
	}
	return false
}

// isNew says whether an input lies in no hole that was met.
func (g *gapSearch) isNew(codes []int32) bool {
	return !slices.ContainsFunc(g.boxes, func(b space.Box) bool { return b.Truth(codes) == space.True })
}

// take grows the holes of a part that no rule answers, until the part lies in them.
func (g *gapSearch) take(part region.Region) {
	for !g.more {
		q := question{checker: g.checker, boxes: g.boxes, within: part, budget: g.budget, breaks: g.isNew}
		answer := q.uncovered()
		if answer.Outcome != region.Refuted {
			return
		}
		g.meet(answer.Point)
	}
}

func (g *gapSearch) keep(point []int32, breaks func([]int32) bool) {
	found := g.gapAround(point, breaks)
	g.told = append(g.told, hole{found, point})
	g.boxes = append(g.boxes, found.Box(g.geometry.Axes))
}

// gapAround is the widest region around an input that no rule answers, first made as
// bare as it gets without falling into a gap that is told.
func (c *checker) gapAround(point []int32, breaks func([]int32) bool) region.Region {
	bare := slices.Clone(point)
	for a, code := range bare {
		if bare[a] = space.Missing; !breaks(bare) {
			bare[a] = code
		}
	}
	grow := region.Grow{
		Axes: c.geometry.Axes, Avoid: c.geometry.Boxes,
		May: func(b int, r region.Region) bool { return c.may(r, c.geometry.Boxes[b].Literals) },
	}
	return grow.Widest(bare)
}

func (c *checker) gap(part region.Region, point []int32) {
	c.report.Answers = Refuted
	near := c.nearest(part)
	f := Finding{
		Code: Gap, Level: Error, Message: "no rule of " + c.t.Name() + " answers",
		Effect: "for these inputs " + c.t.Name() + " gives no answer",
		Places: c.places([]int32{near.rule}), Stub: c.stub(part, near.rule),
	}
	c.tell(&f, part, point, func(codes []int32) bool { return !c.holds(codes) })
	f.Subject, f.Mend = c.t.Name(), "add a rule with when: "+f.Input.When
	if near.new != "" {
		f.Mend = "let " + near.says(c) + ", or " + f.Mend
	}
	c.add(f)
}

// moreGaps says that not all gaps are told.
func (c *checker) moreGaps(told int) {
	last := int32(len(c.t.Rules()) - 1)
	c.add(Finding{
		Code: Gap, Level: Error, Places: c.places([]int32{last}), More: 1, Subject: c.t.Name(),
		Message: "more inputs of " + c.t.Name() + " have no answer than the " + plural(told, "gap") + " told",
		Effect:  "for more inputs " + c.t.Name() + " gives no answer", Mend: "a last rule with when: true answers all of them",
	})
}

// gapUndecided names the rules that stand in the way, or the last one.
func (c *checker) gapUndecided(q *question, steps int) {
	other := ""
	if c.report.Answers == Refuted {
		other = "other "
	}
	c.report.Answers = orUndecided(c.report.Answers)
	f := Finding{
		Code: NotDecided, Level: Warning, Subject: c.t.Name(),
		Message: "whether " + c.t.Name() + " answers every " + other + "input is " + q.why(min(steps, q.budget)),
		Effect:  "some inputs may have no answer", Mend: "a last rule with when: true settles it",
	}
	for _, b := range q.weak {
		if p := c.place(c.geometry.Owner[b]); !slices.Contains(f.Places, p) {
			f.Places = append(f.Places, p)
		}
	}
	if len(f.Places) == 0 {
		f.Places = c.places([]int32{int32(len(c.t.Rules()) - 1)})
	}
	if q.part != nil {
		f.Example = "possibly none for " + example.RegionWords(c.t.Schema(), c.geometry.Axes, q.part)
	}
	c.add(f)
}

// tell puts a region and one input of it into a finding.
func (c *checker) tell(f *Finding, part region.Region, point []int32, breaks func([]int32) bool) {
	s, axes := c.t.Schema(), c.geometry.Axes
	if typical := typical(axes, part); breaks(typical) {
		point = typical
	}
	f.Input = &Counterexample{
		Region: example.RegionWords(s, axes, part), When: example.Condition(axes, part), Given: c.given(point),
	}
	f.Example = f.Input.Region
	var open []int32 // facts of which the region leaves a choice
	for a := range part {
		if !part[a].Whole(&axes[a]) && part[a].First() != part[a].Last() {
			open = append(open, int32(a))
		}
	}
	if len(open) > 0 {
		f.Example += " (such as " + example.Words(s.InputAt(point), open) + ")"
	}
}

// typical is an input of a region that says as much as it can about the facts that
// matter, at an end of their ranges, and nothing about the others.
func typical(axes []space.Axis, part region.Region) []int32 {
	out := make([]int32, len(part))
	for a := range part {
		cell := part[a]
		cell.Missing = false
		switch out[a] = space.Missing; {
		case part[a].Whole(&axes[a]):
		case cell.Mask != 0:
			out[a] = cell.First()
		case cell.Lo <= cell.Hi:
			out[a] = cell.Lo
			if cell.Lo == 0 { // the end that lies beside something
				out[a] = cell.Hi
			}
		}
	}
	return out
}

// given are the known facts of an input, as a program reads them.
func (c *checker) given(codes []int32) map[string]any {
	out := map[string]any{}
	for a, code := range codes {
		axis := &c.geometry.Axes[a]
		switch {
		case code == space.Missing:
		case axis.Kind == space.Number:
			out[axis.Name] = axis.Value(code)
		case axis.Kind == space.Word:
			out[axis.Name] = axis.Words[code]
		default:
			out[axis.Name] = code == 1
		}
	}
	return out
}

package check

import (
	"math/rand/v2"
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/example"
	"github.com/glossladder/glossladder/rules/internal/region"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// neverWins looks for rules that those in front leave nothing, be it together.
func (c *checker) neverWins() {
	if !c.first() {
		return
	}
	for r := range c.t.Rules() {
		rule := int32(r)
		if len(c.boxesOf[r]) == 0 || c.dead[rule] || c.unsure[rule] || c.winsSomewhere(rule) {
			continue
		}
		switch outcome, by, q := c.hidden(rule); outcome {
		case region.Proved:
			c.hiddenRule(rule, by)
		case region.Undecided:
			c.report.Wins = orUndecided(c.report.Wins)
			c.add(Finding{
				Code: NotDecided, Level: Warning, Places: c.places([]int32{rule}), Subject: c.rule(rule).ID,
				Message: "whether " + c.rule(rule).ID + " can ever win is " + q.why(q.budget),
				Effect:  "the rule may never answer", Mend: "write a worked case that it wins",
			})
		case region.Refuted:
		}
	}
}

// samples is how many inputs of a box are tried before anything is proved: most
// rules win somewhere, and an answer costs next to nothing.
const samples = 64

// winsSomewhere tries some inputs of a rule.
func (c *checker) winsSomewhere(rule int32) bool {
	chance := rand.New(rand.NewPCG(uint64(rule), 1)) // the same inputs at every check
	for _, b := range c.boxesOf[rule] {
		part, ok := region.Whole(c.geometry.Axes).Within(&c.geometry.Boxes[b])
		if !ok {
			continue
		}
		if c.wins(rule, part.Point()) {
			return true
		}
		for range samples {
			if c.wins(rule, c.anyOf(part, chance)) {
				return true
			}
		}
	}
	return false
}

// anyOf is an input of a region by chance, an end of a range as often as not.
func (c *checker) anyOf(part region.Region, chance *rand.Rand) []int32 {
	out := make([]int32, len(part))
	for a := range part {
		cell := &part[a]
		known := cell.Lo <= cell.Hi || cell.Mask != 0
		switch {
		case cell.Missing && (!known || chance.IntN(2) == 0):
			out[a] = space.Missing
		case cell.Mask != 0:
			mask := cell.Mask
			for n := chance.IntN(size(&region.Cell{Lo: 1, Mask: mask})); n > 0; n-- {
				mask &= mask - 1
			}
			out[a] = (&region.Cell{Lo: 1, Mask: mask}).First()
		case chance.IntN(4) == 0:
			out[a] = cell.Lo
		case chance.IntN(3) == 0:
			out[a] = cell.Hi
		default:
			out[a] = cell.Lo + chance.Int32N(cell.Hi-cell.Lo+1)
		}
	}
	return out
}

// hidden says whether a rule never wins, which rules hide it, and, when that is not
// decided, which question stayed open.
func (c *checker) hidden(rule int32) (region.Outcome, []int32, *question) {
	var by []int32
	var open *question
	steps := 0
	for _, b := range c.boxesOf[rule] {
		part, ok := region.Whole(c.geometry.Axes).Within(&c.geometry.Boxes[b])
		if !ok {
			continue
		}
		if e, ok := c.hiddenByOne(rule, b); ok {
			by = append(by, c.geometry.Owner[e])
			continue
		}
		q := &question{checker: c, boxes: c.geometry.Boxes, only: c.inFront(rule, b), own: b, within: part, budget: max(c.budget-steps, 0)}
		q.breaks = func(codes []int32) bool { return c.wins(rule, codes) }
		answer := q.winnable()
		steps += answer.Steps
		switch answer.Outcome {
		case region.Refuted:
			return region.Refuted, nil, nil
		case region.Undecided:
			open = q
		case region.Proved:
			for _, e := range q.used {
				by = append(by, c.geometry.Owner[e])
			}
		}
	}
	if open != nil {
		return region.Undecided, nil, open
	}
	slices.Sort(by)
	return region.Proved, slices.Compact(by), nil
}

// hiddenByOne finds a box in front that holds wherever a box of a rule does.
func (c *checker) hiddenByOne(rule, b int32) (int32, bool) {
	c.row = c.meetings.Around(&c.geometry.Boxes[b], c.row)
	for e := range region.Bits(c.row) {
		if e >= b {
			break
		}
		if c.geometry.Owner[e] != rule {
			return e, true
		}
	}
	return 0, false
}

// inFront are the boxes of other rules in front of a box that it meets, never nil.
func (c *checker) inFront(rule, b int32) []int32 {
	out := []int32{}
	c.row = c.meetings.With(&c.geometry.Boxes[b], c.row)
	for e := range region.Bits(c.row) {
		if e >= b {
			break
		}
		if c.geometry.Owner[e] != rule {
			out = append(out, e)
		}
	}
	return out
}

func (c *checker) wins(rule int32, codes []int32) bool {
	return c.t.First(c.t.Schema().InputAt(codes), &c.scratch) == int(rule)
}

func (c *checker) hiddenRule(rule int32, by []int32) {
	c.report.Wins = Refuted
	c.dead[rule] = true
	by = c.needed(rule, by)
	r := c.rule(rule)
	f := Finding{
		Code: NeverWins, Level: Warning, Places: c.places(append([]int32{rule}, by...)), Subject: r.ID,
		Effect: "it has no effect: without it every answer is the same",
	}
	part, _ := region.Whole(c.geometry.Axes).Within(&c.geometry.Boxes[c.boxesOf[rule][0]])
	f.Input = &Counterexample{
		Region: example.RegionWords(c.t.Schema(), c.geometry.Axes, part),
		When:   example.Condition(c.geometry.Axes, part), Given: c.given(typical(c.geometry.Axes, part)),
	}
	names := make([]string, len(by))
	for i, h := range by {
		names[i] = c.rule(h).ID
	}
	f.Message = r.ID + " can never win: " + list(names) + takes(len(by)) + " every input of it"
	f.Example = f.Input.Region
	f.Mend = "move it in front of " + names[0] + ", narrow what hides it, or delete it"
	if c.t.Hit() == rules.Priority && c.stronger(by[0], rule) {
		f.Mend = "give it a stronger answer than " + names[0] + " has, narrow what hides it, or delete it"
	}
	c.add(f)
}

// stronger says whether the answer of a rule goes before that of another wherever both hold.
func (c *checker) stronger(one, two int32) bool {
	field := c.t.Result().Priority
	a, _ := c.rule(one).Result.Word(field)
	b, _ := c.rule(two).Result.Word(field)
	return a != b
}

// What is spent on a short list of what hides a rule.
const (
	mostHiders = 24
	hiderSteps = 2000
)

// needed leaves out rules that are not needed to hide a rule, as far as that is soon told.
func (c *checker) needed(rule int32, by []int32) []int32 {
	if len(by) > mostHiders {
		return by
	}
	for i := len(by) - 1; i >= 0 && len(by) > 1; i-- {
		if without := slices.Delete(slices.Clone(by), i, i+1); c.hide(rule, without) {
			by = without
		}
	}
	return by
}

// hide says whether some rules alone leave a rule nothing.
func (c *checker) hide(rule int32, by []int32) bool {
	g := &c.geometry
	for _, b := range c.boxesOf[rule] {
		part, ok := region.Whole(g.Axes).Within(&g.Boxes[b])
		if !ok {
			continue
		}
		q := question{checker: c, boxes: g.Boxes, only: []int32{}, within: part, budget: hiderSteps, breaks: func([]int32) bool { return true }}
		for _, r := range by {
			for _, e := range c.boxesOf[r] {
				if e < b && part.Meets(&g.Boxes[e]) {
					q.only = append(q.only, e)
				}
			}
		}
		slices.Sort(q.only)
		if q.uncovered().Outcome != region.Proved {
			return false
		}
	}
	return true
}

// list joins names: "a", "a and b", "a, b and c"; past five it counts the others.
func list(names []string) string {
	if len(names) > 5 {
		return strings.Join(names[:4], ", ") + " and " + plural(len(names)-4, "rule") + " more"
	}
	last := len(names) - 1
	if last == 0 {
		return names[0]
	}
	return strings.Join(names[:last], ", ") + " and " + names[last]
}

func takes(n int) string {
	if n == 1 {
		return " takes"
	}
	return " take"
}

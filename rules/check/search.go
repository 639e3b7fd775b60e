package check

import (
	"fmt"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/example"
	"github.com/glossladder/glossladder/rules/internal/region"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// uncovered searches part of the space for an input at which none of the boxes holds.
func (c *checker) uncovered(boxes []space.Box, within region.Region, breaks func([]int32) bool) region.Answer {
	s := region.Search{
		Axes: c.geometry.Axes, Boxes: boxes, Within: within, Budget: c.budget, Fewer: true, Breaks: breaks,
		Judge: func(_ region.Region, in, open []int32) (region.Verdict, []int32) {
			switch {
			case len(in) > 0:
				return region.Safe, nil
			case len(open) == 0:
				return region.Broken, nil
			}
			return region.Split, open
		},
	}
	return s.Run()
}

// words names what matters of an input that breaks something.
func (c *checker) words(point []int32, breaks func([]int32) bool) string {
	smallest, matter := example.Smallest(c.geometry.Axes, c.geometry.Boxes, point, nil, breaks)
	return example.Words(c.t.Schema().InputAt(smallest), matter)
}

// gaps looks for an input that no rule answers. Under collect no answer is one, too.
func (c *checker) gaps() {
	if c.t.Hit() == rules.Collect {
		return
	}
	breaks := func(codes []int32) bool { return !c.holds(codes) }
	answer := c.uncovered(c.geometry.Boxes, region.Whole(c.geometry.Axes), breaks)
	switch answer.Outcome {
	case region.Refuted:
		c.add(Finding{
			Code: Gap, Level: Error, Message: "no rule of " + c.t.Name() + " answers",
			Example: c.words(answer.Point, breaks), Mend: "add a rule for it, or a last one with when: true",
		})
	case region.Undecided:
		c.add(Finding{
			Code: NotDecided, Level: Warning,
			Message: fmt.Sprintf("whether %s answers every input is not decided after %d steps", c.t.Name(), answer.Steps),
			Mend:    "a last rule with when: true settles it",
		})
	}
}

// conflicts looks for rules that may not hold together.
func (c *checker) conflicts() {
	if c.t.Hit() != rules.Unique && c.t.Hit() != rules.Any {
		return
	}
	told := map[[2]int32]bool{}
	g := &c.geometry
	for a := range g.Boxes {
		for b := a + 1; b < len(g.Boxes); b++ {
			p, q := g.Owner[a], g.Owner[b]
			if p == q || c.t.Hit() == rules.Any && g.Class[p] == g.Class[q] || told[[2]int32{p, q}] {
				continue
			}
			both, ok := meet(&g.Boxes[a], &g.Boxes[b])
			if !ok {
				continue
			}
			told[[2]int32{p, q}] = true
			if len(told) > maxOfAKind {
				return
			}
			c.conflict(p, q, &both)
		}
	}
}

// conflict tells of two rules whose boxes meet.
func (c *checker) conflict(p, q int32, both *space.Box) {
	part, ok := region.Whole(c.geometry.Axes).Within(both)
	if !ok {
		return
	}
	var d rules.Decision
	breaks := func(codes []int32) bool {
		c.t.Decide(c.t.Schema().InputAt(codes), &d)
		has := map[int32]bool{}
		for _, r := range d.Conflict {
			has[r] = true
		}
		return has[p] && has[q]
	}
	one, two := c.t.Rules()[p], c.t.Rules()[q]
	f := Finding{
		Code: Conflict, Level: Error, Places: []Place{place(two), place(one)},
		Message: fmt.Sprintf("%s (%s) and %s (%s) hold together", two.ID, two.Result, one.ID, one.Result),
		Mend:    "narrow one of them",
	}
	point := part.Point()
	if breaks(point) {
		f.Example = c.words(point, breaks)
	} else { // a clause decides, and this input does not show it
		f.Level, f.Message = Warning, "possibly "+f.Message
	}
	c.add(f)
}

// neverWins looks for rules that those in front leave nothing.
func (c *checker) neverWins() {
	if !c.one() {
		return
	}
	for r, rule := range c.t.Rules() {
		if len(c.boxesOf[r]) == 0 {
			continue
		}
		hidden, by := c.hidden(int32(r))
		if !hidden {
			continue
		}
		places := []Place{place(rule)}
		for _, h := range by {
			places = append(places, place(c.t.Rules()[h]))
		}
		message := rule.ID + " can never win: rules in front of it take every input of it"
		if len(by) == 1 {
			message = rule.ID + " can never win: " + places[1].Rule + " takes every input of it"
		}
		c.add(Finding{Code: NeverWins, Level: Warning, Places: places, Message: message, Mend: "narrow those in front, move it, or delete it"})
	}
}

// hidden says whether it is proved that a rule never wins, and which rules hide it.
func (c *checker) hidden(rule int32) (bool, []int32) {
	g := &c.geometry
	by := map[int32]bool{}
	for _, b := range c.boxesOf[rule] {
		part, ok := region.Whole(g.Axes).Within(&g.Boxes[b])
		if !ok {
			continue
		}
		if c.wins(rule, part.Point()) {
			return false, nil
		}
		var front []space.Box
		for e := range b {
			if g.Owner[e] != rule && part.Meets(&g.Boxes[e]) {
				front = append(front, g.Boxes[e])
				by[g.Owner[e]] = true
			}
		}
		free := func(codes []int32) bool { return c.wins(rule, codes) }
		if c.uncovered(front, part, free).Outcome != region.Proved {
			return false, nil
		}
	}
	var rs []int32
	for r := range c.t.Rules() {
		if by[int32(r)] {
			rs = append(rs, int32(r))
		}
	}
	return true, rs
}

func (c *checker) wins(rule int32, codes []int32) bool {
	return c.t.First(c.t.Schema().InputAt(codes), &c.scratch) == int(rule)
}

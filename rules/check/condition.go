package check

import (
	"encoding/binary"
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/region"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// conditions looks for those that are never or always true.
func (c *checker) conditions() {
	for r, rule := range c.t.Rules() {
		never, q := c.neverTrue(c.boxesOf[r])
		switch {
		case never == region.Proved:
			c.report.Wins = Refuted
			c.dead[int32(r)] = true
			c.add(Finding{
				Code: NeverTrue, Level: Error, Places: c.places([]int32{int32(r)}), Subject: rule.ID,
				Message: "the condition of " + rule.ID + " is never true", Effect: "the rule never answers",
				Mend: "mend its bounds or delete the rule",
			})
		case never == region.Undecided:
			c.report.Wins = orUndecided(c.report.Wins)
			c.unsure[int32(r)] = true
			c.add(Finding{
				Code: NotDecided, Level: Warning, Places: c.places([]int32{int32(r)}), Subject: rule.ID,
				Message: "whether the condition of " + rule.ID + " is ever true is " + q.why(c.budget),
				Effect:  "the rule may never answer", Mend: "write a worked case that it wins",
			})
		case strings.TrimSpace(rule.When) != "true" && c.everywhere(c.boxesOf[r]):
			c.add(Finding{
				Code: AlwaysTrue, Level: Warning, Places: c.places([]int32{int32(r)}), Subject: rule.ID,
				Message: "the condition of " + rule.ID + " is true for every input", Effect: "it holds whatever is given",
				Mend: "write when: true if that is meant",
			})
		}
	}
}

// neverTrue says whether no input makes any of a rule's boxes true. A box of bounds
// alone always has some.
func (c *checker) neverTrue(boxes []int32) (region.Outcome, *question) {
	var clauses []space.Box
	for _, b := range boxes {
		if len(c.geometry.Boxes[b].Literals) == 0 {
			return region.Refuted, nil
		}
		clauses = append(clauses, c.geometry.Boxes[b])
	}
	if len(clauses) == 0 {
		return region.Proved, nil
	}
	q := &question{checker: c, boxes: clauses, within: region.Whole(c.geometry.Axes), budget: c.budget}
	q.breaks = func(codes []int32) bool {
		return slices.ContainsFunc(boxes, func(b int32) bool { return c.boxHolds(&c.geometry.Boxes[b], codes) })
	}
	return q.held().Outcome, q
}

// everywhere says whether it is proved that a rule holds for every input. Of a clause
// that cannot be proved it says no: nothing is lost by that but a remark.
func (c *checker) everywhere(boxes []int32) bool {
	own := make([]space.Box, len(boxes))
	nothing := make([]int32, len(c.geometry.Axes)) // known
	for a := range nothing {
		nothing[a] = space.Missing
	}
	holds := false
	for i, b := range boxes {
		own[i] = c.geometry.Boxes[b]
		holds = holds || c.boxHolds(&own[i], nothing)
	}
	if !holds {
		return false
	}
	q := question{checker: c, boxes: own, within: region.Whole(c.geometry.Axes), budget: c.budget}
	q.breaks = func([]int32) bool { return true } // a part that is not covered settles it
	return q.uncovered().Outcome == region.Proved
}

// duplicates looks for rules that say the same as an earlier one.
func (c *checker) duplicates() {
	seen := map[string]int32{}
	var key []byte
	for r, rule := range c.t.Rules() {
		if len(c.boxesOf[r]) == 0 {
			continue
		}
		key = binary.AppendVarint(key[:0], int64(c.geometry.Class[r]))
		for _, b := range c.boxesOf[r] {
			key = appendBox(key, &c.geometry.Boxes[b], -1)
		}
		before, twice := seen[string(key)]
		if !twice {
			seen[string(key)] = int32(r)
			continue
		}
		other := c.rule(before)
		c.add(Finding{
			Code: Duplicate, Level: Warning, Places: c.places([]int32{int32(r), before}), Subject: rule.ID,
			Message: rule.ID + " holds for the same inputs as " + other.ID + " and gives the same",
			Effect:  c.twice(), Mend: "delete one of them",
		})
	}
}

// twice is what it means that two rules say the same.
func (c *checker) twice() string {
	if c.t.Hit() == rules.Collect {
		return "the same is answered twice"
	}
	return "one of them has no effect"
}

// appendBox spells a box, the dim of one axis left out.
func appendBox(key []byte, b *space.Box, without int32) []byte {
	for i := range b.Dims {
		d := &b.Dims[i]
		if d.Axis == without {
			continue
		}
		for _, v := range [...]int64{int64(d.Axis), int64(d.Lo), int64(d.Hi), int64(d.Mask), int64(d.Missing)} {
			key = binary.AppendVarint(key, v)
		}
	}
	for _, l := range b.Literals {
		key = binary.AppendVarint(append(key, 'c'), int64(l.Clause))
		key = append(key, byte(space.Of(l.Want)))
	}
	return append(key, ';')
}

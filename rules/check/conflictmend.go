package check

import (
	"fmt"
	"slices"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/example"
	"github.com/glossladder/glossladder/rules/internal/region"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// clause is a part to add to a rule's condition, which keeps another rule out.
type clause struct {
	rule int32
	text string
	lost float64 // the share of the rule's values of the fact that it gives up
}

// apart says which clause would part two rules and takes the least away.
func (c *checker) apart(p clash, f *Finding) string {
	best := clause{rule: -1}
	for _, turn := range [2][2]int32{{p.one, p.two}, {p.two, p.one}} {
		for a := range c.geometry.Axes {
			found, ok := c.without(turn[0], turn[1], int32(a))
			if ok && (best.rule < 0 || found.lost < best.lost) {
				best = found
			}
		}
	}
	same := ""
	if c.t.Hit() == rules.Any {
		same = ", or give both the same answer"
	}
	switch {
	case best.rule >= 0:
		return fmt.Sprintf("add && %s to %s%s", best.text, c.rule(best.rule).ID, same)
	case f.Input.When == "true":
		return "delete one of them" + same
	}
	return fmt.Sprintf("narrow one of them by && not (%s)%s", f.Input.When, same)
}

// without is the clause on one fact that leaves the inputs of one rule to it and
// takes them from another. It is false when the fact does not tell them apart.
func (c *checker) without(keep, narrow, axis int32) (clause, bool) {
	taken, ok := c.asked(keep, narrow, axis)
	if !ok || c.clauseReads(narrow, axis) {
		return clause{}, false
	}
	a := &c.geometry.Axes[axis]
	var below, above, rest region.Cell // what the narrowed rule keeps
	below.Lo, above.Lo, rest.Lo = 1, 1, 1
	had, stays := 0, 0
	for _, b := range c.boxesOf[narrow] {
		cell := c.cell(b, axis)
		had += size(&cell)
		low, high := region.Cell{Lo: cell.Lo, Hi: min(cell.Hi, taken.Lo-1)}, region.Cell{Lo: max(cell.Lo, taken.Hi+1), Hi: cell.Hi}
		if taken.Lo > taken.Hi { // a missing value is all that is taken
			low, high = region.Cell{Lo: cell.Lo, Hi: cell.Hi}, region.Cell{Lo: 1}
		}
		stays += size(&low) + size(&high)
		if size(&low) > 0 {
			below = region.Cell{Lo: 0, Hi: taken.Lo - 1}
		}
		if size(&high) > 0 {
			above = region.Cell{Lo: taken.Hi + 1, Hi: a.Size() - 1}
		}
		other := region.Cell{Lo: 1, Mask: cell.Mask &^ taken.Mask, Missing: cell.Missing && taken.Missing != space.True}
		stays += size(&other)
		rest.Mask, rest.Missing = rest.Mask|other.Mask, rest.Missing || other.Missing
	}
	if stays == 0 || stays == had {
		return clause{}, false
	}
	if taken.Lo > taken.Hi && size(&below) > 0 {
		below = region.Cell{Lo: 0, Hi: a.Size() - 1}
	}
	return clause{rule: narrow, text: kept(a, below, above, rest, taken), lost: float64(had-stays) / float64(had)}, true
}

// clauseReads says whether a clause of a rule reads a fact: a bound on it might then
// leave the rule nothing.
func (c *checker) clauseReads(rule, axis int32) bool {
	return slices.ContainsFunc(c.boxesOf[rule], func(b int32) bool {
		return slices.ContainsFunc(c.geometry.Boxes[b].Literals, func(l space.Literal) bool {
			return slices.Contains(c.reads(l.Clause), axis)
		})
	})
}

// kept asks for the values that a rule keeps: those below and above what is taken,
// words, and a missing value.
func kept(a *space.Axis, below, above, rest region.Cell, taken space.Dim) string {
	switch {
	case size(&below) > 0 && size(&above) > 0:
		inside := region.Cell{Lo: taken.Lo, Hi: taken.Hi}
		text := "not (" + example.Clause(a, &inside) + ")"
		if rest.Missing {
			text = "(not known(" + a.Name + ") || " + text + ")"
		}
		return text
	case size(&below) > 0:
		rest.Lo, rest.Hi = below.Lo, below.Hi
	case size(&above) > 0:
		rest.Lo, rest.Hi = above.Lo, above.Hi
	}
	return example.Clause(a, &rest)
}

// asked is what the boxes of a rule that meet another rule ask of a fact, when all of
// them ask for the same.
func (c *checker) asked(rule, other, axis int32) (space.Dim, bool) {
	var out *space.Dim
	for _, b := range c.boxesOf[rule] {
		box := &c.geometry.Boxes[b]
		if !slices.ContainsFunc(c.boxesOf[other], func(e int32) bool { return region.Together(box, &c.geometry.Boxes[e]) }) {
			continue
		}
		d := box.Dim(axis)
		if d == nil || out != nil && *d != *out {
			return space.Dim{}, false
		}
		out = d
	}
	if out == nil {
		return space.Dim{}, false
	}
	return *out, true
}

// cell is the values of a fact at which a box can hold.
func (c *checker) cell(b, axis int32) region.Cell {
	d := c.geometry.Boxes[b].Dim(axis)
	if d == nil {
		return region.Whole(c.geometry.Axes)[axis]
	}
	return region.Cell{Lo: d.Lo, Hi: d.Hi, Mask: d.Mask, Missing: d.Missing == space.True}
}

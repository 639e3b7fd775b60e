package check

import (
	"fmt"
	"strings"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/region"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// DefaultBudget is the number of steps that one question takes when asked for none.
const DefaultBudget = 50_000

// Set finds what is wrong with the tables of a set, by file and place. A budget of
// 0 is [DefaultBudget] steps a question.
func Set(set *rules.Set, budget int) []Finding {
	var out []Finding
	for _, t := range set.Tables() {
		out = append(out, Table(t, budget)...)
	}
	return sorted(out)
}

// Table finds what is wrong with one table.
func Table(t *rules.Table, budget int) []Finding {
	if budget <= 0 {
		budget = DefaultBudget
	}
	c := &checker{t: t, geometry: t.Geometry(), budget: budget}
	c.boxesOf = make([][]int32, len(t.Rules()))
	for b, r := range c.geometry.Owner {
		c.boxesOf[r] = append(c.boxesOf[r], int32(b))
	}
	c.conditions()
	c.duplicates()
	c.unusedWords()
	c.gaps()
	c.conflicts()
	c.neverWins()
	return sorted(c.found)
}

type checker struct {
	t        *rules.Table
	geometry rules.Geometry
	boxesOf  [][]int32
	budget   int
	found    []Finding
	scratch  rules.Scratch
}

func (c *checker) add(f Finding) {
	f.Table = c.t.Name()
	if len(f.Places) == 0 {
		f.Places = []Place{{File: c.t.File()}}
	}
	c.found = append(c.found, f)
}

// one says whether one rule alone gives the answer.
func (c *checker) one() bool { return c.t.Hit() == rules.First || c.t.Hit() == rules.Priority }

// conditions looks for those that are never or always true.
func (c *checker) conditions() {
	for r, rule := range c.t.Rules() {
		boxes := c.boxesOf[r]
		switch {
		case len(boxes) == 0:
			c.add(Finding{
				Code: NeverTrue, Level: Error, Places: []Place{place(rule)},
				Message: "the condition of " + rule.ID + " is never true", Mend: "mend its bounds or delete the rule",
			})
		case strings.TrimSpace(rule.When) != "true" && c.everywhere(boxes):
			c.add(Finding{
				Code: AlwaysTrue, Level: Warning, Places: []Place{place(rule)},
				Message: "the condition of " + rule.ID + " is true for every input", Mend: "write when: true if that is meant",
			})
		}
	}
}

// everywhere says whether it is proved that a rule holds for every input.
func (c *checker) everywhere(boxes []int32) bool {
	own := make([]space.Box, len(boxes))
	for i, b := range boxes {
		own[i] = c.geometry.Boxes[b]
	}
	shown := func([]int32) bool { return true } // a part that is not covered settles it
	return c.uncovered(own, region.Whole(c.geometry.Axes), shown).Outcome == region.Proved
}

// duplicates looks for rules that say the same as an earlier one.
func (c *checker) duplicates() {
	first := map[string]int{}
	for r, rule := range c.t.Rules() {
		var key strings.Builder
		fmt.Fprint(&key, c.geometry.Class[r])
		for _, b := range c.boxesOf[r] {
			fmt.Fprintf(&key, "|%v", c.geometry.Boxes[b])
		}
		if len(c.boxesOf[r]) == 0 {
			continue
		}
		before, twice := first[key.String()]
		if !twice {
			first[key.String()] = r
			continue
		}
		other := c.t.Rules()[before]
		c.add(Finding{
			Code: Duplicate, Level: Warning, Places: []Place{place(rule), place(other)},
			Message: rule.ID + " holds for the same inputs as " + other.ID + " and gives the same", Mend: "delete one of them",
		})
	}
}

// unusedWords looks for words of required results that no rule gives.
func (c *checker) unusedWords() {
	result := c.t.Result()
	for _, f := range result.Fields {
		if f.Kind != rules.Word || f.List || f.Name != result.Priority {
			continue
		}
		given := map[string]bool{}
		for _, rule := range c.t.Rules() {
			word, _ := rule.Result.Word(f.Name)
			given[word] = true
		}
		for _, w := range f.Words {
			if !given[w] {
				c.add(Finding{Code: UnusedWord, Level: Warning, Message: "no rule of " + c.t.Name() + " gives " + f.Name + " " + w})
			}
		}
	}
}

// holds decides for real whether some rule holds.
func (c *checker) holds(codes []int32) bool {
	return c.t.First(c.t.Schema().InputAt(codes), &c.scratch) >= 0
}

// meet says whether two boxes hold together somewhere, clauses left out, and where.
func meet(a, b *space.Box) (space.Box, bool) {
	var out space.Box
	i, j := 0, 0
	for i < len(a.Dims) || j < len(b.Dims) {
		switch {
		case j == len(b.Dims) || i < len(a.Dims) && a.Dims[i].Axis < b.Dims[j].Axis:
			out.Dims = append(out.Dims, a.Dims[i])
			i++
		case i == len(a.Dims) || b.Dims[j].Axis < a.Dims[i].Axis:
			out.Dims = append(out.Dims, b.Dims[j])
			j++
		default:
			d, e := a.Dims[i], b.Dims[j]
			d.Lo, d.Hi, d.Mask, d.Missing = max(d.Lo, e.Lo), min(d.Hi, e.Hi), d.Mask&e.Mask, min(d.Missing, e.Missing)
			if d.Mask == 0 && d.Lo > d.Hi && d.Missing != space.True {
				return out, false
			}
			out.Dims = append(out.Dims, d)
			i, j = i+1, j+1
		}
	}
	return out, true
}

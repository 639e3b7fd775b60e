package mutate

import (
	"cmp"
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/region"
)

// judge says whether two tables answer all of a part alike, or none of it.
func (c *comparison) judge(_ region.Region, in, open []int32) (region.Verdict, []int32) {
	if c.one {
		return c.judgeFirst(in, open)
	}
	return c.judgeAll(in, open)
}

// first are the boxes that may give a table's answer in a part, in its order; the
// last one gives it if no other does, or nothing does if sure is false.
func (c *comparison) first(side int, in, open []int32) (boxes []int32, sure bool) {
	rank := c.rank[side]
	stop := len(rank) + len(c.boxes)
	last := int32(-1)
	for _, b := range in {
		if rank[b] >= 0 && rank[b] < stop {
			stop, last = rank[b], b
		}
	}
	for _, b := range open {
		if rank[b] >= 0 && rank[b] < stop {
			boxes = append(boxes, b)
		}
	}
	slices.SortFunc(boxes, func(x, y int32) int { return cmp.Compare(rank[x], rank[y]) })
	if last >= 0 {
		boxes = append(boxes, last)
	}
	return boxes, last >= 0
}

func (c *comparison) judgeFirst(in, open []int32) (region.Verdict, []int32) {
	a, sureA := c.first(0, in, open)
	b, sureB := c.first(1, in, open)
	if slices.Equal(a, b) { // the same boxes in the same order
		return region.Safe, nil
	}
	one, singleA := c.onlyLabel(a, sureA)
	two, singleB := c.onlyLabel(b, sureB)
	if singleA && singleB {
		if one == two {
			return region.Safe, nil
		}
		return region.Broken, nil
	}
	var live []int32
	for _, x := range open {
		if slices.Contains(a, x) || slices.Contains(b, x) {
			live = append(live, x)
		}
	}
	return region.Split, live
}

// onlyLabel is the one answer that boxes can give; empty for none.
func (c *comparison) onlyLabel(boxes []int32, sure bool) (label string, only bool) {
	if len(boxes) == 0 {
		return "", true
	}
	label = c.label[boxes[0]]
	for _, b := range boxes[1:] {
		if c.label[b] != label {
			return "", false
		}
	}
	return label, sure
}

// judgeAll compares rule by rule which ones hold.
func (c *comparison) judgeAll(in, open []int32) (region.Verdict, []int32) {
	holds := [2]map[string]bool{c.holding(0, in), c.holding(1, in)}
	live, settled := c.unsettled(open, &holds)
	if settled {
		return region.Safe, nil
	}
	if c.tables[0].Hit() == rules.Collect {
		for side := range holds {
			for label := range holds[side] {
				if !holds[1-side][label] && !c.mayHold(1-side, label, open) {
					return region.Broken, nil
				}
			}
		}
		return region.Split, live
	}
	switch { // rules that quarrel give no answer, whichever they are
	case c.quarrel(holds[0]) && c.quarrel(holds[1]):
		return region.Safe, nil
	case len(open) == 0:
		return region.Broken, nil
	}
	return region.Split, open
}

// holding are the answers of a table that hold in all of a part.
func (c *comparison) holding(side int, in []int32) map[string]bool {
	out := map[string]bool{}
	for _, b := range in {
		if c.rank[side][b] >= 0 {
			out[c.label[b]] = true
		}
	}
	return out
}

// quarrel says whether rules that hold may not do so together.
func (c *comparison) quarrel(holds map[string]bool) bool {
	first := ""
	for label := range holds {
		if c.tables[0].Hit() == rules.Any {
			_, label, _ = strings.Cut(label, "\x00")
		}
		if first != "" && label != first {
			return true
		}
		first = label
	}
	return false
}

// unsettled are the open boxes of rules that may hold in one table and not in the
// other; settled says that there are no such rules.
func (c *comparison) unsettled(open []int32, holds *[2]map[string]bool) (live []int32, settled bool) {
	settled = true
	for _, b := range open {
		label := c.label[b]
		if holds[0][label] && holds[1][label] || !c.unlike(label, open, holds) {
			continue
		}
		settled = false
		live = append(live, b)
	}
	for side := range holds {
		for label := range holds[side] {
			settled = settled && holds[1-side][label]
		}
	}
	return live, settled
}

func (c *comparison) mayHold(side int, label string, open []int32) bool {
	return slices.ContainsFunc(open, func(b int32) bool { return c.label[b] == label && c.rank[side][b] >= 0 })
}

// unlike says whether a rule's open boxes, or those that hold, differ between the tables.
func (c *comparison) unlike(label string, open []int32, holds *[2]map[string]bool) bool {
	return holds[0][label] != holds[1][label] || slices.ContainsFunc(open, func(b int32) bool {
		return c.label[b] == label && (c.rank[0][b] < 0) != (c.rank[1][b] < 0)
	})
}

package promise

import (
	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/region"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// single says whether the question is about one table whose first box that holds
// wins. It can then be settled box by box, which is much cheaper.
func (q *question) single() bool {
	if len(q.tables) != 1 || q.total || !q.wanted {
		return false
	}
	hit := q.tables[0].table.Hit()
	return hit == rules.First || hit == rules.Priority
}

// covered looks, for every box of the table that gives what the condition asks, for
// an input at which it holds together with the condition and no box in front does.
func (q *question) covered(breaks func([]int32) bool) region.Answer {
	rt := q.tables[0]
	total := region.Answer{Outcome: region.Proved}
	for i := range q.condition.Boxes {
		asked := &q.condition.Boxes[i]
		part, ok := region.Whole(q.axes[:q.facts]).Within(&q.boxes[int(q.first)+i])
		if !ok {
			continue
		}
		fits := make([]bool, len(rt.geometry.Boxes)+1)
		for b, r := range rt.geometry.Owner {
			fits[b], _ = (&candidates{rules: []int32{r}}).fit(rt, asked)
		}
		none := len(rt.geometry.Boxes) // stands for no rule at all
		fits[none], _ = (&candidates{none: true}).fit(rt, asked)
		for b, fit := range fits {
			if !fit {
				continue
			}
			answer := q.free(b, part, fits, breaks, q.budget-total.Steps)
			answer.Steps += total.Steps
			if answer.Outcome == region.Refuted {
				return answer
			}
			if answer.Outcome == region.Undecided {
				total.Outcome = region.Undecided
			}
			total.Steps = answer.Steps
		}
	}
	return total
}

// free looks for an input of a part at which box b holds and no box in front that
// gives something else.
func (q *question) free(b int, part region.Region, fits []bool, breaks func([]int32) bool, budget int) region.Answer {
	boxes := q.tables[0].geometry.Boxes
	if b < len(boxes) {
		var ok bool
		if part, ok = part.Within(&boxes[b]); !ok {
			return region.Answer{Outcome: region.Proved}
		}
	}
	var front []space.Box
	for e := range b {
		if fits[e] {
			continue // where it holds the condition is met as well, and its own turn settles that
		}
		if part.Meets(&boxes[e]) {
			front = append(front, boxes[e])
		}
	}
	s := region.Search{
		Axes: q.axes[:q.facts], Boxes: front, Within: part, Budget: budget, Fewer: true, Breaks: breaks,
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

package check

import (
	"fmt"
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules/internal/region"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// question is one search over part of the space, with what stood in its way.
type question struct {
	*checker
	boxes  []space.Box
	only   []int32 // the boxes that matter, rising; nil: all
	within region.Region
	own    int32 // for winnable: the box that is to hold
	budget int
	breaks func(codes []int32) bool

	used []int32       // boxes that cover what is proved to be covered
	weak []int32       // boxes whose clauses left a part undecided, rising
	part region.Region // the first such part; nil when the steps ran out
}

// uncovered looks for an input at which none of the boxes holds.
func (q *question) uncovered() region.Answer {
	s := q.search()
	s.Fewer = true
	s.Judge = func(part region.Region, in, open []int32) (region.Verdict, []int32) {
		switch {
		case len(in) > 0:
			q.use(in)
			return region.Safe, nil
		case len(open) == 0:
			return region.Broken, nil
		}
		if all := q.covering(part, q.boxes, open, nil); len(all) > 0 {
			q.used = append(q.used, all...)
			return region.Safe, nil
		}
		return region.Split, open
	}
	return q.run(s)
}

// winnable looks for an input at which the box of own holds and none of the others
// does. It must lie in the dims of that box, so its clauses are what is left to ask.
func (q *question) winnable() region.Answer {
	own := &q.boxes[q.own]
	if len(own.Literals) == 0 {
		return q.uncovered()
	}
	s := q.search()
	s.Only = append(slices.Clone(q.only), q.own)
	s.Judge = func(part region.Region, in, open []int32) (region.Verdict, []int32) {
		some, all := true, true
		for _, l := range own.Literals {
			s, a := q.literal(part, l)
			some, all = some && s, all && a
		}
		others := slices.DeleteFunc(slices.Clone(in), func(b int32) bool { return b == q.own })
		waits := slices.DeleteFunc(slices.Clone(open), func(b int32) bool { return b == q.own })
		switch {
		case !some:
			return region.Safe, nil
		case len(others) > 0:
			q.use(others)
			return region.Safe, nil
		case len(waits) == 0 && all:
			return region.Broken, nil
		}
		if used := q.covering(part, q.boxes, waits, own.Literals); len(used) > 0 {
			q.used = append(q.used, used...)
			return region.Safe, nil
		}
		return region.Split, open
	}
	return q.run(s)
}

// use notes one of the boxes that hold everywhere in a part, one noted before if there is one.
func (q *question) use(in []int32) {
	if !slices.ContainsFunc(in, func(b int32) bool { return slices.Contains(q.used, b) }) {
		q.used = append(q.used, in[0])
	}
}

// held looks for an input at which one of the boxes holds.
func (q *question) held() region.Answer {
	s := q.search()
	s.Judge = func(_ region.Region, in, open []int32) (region.Verdict, []int32) {
		switch {
		case len(in) > 0:
			return region.Broken, nil
		case len(open) == 0:
			return region.Safe, nil
		}
		return region.Split, open
	}
	return q.run(s)
}

func (q *question) search() region.Search {
	return region.Search{
		Axes: q.geometry.Axes, Boxes: q.boxes, Only: q.only, Within: q.within, Budget: q.budget, Breaks: q.breaks,
		Literal: q.literal, Reads: q.reads, Weak: q.doubt,
	}
}

func (q *question) run(s region.Search) region.Answer {
	answer := s.Run()
	q.report.Steps += answer.Steps
	return answer
}

// doubt notes a part that is left undecided.
func (q *question) doubt(part region.Region, open []int32) {
	for _, b := range open {
		if len(q.boxes[b].Literals) > 0 && !slices.Contains(q.weak, b) {
			q.weak = append(q.weak, b)
		}
	}
	if q.part == nil && len(open) > 0 {
		q.part = part
	}
	slices.Sort(q.weak)
}

// why says what stands in the way of an answer.
func (q *question) why(steps int) string {
	if len(q.weak) == 0 {
		return fmt.Sprintf("not decided after %d steps", steps)
	}
	return "not decided: it hangs on " + strings.Join(q.texts(q.boxes, q.weak), ", ")
}

package promise

import (
	"slices"

	"github.com/glossladder/glossladder/rules/internal/cond"
	"github.com/glossladder/glossladder/rules/internal/region"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// question looks for an input at which a condition is true, if wanted, or is not; or
// one that a table leaves without an answer.
type question struct {
	*verifier
	condition cond.Condition
	wanted    bool
	tables    []*resultTable
	total     bool

	boxes   []space.Box // of the tables, then of the condition, with facts alone
	offsets []int32     // of the tables
	first   int32       // of the condition's boxes
}

func (q *question) search(breaks func([]int32) bool) region.Answer {
	for _, rt := range q.tables {
		q.offsets = append(q.offsets, int32(len(q.boxes)))
		q.boxes = append(q.boxes, rt.geometry.Boxes...)
	}
	q.first = int32(len(q.boxes))
	for i := range q.condition.Boxes {
		b := q.condition.Boxes[i]
		b.Dims = slices.DeleteFunc(slices.Clone(b.Dims), func(d space.Dim) bool { return d.Axis >= q.facts })
		q.boxes = append(q.boxes, b)
	}
	if q.single() {
		return q.covered(breaks)
	}
	facts := q.axes[:q.facts]
	s := region.Search{
		Axes: facts, Boxes: q.boxes, Within: region.Whole(facts), Budget: q.budget, Judge: q.judge, Breaks: breaks,
	}
	return s.Run()
}

func (q *question) judge(_ region.Region, in, open []int32) (region.Verdict, []int32) {
	found := make([]candidates, len(q.tables))
	for i, rt := range q.tables {
		found[i] = rt.candidates(q.offsets[i], in, open)
	}
	if q.total {
		return verdict(found[0].none, found[0].none && len(found[0].rules) == 0, true), found[0].open
	}
	var live []int32
	possible, certain := false, false
	look := func(b int32, holds bool) {
		if b < q.first {
			return
		}
		box := &q.condition.Boxes[b-q.first]
		for i, rt := range q.tables {
			if !asks(box, rt) {
				continue
			}
			some, every := found[i].fit(rt, box)
			if !some {
				return
			}
			holds = holds && every
		}
		possible, certain = true, certain || holds
		live = append(live, b)
	}
	for _, b := range in {
		look(b, true)
	}
	for _, b := range open {
		look(b, false)
	}
	live = slices.DeleteFunc(live, func(b int32) bool { return !slices.Contains(open, b) })
	for i := range found {
		live = append(live, found[i].open...)
	}
	slices.Sort(live)
	return verdict(possible, certain, q.wanted), live
}

func asks(b *space.Box, rt *resultTable) bool {
	return slices.ContainsFunc(rt.axes, func(a int32) bool { return b.Dim(a) != nil })
}

// verdict is what it means for the search that the condition may hold somewhere in
// a part, or surely holds everywhere in it.
func verdict(possible, certain, wanted bool) region.Verdict {
	switch {
	case certain && wanted, !possible && !wanted:
		return region.Broken
	case certain, !possible:
		return region.Safe
	}
	return region.Split
}

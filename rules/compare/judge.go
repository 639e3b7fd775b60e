package compare

import (
	"slices"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/region"
)

// said is what a table answers everywhere in a part. Under collect it is what is
// said that counts, not the order in which it is said.
type said struct {
	outcome rules.Outcome
	classes []int32 // rising
}

func (s said) equal(o said) bool { return s.outcome == o.outcome && slices.Equal(s.classes, o.classes) }

// look judges a part. What differs is noted, and the search told to go on.
func (f *finder) look(part region.Region, in, open []int32) (region.Verdict, []int32) {
	earlier, done := f.earlier(in, open)
	if done {
		return region.Safe, nil
	}
	says, live := f.ruled(in, open)
	switch {
	case len(live) == 0 && says[0].equal(says[1]):
		return region.Safe, nil
	case len(live)+len(earlier) > 0:
		return region.Split, merged(live, earlier)
	}
	f.found = append(f.found, finding{cells: tidy(slices.Clone(part)), says: says})
	return region.Safe, nil
}

// tidy writes cells without numbers in one way.
func tidy(cells region.Region) region.Region {
	for i := range cells {
		if c := &cells[i]; c.Lo > c.Hi {
			c.Lo, c.Hi = 1, 0
		}
	}
	return cells
}

// earlier are the open boxes whose own turn was before this one; done says that the
// whole part belonged to such a turn.
func (f *finder) earlier(in, open []int32) (boxes []int32, done bool) {
	before := func(b int32) bool { return f.differs[b] && b < f.turn }
	if slices.ContainsFunc(in, before) {
		return nil, true
	}
	for _, b := range open {
		if before(b) {
			boxes = append(boxes, b)
		}
	}
	return boxes, false
}

// ruled settles what both tables say; live are the open boxes that it still hangs on.
// When nothing hangs on anything and nothing differs, both say nothing.
func (f *finder) ruled(in, open []int32) (says [2]said, live []int32) {
	relevant := false
	settled := true
	for side := range says {
		holds, may := f.matter(side, in, open)
		relevant = relevant || !f.alike || f.anyDiffers(holds) || f.anyDiffers(may)
		var ok bool
		says[side], ok = f.settle(side, holds, may)
		settled = settled && ok
		live = merged(live, may)
	}
	switch {
	case !relevant:
		return [2]said{}, nil // both tables have the same boxes here, in the same order
	case settled:
		return says, nil
	}
	return says, live
}

// matter are the boxes of a table that hold and those that may, as far as they can
// bear on its answer.
func (f *finder) matter(side int, in, open []int32) (holds, may []int32) {
	seats := f.seats[side]
	if !first(f.hit[side]) {
		has := func(b int32) bool { return seats[b].rank >= 0 }
		return kept(in, has), kept(open, has)
	}
	best := int32(-1)
	for _, b := range in {
		if seats[b].rank >= 0 && (best < 0 || seats[b].rank < seats[best].rank) {
			best = b
		}
	}
	if best >= 0 {
		holds = []int32{best}
	}
	return holds, kept(open, func(b int32) bool {
		return seats[b].rank >= 0 && (best < 0 || seats[b].rank < seats[best].rank)
	})
}

// settle is what a table says, if that does not hang on the boxes that may hold.
func (f *finder) settle(side int, holds, may []int32) (said, bool) {
	seats := f.seats[side]
	if f.clash(side, holds) {
		return said{outcome: rules.Conflict}, true
	}
	if f.hit[side] == rules.Collect {
		out := said{}
		for _, b := range holds {
			out.outcome = rules.Answered
			out.classes = append(out.classes, seats[b].class)
		}
		slices.Sort(out.classes)
		out.classes = slices.Compact(out.classes)
		more := func(b int32) bool { return !slices.Contains(out.classes, seats[b].class) }
		return out, !slices.ContainsFunc(may, more)
	}
	if len(holds) == 0 {
		return said{}, len(may) == 0
	}
	out := said{rules.Answered, []int32{seats[holds[0]].class}}
	return out, !slices.ContainsFunc(may, func(b int32) bool {
		if first(f.hit[side]) {
			return seats[b].class != seats[holds[0]].class
		}
		return f.clash(side, []int32{holds[0], b})
	})
}

// clash says whether boxes that hold together are a conflict of the table.
func (f *finder) clash(side int, boxes []int32) bool {
	if len(boxes) == 0 {
		return false
	}
	seats := f.seats[side]
	return slices.ContainsFunc(boxes[1:], func(b int32) bool {
		switch f.hit[side] {
		case rules.Unique:
			return seats[b].rule != seats[boxes[0]].rule
		case rules.Any:
			return seats[b].own != seats[boxes[0]].own
		}
		return false
	})
}

func (j *joint) anyDiffers(boxes []int32) bool {
	return slices.ContainsFunc(boxes, func(b int32) bool { return j.differs[b] })
}

func kept(list []int32, keep func(int32) bool) []int32 {
	var out []int32
	for _, b := range list {
		if keep(b) {
			out = append(out, b)
		}
	}
	return out
}

// merged is two rising lists as one.
func merged(a, b []int32) []int32 {
	switch {
	case len(a) == 0:
		return b
	case len(b) == 0:
		return a
	}
	out := append(slices.Clone(a), b...)
	slices.Sort(out)
	return slices.Compact(out)
}

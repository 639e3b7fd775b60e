package cases

import (
	"math/bits"
	"slices"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/example"
	"github.com/glossladder/glossladder/rules/internal/region"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// findBudget is the number of steps that the search for one input takes.
const findBudget = 5_000

// finder looks for inputs that a rule of a table wins.
type finder struct {
	table *rules.Table
	g     rules.Geometry
	one   bool // the first box that holds gives the answer
	sc    rules.Scratch
	d     rules.Decision
}

func newFinder(t *rules.Table) *finder {
	return &finder{table: t, g: t.Geometry(), one: t.Hit() == rules.First || t.Hit() == rules.Priority}
}

func (f *finder) input(codes []int32) *rules.Input { return f.table.Schema().InputAt(codes) }

// wins says whether a rule gives the answer to an input, alone or with others.
func (f *finder) wins(rule int, in *rules.Input) bool {
	if f.one {
		return f.table.First(in, &f.sc) == rule
	}
	f.table.Decide(in, &f.d)
	return slices.Contains(f.d.Winners, int32(rule))
}

// quarrels says whether rules hold that may not do so together: no case expects that.
func (f *finder) quarrels(in *rules.Input) bool {
	if f.one {
		return false
	}
	f.table.Decide(in, &f.d)
	return f.d.Outcome == rules.Conflict
}

func (f *finder) holds(rule int, in *rules.Input) bool { return f.table.Holds(in, rule, &f.sc) }

// boxes are the places of a rule's boxes.
func (f *finder) boxes(rule int) []int32 {
	var out []int32
	for b, r := range f.g.Owner {
		if int(r) == rule {
			out = append(out, int32(b))
		}
	}
	return out
}

// picked is an input that a rule wins through one of its boxes, as small as it gets
// and as near to the edges of the box as that allows; nil when none was found.
func (f *finder) picked(rule int) (in *rules.Input, box int32) {
	wins := func(codes []int32) bool { return f.wins(rule, f.input(codes)) }
	for _, b := range f.boxes(rule) {
		whole, ok := region.Whole(f.g.Axes).Within(&f.g.Boxes[b])
		if !ok {
			continue
		}
		for _, part := range f.edges(whole, &f.g.Boxes[b]) {
			if point := f.search(b, part, nil, wins); point != nil {
				return f.smallest(b, point, wins), b
			}
		}
	}
	return nil, -1
}

// smallest makes an input small that a rule wins through a box. The numbers that the
// box asks for stay at its edges.
func (f *finder) smallest(box int32, point []int32, will func(codes []int32) bool) *rules.Input {
	var keep []int32
	for i := range f.g.Boxes[box].Dims {
		if a := f.g.Boxes[box].Dims[i].Axis; f.g.Axes[a].Kind == space.Number && point[a] != space.Missing {
			keep = append(keep, a)
		}
	}
	out, _ := example.Smallest(f.g.Axes, f.g.Boxes, point, keep, will)
	return f.input(out)
}

// asked are the facts of an input that a rule asks for, and one more, known or not.
func (f *finder) asked(rule int, in *rules.Input, also rules.FactID) []rules.FactID {
	var out []rules.FactID
	for _, id := range f.table.Rules()[rule].Reads {
		if in.Known(id) || id == also {
			out = append(out, id)
		}
	}
	return out
}

// edges are parts of a box: with all its numbers just inside their lower bounds, just
// inside their upper ones, and the whole.
func (f *finder) edges(whole region.Region, box *space.Box) []region.Region {
	low, high := slices.Clone(whole), slices.Clone(whole)
	for i := range box.Dims {
		d := &box.Dims[i]
		if f.g.Axes[d.Axis].Kind != space.Number || d.Lo > d.Hi || whole[d.Axis].Missing {
			continue
		}
		from, to := d.Lo, d.Hi
		if from == 0 {
			from = to
		}
		if to == f.g.Axes[d.Axis].Size()-1 {
			to = d.Lo
		}
		low[d.Axis], high[d.Axis] = only(f.g.Axes, d.Axis, from), only(f.g.Axes, d.Axis, to)
	}
	return []region.Region{low, high, whole}
}

// only is the cell of a single code.
func only(axes []space.Axis, axis, code int32) region.Cell {
	switch {
	case code == space.Missing:
		return region.Cell{Lo: 1, Missing: true}
	case axes[axis].Kind == space.Number:
		return region.Cell{Lo: code, Hi: code}
	}
	return region.Cell{Lo: 1, Mask: 1 << code}
}

// search looks through a part of a box for an input that will do, that no other rule
// takes from the rule of the box, and at which none of some more boxes holds; nil
// when none was found.
func (f *finder) search(box int32, within region.Region, more []space.Box, will func(codes []int32) bool) []int32 {
	rivals := slices.Clone(more)
	for b := range f.g.Boxes {
		if f.takes(int32(b), box) && within.Meets(&f.g.Boxes[b]) {
			rivals = append(rivals, f.g.Boxes[b])
		}
	}
	s := region.Search{
		Axes: f.g.Axes, Boxes: rivals, Within: within, Budget: findBudget, Fewer: true, Breaks: will,
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
	return s.Run().Point
}

// takes says whether box b, where it holds, keeps the rule of another box from
// giving the answer.
func (f *finder) takes(b, other int32) bool {
	rule, against := f.g.Owner[b], f.g.Owner[other]
	switch f.table.Hit() {
	case rules.First, rules.Priority:
		return rule != against && b < other
	case rules.Unique:
		return rule != against
	case rules.Any:
		return f.g.Class[rule] != f.g.Class[against]
	}
	return false
}

// beside are the codes next to what a dim lets in, the nearest to its ends first, and
// missing where that does not do.
func (f *finder) beside(d *space.Dim) []int32 {
	a := &f.g.Axes[d.Axis]
	var out []int32
	switch {
	case a.Kind == space.Number:
		if d.Lo <= d.Hi && d.Lo > 0 {
			out = append(out, d.Lo-1)
		}
		if d.Lo <= d.Hi && d.Hi < a.Size()-1 {
			out = append(out, d.Hi+1)
		}
		if d.Lo > d.Hi {
			out = append(out, a.Size()/2)
		}
	case a.Ordered && d.Mask != 0:
		first, last := int32(bits.TrailingZeros64(d.Mask)), int32(63-bits.LeadingZeros64(d.Mask))
		for k := range a.Size() {
			if d.Mask>>k&1 == 0 && (k == first-1 || k == last+1 || k > first && k < last) {
				out = append(out, k)
			}
		}
	default:
		for k := range a.Size() {
			if d.Mask>>k&1 == 0 {
				out = append(out, k)
			}
		}
	}
	if d.Missing != space.True {
		out = append(out, space.Missing)
	}
	return out
}

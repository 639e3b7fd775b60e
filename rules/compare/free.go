package compare

import (
	"slices"

	"github.com/glossladder/glossladder/rules/internal/region"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// free notes the part of a block that none of the boxes takes, unless it is proved
// that they take it all.
func (f *finder) free(block region.Region, taken []int32, says [2]said) {
	asked := make([]bool, len(block))
	for a, c := range f.whole() {
		asked[a] = block[a] != c
	}
	block, taken, some := f.trim(block, taken)
	if !some {
		return
	}
	found := finding{cells: tidy(block), except: taken, says: says, asked: asked}
	if len(taken) == 0 {
		if found.point, some = f.input(block); some {
			f.found = append(f.found, found)
		}
		return
	}
	boxes := make([]space.Box, len(taken))
	clauses := f.bounded(block)
	for i, b := range taken {
		boxes[i] = f.boxes[b]
		clauses = clauses || slices.ContainsFunc(boxes[i].Dims, func(d space.Dim) bool { return d.Axis >= f.facts })
	}
	doubt := false
	s := region.Search{
		Axes: f.axes, Boxes: boxes, Within: block, Budget: f.budget - f.steps,
		Fewer: !clauses, // a fact that is made missing could change a clause
		Judge: func(part region.Region, in, open []int32) (region.Verdict, []int32) {
			switch {
			case len(in) > 0:
				return region.Safe, nil
			case len(open) > 0:
				return region.Split, open
			}
			point, maybe := f.input(part)
			if found.point = point; point != nil {
				return region.Broken, nil
			}
			doubt = doubt || maybe
			return region.Safe, nil
		},
		Breaks: func([]int32) bool { return true }, // the judge has asked the clauses
	}
	answer := s.Run()
	f.steps += answer.Steps
	if answer.Outcome == region.Undecided {
		f.spent, doubt = true, true
	}
	if found.point != nil || doubt {
		f.found = append(f.found, found)
	}
}

// bounded says whether clauses bound a block.
func (j *joint) bounded(block region.Region) bool {
	return slices.ContainsFunc(block[j.facts:], func(c region.Cell) bool { return c.Mask != 1<<clauseValues-1 })
}

// trim takes from a block what boxes take of it as a whole slice, so that fewer of
// them have to be told apart. some is false when nothing is left.
func (f *finder) trim(block region.Region, taken []int32) (rest region.Region, left []int32, some bool) {
	rest = slices.Clone(block)
	for again := true; again; {
		again, left = false, nil
		for _, b := range taken {
			if !rest.Meets(&f.boxes[b]) {
				continue
			}
			axis, many := f.partly(rest, b)
			if axis < 0 {
				return nil, nil, false // it takes everything
			}
			if c, ok := cutOff(rest[axis], f.boxes[b].Dim(axis)); ok && !many {
				rest[axis], again = c, true
				continue
			}
			left = append(left, b)
		}
		taken = left
	}
	return rest, left, true
}

// partly is an axis on which a box lets through only some of a block, and whether
// there is more than one; -1 when there is none.
func (f *finder) partly(block region.Region, b int32) (axis int32, many bool) {
	axis = -1
	var one space.Box
	dims := f.boxes[b].Dims
	for i, d := range dims {
		if one.Dims = dims[i : i+1]; block.Inside(&one) {
			continue
		}
		if axis >= 0 {
			return axis, true
		}
		axis = d.Axis
	}
	return axis, false
}

// cutOff is a cell without what a dim lets through, if that is one cell.
func cutOff(c region.Cell, d *space.Dim) (region.Cell, bool) {
	c.Mask &^= d.Mask
	c.Missing = c.Missing && d.Missing != space.True
	if c.Lo > c.Hi || d.Lo > d.Hi || d.Hi < c.Lo || c.Hi < d.Lo {
		return c, true
	}
	switch {
	case d.Lo <= c.Lo && c.Hi <= d.Hi:
		c.Lo, c.Hi = 1, 0
	case d.Lo <= c.Lo:
		c.Lo = d.Hi + 1
	case c.Hi <= d.Hi:
		c.Hi = d.Lo - 1
	default:
		return c, false
	}
	return c, true
}

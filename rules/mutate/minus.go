package mutate

import (
	"slices"

	"github.com/glossladder/glossladder/rules/internal/region"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// maxPieces is how many pieces a region is cut into before the rest is left whole.
const maxPieces = 200

// regions are the parts of the space in which the tables may differ: where a changed
// box holds, and no box of the same rule in the other table does.
func (c *comparison) regions(changed []int32) []region.Region {
	whole := region.Whole(c.tables[0].Geometry().Axes)
	var out []region.Region
	for _, b := range changed {
		part, ok := whole.Within(&c.boxes[b])
		if !ok {
			continue
		}
		pieces := []region.Region{part}
		for o := range c.boxes {
			if !c.opposite(b, int32(o)) {
				continue
			}
			var rest []region.Region
			for _, p := range pieces {
				rest = append(rest, minus(p, &c.boxes[o])...)
			}
			if len(rest) > maxPieces {
				break
			}
			pieces = rest
		}
		out = append(out, pieces...)
	}
	return out
}

// opposite says whether box o answers in the other table as changed box b does in its
// own. A box that both tables have was changed by its place, and has none.
func (c *comparison) opposite(b, o int32) bool {
	side := 0
	if c.rank[0][b] >= 0 {
		side = 1
	}
	return c.rank[side][b] < 0 && c.rank[side][o] >= 0 && c.label[b] == c.label[o] && len(c.boxes[o].Literals) == 0
}

// minus are the parts of a region in which some dim of a box does not hold.
func minus(r region.Region, b *space.Box) []region.Region {
	r = slices.Clone(r)
	var out []region.Region
	for i := range b.Dims {
		d := &b.Dims[i]
		cell := r[d.Axis]
		for _, outside := range beside(cell, d) {
			piece := slices.Clone(r)
			piece[d.Axis] = outside
			out = append(out, piece)
		}
		cell.Lo, cell.Hi, cell.Mask = max(cell.Lo, d.Lo), min(cell.Hi, d.Hi), cell.Mask&d.Mask
		cell.Missing = cell.Missing && d.Missing == space.True
		if !some(cell) {
			return out
		}
		r[d.Axis] = cell
	}
	return out
}

// beside are the parts of a cell that a dim does not let in.
func beside(c region.Cell, d *space.Dim) []region.Cell {
	missing := c.Missing && d.Missing != space.True
	if c.Mask != 0 || c.Lo > c.Hi {
		rest := region.Cell{Lo: 1, Mask: c.Mask &^ d.Mask, Missing: missing}
		if !some(rest) {
			return nil
		}
		return []region.Cell{rest}
	}
	low, high := region.Cell{Lo: c.Lo, Hi: min(c.Hi, d.Lo-1), Missing: missing}, region.Cell{Lo: max(c.Lo, d.Hi+1), Hi: c.Hi}
	if d.Lo > d.Hi { // it lets no value in
		low, high = region.Cell{Lo: c.Lo, Hi: c.Hi, Missing: missing}, region.Cell{Lo: 1}
	}
	return slices.DeleteFunc([]region.Cell{low, high}, func(c region.Cell) bool { return !some(c) })
}

func some(c region.Cell) bool { return c.Missing || c.Mask != 0 || c.Lo <= c.Hi }

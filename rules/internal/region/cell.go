package region

import (
	"math/bits"
	"slices"

	"github.com/glossladder/glossladder/rules/internal/space"
)

// Cell is some of the values of one axis: a closed interval of codes of a number
// (none when Lo > Hi), a mask of words or of false and true, and whether a missing
// value is among them.
type Cell struct {
	Lo, Hi  int32
	Mask    uint64
	Missing bool
}

// Region is a cell for each axis: all inputs whose values lie in the cells.
type Region []Cell

// Whole is the region of every input, missing values among them.
func Whole(axes []space.Axis) Region {
	r := make(Region, len(axes))
	for i := range axes {
		r[i] = Cell{Lo: 1, Hi: 0, Missing: true}
		if axes[i].Kind == space.Number {
			r[i].Lo, r[i].Hi = 0, axes[i].Size()-1
		} else {
			r[i].Mask = 1<<axes[i].Size() - 1
		}
	}
	return r
}

// Within is the part of r in which the dims of a box hold, literals left out; ok
// is false when there is none.
func (r Region) Within(b *space.Box) (part Region, ok bool) {
	part = slices.Clone(r)
	for i := range b.Dims {
		d := &b.Dims[i]
		c := &part[d.Axis]
		c.Lo, c.Hi, c.Mask = max(c.Lo, d.Lo), min(c.Hi, d.Hi), c.Mask&d.Mask
		c.Missing = c.Missing && d.Missing == space.True
		if c.empty() {
			return nil, false
		}
	}
	return part, true
}

// Meets says whether the dims of a box hold somewhere in the region.
func (r Region) Meets(b *space.Box) bool {
	for i := range b.Dims {
		if some, _ := r[b.Dims[i].Axis].relate(&b.Dims[i]); !some {
			return false
		}
	}
	return true
}

// Has says whether an input lies in the region.
func (r Region) Has(codes []int32) bool {
	for a := range r {
		c := &r[a]
		switch code := codes[a]; {
		case code == space.Missing:
			if !c.Missing {
				return false
			}
		case c.Mask>>code&1 == 0 && (code < c.Lo || c.Hi < code):
			return false
		}
	}
	return true
}

// Inside says whether the dims of a box hold everywhere in the region, literals left out.
func (r Region) Inside(b *space.Box) bool {
	for i := range b.Dims {
		if _, all := r[b.Dims[i].Axis].relate(&b.Dims[i]); !all {
			return false
		}
	}
	return true
}

// Box is the region as a box: what lies in it, and nothing else, makes it true.
func (r Region) Box(axes []space.Axis) space.Box {
	var out space.Box
	for a := range r {
		if c := &r[a]; !c.Whole(&axes[a]) {
			d := space.Dim{Axis: int32(a), Lo: c.Lo, Hi: c.Hi, Mask: c.Mask}
			if c.Missing {
				d.Missing = space.True
			}
			out.Dims = append(out.Dims, d)
		}
	}
	return out
}

// Point is one input of the region: missing where that is allowed, else the least value.
func (r Region) Point() []int32 {
	codes := make([]int32, len(r))
	for i := range r {
		codes[i] = r[i].First()
	}
	return codes
}

func (c *Cell) known() bool { return c.Lo <= c.Hi || c.Mask != 0 }

func (c *Cell) empty() bool { return !c.Missing && !c.known() }

// First is missing if that is allowed, else the least value.
func (c *Cell) First() int32 {
	switch {
	case c.Missing:
		return space.Missing
	case c.Mask != 0:
		return int32(bits.TrailingZeros64(c.Mask))
	}
	return c.Lo
}

// Last is the greatest value, or missing.
func (c *Cell) Last() int32 {
	switch {
	case c.Mask != 0:
		return int32(63 - bits.LeadingZeros64(c.Mask))
	case c.Lo <= c.Hi:
		return c.Hi
	}
	return space.Missing
}

// relate says whether a dim holds somewhere in the cell, and everywhere in it.
func (c *Cell) relate(d *space.Dim) (some, all bool) {
	some, all = c.Mask&d.Mask != 0, c.Mask&^d.Mask == 0
	if c.Lo <= c.Hi {
		some = some || max(c.Lo, d.Lo) <= min(c.Hi, d.Hi)
		all = all && d.Lo <= c.Lo && c.Hi <= d.Hi
	}
	if c.Missing {
		some = some || d.Missing == space.True
		all = all && d.Missing == space.True
	}
	return some, all
}

package compare

import (
	"math/bits"
	"slices"

	"github.com/glossladder/glossladder/rules/internal/cond"
	"github.com/glossladder/glossladder/rules/internal/region"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// maxParts bounds how finely a region is parted to find an input of it.
const maxParts = 4000

// seeker looks for an input of a region at which its clauses come out as they must.
type seeker struct {
	*joint
	bound []int32 // the clauses whose outcome the region bounds
	read  []int32 // the facts that they read
	parts int
	room  prober
}

// input is an input of a region. some is false when it is proved that there is none;
// when there may be one and it was not found, the point is nil.
func (j *joint) input(cells region.Region) (point []int32, some bool) {
	s := seeker{joint: j}
	for i, c := range j.clauses {
		if cells[int(j.facts)+i].Mask != 1<<clauseValues-1 {
			s.bound = append(s.bound, int32(i))
			s.read = append(s.read, c.from.At(c.at).Reads...)
		}
	}
	if len(s.bound) == 0 {
		return cells[:j.facts].Point(), true
	}
	slices.Sort(s.read)
	s.read = slices.Compact(s.read)
	return s.seek(slices.Clone(cells))
}

// seek halves a part until every clause in it comes out one way.
func (s *seeker) seek(part region.Region) (point []int32, some bool) {
	if s.parts++; s.parts > maxParts {
		return nil, true
	}
	if !s.may(part) {
		return nil, false
	}
	for _, codes := range [][]int32{part.Point()[:s.facts], lasts(part[:s.facts]), s.crossed(part)} {
		if s.has(part, codes, &s.room) {
			return codes, true
		}
	}
	axis, count := int32(-1), int64(1)
	for _, a := range s.read {
		if n := values(&part[a]); n > count {
			axis, count = a, n
		}
	}
	if axis < 0 {
		return nil, false // one input, and it is none of the region's
	}
	for _, half := range halves(part[axis]) {
		smaller := slices.Clone(part)
		smaller[axis] = half
		point, maybe := s.seek(smaller)
		if point != nil {
			return point, true
		}
		some = some || maybe
	}
	return nil, some
}

// may says whether, for all that bounds tell, the clauses can come out as they must.
func (s *seeker) may(part region.Region) bool {
	at := func(axis int32) cond.Stretch {
		c := &part[axis]
		if c.Mask != 0 {
			return cond.Stretch{Lo: int32(bits.TrailingZeros64(c.Mask)), Hi: int32(63 - bits.LeadingZeros64(c.Mask)), Mask: c.Mask, Missing: c.Missing}
		}
		return cond.Stretch{Lo: c.Lo, Hi: c.Hi, Missing: c.Missing}
	}
	return !slices.ContainsFunc(s.bound, func(i int32) bool {
		c := &s.clauses[i]
		return uint64(c.from.Within(c.at, at))&part[s.facts+i].Mask == 0
	})
}

// lasts is the input of the greatest values.
func lasts(cells region.Region) []int32 {
	out := make([]int32, len(cells))
	for a := range cells {
		out[a] = cells[a].Last()
	}
	return out
}

// crossed is the input of least and greatest values by turns: what compares two facts
// comes out otherwise there.
func (s *seeker) crossed(part region.Region) []int32 {
	out := part.Point()[:s.facts]
	for i, a := range s.read {
		known := part[a]
		known.Missing = false
		if out[a] = known.Last(); i%2 == 0 && out[a] != space.Missing {
			out[a] = known.First()
		}
	}
	return out
}

// values is the number of values of a cell, a missing one among them.
func values(c *region.Cell) int64 {
	n := int64(bits.OnesCount64(c.Mask))
	if c.Lo <= c.Hi {
		n += int64(c.Hi) - int64(c.Lo) + 1
	}
	if c.Missing {
		n++
	}
	return n
}

// halves parts a cell of two values or more: missing from known, else in the middle.
func halves(c region.Cell) [2]region.Cell {
	a, b := c, c
	switch {
	case c.Missing:
		a.Missing, b = false, region.Cell{Lo: 1, Missing: true}
	case c.Mask != 0:
		a.Mask = c.Mask & -c.Mask
		b.Mask = c.Mask &^ a.Mask
	default:
		a.Hi = c.Lo + (c.Hi-c.Lo)/2
		b.Lo = a.Hi + 1
	}
	return [2]region.Cell{a, b}
}

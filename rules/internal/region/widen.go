package region

import (
	"slices"

	"github.com/glossladder/glossladder/rules/internal/space"
)

// Grow is the question which inputs around a point no box lets in.
type Grow struct {
	Axes  []space.Axis
	Avoid []space.Box

	// May says whether the clauses of a box whose dims hold at the point may come out
	// as wanted in a region. It may be nil when no box has clauses.
	May func(box int, r Region) bool
}

// Widest is a region around a point in which no box of Avoid holds. It leaves as
// many axes open as it can and makes the others as wide as they get; of several such
// regions it takes the one that names the fewest facts. The point must lie in no box.
func (g *Grow) Widest(point []int32) Region {
	w := g.start(point)
	var best Region
	fewest := 0
	for _, order := range w.orders() {
		r := w.grow(order)
		if n := r.Named(g.Axes); best == nil || n < fewest {
			best, fewest = r, n
		}
	}
	return best
}

// Named is the number of axes of which the region does not hold every value.
func (r Region) Named(axes []space.Axis) int {
	n := 0
	for a := range r {
		if !r[a].Whole(&axes[a]) {
			n++
		}
	}
	return n
}

// Whole says whether a cell holds every value of its axis, a missing one among them.
func (c *Cell) Whole(a *space.Axis) bool {
	n := int64(a.Size()) + 1
	return c.count() == n
}

// growing is the boxes around a point, each with the axes that keep it out.
type growing struct {
	*Grow
	point []int32
	apart []int // box -> number of axes on which it lies apart
	asked [][]int32
	leans []int // boxes that only their clauses keep out
}

func (g *Grow) start(point []int32) *growing {
	w := &growing{Grow: g, point: point, apart: make([]int, len(g.Avoid)), asked: make([][]int32, len(point))}
	for b := range g.Avoid {
		for i := range g.Avoid[b].Dims {
			d := &g.Avoid[b].Dims[i]
			w.asked[d.Axis] = append(w.asked[d.Axis], int32(b))
			if d.Truth(point[d.Axis]) != space.True {
				w.apart[b]++
			}
		}
		if w.apart[b] == 0 {
			w.leans = append(w.leans, b)
		}
	}
	return w
}

// out says whether clauses keep out the boxes that nothing else does.
func (w *growing) out(r Region) bool {
	return !slices.ContainsFunc(w.leans, func(b int) bool { return w.May == nil || w.May(b, r) })
}

// orders are ways to go through the axes: those that the fewest boxes ask for first,
// last, and those whose value is missing first.
func (w *growing) orders() [][]int32 {
	up := make([]int32, len(w.point))
	for a := range up {
		up[a] = int32(a)
	}
	slices.SortStableFunc(up, func(a, b int32) int { return len(w.asked[a]) - len(w.asked[b]) })
	down := slices.Clone(up)
	slices.Reverse(down)
	missing := slices.Clone(up)
	slices.SortStableFunc(missing, func(a, b int32) int {
		return int(min(w.point[a], 0) - min(w.point[b], 0))
	})
	return [][]int32{up, down, missing}
}

func (w *growing) grow(order []int32) Region {
	r := make(Region, len(w.point))
	for a, code := range w.point {
		r[a] = At(&w.Axes[a], code)
	}
	apart := slices.Clone(w.apart)
	whole := Whole(w.Axes)
	for _, a := range order {
		if len(w.blockers(r, apart, a)) > 0 {
			continue
		}
		open := slices.Clone(r)
		if open[a] = whole[a]; w.out(open) {
			w.set(r, apart, a, whole[a])
		}
	}
	for _, a := range order {
		if !r[a].Whole(&w.Axes[a]) {
			wide := slices.Clone(r)
			wide.Reach(a, w.room(r, apart, a), w.out)
			w.set(r, apart, a, wide[a])
		}
	}
	return r
}

// Reach makes the cell of an axis as wide as ok allows, within a cell that holds it.
// What ok allows of a region it must allow of every part of it.
func (r Region) Reach(axis int32, within Cell, ok func(Region) bool) {
	try := func(c Cell) bool {
		was := r[axis]
		r[axis] = c
		if ok(r) {
			return true
		}
		r[axis] = was
		return false
	}
	if try(within) {
		return
	}
	if c := r[axis]; within.Missing && !c.Missing {
		c.Missing = true
		try(c)
	}
	for rest := within.Mask &^ r[axis].Mask; rest != 0; rest &= rest - 1 {
		c := r[axis]
		c.Mask |= rest & -rest
		try(c)
	}
	if within.Lo > within.Hi {
		return
	}
	if r[axis].Lo > r[axis].Hi {
		c := r[axis]
		if c.Lo, c.Hi = within.Lo, within.Lo; !try(c) {
			if c.Lo, c.Hi = within.Hi, within.Hi; !try(c) {
				return
			}
		}
	}
	for step := within.Hi - within.Lo + 1; step > 0; step /= 2 {
		c := r[axis]
		if c.Lo-step >= within.Lo {
			c.Lo -= step
			try(c)
		}
		c = r[axis]
		if c.Hi+step <= within.Hi {
			c.Hi += step
			try(c)
		}
	}
}

// At is the cell of one value.
func At(a *space.Axis, code int32) Cell {
	switch {
	case code == space.Missing:
		return Cell{Lo: 1, Missing: true}
	case a.Kind == space.Number:
		return Cell{Lo: code, Hi: code}
	}
	return Cell{Lo: 1, Mask: 1 << code}
}

// blockers are the dims on an axis of the boxes that only this axis keeps out.
func (w *growing) blockers(r Region, apart []int, axis int32) []*space.Dim {
	var out []*space.Dim
	for _, b := range w.asked[axis] {
		if apart[b] != 1 {
			continue
		}
		d := w.Avoid[b].Dim(axis)
		if some, _ := r[axis].relate(d); !some {
			out = append(out, d)
		}
	}
	return out
}

// set gives an axis its cell and counts anew what keeps each box out.
func (w *growing) set(r Region, apart []int, axis int32, c Cell) {
	for _, b := range w.asked[axis] {
		d := w.Avoid[b].Dim(axis)
		before, _ := r[axis].relate(d)
		if after, _ := c.relate(d); after && !before {
			apart[b]--
		}
	}
	r[axis] = c
}

// room is the widest cell around the point's value that no blocker lets in.
func (w *growing) room(r Region, apart []int, axis int32) Cell {
	whole := Whole(w.Axes)[axis]
	dims := w.blockers(r, apart, axis)
	for _, d := range dims {
		whole.Mask &^= d.Mask
		whole.Missing = whole.Missing && d.Missing != space.True
	}
	if w.Axes[axis].Kind == space.Number {
		whole.Lo, whole.Hi = free(dims, w.point[axis], whole.Hi)
	}
	return whole
}

// free is the stretch of codes around a value that no dim lets in; around a missing
// value the longest one.
func free(dims []*space.Dim, value, last int32) (lo, hi int32) {
	taken := make([]space.Span, 0, len(dims))
	for _, d := range dims {
		if d.Lo <= d.Hi {
			taken = append(taken, space.Span{Lo: d.Lo, Hi: d.Hi})
		}
	}
	slices.SortFunc(taken, func(a, b space.Span) int { return int(a.Lo - b.Lo) })
	best := space.Span{Lo: 1, Hi: 0}
	from := int32(0)
	offer := func(to int32) {
		s := space.Span{Lo: from, Hi: to}
		if s.Lo > s.Hi {
			return
		}
		if value == space.Missing && s.Hi-s.Lo > best.Hi-best.Lo || s.Lo <= value && value <= s.Hi {
			best = s
		}
	}
	for _, t := range taken {
		offer(t.Lo - 1)
		from = max(from, t.Hi+1)
	}
	offer(last)
	return best.Lo, best.Hi
}

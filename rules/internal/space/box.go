package space

import "slices"

// Dim is what a box asks of one axis: a closed interval for a number, a mask for
// words and flags, and what holds when the value is missing.
type Dim struct {
	Axis    int32
	Lo, Hi  int32  // of a number; Lo > Hi lets no value in
	Mask    uint64 // of words and flags
	Missing Truth
}

// Truth says what the dim makes of a code.
func (d *Dim) Truth(code int32) Truth {
	if code == Missing {
		return d.Missing
	}
	return Of(d.Has(code))
}

// Has reports whether a given code is let in.
func (d *Dim) Has(code int32) bool {
	if d.Mask != 0 {
		return d.Mask>>code&1 == 1
	}
	return d.Lo <= code && code <= d.Hi
}

// Literal is a clause that must come out as Want.
type Literal struct {
	Clause int32
	Want   bool
}

// Box is one conjunction: every dim and every literal must hold. Dims are sorted
// by axis and name each axis at most once; an axis left out is not asked.
type Box struct {
	Dims     []Dim
	Literals []Literal
}

// Dim is the box's demand on an axis, nil when there is none.
func (b *Box) Dim(axis int32) *Dim {
	i, ok := slices.BinarySearchFunc(b.Dims, axis, func(d Dim, a int32) int { return int(d.Axis - a) })
	if !ok {
		return nil
	}
	return &b.Dims[i]
}

// Truth evaluates the dims of a box, literals left out.
func (b *Box) Truth(codes []int32) Truth {
	t := True
	for i := range b.Dims {
		t = min(t, b.Dims[i].Truth(codes[b.Dims[i].Axis]))
		if t == False {
			break
		}
	}
	return t
}

// Covers reports whether b is at least as true as o everywhere, in all three values.
func (b *Box) Covers(o *Box) bool {
	for i := range b.Dims {
		d := &b.Dims[i]
		e := o.Dim(d.Axis)
		if e == nil || !d.covers(e) {
			return false
		}
	}
	for _, l := range b.Literals {
		if !slices.Contains(o.Literals, l) {
			return false
		}
	}
	return true
}

func (d *Dim) covers(e *Dim) bool {
	if d.Missing < e.Missing {
		return false
	}
	if d.Mask != 0 || e.Mask != 0 {
		return e.Mask&^d.Mask == 0
	}
	return e.Lo > e.Hi || d.Lo <= e.Lo && e.Hi <= d.Hi
}

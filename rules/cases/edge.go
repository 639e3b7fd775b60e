package cases

import (
	"slices"

	"github.com/glossladder/glossladder/rules/internal/space"
)

// edge is a place at which a box of a rule turns, whether or not inputs reach it.
type edge struct {
	axis              int32
	in, out           []int32 // codes that will do, and that will not
	knownIn, knownOut bool    // the codes stand for every known value
}

// edgesOf are the edges of all boxes of a rule, fact by fact, each once.
func (f *finder) edgesOf(rule int) []edge {
	var out []edge
	add := func(e edge) {
		twice := slices.ContainsFunc(out, func(o edge) bool {
			return o.axis == e.axis && slices.Equal(o.in, e.in) && slices.Equal(o.out, e.out)
		})
		if len(e.in) > 0 && len(e.out) > 0 && !twice {
			out = append(out, e)
		}
	}
	for _, b := range f.boxes(rule) {
		for i := range f.g.Boxes[b].Dims {
			d := &f.g.Boxes[b].Dims[i]
			if f.g.Axes[d.Axis].Kind == space.Number {
				numberEdges(d, f.g.Axes[d.Axis].Size()-1, add)
			} else {
				wordEdges(d, &f.g.Axes[d.Axis], add)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b edge) int { return int(a.axis - b.axis) })
	return out
}

func numberEdges(d *space.Dim, last int32, add func(edge)) {
	anything := []int32{0, last / 2, last}
	switch {
	case d.Lo > d.Hi:
		add(edge{axis: d.Axis, in: []int32{space.Missing}, out: anything, knownOut: true})
	case d.Lo == 0 && d.Hi == last && d.Missing != space.True:
		add(edge{axis: d.Axis, in: anything, out: []int32{space.Missing}, knownIn: true})
	}
	if d.Lo > 0 && d.Lo <= d.Hi {
		add(edge{axis: d.Axis, in: []int32{d.Lo}, out: []int32{d.Lo - 1}})
	}
	if d.Hi < last && d.Lo <= d.Hi {
		add(edge{axis: d.Axis, in: []int32{d.Hi}, out: []int32{d.Hi + 1}})
	}
}

func wordEdges(d *space.Dim, a *space.Axis, add func(edge)) {
	var in, out []int32
	for k := range a.Size() {
		if d.Mask>>k&1 == 1 {
			in = append(in, k)
		} else {
			out = append(out, k)
		}
	}
	switch {
	case len(in) == 0:
		add(edge{axis: d.Axis, in: []int32{space.Missing}, out: out, knownOut: true})
	case len(out) == 0 && d.Missing != space.True:
		add(edge{axis: d.Axis, in: in, out: []int32{space.Missing}, knownIn: true})
	case !a.Ordered:
		add(edge{axis: d.Axis, in: in, out: out})
	default:
		for k := range a.Size() - 1 {
			switch here, next := d.Mask>>k&1, d.Mask>>(k+1)&1; {
			case here > next:
				add(edge{axis: d.Axis, in: []int32{k}, out: []int32{k + 1}})
			case here < next:
				add(edge{axis: d.Axis, in: []int32{k + 1}, out: []int32{k}})
			}
		}
	}
}

package region

import (
	"iter"
	"math/bits"
	"slices"
	"sort"

	"github.com/glossladder/glossladder/rules/internal/space"
)

// Meetings finds the boxes that hold together with a given one somewhere, all at
// once: on each axis by a bitset, bit b for box b. It is immutable once made, and
// safe for concurrent use.
type Meetings struct {
	boxes []space.Box
	words int
	axes  []meetingAxis
	loose bool // some axis has too many ends for a row each
}

// meetingAxis is the bitsets of one axis, a box that does not ask for it in all of them.
type meetingAxis struct {
	los, his []int32    // of a number: the ends of boxes, rising; the first and the last of each group
	upTo     [][]uint64 // boxes whose lower end is in the group of los[i] or below
	from     [][]uint64 // boxes whose upper end is in the group of his[i] or above
	code     [][]uint64 // of words and flags: boxes that let the code in
	missing  []uint64   // boxes that hold while the value is missing
	free     []uint64   // boxes that do not ask
}

// maxRows bounds the rows of one axis. Past it, neighbouring ends share a row, and
// each pair is looked at once more.
const maxRows = 1024

// NewMeetings prepares to ask about boxes, which it keeps.
func NewMeetings(axes []space.Axis, boxes []space.Box) *Meetings {
	m := &Meetings{boxes: boxes, words: (len(boxes) + 63) / 64, axes: make([]meetingAxis, len(axes))}
	asking := make([][]int32, len(axes))
	for b := range boxes {
		for i := range boxes[b].Dims {
			a := boxes[b].Dims[i].Axis
			asking[a] = append(asking[a], int32(b))
		}
	}
	for a, bs := range asking {
		if len(bs) > 0 {
			m.axes[a] = m.axis(int32(a), &axes[a], bs)
		}
	}
	return m
}

func (m *Meetings) axis(axis int32, a *space.Axis, asking []int32) meetingAxis {
	out := meetingAxis{free: m.row(nil)}
	for b := range m.boxes {
		set(out.free, int32(b))
	}
	for _, b := range asking {
		unset(out.free, b)
	}
	out.missing = m.row(out.free)
	for _, b := range asking {
		if m.boxes[b].Dim(axis).Missing == space.True {
			set(out.missing, b)
		}
	}
	if a.Kind != space.Number {
		for k := range a.Size() {
			row := m.row(out.free)
			for _, b := range asking {
				if m.boxes[b].Dim(axis).Mask>>k&1 == 1 {
					set(row, b)
				}
			}
			out.code = append(out.code, row)
		}
		return out
	}
	m.ends(&out, axis, asking)
	return out
}

// ends sorts the boxes of a number by their ends.
func (m *Meetings) ends(out *meetingAxis, axis int32, asking []int32) {
	valued := slices.DeleteFunc(slices.Clone(asking), func(b int32) bool {
		d := m.boxes[b].Dim(axis)
		return d.Lo > d.Hi
	})
	lo := func(b int32) int32 { return m.boxes[b].Dim(axis).Lo }
	hi := func(b int32) int32 { return m.boxes[b].Dim(axis).Hi }
	slices.SortFunc(valued, func(a, b int32) int { return int(lo(a)) - int(lo(b)) })
	out.los, out.upTo = m.stack(out.free, valued, lo)
	slices.SortFunc(valued, func(a, b int32) int { return int(hi(b)) - int(hi(a)) })
	out.his, out.from = m.stack(out.free, valued, hi)
	slices.Reverse(out.his)
	slices.Reverse(out.from)
}

// stack makes rows that each hold one more group of boxes than the row before.
func (m *Meetings) stack(row []uint64, boxes []int32, end func(b int32) int32) (ends []int32, rows [][]uint64) {
	different := 0
	for i, b := range boxes {
		if i == 0 || end(b) != end(boxes[i-1]) {
			different++
		}
	}
	each := (different + maxRows - 1) / maxRows
	m.loose = m.loose || each > 1
	n := 0
	for i, b := range boxes {
		if i == 0 || end(b) != end(boxes[i-1]) {
			if n%each == 0 {
				row = m.row(row)
				ends, rows = append(ends, end(b)), append(rows, row)
			}
			n++
		}
		set(row, b)
	}
	return ends, rows
}

// row is a bitset of its own, with the bits of another.
func (m *Meetings) row(like []uint64) []uint64 {
	out := make([]uint64, m.words)
	copy(out, like)
	return out
}

// With are the boxes whose dims hold together with those of b somewhere. Literals
// are left out. The bits are written to out, which is made when it is too short.
func (m *Meetings) With(b *space.Box, out []uint64) []uint64 {
	if len(out) != m.words {
		out = make([]uint64, m.words)
	}
	for i := range out {
		out[i] = ^uint64(0)
	}
	if n := len(m.boxes) % 64; n != 0 {
		out[m.words-1] = 1<<n - 1
	}
	for i := range b.Dims {
		d := &b.Dims[i]
		if a := &m.axes[d.Axis]; a.free != nil {
			a.narrow(d, out)
		}
	}
	if m.loose {
		for e := range Bits(out) {
			if !Together(b, &m.boxes[e]) {
				unset(out, e)
			}
		}
	}
	return out
}

// Around are the boxes without literals that hold wherever the dims of b do, b itself
// among them if it has no literals. The bits are written to out, as by With.
func (m *Meetings) Around(b *space.Box, out []uint64) []uint64 {
	out = m.With(b, out)
	for a := range m.axes {
		if m.axes[a].free != nil && b.Dim(int32(a)) == nil {
			for w, free := range m.axes[a].free {
				out[w] &= free
			}
		}
	}
	for e := range Bits(out) {
		if len(m.boxes[e].Literals) > 0 || !around(&m.boxes[e], b) {
			unset(out, e)
		}
	}
	return out
}

// Bits are the bits of a bitset, rising.
func Bits(row []uint64) iter.Seq[int32] {
	return func(yield func(int32) bool) {
		for w, word := range row {
			for ; word != 0; word &= word - 1 {
				if !yield(int32(w*64 + bits.TrailingZeros64(word))) {
					return
				}
			}
		}
	}
}

// Together says whether the dims of two boxes hold together somewhere.
func Together(a, b *space.Box) bool {
	for i, j := 0, 0; i < len(a.Dims) && j < len(b.Dims); {
		d, e := &a.Dims[i], &b.Dims[j]
		switch {
		case d.Axis < e.Axis:
			i++
		case d.Axis > e.Axis:
			j++
		default:
			if d.Mask&e.Mask == 0 && max(d.Lo, e.Lo) > min(d.Hi, e.Hi) && min(d.Missing, e.Missing) != space.True {
				return false
			}
			i, j = i+1, j+1
		}
	}
	return true
}

// around says whether the dims of e hold wherever those of b do.
func around(e, b *space.Box) bool {
	for i := range e.Dims {
		d := &e.Dims[i]
		asked := b.Dim(d.Axis)
		if asked == nil {
			return false
		}
		c := Cell{Lo: asked.Lo, Hi: asked.Hi, Mask: asked.Mask, Missing: asked.Missing == space.True}
		if _, all := c.relate(d); !all {
			return false
		}
	}
	return true
}

// narrow keeps the boxes that hold where a dim does.
func (a *meetingAxis) narrow(d *space.Dim, out []uint64) {
	rows := make([][]uint64, 0, 8)
	if d.Missing == space.True {
		rows = append(rows, a.missing)
	}
	for k, row := range a.code {
		if d.Mask>>k&1 == 1 {
			rows = append(rows, row)
		}
	}
	upTo, from := a.free, a.free
	if d.Lo <= d.Hi && a.code == nil {
		if i := sort.Search(len(a.los), func(i int) bool { return a.los[i] > d.Hi }); i > 0 {
			upTo = a.upTo[i-1]
		}
		if i := sort.Search(len(a.his), func(i int) bool { return a.his[i] >= d.Lo }); i < len(a.his) {
			from = a.from[i]
		}
	}
	for w := range out {
		some := upTo[w] & from[w]
		for _, row := range rows {
			some |= row[w]
		}
		out[w] &= some
	}
}

func set(row []uint64, b int32) { row[b/64] |= 1 << (b % 64) }

func unset(row []uint64, b int32) { row[b/64] &^= 1 << (b % 64) }

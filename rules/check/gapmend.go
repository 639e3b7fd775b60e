package check

import (
	"fmt"
	"math/bits"
	"strconv"
	"strings"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/example"
	"github.com/glossladder/glossladder/rules/internal/region"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// neighbour is the rule that lies nearest to a gap.
type neighbour struct {
	rule     int32
	old, new string // a bound of it, and how it would close the gap; empty when no single bound does
	moved    float64
}

func (n neighbour) says(c *checker) string {
	text := c.rule(n.rule).ID + " (" + c.rule(n.rule).Result.String() + ") reach there with " + n.new
	if n.old != "" {
		text += " in place of " + n.old
	}
	return text
}

// nearest is the rule whose bound on one fact, moved the least, would close a gap
// and change no other answer; without one, a rule that asks for the fewest facts in
// another way.
func (c *checker) nearest(part region.Region) neighbour {
	best := neighbour{}
	fewest := len(part) + 1
	for b := range c.geometry.Boxes {
		box := &c.geometry.Boxes[b]
		short := c.short(part, box)
		n := neighbour{rule: c.geometry.Owner[b]}
		closes := len(short) == 1 && len(box.Literals) == 0 && c.reach(&n, part, int32(b), short[0])
		switch {
		case closes && (best.new == "" || n.moved < best.moved):
			best = n
		case best.new == "" && len(short) < fewest:
			best, fewest = neighbour{rule: n.rule}, len(short)
		}
	}
	return best
}

// short are the axes on which a box does not let in all of a region.
func (c *checker) short(part region.Region, b *space.Box) []int32 {
	var out []int32
	for i := range b.Dims {
		if one := (space.Box{Dims: b.Dims[i : i+1]}); !part.Inside(&one) {
			out = append(out, b.Dims[i].Axis)
		}
	}
	return out
}

// reach moves the bound of a box on one axis so far that it takes in a region. It is
// false when the values do not join, or when another rule's answers would change.
func (c *checker) reach(n *neighbour, part region.Region, b, axis int32) bool {
	a := &c.geometry.Axes[axis]
	box := &c.geometry.Boxes[b]
	dim := box.Dim(axis)
	cell := part[axis]
	old := region.Cell{Lo: dim.Lo, Hi: dim.Hi, Mask: dim.Mask, Missing: dim.Missing == space.True}
	wide := region.Cell{Lo: old.Lo, Hi: old.Hi, Mask: old.Mask | cell.Mask, Missing: old.Missing || cell.Missing}
	switch {
	case cell.Lo > cell.Hi:
	case old.Lo > old.Hi:
		wide.Lo, wide.Hi = cell.Lo, cell.Hi
	case cell.Lo > old.Hi+1 || cell.Hi < old.Lo-1:
		return false
	default:
		wide.Lo, wide.Hi = min(old.Lo, cell.Lo), max(old.Hi, cell.Hi)
	}
	for _, piece := range added(old, wide) {
		if c.changes(b, axis, piece) {
			return false
		}
	}
	n.new = example.Clause(a, &wide)
	if n.new == "" || wide.Whole(a) {
		n.new = "no bound on " + a.Name
	}
	n.old = example.Clause(a, &old)
	n.moved = float64(size(&wide)-size(&old)) / float64(a.Size()+1)
	return true
}

// added are the values that a wider cell has over an old one, each piece a cell.
func added(old, wide region.Cell) []region.Cell {
	rest := region.Cell{Lo: 1, Mask: wide.Mask &^ old.Mask, Missing: wide.Missing && !old.Missing}
	out := []region.Cell{rest}
	switch {
	case wide.Lo > wide.Hi:
	case old.Lo > old.Hi:
		out = append(out, region.Cell{Lo: wide.Lo, Hi: wide.Hi})
	default:
		out = append(out, region.Cell{Lo: wide.Lo, Hi: old.Lo - 1}, region.Cell{Lo: old.Hi + 1, Hi: wide.Hi})
	}
	return out
}

// changes says whether a box that let in more of an axis would meet a rule whose
// answer it could take or dispute.
func (c *checker) changes(b, axis int32, piece region.Cell) bool {
	if size(&piece) == 0 {
		return false
	}
	grown := space.Box{Dims: append([]space.Dim(nil), c.geometry.Boxes[b].Dims...)}
	d := grown.Dim(axis)
	d.Lo, d.Hi, d.Mask, d.Missing = piece.Lo, piece.Hi, piece.Mask, space.False
	if piece.Missing {
		d.Missing = space.True
	}
	own := c.geometry.Owner[b]
	c.row = c.meetings.With(&grown, c.row)
	for e := range region.Bits(c.row) {
		r := c.geometry.Owner[e]
		if r == own || c.first() && e < b {
			continue
		}
		if c.t.Hit() == rules.Unique || c.geometry.Class[r] != c.geometry.Class[own] {
			return true
		}
	}
	return false
}

func size(c *region.Cell) int {
	n := bits.OnesCount64(c.Mask)
	if c.Lo <= c.Hi {
		n += int(c.Hi-c.Lo) + 1
	}
	if c.Missing {
		n++
	}
	return n
}

// stub is a rule for a region as a file has it, with the answer of another rule to
// begin with.
func (c *checker) stub(part region.Region, like int32) string {
	return fmt.Sprintf("- id: %s\n  when: %s\n  then: %s\n  because: Say why.\n",
		c.freeID(), strconv.Quote(example.Condition(c.geometry.Axes, part)), answer(c.rule(like).Result))
}

// freeID is an id that no rule of the table has.
func (c *checker) freeID() string {
	id := "name-me"
	for n := 2; ; n++ {
		if _, taken := c.t.Rule(id); !taken {
			return id
		}
		id = fmt.Sprintf("name-me-%d", n)
	}
}

// answer is a result as a file has it.
func answer(r rules.Result) string {
	var parts []string
	for _, f := range r.Fields() {
		text := f.Value
		switch {
		case f.Field.List:
			words := r.Words(f.Field.Name)
			quoted := make([]string, len(words))
			for i, w := range words {
				quoted[i] = strconv.Quote(w)
			}
			text = "[" + strings.Join(quoted, ", ") + "]"
		case f.Field.Kind == rules.Text || f.Field.Kind == rules.Word:
			text = strconv.Quote(text)
		}
		parts = append(parts, f.Field.Name+": "+text)
	}
	return "{" + strings.Join(parts, ", ") + "}"
}

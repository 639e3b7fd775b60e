package mutate

import (
	"cmp"
	"encoding/binary"
	"math/bits"
	"slices"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/region"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// comparison looks for an input that two tables of the same facts answer
// differently: by other rules, or with other results.
type comparison struct {
	tables [2]*rules.Table
	boxes  []space.Box // of both tables, those that both have once
	label  []string    // of each box: its rule and what that answers
	rank   [2][]int    // the box's place in each table, -1 where it is not in it
	one    bool        // the first box that holds gives the answer

	d [2]rules.Decision
	s [2]rules.Scratch
}

func compare(a, b *rules.Table) *comparison {
	return &comparison{tables: [2]*rules.Table{a, b}, one: a.Hit() == rules.First || a.Hit() == rules.Priority}
}

// unite puts the boxes of both tables together.
func (c *comparison) unite() {
	places := map[string][]int{}
	for side, t := range c.tables {
		g := t.Geometry()
		used := map[string]int{}
		for i := range g.Boxes {
			box := certain(&g.Boxes[i])
			r := &t.Rules()[g.Owner[i]]
			label := r.ID + "\x00" + r.Result.String()
			key := label + boxKey(&g, &box)
			n := used[key]
			used[key]++
			if n == len(places[key]) {
				places[key] = append(places[key], len(c.boxes))
				c.boxes, c.label = append(c.boxes, box), append(c.label, label)
				c.rank[0], c.rank[1] = append(c.rank[0], -1), append(c.rank[1], -1)
			}
			c.rank[side][places[key][n]] = i
		}
	}
}

// certain is a box that does not tell what is false from what is not decided: neither
// lets a rule answer.
func certain(b *space.Box) space.Box {
	out := space.Box{Dims: slices.Clone(b.Dims), Literals: b.Literals}
	for i := range out.Dims {
		if out.Dims[i].Missing == space.Unknown {
			out.Dims[i].Missing = space.False
		}
	}
	return out
}

// boxKey tells boxes apart; clauses by their text, since tables number them apart.
func boxKey(g *rules.Geometry, b *space.Box) string {
	key := []byte{}
	for i := range b.Dims {
		d := &b.Dims[i]
		for _, n := range [...]uint64{uint64(d.Axis), uint64(d.Lo), uint64(d.Hi), d.Mask, uint64(d.Missing)} {
			key = binary.AppendUvarint(key, n)
		}
	}
	for _, l := range b.Literals {
		key = append(key, " "+g.Clauses.At(l.Clause).Says(l.Want)...)
	}
	return string(key)
}

// differ says for real whether the tables answer an input differently.
func (c *comparison) differ(in *rules.Input) bool {
	a, b := c.tables[0], c.tables[1]
	if c.one {
		x, y := a.First(in, &c.s[0]), b.First(in, &c.s[1])
		if x < 0 || y < 0 {
			return x != y
		}
		return !sameRule(&a.Rules()[x], &b.Rules()[y])
	}
	a.Decide(in, &c.d[0])
	b.Decide(in, &c.d[1])
	return c.d[0].Outcome != c.d[1].Outcome || !slices.EqualFunc(c.d[0].Winners, c.d[1].Winners, func(x, y int32) bool {
		return sameRule(&a.Rules()[x], &b.Rules()[y])
	})
}

func sameRule(a, b *rules.Rule) bool { return a.ID == b.ID && a.Result.Equal(b.Result) }

// search proves that the tables answer every input alike, or finds one that they do
// not. They can only differ where a changed box holds.
func (c *comparison) search(near []*rules.Input, budget int) region.Answer {
	c.unite()
	axes := c.tables[0].Geometry().Axes
	breaks := func(codes []int32) bool { return c.differ(c.tables[0].Schema().InputAt(codes)) }
	changed := c.changed()
	if point := c.nearby(near, changed); point != nil {
		return region.Answer{Outcome: region.Refuted, Point: point}
	}
	total := region.Answer{Outcome: region.Proved}
	for _, within := range c.regions(changed) {
		s := region.Search{
			Axes: axes, Boxes: c.boxes, Within: within, Budget: budget - total.Steps, Judge: c.judge, Breaks: breaks,
		}
		answer := s.Run()
		answer.Steps += total.Steps
		if answer.Outcome == region.Refuted {
			return answer
		}
		if answer.Outcome == region.Undecided {
			total.Outcome = region.Undecided
		}
		total.Steps = answer.Steps
	}
	return total
}

// nearby moves known inputs into the changed boxes, since what is true of an input
// that means something is as a rule true of the one beside it.
func (c *comparison) nearby(near []*rules.Input, changed []int32) []int32 {
	schema := c.tables[0].Schema()
	for _, b := range changed {
		for _, from := range near {
			codes := from.Codes()
			for i := range c.boxes[b].Dims {
				d := &c.boxes[b].Dims[i]
				codes[d.Axis] = into(d, codes[d.Axis])
			}
			if in := schema.InputAt(codes); c.differ(in) {
				return codes
			}
		}
	}
	return nil
}

// into is the code that a dim lets in and that lies nearest to another.
func into(d *space.Dim, code int32) int32 {
	switch {
	case d.Truth(code) == space.True:
		return code
	case d.Mask != 0:
		return int32(bits.TrailingZeros64(d.Mask))
	case d.Lo <= d.Hi:
		return min(max(code, d.Lo), d.Hi)
	}
	return space.Missing
}

// changed are the boxes that only one table has, and those that stand in another order.
func (c *comparison) changed() []int32 {
	var shared [2][]int32
	var out []int32
	for b := range c.boxes {
		if c.rank[0][b] < 0 || c.rank[1][b] < 0 {
			out = append(out, int32(b))
			continue
		}
		shared[0] = append(shared[0], int32(b))
	}
	shared[1] = slices.Clone(shared[0])
	for side := range shared {
		slices.SortFunc(shared[side], func(x, y int32) int { return cmp.Compare(c.rank[side][x], c.rank[side][y]) })
	}
	for i, b := range shared[0] {
		if c.one && b != shared[1][i] {
			out = append(out, b)
		}
	}
	return out
}

package compare

import (
	"cmp"
	"slices"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/cond"
	"github.com/glossladder/glossladder/rules/internal/region"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// joint is two tables in one space.
type joint struct {
	tables [2]*rules.Table
	hit    [2]rules.Hit
	alike  bool // boxes that both have do the same in both, as far as their order is the same

	axes    []space.Axis // the facts, then the clauses
	facts   int32
	clauses []clause
	byText  map[string]int32 // clause -> place in clauses

	boxes   []space.Box // with literals as dims on the clauses' axes
	seats   [2][]seat   // box -> its seat in each table
	changed []int32     // boxes that only one table has, or that changed their order, rising
	differs []bool      // box -> is it among changed

	results []rules.Result // class -> one result of it
	ofRule  [2][]int32     // rule -> class
}

// seat is what a box is in one table.
type seat struct {
	rank  int32 // its place in the order in which boxes win; -1 when the table has it not
	rule  int32
	class int32 // of its result; results that differ in wording alone share one
	own   int32 // the table's own class, for conflicts
}

// clause is a clause of one of the tables, or of both.
type clause struct {
	from *cond.Clauses
	at   int32
}

// Values of a clause's axis are space.False, space.Unknown and space.True.
const clauseValues = 3

func join(a, b *rules.Table) *joint {
	j := &joint{tables: [2]*rules.Table{a, b}, hit: [2]rules.Hit{a.Hit(), b.Hit()}, byText: map[string]int32{}}
	geometry := [2]rules.Geometry{a.Geometry(), b.Geometry()}
	j.alike = a.Hit() == b.Hit() || first(a.Hit()) && first(b.Hit())
	j.facts = int32(len(geometry[0].Axes))
	j.axes = geometry[0].Axes[:j.facts:j.facts]
	j.ofRule = j.classes(&geometry)
	own := [2][]space.Box{j.own(&geometry[0]), j.own(&geometry[1])}
	twins := j.twins(&geometry, &own)
	j.boxes = make([]space.Box, 0, len(own[0])+1)
	for side := range j.seats {
		j.seats[side] = make([]seat, 0, len(own[0])+1)
	}
	for side := range own {
		g := &geometry[side]
		for i := range own[side] {
			twin := twins[side][i]
			rule := g.Owner[i]
			place := seat{rank: int32(i), rule: rule, class: j.ofRule[side][rule], own: g.Class[rule]}
			if side == 1 && twin >= 0 { // the boxes of a stand in front, in their own order
				j.seats[1][twin] = place
				continue
			}
			j.boxes = append(j.boxes, own[side][i])
			j.seats[side] = append(j.seats[side], place)
			j.seats[1-side] = append(j.seats[1-side], seat{rank: -1})
		}
	}
	j.findChanged()
	return j
}

// first says whether the first box that holds gives the answer.
func first(h rules.Hit) bool { return h == rules.First || h == rules.Priority }

// own are a table's boxes with their literals as dims.
func (j *joint) own(g *rules.Geometry) []space.Box {
	out := slices.Clone(g.Boxes)
	for i := range out {
		b := &out[i]
		if len(b.Literals) == 0 {
			continue
		}
		dims := slices.Clone(b.Dims)
		for _, l := range b.Literals {
			truth := space.Of(l.Want)
			dims = append(dims, space.Dim{Axis: j.clauseAxis(g, l.Clause), Lo: 1, Mask: 1 << truth})
		}
		slices.SortFunc(dims, func(x, y space.Dim) int { return cmp.Compare(x.Axis, y.Axis) })
		*b = space.Box{Dims: dims}
	}
	return out
}

// clauseAxis is the axis of a clause. Tables number clauses apart; one text is one clause.
func (j *joint) clauseAxis(g *rules.Geometry, at int32) int32 {
	text := g.Clauses.At(at).Text
	i, ok := j.byText[text]
	if !ok {
		i = int32(len(j.clauses))
		j.byText[text] = i
		j.clauses = append(j.clauses, clause{g.Clauses, at})
		j.axes = append(j.axes, space.Axis{Name: text, Kind: space.Word, Words: []string{"false", "unknown", "true"}})
	}
	return j.facts + i
}

// twins pairs the boxes of rules of one id and one class that are the same in both
// tables: side -> box -> its twin, -1 when there is none.
func (j *joint) twins(geometry *[2]rules.Geometry, own *[2][]space.Box) [2][]int32 {
	var twins [2][]int32
	for side := range twins {
		twins[side] = slices.Repeat([]int32{-1}, len(own[side]))
	}
	ofA, ofB := runs(geometry[0].Owner, len(j.ofRule[0])), runs(geometry[1].Owner, len(j.ofRule[1]))
	for r, s := range pairs(j.tables[0].Rules(), j.tables[1].Rules()) {
		if s < 0 || j.ofRule[0][r] != j.ofRule[1][s] {
			continue
		}
		for b := ofA[r][0]; b < ofA[r][1]; b++ {
			for c := ofB[s][0]; c < ofB[s][1]; c++ {
				if twins[1][c] < 0 && slices.Equal(own[0][b].Dims, own[1][c].Dims) {
					twins[0][b], twins[1][c] = c, b
					break
				}
			}
		}
	}
	return twins
}

// runs are the boxes of each rule, which lie together, half open.
func runs(owner []int32, rules int) [][2]int32 {
	out := make([][2]int32, rules)
	for b, r := range owner {
		if out[r][1] == 0 {
			out[r][0] = int32(b)
		}
		out[r][1] = int32(b) + 1
	}
	return out
}

// pairs gives for each rule of a the place of the rule of b with its id, or -1.
func pairs(a, b []rules.Rule) []int32 {
	out := make([]int32, len(a))
	var at map[string]int32
	for i := range a {
		if i < len(b) && a[i].ID == b[i].ID {
			out[i] = int32(i)
			continue
		}
		if at == nil {
			at = make(map[string]int32, len(b))
			for k := range b {
				at[b[k].ID] = int32(k)
			}
		}
		out[i] = -1
		if k, ok := at[a[i].ID]; ok {
			out[i] = k
		}
	}
	return out
}

// findChanged notes the boxes that can make a difference.
func (j *joint) findChanged() {
	j.differs = make([]bool, len(j.boxes))
	var shared []int32
	for b := range j.boxes {
		if j.seats[0][b].rank < 0 || j.seats[1][b].rank < 0 {
			j.differs[b] = true
		} else {
			shared = append(shared, int32(b))
		}
	}
	if first(j.hit[0]) || first(j.hit[1]) {
		for _, b := range moved(shared, func(b int32) int32 { return j.seats[1][b].rank }) {
			j.differs[b] = true
		}
	}
	for b, differs := range j.differs {
		if differs {
			j.changed = append(j.changed, int32(b))
		}
	}
}

// moved is what has to be taken out of a list so that key rises along the rest, and
// no more than that.
func moved(list []int32, key func(int32) int32) []int32 {
	if slices.IsSortedFunc(list, func(x, y int32) int { return cmp.Compare(key(x), key(y)) }) {
		return nil
	}
	var ends []int // for each length, the place of the item that ends the best run of it
	before := make([]int, len(list))
	for i, item := range list {
		at, _ := slices.BinarySearchFunc(ends, key(item), func(e int, k int32) int { return cmp.Compare(key(list[e]), k) })
		if at == len(ends) {
			ends = append(ends, i)
		} else {
			ends[at] = i
		}
		before[i] = -1
		if at > 0 {
			before[i] = ends[at-1]
		}
	}
	stays := make([]bool, len(list))
	for i := ends[len(ends)-1]; i >= 0; i = before[i] {
		stays[i] = true
	}
	var out []int32
	for i, item := range list {
		if !stays[i] {
			out = append(out, item)
		}
	}
	return out
}

// whole is the region of every input, clauses among it.
func (j *joint) whole() region.Region {
	r := region.Whole(j.axes)
	for i := range j.clauses {
		r[int(j.facts)+i].Missing = false
	}
	return r
}

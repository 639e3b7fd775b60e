package rules

import (
	"slices"

	"github.com/glossladder/glossladder/rules/internal/index"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// Stretch is a run of values of one fact on which the answer does not change, as
// codes; both are -1 for the missing value.
type Stretch struct{ Lo, Hi int32 }

// Border is the answer over two facts, all others as they are: exact regions, no
// samples.
type Border struct {
	X, Y FactID
	// Xs and Ys part the whole range of each fact, rising, the missing value last.
	Xs, Ys []Stretch
	// Cells tells, by place in Ys and then in Xs, which of Answers holds.
	Cells [][]int
	// Answers are the different answers, in the order found.
	Answers []BorderAnswer
	// AtX and AtY are the places of the present values in Xs and Ys.
	AtX, AtY int
	// Exact is false when a clause outside the bounds of single facts may change the
	// answer within a stretch.
	Exact bool
}

// BorderAnswer is one answer of a map. Another rule may give the same result
// elsewhere: Rules are those where it was found first.
type BorderAnswer struct {
	Outcome Outcome
	Rules   []int32
}

// maxCells bounds how finely a map follows clauses.
const maxCells = 1 << 16

// Border maps the answer over two different facts.
func (t *Table) Border(in *Input, x, y FactID) Border {
	m := Border{X: x, Y: y, Exact: true}
	live := t.liveOver(in, int32(x), int32(y))
	m.Xs, m.Ys = t.parts(int32(x), live), t.parts(int32(y), live)
	readX, readY := t.anyReads(live, int32(x)), t.anyReads(live, int32(y))
	if readX || readY {
		m.Exact = t.follow(&m, readX, readY)
	}
	t.fill(in, live, &m)
	m.merge()
	m.AtX, m.AtY = at(m.Xs, in.codes[x]), at(m.Ys, in.codes[y])
	return m
}

// liveOver keeps the boxes that hold on every axis but two, clauses aside.
func (t *Table) liveOver(in *Input, x, y int32) []int32 {
	var out []int32
	for b := range t.index.Boxes() {
		box := &t.index.Boxes()[b]
		holds := true
		for i := range box.Dims {
			d := &box.Dims[i]
			if d.Axis != x && d.Axis != y && d.Truth(in.codes[d.Axis]) != space.True {
				holds = false
				break
			}
		}
		if holds {
			out = append(out, int32(b))
		}
	}
	return out
}

func (t *Table) anyReads(boxes []int32, axis int32) bool {
	return slices.ContainsFunc(boxes, func(b int32) bool { return t.reads(b, axis) })
}

// parts cuts an axis where a box changes its mind.
func (t *Table) parts(axis int32, boxes []int32) []Stretch {
	a := &t.schema.space.Axes[axis]
	cuts := []int32{0}
	for _, b := range boxes {
		d := t.index.Boxes()[b].Dim(axis)
		if d == nil || a.Kind != space.Number || d.Lo > d.Hi {
			continue
		}
		cuts = append(cuts, d.Lo)
		if d.Hi+1 < a.Size() {
			cuts = append(cuts, d.Hi+1)
		}
	}
	if a.Kind != space.Number {
		cuts = nil
		for k := range a.Size() {
			cuts = append(cuts, k)
		}
	}
	slices.Sort(cuts)
	return runs(slices.Compact(cuts), a.Size())
}

// runs are the stretches between cuts, and the missing value.
func runs(cuts []int32, size int32) []Stretch {
	var out []Stretch
	for i, from := range cuts {
		to := size - 1
		if i+1 < len(cuts) {
			to = cuts[i+1] - 1
		}
		out = append(out, Stretch{from, to})
	}
	return append(out, Stretch{space.Missing, space.Missing})
}

// follow cuts an axis that clauses read at every value, if that stays within
// reason; false when it does not.
func (t *Table) follow(m *Border, readX, readY bool) bool {
	every := func(id FactID) []Stretch {
		size := t.schema.space.Axes[id].Size()
		cuts := make([]int32, size)
		for k := range cuts {
			cuts[k] = int32(k)
		}
		return runs(cuts, size)
	}
	nx, ny := len(m.Xs), len(m.Ys)
	if readX {
		nx = int(t.schema.space.Axes[m.X].Size())
	}
	if readY {
		ny = int(t.schema.space.Axes[m.Y].Size())
	}
	if nx > maxCells || ny > maxCells || nx*ny > maxCells {
		return false
	}
	if readX {
		m.Xs = every(m.X)
	}
	if readY {
		m.Ys = every(m.Y)
	}
	return true
}

// fill decides every cell.
func (t *Table) fill(in *Input, live []int32, m *Border) {
	codes := slices.Clone(in.codes)
	var sc index.Scratch
	var room, holds []int32
	var known []ruling
	for _, y := range m.Ys {
		row := make([]int, len(m.Xs))
		for i, x := range m.Xs {
			codes[m.X], codes[m.Y] = x.Lo, y.Lo
			t.index.Begin(&sc)
			holds = holds[:0]
			for _, b := range live {
				if t.index.Truth(b, codes, &sc) == space.True {
					holds = append(holds, b)
					if t.onlyOne() {
						break
					}
				}
			}
			now := t.rule(holds, &room)
			row[i] = slices.IndexFunc(known, func(k ruling) bool { return t.sameAnswer(k, now) })
			if row[i] < 0 {
				row[i] = len(known)
				known = append(known, now)
				m.Answers = append(m.Answers, BorderAnswer{Outcome: now.outcome, Rules: slices.Clone(now.rules)})
			}
		}
		m.Cells = append(m.Cells, row)
	}
}

// merge joins neighbouring rows, and columns, that are alike throughout. The
// missing value stays apart.
func (m *Border) merge() {
	rows, ys := m.Cells[:1], m.Ys[:1]
	for i := 1; i < len(m.Ys); i++ {
		if m.Ys[i].Lo >= 0 && slices.Equal(m.Cells[i], rows[len(rows)-1]) {
			ys[len(ys)-1].Hi = m.Ys[i].Hi
			continue
		}
		rows, ys = append(rows, m.Cells[i]), append(ys, m.Ys[i])
	}
	m.Cells, m.Ys = rows, ys
	keep := []int{0}
	xs := m.Xs[:1]
	for i := 1; i < len(m.Xs); i++ {
		last := keep[len(keep)-1]
		same := m.Xs[i].Lo >= 0 && !slices.ContainsFunc(m.Cells, func(row []int) bool { return row[i] != row[last] })
		if same {
			xs[len(xs)-1].Hi = m.Xs[i].Hi
			continue
		}
		keep, xs = append(keep, i), append(xs, m.Xs[i])
	}
	m.Xs = xs
	for y, row := range m.Cells {
		kept := make([]int, len(keep))
		for i, k := range keep {
			kept[i] = row[k]
		}
		m.Cells[y] = kept
	}
}

func at(all []Stretch, code int32) int {
	return slices.IndexFunc(all, func(s Stretch) bool { return s.Lo <= code && code <= s.Hi })
}

// Stretch is a stretch of a fact in words: "at least 30 µm", "soft", "not measured".
func (s *Schema) Stretch(id FactID, part Stretch) string {
	if part.Lo < 0 {
		return s.value(id, space.Missing)
	}
	d := space.Dim{Axis: int32(id), Lo: part.Lo, Hi: part.Hi}
	if s.facts[id].Kind != Number {
		d.Mask = (1<<(part.Hi-part.Lo+1) - 1) << part.Lo
	}
	if words := s.bound(&d); words != "known" {
		return words
	}
	return "any"
}

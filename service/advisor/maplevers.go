package advisor

import (
	"fmt"
	"slices"

	"github.com/glossladder/glossladder/rules"
)

// mostFields bounds how many fields of a map are asked one by one.
const mostFields = 4000

// mapLevers moves two things in the inspection or the trial and asks in every field of the map.
func (e *enquiry) mapLevers(q *asked, across, down *lever, out *DecisionMap) error {
	xs, ys, exact := e.fields(across, down)
	if len(xs)*len(ys) > mostFields {
		return &InputError{Troubles: []Trouble{{Field: "x", Says: fmt.Sprintf("the map would have %d fields; choose facts with fewer bounds", len(xs)*len(ys))}}}
	}
	cells := make([][]string, len(ys))
	for i := range ys {
		cells[i] = make([]string, len(xs))
		for k := range xs {
			cells[i][k] = e.field(q, across, down, &xs[k], &ys[i])
		}
	}
	xs, ys, cells = mergeFields(across, down, xs, ys, cells)
	out.Exact, out.XLabel, out.YLabel, out.Answers = exact, across.fact.Label, down.fact.Label, cells
	out.Xs, out.AtX = namesOf(across, xs)
	out.Ys, out.AtY = namesOf(down, ys)
	return nil
}

// unknownPlace is the place of a field for a value that is not known.
const unknownPlace = -1

// fields cuts both ways. Cuts of one thing may hang on the other, so each is cut at every stretch of the other until nothing
// is added. That is exact where one of the two is asked about at every place; two numbers are taken to move different facts.
func (e *enquiry) fields(across, down *lever) (xs, ys []stretch, exact bool) {
	xs, ys = e.parts(across), e.parts(down)
	few := func(l *lever) bool { return l.size <= mostOneByOne }
	if !few(across) {
		xs = e.cutAlong(across, down, ys)
	}
	if !few(down) {
		ys = e.cutAlong(down, across, xs)
	}
	exact = !tied(e.a.set) && (few(across) || few(down) || e.apart(across, down, xs, ys))
	return withUnknown(across, xs), withUnknown(down, ys), exact
}

// tied says whether some condition ties several facts together, so that bounds of single facts do not tell all.
func tied(set *rules.Set) bool {
	for _, t := range set.Tables() {
		for id := range set.Schema().Facts() {
			if t.Ties(rules.FactID(id)) {
				return true
			}
		}
	}
	return false
}

// cutAlong is the stretches of a lever with cuts wherever one is needed at some stretch of another lever.
func (e *enquiry) cutAlong(l, other *lever, parts []stretch) []stretch {
	was := e.now
	defer func() { e.now = was }()
	ends := map[int]bool{}
	for _, p := range withUnknown(other, parts) {
		e.now = was
		place(other, &e.now, p.lo)
		for _, own := range e.parts(l) {
			ends[own.hi] = true
		}
	}
	var out []stretch
	from := 0
	for _, hi := range sortedKeys(ends) {
		out = append(out, stretch{lo: from, hi: hi})
		from = hi + 1
	}
	return out
}

// apart says whether two levers move different facts.
func (e *enquiry) apart(a, b *lever, as, bs []stretch) bool {
	moves := func(l *lever, parts []stretch) map[int]bool {
		out := map[int]bool{}
		signs := map[int][]int32{}
		first := e.sign(l, parts[0].lo, signs)
		for _, p := range parts[1:] {
			sign := e.sign(l, p.lo, signs)
			for id := range min(len(sign), len(first)) {
				out[id] = out[id] || sign[id] != first[id]
			}
		}
		return out
	}
	byA, byB := moves(a, as), moves(b, bs)
	for id, moved := range byA {
		if moved && byB[id] {
			return false
		}
	}
	return true
}

func withUnknown(l *lever, parts []stretch) []stretch {
	if l.clear == nil {
		return parts
	}
	return append(slices.Clip(parts), stretch{lo: unknownPlace, hi: unknownPlace})
}

// place puts a lever to a place, or makes it unknown. Where it stands already nothing is changed.
func place(l *lever, s *situation, at int) {
	switch {
	case at == unknownPlace:
		l.clear(s)
	case at != l.at:
		l.set(s, at)
	}
}

// field asks in one field of the map.
func (e *enquiry) field(q *asked, across, down *lever, x, y *stretch) string {
	s := e.now
	place(across, &s, x.lo)
	place(down, &s, y.lo)
	both := lever{trial: across.trial && down.trial}
	said, err := e.ask(&both, &s)
	if err != nil {
		return ""
	}
	return findings(&said)[q.subject].answer
}

// mergeFields joins neighbouring rows and columns that are alike throughout, where there is an order.
func mergeFields(across, down *lever, xs, ys []stretch, cells [][]string) ([]stretch, []stretch, [][]string) {
	var rows [][]string
	var mergedYs []stretch
	for i, y := range ys {
		if last := len(rows) - 1; last >= 0 && joinable(down, y) && slices.Equal(rows[last], cells[i]) {
			mergedYs[last].hi = y.hi
			continue
		}
		rows, mergedYs = append(rows, cells[i]), append(mergedYs, y)
	}
	var keep []int
	var mergedXs []stretch
	for k, x := range xs {
		last := len(keep) - 1
		if last >= 0 && joinable(across, x) && !slices.ContainsFunc(rows, func(row []string) bool { return row[k] != row[keep[last]] }) {
			mergedXs[last].hi = x.hi
			continue
		}
		keep, mergedXs = append(keep, k), append(mergedXs, x)
	}
	out := make([][]string, len(rows))
	for i, row := range rows {
		for _, k := range keep {
			out[i] = append(out[i], row[k])
		}
	}
	return mergedXs, mergedYs, out
}

// joinable says whether a stretch may be joined to the one before.
func joinable(l *lever, s stretch) bool { return l.ordered() && s.lo != unknownPlace }

// namesOf are stretches in words, and the place of the present value.
func namesOf(l *lever, parts []stretch) (names []string, at int) {
	for i, p := range parts {
		if p.lo <= l.at && l.at <= p.hi {
			at = i
		}
		if p.lo == unknownPlace {
			names = append(names, "not known")
			continue
		}
		names = append(names, rangeInWords(l, []stretch{p}))
	}
	return names, at
}

func sortedKeys(m map[int]bool) []int {
	out := make([]int, 0, len(m))
	for k := range m {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}

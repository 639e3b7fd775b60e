package region

import (
	"slices"

	"github.com/glossladder/glossladder/rules/internal/space"
)

// Outcome is how a search came out. The zero value is Undecided.
type Outcome uint8

// The outcomes.
const (
	Undecided Outcome = iota // the steps ran out, or a clause that boxes cannot say stands in the way
	Proved                   // no input breaks it
	Refuted                  // an input was found that breaks it
)

// String names the outcome in words.
func (o Outcome) String() string {
	return [...]string{"not decided", "proved", "counterexample"}[min(o, 2)]
}

// Verdict is what a judge makes of a part of the space.
type Verdict uint8

// The verdicts.
const (
	Split  Verdict = iota // cannot say yet
	Safe                  // no input of the part breaks it
	Broken                // the inputs of the part break it
)

// Search is one question. All but Also and Fewer must be given.
type Search struct {
	Axes   []space.Axis
	Boxes  []space.Box
	Within Region  // where to look
	Budget int     // steps, one a part
	Only   []int32 // the boxes to look at, rising; nil: all

	// Judge is told the part, the boxes that hold everywhere in it and those that
	// hold in some of it, both rising. It returns those of the open ones that matter.
	Judge func(part Region, in, open []int32) (Verdict, []int32)

	// Breaks decides an input for real. A point is told only if it says yes.
	Breaks func(codes []int32) bool

	// Also, when given, names one more input of a part to try.
	Also func(part Region) []int32

	// Fewer says that where fewer boxes hold, it is broken all the more.
	Fewer bool

	// Literal, when given, says whether a literal may come out as wanted in a part,
	// and whether it surely does everywhere in it; Reads are the axes of a clause.
	// Without them a clause is left to Breaks.
	Literal func(part Region, l space.Literal) (some, all bool)
	Reads   func(clause int32) []int32

	// Weak, when given, is told every part that is left undecided and the boxes that
	// hold in some of it; nil boxes: the steps ran out.
	Weak func(part Region, open []int32)
}

// Answer is what a search found. Point is the input that breaks it, when refuted.
type Answer struct {
	Outcome Outcome
	Point   []int32
	Steps   int
}

// Run answers the question.
func (s *Search) Run() Answer {
	w := walk{Search: s}
	open := slices.Clone(s.Only)
	if s.Only == nil {
		open = make([]int32, len(s.Boxes))
		for i := range open {
			open[i] = int32(i)
		}
	}
	w.part(slices.Clone(s.Within), nil, open)
	out := Answer{Point: w.point, Steps: w.steps}
	switch {
	case w.point != nil:
		out.Outcome = Refuted
	case !w.weak:
		out.Outcome = Proved
	}
	return out
}

type walk struct {
	*Search
	steps int
	weak  bool // some part was left undecided
	point []int32
	until int  // in a part that only clauses are left to decide: the last step for it
	spent bool // those steps ran out
}

// part judges a region; false ends the search, or the part that only clauses are
// left to decide.
func (w *walk) part(r Region, in, open []int32) bool {
	if w.steps++; w.steps > w.Budget {
		w.doubt(r, nil)
		return false
	}
	if w.spent = w.until > 0 && w.steps > w.until; w.spent {
		return false
	}
	in, open = w.sort(r, in, open)
	verdict, live := w.Judge(r, in, open)
	switch verdict {
	case Safe:
		return true
	case Broken:
		return w.settle(r, open)
	}
	if w.Fewer && w.shrink(r, live) {
		return w.part(r, in, live)
	}
	cut, ok := w.bestCut(r, live)
	if ok {
		return w.halves(cut, r, in, live)
	}
	if cut, ok = w.clauseCut(r, live); !ok { // nothing is left to cut
		return w.settle(r, live)
	}
	if w.until > 0 {
		return w.halves(cut, r, in, live)
	}
	return w.clauses(cut, r, in, live)
}

// share is the part of the remaining steps that one part takes which only clauses are
// left to decide, and least is what it may take in any case: a clause that cannot be
// settled leaves enough for all the rest.
const (
	share = 8
	least = 64
)

// clauses goes through a part that only clauses are left to decide.
func (w *walk) clauses(c cut, r Region, in, live []int32) bool {
	if w.confirm(r) {
		return false
	}
	whole := slices.Clone(r)
	w.until = w.steps + max(least, (w.Budget-w.steps)/share)
	on := w.halves(c, r, in, live)
	w.until = 0
	if w.spent {
		w.spent = false
		w.doubt(whole, live)
		return true
	}
	return on
}

// halves judges the two halves of a region.
func (w *walk) halves(cut cut, r Region, in, live []int32) bool {
	whole := r[cut.axis]
	for _, half := range [2]Cell{cut.a, cut.b} {
		r[cut.axis] = half
		// The boxes that the judge let go stay gone in every part of this one.
		if !w.part(slices.Clone(r), in, live) {
			return false
		}
	}
	r[cut.axis] = whole
	return true
}

// settle tries the ends of a part for real; false ends the search.
func (w *walk) settle(r Region, open []int32) bool {
	if w.confirm(r) {
		return false
	}
	w.doubt(r, open)
	return true
}

// doubt notes that a part is left undecided.
func (w *walk) doubt(r Region, open []int32) {
	w.weak = true
	if w.Weak != nil {
		w.Weak(r, open)
	}
}

// sort moves boxes that hold everywhere to in and drops those that hold nowhere.
func (w *walk) sort(r Region, in, open []int32) (nowIn, nowOpen []int32) {
	nowIn = slices.Clone(in)
	for _, b := range open {
		some, all := w.relate(r, &w.Boxes[b])
		switch {
		case !some:
		case all:
			nowIn = append(nowIn, b)
		default:
			nowOpen = append(nowOpen, b)
		}
	}
	slices.Sort(nowIn)
	return nowIn, nowOpen
}

// relate says whether a box may hold somewhere in a part, and surely does everywhere.
func (w *walk) relate(r Region, b *space.Box) (some, all bool) {
	all = true
	for i := range b.Dims {
		d := &b.Dims[i]
		s, a := r[d.Axis].relate(d)
		if !s {
			return false, false
		}
		all = all && a
	}
	for _, l := range b.Literals {
		if w.Literal == nil {
			return true, false
		}
		s, a := w.Literal(r, l)
		if !s {
			return false, false
		}
		all = all && a
	}
	return true, all
}

// confirm tries the ends of the region for real.
func (w *walk) confirm(r Region) bool {
	low := r.Point()
	high := make([]int32, len(r))
	values := make([]int32, len(r))
	for i := range r {
		high[i] = r[i].Last()
		values[i] = low[i]
		if low[i] == space.Missing && r[i].known() {
			values[i] = min(max(r[i].Lo, 0), high[i])
			if r[i].Mask != 0 {
				values[i] = high[i]
			}
		}
	}
	points := [][]int32{low, values, high}
	if w.Also != nil {
		points = append(points, w.Also(r))
	}
	for _, codes := range points {
		if w.Breaks(codes) {
			w.point = codes
			return true
		}
	}
	return false
}

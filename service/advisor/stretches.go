package advisor

import (
	"math"
	"slices"
	"sort"

	"github.com/glossladder/glossladder/rules"
)

// stretch is neighbouring places of a lever on which every question is answered alike. Said is nil where the changed input
// could not be answered at all; nothing is claimed about such places.
type stretch struct {
	lo, hi int
	said   map[subject]finding
	facts  *rules.Input
}

// mostOneByOne is the most places that are all asked about one by one.
const mostOneByOne = 64

// stretches asks what comes of a lever at all its places, except where it stands. Places between which no fact crosses a
// bound that a rule names are asked once: film and gloss only ever move facts one way, so that what is alike at both ends
// is alike between them. A condition that ties several facts together is looked at at the ends of a stretch only.
func (e *enquiry) stretches(l *lever) []stretch {
	var out []stretch
	for _, part := range e.parts(l) {
		if part.lo == l.at {
			continue
		}
		ask := part.lo // the place nearest to the present value
		if l.at > part.hi {
			ask = part.hi
		}
		part.said, part.facts = e.at(l, ask)
		out = append(out, part)
	}
	return out
}

// at is what is found with a lever at a place.
func (e *enquiry) at(l *lever, place int) (map[subject]finding, *rules.Input) {
	s := e.now
	l.set(&s, place)
	said, err := e.ask(l, &s)
	if err != nil {
		return nil, nil
	}
	return findings(&said), said.facts
}

// parts cuts the places of a lever; the present one stands alone.
func (e *enquiry) parts(l *lever) []stretch {
	if l.size <= mostOneByOne {
		out := make([]stretch, l.size)
		for k := range out {
			out[k] = stretch{lo: k, hi: k}
		}
		return out
	}
	ends := []int{0, l.size - 1}
	if l.known() {
		ends = append(ends, l.at-1, l.at, l.at+1)
	}
	for _, v := range l.breaks {
		k := int(math.Floor((v - l.least) / l.step))
		ends = append(ends, k-1, k, k+1, k+2)
	}
	slices.Sort(ends)
	ends = slices.Compact(slices.DeleteFunc(ends, func(k int) bool { return k < 0 || k >= l.size }))
	signs := map[int][]int32{}
	cuts := []int{} // last places of stretches
	for i := 1; i < len(ends); i++ {
		e.split(l, ends[i-1], ends[i], signs, &cuts)
	}
	if l.known() {
		cuts = append(cuts, l.at-1, l.at)
	}
	cuts = append(cuts, l.size-1)
	sort.Ints(cuts)
	var out []stretch
	from := 0
	for _, last := range slices.Compact(cuts) {
		if last >= from {
			out = append(out, stretch{lo: from, hi: last})
			from = last + 1
		}
	}
	return out
}

// split finds the places between two after which some fact has crossed a bound.
func (e *enquiry) split(l *lever, lo, hi int, signs map[int][]int32, cuts *[]int) {
	if slices.Equal(e.sign(l, lo, signs), e.sign(l, hi, signs)) {
		return
	}
	if hi-lo == 1 {
		*cuts = append(*cuts, lo)
		return
	}
	middle := lo + (hi-lo)/2
	e.split(l, lo, middle, signs, cuts)
	e.split(l, middle, hi, signs, cuts)
}

// sign tells apart what rules can tell apart at a place: for every fact the stretch between bounds that it lies in.
func (e *enquiry) sign(l *lever, place int, known map[int][]int32) []int32 {
	if sign, ok := known[place]; ok {
		return sign
	}
	s := e.now
	l.set(&s, place)
	var sign []int32
	if facts, err := e.facts(l, &s); err == nil {
		sign = e.a.signOf(facts, e.policyCuts())
	}
	known[place] = sign
	return sign
}

// signOf is, for every fact, its word or flag, or the stretch between bounds of rules in which its number lies; -1 for a
// fact that is not known.
func (a *Advisor) signOf(facts *rules.Input, more map[rules.FactID][]float64) []int32 {
	out := make([]int32, len(a.set.Schema().Facts()))
	for id := range out {
		out[id] = -1
		fact := rules.FactID(id)
		switch a.set.Schema().Fact(fact).Kind {
		case rules.Number:
			if v, ok := facts.Number(fact); ok {
				out[id] = int32(below(a.cuts[fact], v)<<8 + below(more[fact], v))
			}
		case rules.Word:
			if w, ok := facts.Word(fact); ok {
				out[id] = int32(slices.Index(a.set.Schema().Fact(fact).Words, w))
			}
		case rules.Flag:
			if v, ok := facts.Flag(fact); ok {
				out[id] = 0
				if v {
					out[id] = 1
				}
			}
		}
	}
	return out
}

// below counts the cuts that a value has reached.
func below(cuts []float64, v float64) int {
	return sort.Search(len(cuts), func(i int) bool { return cuts[i] > v+1e-9 })
}

// policyCuts are bounds that the policy sets and no rule names: past them signs of thin film, repaint and filler come and go.
func (e *enquiry) policyCuts() map[rules.FactID][]float64 {
	schema := e.a.set.Schema()
	out := map[rules.FactID][]float64{}
	cut := func(name string, at ...float64) {
		if id, ok := schema.FactID(name); ok {
			slices.Sort(at)
			out[id] = at
		}
	}
	p := e.base.policy.film
	cut("film.lowest_bound_um", float64(p.ThinUm))
	cut("film.highest_um", float64(p.RepaintUm), float64(p.FillerUm))
	cut("film.neighbour_um", -float64(p.NeighbourUm), float64(p.NeighbourUm))
	return out
}

// cutsOf are the bounds that rules of any table name, by fact.
func cutsOf(set *rules.Set) [][]float64 {
	out := make([][]float64, len(set.Schema().Facts()))
	for id := range out {
		for _, t := range set.Tables() {
			out[id] = append(out[id], t.Cuts(rules.FactID(id))...)
		}
		slices.Sort(out[id])
		out[id] = slices.Compact(out[id])
	}
	return out
}

package plan

import "slices"

// Pool is a choice for every panel under one limit, of minutes or of money, where panels also share things: a pad that several
// panels wear, a test spot that proves several. Costs are whole numbers of a unit of the caller's, so that sums are exact.
type Pool struct {
	Panels []PoolPanel
	// Order is all panels in the order in which they decide how a step is handled: of those that use it, the first. Nil is as they stand.
	Order  []int
	Things []Thing
	// Fixed is spent whatever is chosen.
	Fixed int64
	// Rounding is by how much the true cost of a whole choice may differ from the sum of its parts, either way.
	Rounding int64
	// True is what a whole choice costs in earnest, in places of its ways by panel. It must not fall when work, panels that are
	// worked, and sections and panels of every thing do not fall.
	True func(picks []int) (int64, error)
}

// PoolPanel is the ways in which one panel may be worked; leaving it alone is one of them where it is allowed.
type PoolPanel struct{ Ways []Way }

// Way is one ladder on one panel. Nothing in it is below zero.
type Way struct {
	Worth   int   // what an owner sees of it
	TakesNm int   // film that goes: of two choices alike in worth and cost the one that takes less is better
	Micros  int64 // work of its own, in millionths of a minute
	Own     int64 // what that and all else of its own costs
	Uses    []Use // at most one of each thing; none for leaving the panel alone
}

// Use is the sections that a way works with a thing, and which of the thing's kinds of handling this panel asks for.
type Use struct{ Thing, Sections, Kind int }

// Thing is what panels share: pieces of which each does so many sections. All things of a step are handled alike.
type Thing struct {
	Step  int // from 0, less than the number of things
	Kinds []Kind
	// Twice is true where two panels or more take two pieces at least.
	Twice bool
}

// Kind is a way to handle a thing: n pieces cost n·Each - Off, and a piece holds so many sections.
type Kind struct {
	Each, Off int64 // Off is at most Each
	Holds     float64
}

// Pooled is the best choice.
type Pooled struct {
	Picks   []int // by panel, a place in its ways
	Worth   int
	TakesNm int
	Cost    int64 // the true one
	// Most is a worth that no choice within the limit passes. It is Worth unless the pool is too large to search it whole.
	Most int
}

// Best is the choice with the greatest worth whose true cost is within the limit; of equals the one that costs less, then the one
// that takes less film. Found is false when nothing fits.
//
// It is the exact optimum. Panels are gone through one by one, and of all choices for the first panels those are put aside that
// cannot lead to anything better than what is known, by a bound that reckons each section at its share of a piece; and those that
// another beats whatever follows, which has brought as much for less and has the same room left on every piece. Only where more
// than twenty thousand are left at once (never seen with 25 panels of 5 ladders, in some vehicles of 60) the most promising are
// followed, and Most then tells how much more there may be.
//
// Errors: a [*LimitError] or another fault of the pool, or those of True.
func (p *Pool) Best(limit int64) (best Pooled, found bool, err error) {
	// Narrow first: a good choice that is known puts most others aside.
	return p.best(limit, 40, 400, 20_000)
}

// best follows so many starts at a time, until it has followed all.
func (p *Pool) best(limit int64, widths ...int) (best Pooled, found bool, err error) {
	if err := p.check(); err != nil {
		return Pooled{}, false, err
	}
	s := newSearch(p, min(limit, mostPooled))
	whole := false
	for _, width := range widths {
		if whole, err = s.pass(width); err != nil {
			return Pooled{}, false, err
		}
		if whole {
			break
		}
	}
	if !s.found && !whole {
		if err := s.fallBack(p, widths); err != nil {
			return Pooled{}, false, err
		}
	}
	s.best.Most = max(s.best.Worth, s.missed)
	return s.best, s.found, nil
}

// fallBack takes the cheapest choice where nothing else was found that fits, and not everything was followed.
func (s *search) fallBack(p *Pool, widths []int) error {
	cheapest, err := p.cheapest(widths...)
	if err != nil || cheapest.Cost > s.limit {
		return err
	}
	cheapest.Worth = 0
	for i, k := range cheapest.Picks {
		cheapest.Worth += p.Panels[i].Ways[k].Worth
	}
	s.best, s.found = cheapest, true
	return nil
}

// Least is what the cheapest choice costs.
func (p *Pool) Least() (int64, error) {
	best, err := p.cheapest(40, 400, 20_000)
	return best.Cost, err
}

func (p *Pool) cheapest(widths ...int) (Pooled, error) {
	cheap := *p
	cheap.Panels = slices.Clone(p.Panels)
	for i := range cheap.Panels {
		ways := slices.Clone(cheap.Panels[i].Ways)
		for k := range ways {
			ways[k].Worth = 0
		}
		cheap.Panels[i].Ways = ways
	}
	best, _, err := cheap.best(mostPooled, widths...)
	return best, err
}

// pieces is how many pieces so many sections on so many panels take.
func (t *Thing) pieces(kind, sections, panels int) int {
	if sections == 0 {
		return 0
	}
	n := Sections(float64(sections), t.Kinds[kind].Holds)
	if t.Twice && panels > 1 {
		n = max(n, 2)
	}
	return n
}

// cost of so many pieces.
func (k *Kind) cost(pieces int) int64 {
	if pieces == 0 {
		return 0
	}
	return int64(pieces)*k.Each - k.Off
}

package plan

import (
	"cmp"
	"encoding/binary"
	"hash/maphash"
	"slices"
)

// search goes through one pool.
type search struct {
	pool    Pool
	order   []int // by place in the search, the caller's panel
	bound   *bound
	limit   int64
	ahead   [][]int   // by place and thing: the most sections that may follow
	follows [][]int64 // and their shares
	best    Pooled
	found   bool
	missed  int // the most that starts could have come to which were not followed
	seed    maphash.Seed
	bytes   []byte
}

func newSearch(p *Pool, limit int64) *search {
	s := &search{pool: *p, limit: limit, seed: maphash.MakeSeed()}
	s.order = p.order()
	s.pool.Panels = make([]PoolPanel, len(p.Panels))
	for place, i := range s.order {
		s.pool.Panels[place] = p.Panels[i]
	}
	s.bound, s.ahead = newBound(&s.pool), s.pool.ahead()
	for _, most := range s.ahead {
		row := make([]int64, len(most))
		for thing, sections := range most {
			row[thing] = s.pool.share(Use{Thing: thing, Sections: sections}) + 1 + int64(len(p.Panels))
		}
		s.follows = append(s.follows, row)
	}
	return s
}

// order puts panels first that use what few others use, so that what is shared is soon done with; unless the order decides how
// steps are handled.
func (p *Pool) order() []int {
	order, users := slices.Clone(p.Order), make([]int, len(p.Things))
	for i := range p.Panels {
		if p.Order == nil {
			order = append(order, i)
		}
		for _, thing := range p.Panels[i].things() {
			users[thing]++
		}
	}
	if slices.ContainsFunc(p.Things, func(t Thing) bool { return len(t.Kinds) > 1 }) {
		return order
	}
	rarest := func(i int) int {
		least := len(p.Panels)
		for _, thing := range p.Panels[i].things() {
			least = min(least, users[thing])
		}
		return least
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(rarest(a), rarest(b)) })
	return order
}

// things is what some way of the panel uses.
func (p *PoolPanel) things() (out []int) {
	for _, w := range p.Ways {
		for _, u := range w.Uses {
			if !slices.Contains(out, u.Thing) {
				out = append(out, u.Thing)
			}
		}
	}
	return out
}

func (p *Pool) ahead() [][]int {
	n := len(p.Panels)
	out := make([][]int, n+1)
	out[n] = make([]int, len(p.Things))
	for i := n - 1; i >= 0; i-- {
		most := make([]int, len(p.Things))
		for _, w := range p.Panels[i].Ways {
			for _, u := range w.Uses {
				most[u.Thing] = max(most[u.Thing], u.Sections)
			}
		}
		for k := range most {
			most[k] += out[i+1][k]
		}
		out[i] = most
	}
	return out
}

// hopeful says whether a start may still lead to something better than the best so far.
func (s *search) hopeful(h *head, place int) bool {
	switch room := s.pool.Rounding; {
	case !s.found:
		return s.bound.least(h, place, 0) <= s.limit+room
	case s.bound.least(h, place, s.best.Worth+1-h.worth) <= s.limit+room:
		return true
	default:
		return s.bound.least(h, place, s.best.Worth-h.worth) <= s.best.Cost+room
	}
}

// pass goes through the panels with at most so many starts at a time, and says whether that was all of them.
func (s *search) pass(width int) (whole bool, err error) {
	whole, s.missed = true, 0
	now, next := s.first(), &starts{}
	steps := make([][]step, len(s.pool.Panels))
	for i := range s.pool.Panels {
		s.next(next, now, i)
		if len(next.heads) > width {
			whole = false
			s.only(next, s.promising(next, i+1, width))
		}
		now, next = next, now
		steps[i] = make([]step, len(now.heads))
		for k := range now.heads {
			steps[i][k] = now.heads[k].way
		}
	}
	return whole, s.settle(now.heads, steps)
}

// first is the one start before the first panel.
func (s *search) first() *starts {
	n := len(s.pool.Things)
	h := head{paid: s.pool.Fixed, shared: s.pool.Fixed}
	return &starts{heads: []head{h}, wear: make([]wear, n), kinds: make([]int8, n), keys: make([]int32, 3*n)}
}

// next fills out with every start with one panel more that is neither hopeless nor beaten.
func (s *search) next(out, now *starts, place int) {
	s.before(now, place+1)
	s.cut(out, 0)
	alike := map[uint64][]int32{}
	for at := range now.heads {
		for pick := range s.pool.Panels[place].Ways {
			w := &s.pool.Panels[place].Ways[pick]
			h := s.follow(now, at, pick, place+1, w)
			if !s.hopeful(&h, place+1) {
				continue
			}
			s.add(out, h, now, w)
			s.addKey(out, place+1)
			s.sift(out, alike)
		}
	}
	var kept []int32
	for _, same := range alike {
		kept = append(kept, same...)
	}
	slices.Sort(kept)
	s.only(out, kept)
}

// sift takes the last start away again when another beats it, and else forgets those that it beats.
func (s *search) sift(l *starts, alike map[uint64][]int32) {
	last := len(l.heads) - 1
	key := s.keyOf(l, last)
	hash := s.hash(key)
	same := alike[hash]
	sameKey := func(other int32) bool { return slices.Equal(s.keyOf(l, int(other)), key) }
	if slices.ContainsFunc(same, func(other int32) bool { return sameKey(other) && s.beats(l, int(other), last) }) {
		s.cut(l, last)
		return
	}
	same = slices.DeleteFunc(same, func(other int32) bool { return sameKey(other) && s.beats(l, last, int(other)) })
	alike[hash] = append(same, int32(last))
}

func (s *search) cut(l *starts, at int) {
	n := len(s.pool.Things)
	l.heads, l.wear, l.kinds, l.keys = l.heads[:at], l.wear[:at*n], l.kinds[:at*n], l.keys[:at*3*n]
}

func (s *search) hash(key []int32) uint64 {
	s.bytes = s.bytes[:0]
	for _, v := range key {
		s.bytes = binary.LittleEndian.AppendUint32(s.bytes, uint32(v))
	}
	return maphash.Bytes(s.seed, s.bytes)
}

// only keeps some of the starts, whose places rise.
func (s *search) only(l *starts, kept []int32) {
	for to, from := range kept {
		l.heads[to] = l.heads[from]
		copy(s.wearOf(l, to), s.wearOf(l, int(from)))
		copy(s.kindsOf(l, to), s.kindsOf(l, int(from)))
		copy(s.keyOf(l, to), s.keyOf(l, int(from)))
	}
	s.cut(l, len(kept))
}

// promising is the starts that may come to most, as many as are asked for, and keeps in mind what the others might have come to.
func (s *search) promising(l *starts, place, width int) []int32 {
	kept := make([]int32, len(l.heads))
	for i := range kept {
		kept[i] = int32(i)
	}
	for i := range l.heads {
		l.heads[i].most = s.bound.most(&l.heads[i], place, s.limit+s.pool.Rounding)
	}
	slices.SortFunc(kept, func(a, b int32) int {
		x, y := &l.heads[a], &l.heads[b]
		return cmp.Or(cmp.Compare(y.most, x.most), cmp.Compare(x.paid, y.paid), cmp.Compare(a, b))
	})
	for _, at := range kept[width:] {
		s.missed = max(s.missed, l.heads[at].most)
	}
	kept = kept[:width]
	slices.Sort(kept)
	return kept
}

// settle looks at whole choices in earnest, the best first.
func (s *search) settle(ends []head, steps [][]step) error {
	order := make([]int, len(ends))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int {
		return cmp.Or(cmp.Compare(ends[b].worth, ends[a].worth), cmp.Compare(ends[a].paid, ends[b].paid), cmp.Compare(a, b))
	})
	for _, at := range order {
		end := &ends[at]
		if !s.hopeful(end, len(steps)) {
			continue
		}
		picks := s.picks(at, steps)
		cost, err := s.pool.True(picks)
		if err != nil {
			return err
		}
		better := !s.found || cmp.Or(cmp.Compare(end.worth, s.best.Worth), cmp.Compare(s.best.Cost, cost), cmp.Compare(s.best.TakesNm, end.takesNm)) > 0
		if cost <= s.limit && better {
			s.found, s.best = true, Pooled{Picks: picks, Worth: end.worth, TakesNm: end.takesNm, Cost: cost}
		}
	}
	return nil
}

// picks reads back what led to an end, by the caller's panels.
func (s *search) picks(at int, steps [][]step) []int {
	out := make([]int, len(steps))
	for i := len(steps) - 1; i >= 0; i-- {
		way := steps[i][at]
		out[s.order[i]], at = int(way.pick), int(way.from)
	}
	return out
}

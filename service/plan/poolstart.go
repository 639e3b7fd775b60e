package plan

import (
	"math"
	"slices"
)

// head is a choice for the first panels: a start that others may follow.
type head struct {
	way     step
	worth   int
	takesNm int
	micros  int64
	worked  int
	paid    int64 // with the pieces taken so far; shares of what follows come on top of the next
	shared  int64 // with pieces by their share; never more than what the start comes to in the end
	most    int   // bound of the worth it may come to
}

// step leads from a start of one panel less.
type step struct {
	from int32
	pick int16
}

// wear is what a start did with each thing.
type wear struct{ sections, panels, pieces int32 }

// starts are the starts of equal length. What they wore stands in rows of one entry for each thing, and how steps are handled in
// rows of one for each step: one more than the kind, or 0 as long as nothing used the step.
type starts struct {
	heads []head
	wear  []wear
	kinds []int8
	keys  []int32
}

func (s *search) wearOf(l *starts, at int) []wear {
	n := len(s.pool.Things)
	return l.wear[at*n : (at+1)*n]
}

func (s *search) kindsOf(l *starts, at int) []int8 {
	n := len(s.pool.Things)
	return l.kinds[at*n : (at+1)*n]
}

func (s *search) keyOf(l *starts, at int) []int32 {
	n := 3 * len(s.pool.Things)
	return l.keys[at*n : (at+1)*n]
}

// follow reckons the head of a start with one way more.
func (s *search) follow(l *starts, at, pick, place int, w *Way) head {
	out := l.heads[at]
	out.way = step{int32(at), int16(pick)}
	out.worth, out.takesNm, out.micros = out.worth+w.Worth, out.takesNm+w.TakesNm, out.micros+w.Micros
	out.paid, out.shared = out.paid+w.Own, out.shared+w.Own
	if len(w.Uses) > 0 {
		out.worked++
	}
	worn, kinds := s.wearOf(l, at), s.kindsOf(l, at)
	for _, u := range w.Uses {
		t, before := &s.pool.Things[u.Thing], worn[u.Thing]
		kind := kindFor(kinds[t.Step], u)
		now := t.worn(kind, before, u.Sections)
		out.paid += t.Kinds[kind].cost(int(now.pieces)) - t.Kinds[kind].cost(int(before.pieces))
		out.shared += s.term(u.Thing, kind, now, place) - s.term(u.Thing, kind, before, place)
	}
	return out
}

// worn is a wear with one use more.
func (t *Thing) worn(kind int, before wear, sections int) wear {
	now := wear{sections: before.sections + int32(sections), panels: before.panels + 1}
	now.pieces = int32(t.pieces(kind, int(now.sections), int(now.panels)))
	return now
}

// term is what a thing comes to at least, less the shares of all the sections that follow from a place on. It is the share of the
// sections so far, or, where that is more, what is paid without the most that may follow.
func (s *search) term(thing, kind int, w wear, place int) int64 {
	if w.sections == 0 {
		if s.ahead[place][thing] == 0 {
			return 0
		}
		return -s.pool.Things[thing].mostOff()
	}
	k := &s.pool.Things[thing].Kinds[kind]
	return max(k.share(int(w.sections))-k.Off, k.cost(int(w.pieces))-s.follows[place][thing])
}

// before reckons what the starts come to at least when they are looked at before the panel at a place.
func (s *search) before(l *starts, place int) {
	for at := range l.heads {
		h := &l.heads[at]
		h.shared = h.paid
		kinds := s.kindsOf(l, at)
		for i, w := range s.wearOf(l, at) {
			kind := max(0, int(kinds[s.pool.Things[i].Step])-1)
			h.shared += s.term(i, kind, w, place) - s.pool.Things[i].Kinds[kind].cost(int(w.pieces))
		}
	}
}

// kindFor is how a step is handled: as the first panel that used it asked for.
func kindFor(known int8, u Use) int {
	if known > 0 {
		return int(known - 1)
	}
	return u.Kind
}

func (t *Thing) mostOff() (most int64) {
	for i := range t.Kinds {
		most = max(most, t.Kinds[i].Off)
	}
	return most
}

// add puts a start with its wear at the end.
func (s *search) add(to *starts, h head, l *starts, w *Way) {
	from := int(h.way.from)
	at := len(to.heads)
	to.heads = append(to.heads, h)
	to.wear = append(to.wear, s.wearOf(l, from)...)
	to.kinds = append(to.kinds, s.kindsOf(l, from)...)
	worn, kinds := s.wearOf(to, at), s.kindsOf(to, at)
	for _, u := range w.Uses {
		t := &s.pool.Things[u.Thing]
		kind := kindFor(kinds[t.Step], u)
		kinds[t.Step] = int8(kind + 1)
		worn[u.Thing] = t.worn(kind, worn[u.Thing], u.Sections)
	}
}

// addKey appends the key of the last start: equal keys mean that whatever follows adds the same to both.
func (s *search) addKey(to *starts, place int) {
	at := len(to.heads) - 1
	worn, kinds := s.wearOf(to, at), s.kindsOf(to, at)
	for i := range s.pool.Things {
		t, ahead := &s.pool.Things[i], s.ahead[place][i]
		if ahead == 0 {
			to.keys = append(to.keys, 0, 0, 0)
			continue
		}
		known := kinds[t.Step]
		if worn[i].sections == 0 {
			to.keys = append(to.keys, int32(known), -1, 0)
			continue
		}
		second := int32(0)
		if t.Twice && worn[i].pieces < 2 {
			second = 1 // the next panel takes a second piece, whatever room there is
		}
		to.keys = append(to.keys, int32(known), room(worn[i], t.Kinds[known-1].Holds, ahead), second)
	}
}

// room is how many sections the pieces still hold, as far as it matters. Pieces that hold no whole number of sections are alike
// only when they did the same.
func room(w wear, holds float64, ahead int) int32 {
	left := float64(w.pieces)*holds - float64(w.sections)
	switch {
	case left >= float64(ahead):
		return int32(ahead)
	case holds == math.Trunc(holds):
		return int32(left)
	}
	return -2 - w.sections
}

// beats says of two starts with the same key that a is as good as b whatever follows.
func (s *search) beats(l *starts, a, b int) bool {
	x, y := &l.heads[a], &l.heads[b]
	switch {
	case x.worth < y.worth:
		return false
	case x.paid+2*s.pool.Rounding < y.paid:
		return true
	case x.paid > y.paid || x.micros > y.micros || x.worked > y.worked || x.worth == y.worth && x.takesNm > y.takesNm:
		return false
	}
	if !slices.Equal(s.kindsOf(l, a), s.kindsOf(l, b)) {
		return false
	}
	worn, other := s.wearOf(l, a), s.wearOf(l, b)
	for i := range worn {
		if worn[i].sections > other[i].sections || worn[i].panels > other[i].panels {
			return false
		}
	}
	return true
}

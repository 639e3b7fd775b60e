package cases

import (
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/region"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// Bound is one place at which the condition of a rule turns, by one fact and all else
// equal: a number and the next one, a word and its neighbour, yes and no, one of the
// words of a list and any other, known and not known. Only those bounds count whose
// inner side some input reaches at which the rule gives the answer.
//
// A case tests the inner side when the rule answers it and would not hold with the
// fact on the outer side. It tests the outer side when the rule does not hold and
// would with the fact on the inner side.
type Bound struct {
	Table, Rule string
	File        string
	Line        int
	Fact        rules.FactID
	Inner       string // what will do, in words: "2", "soft", "measured"
	Outer       string // what will not do: "1.5", "medium", "not measured"
	Inside      string // the first case that tests the inner side; empty for none
	Outside     string // the first case that tests the outer side; empty for none

	// Suggest has a case for each side that none tests, the inner side first; a side
	// for which no input was found has none.
	Suggest []Suggestion
}

// Tested says whether both sides are.
func (b *Bound) Tested() bool { return b.Inside != "" && b.Outside != "" }

// bounds are a table's bounds, rule by rule, with the passed cases that test them.
func bounds(t *rules.Table, worked []*rules.Case) []Bound {
	f := newFinder(t)
	var out []Bound
	for r := range t.Rules() {
		for _, e := range f.edgesOf(r) {
			if b, ok := f.bound(r, e, worked); ok {
				out = append(out, b)
			}
		}
	}
	return out
}

// bound looks which cases test an edge of a rule; ok is false when no input reaches it.
func (f *finder) bound(rule int, e edge, worked []*rules.Case) (b Bound, ok bool) {
	r := &f.table.Rules()[rule]
	b = Bound{
		Table: f.table.Name(), Rule: r.ID, File: r.File, Line: r.Line, Fact: rules.FactID(e.axis),
		Inner: f.side(e.axis, e.in, e.knownIn), Outer: f.side(e.axis, e.out, e.knownOut),
	}
	var inside *rules.Input
	for _, c := range worked {
		switch {
		case b.Inside == "" && f.onInside(rule, &e, c.Given):
			b.Inside, inside = c.Name, c.Given
		case b.Outside == "" && f.onOutside(rule, &e, c.Given):
			b.Outside = c.Name
		}
	}
	if inside == nil {
		if inside = f.reach(rule, &e); inside == nil {
			return b, false
		}
		b.Suggest = append(b.Suggest, Expect(f.table, inside, f.asked(rule, inside, b.Fact)))
	}
	if b.Outside == "" {
		b.Suggest = append(b.Suggest, f.outsideOf(rule, &e, inside)...)
	}
	return b, true
}

// side is one side of an edge in words.
func (f *finder) side(axis int32, codes []int32, known bool) string {
	if known {
		return "known"
	}
	in := f.table.Schema().NewInput()
	var words []string
	for _, k := range codes {
		in.SetCode(rules.FactID(axis), k)
		words = append(words, in.Value(rules.FactID(axis)))
	}
	return strings.Join(words, " or ")
}

// turns says whether a rule that holds, or does not, would turn with the fact on one
// of some codes.
func (f *finder) turns(rule int, axis int32, in *rules.Input, codes []int32, holds bool) (code int32, ok bool) {
	moved := in.Clone()
	for _, k := range codes {
		moved.SetCode(rules.FactID(axis), k)
		if f.holds(rule, moved) != holds {
			return k, true
		}
	}
	return 0, false
}

func (f *finder) onInside(rule int, e *edge, in *rules.Input) bool {
	if !on(e.in, e.knownIn, in.Codes()[e.axis]) || !f.wins(rule, in) {
		return false
	}
	_, ok := f.turns(rule, e.axis, in, e.out, true)
	return ok
}

func (f *finder) onOutside(rule int, e *edge, in *rules.Input) bool {
	if !on(e.out, e.knownOut, in.Codes()[e.axis]) || f.holds(rule, in) {
		return false
	}
	_, ok := f.turns(rule, e.axis, in, e.in, false)
	return ok
}

// on says whether a code stands on a side.
func on(codes []int32, known bool, code int32) bool {
	return known && code != space.Missing || slices.Contains(codes, code)
}

// reach is an input that tests the inner side of an edge; nil when none was found.
func (f *finder) reach(rule int, e *edge) *rules.Input {
	will := func(codes []int32) bool { return f.onInside(rule, e, f.input(codes)) }
	for _, b := range f.boxes(rule) {
		whole, ok := region.Whole(f.g.Axes).Within(&f.g.Boxes[b])
		if !ok {
			continue
		}
		for _, inner := range e.in {
			if d := f.g.Boxes[b].Dim(e.axis); d != nil && d.Truth(inner) != space.True {
				continue
			}
			for _, outer := range e.out {
				also := f.without(rule, e.axis, outer)
				for _, part := range f.edges(whole, &f.g.Boxes[b]) {
					part[e.axis] = only(f.g.Axes, e.axis, inner)
					if point := f.search(b, part, also, will); point != nil {
						return f.smallest(b, point, will)
					}
				}
			}
		}
	}
	return nil
}

// without are the boxes of a rule that let a code of an axis in, with that axis left
// out: where one of them holds, the rule does not turn at the code.
func (f *finder) without(rule int, axis, code int32) []space.Box {
	var out []space.Box
	for _, b := range f.boxes(rule) {
		box := &f.g.Boxes[b]
		if d := box.Dim(axis); d != nil && d.Truth(code) != space.True {
			continue
		}
		out = append(out, space.Box{
			Dims:     slices.DeleteFunc(slices.Clone(box.Dims), func(d space.Dim) bool { return d.Axis == axis }),
			Literals: box.Literals,
		})
	}
	return out
}

// outsideOf is the case on the outer side of an edge, made from an input on the
// inner; none where rules quarrel there.
func (f *finder) outsideOf(rule int, e *edge, inside *rules.Input) []Suggestion {
	code, _ := f.turns(rule, e.axis, inside, e.out, true)
	in := inside.Clone()
	in.SetCode(rules.FactID(e.axis), code)
	if f.quarrels(in) {
		return nil
	}
	s := Expect(f.table, in, f.asked(rule, in, rules.FactID(e.axis)))
	if id := f.table.Rules()[rule].ID; notJustMissed(f.table, in, id) == "" {
		s.Misses = []string{id}
	}
	return []Suggestion{s}
}

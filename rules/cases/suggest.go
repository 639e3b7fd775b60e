package cases

import (
	"slices"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/region"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// Suggest writes two cases for a rule, given by its place: one that it wins, and one
// that just misses it. Either is nil where no input was found: a rule that others
// hide wins nothing, and a rule that always holds, and alone, is never missed.
func Suggest(t *rules.Table, rule int) (wins, misses *Suggestion) {
	f := newFinder(t)
	in, box := f.picked(rule)
	if in != nil {
		s := Expect(t, in, knownFacts(in))
		wins = &s
	}
	if near, moved := f.missed(rule, in, box); near != nil {
		matter := knownFacts(near)
		if moved >= 0 && !slices.Contains(matter, moved) {
			matter = append(matter, moved)
		}
		s := Expect(t, near, matter)
		s.Misses = []string{t.Rules()[rule].ID}
		misses = &s
	}
	return wins, misses
}

// missed is an input that a rule just misses, made from one that it wins by moving
// one fact; the fact is -1 if another rule is preferred instead.
func (f *finder) missed(rule int, from *rules.Input, box int32) (in *rules.Input, moved rules.FactID) {
	id := f.table.Rules()[rule].ID
	if from != nil {
		dims := f.g.Boxes[box].Dims
		for pass := range 2 { // a value that is too much or too little says more than one that lacks
			for i := range dims {
				for _, code := range f.beside(&dims[i]) {
					if (code == space.Missing) != (pass == 1) {
						continue
					}
					near := from.Clone()
					near.SetCode(rules.FactID(dims[i].Axis), code)
					if !f.quarrels(near) && notJustMissed(f.table, near, id) == "" {
						return near, rules.FactID(dims[i].Axis)
					}
				}
			}
		}
	}
	return f.preferred(rule), -1
}

// preferred is an input at which a rule holds and another one gives the answer; nil
// when none was found.
func (f *finder) preferred(rule int) *rules.Input {
	whole := region.Whole(f.g.Axes)
	for _, own := range f.boxes(rule) {
		part, ok := whole.Within(&f.g.Boxes[own])
		if !ok {
			continue
		}
		for b := range f.g.Boxes {
			both, ok := part.Within(&f.g.Boxes[b])
			if int(f.g.Owner[b]) == rule || !ok {
				continue
			}
			in := f.input(both.Point())
			if !f.quarrels(in) && notJustMissed(f.table, in, f.table.Rules()[rule].ID) == "" {
				return in
			}
		}
	}
	return nil
}

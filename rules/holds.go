package rules

import (
	"slices"

	"github.com/glossladder/glossladder/rules/internal/space"
)

// Holds says whether the condition of a rule, given by its place in Rules, is true
// for an input, whether or not the rule then gives the answer. A nil scratch is
// allowed and costs allocations.
func (t *Table) Holds(in *Input, rule int, sc *Scratch) bool {
	if sc == nil {
		sc = &Scratch{}
	}
	t.index.Begin(&sc.s)
	for b := t.boxes[rule][0]; b < t.boxes[rule][1]; b++ {
		if t.index.Truth(b, in.codes, &sc.s) == space.True {
			return true
		}
	}
	return false
}

// Held adds the places in Rules of all rules whose condition is true for an input, as Holds says of each. A nil scratch is allowed and
// costs allocations.
func (t *Table) Held(in *Input, sc *Scratch, to []int) []int {
	if sc == nil {
		sc = &Scratch{}
	}
	t.index.Begin(&sc.s)
	for rule, boxes := range t.boxes {
		for b := boxes[0]; b < boxes[1]; b++ {
			if t.index.Truth(b, in.codes, &sc.s) == space.True {
				to = append(to, rule)
				break
			}
		}
	}
	return to
}

// Codes are the places of the facts' values on their grids or in their words, -1 for
// a missing fact, as [Schema.InputAt] takes them.
func (in *Input) Codes() []int32 { return slices.Clone(in.codes) }

// SetCode gives a fact the value of a code, which must be one of its own, or -1 to
// make it missing.
func (in *Input) SetCode(id FactID, code int32) { in.codes[id] = code }

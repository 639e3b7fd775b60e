package compare

import (
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// Kind is what became of a rule.
type Kind uint8

// The kinds. The zero Kind is Edited.
const (
	Edited  Kind = iota // both sets have it
	Added               // only B has it
	Removed             // only A has it
)

// String names the kind in one word.
func (k Kind) String() string { return [...]string{"edited", "added", "removed"}[min(k, 2)] }

// RuleChange is what became of one rule.
type RuleChange struct {
	ID   string
	Kind Kind
	// What was edited. A condition that is written otherwise and holds for the same
	// inputs is wording; one that is written as before is edited when a let of it is.
	Condition, Result, Wording bool
	// Moved says that the rule stands elsewhere among those that both sets have.
	Moved bool
	// A and B are the rule in either set; the zero Rule where a set has it not.
	A, B rules.Rule
}

// What lists what was edited: "condition", "result", "wording", "moved"; for a rule
// that only one set has, its kind.
func (c RuleChange) What() []string {
	if c.Kind != Edited {
		return []string{c.Kind.String()}
	}
	var out []string
	for _, w := range []struct {
		is   bool
		word string
	}{{c.Condition, "condition"}, {c.Result, "result"}, {c.Wording, "wording"}, {c.Moved, "moved"}} {
		if w.is {
			out = append(out, w.word)
		}
	}
	return out
}

// ruleChanges are in the order of b's file, and removed rules behind them in that of a's.
func ruleChanges(j *joint) []RuleChange {
	a, b := j.tables[0].Rules(), j.tables[1].Rules()
	of := pairs(a, b)
	partner := slices.Repeat([]int32{-1}, len(b)) // in a, of each rule of b
	var both []int32
	for r, s := range of {
		if s >= 0 {
			partner[s] = int32(r)
			both = append(both, int32(r))
		}
	}
	elsewhere := moved(both, func(r int32) int32 { return of[r] })
	edited := j.editedConditions()
	var out []RuleChange
	for s, r := range partner {
		if r < 0 {
			out = append(out, RuleChange{ID: b[s].ID, Kind: Added, B: b[s]})
			continue
		}
		c := RuleChange{
			ID: b[s].ID, A: a[r], B: b[s], Moved: slices.Contains(elsewhere, r),
			Condition: edited[r],
			Result:    !alikeButTexts(a[r].Result, b[s].Result),
		}
		c.Wording = a[r].Because != b[s].Because || !c.Condition && !sameText(a[r].When, b[s].When) ||
			!c.Result && !a[r].Result.Equal(b[s].Result)
		if c.Condition || c.Result || c.Wording || c.Moved {
			out = append(out, c)
		}
	}
	for r := range a {
		if of[r] < 0 {
			out = append(out, RuleChange{ID: a[r].ID, Kind: Removed, A: a[r]})
		}
	}
	return out
}

// sameText says whether two conditions read alike, spaces aside.
func sameText(a, b string) bool {
	return slices.Equal(strings.Fields(a), strings.Fields(b))
}

// editedConditions says of each rule of a that b has as well whether its boxes differ.
func (j *joint) editedConditions() map[int32]bool {
	var boxes [2]map[int32][]*space.Box
	for side := range boxes {
		boxes[side] = map[int32][]*space.Box{}
		for b, s := range j.seats[side] {
			if s.rank >= 0 {
				boxes[side][s.rule] = append(boxes[side][s.rule], &j.boxes[b])
			}
		}
	}
	out := map[int32]bool{}
	for r, s := range pairs(j.tables[0].Rules(), j.tables[1].Rules()) {
		if s >= 0 {
			out[int32(r)] = !sameBoxes(boxes[0][int32(r)], boxes[1][s])
		}
	}
	return out
}

// sameBoxes compares without regard to order.
func sameBoxes(a, b []*space.Box) bool {
	if len(a) != len(b) {
		return false
	}
	left := slices.Clone(b)
	for _, box := range a {
		i := slices.IndexFunc(left, func(o *space.Box) bool { return slices.Equal(box.Dims, o.Dims) })
		if i < 0 {
			return false
		}
		left = slices.Delete(left, i, i+1)
	}
	return true
}

package compare

import (
	"cmp"
	"errors"
	"reflect"
	"slices"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/region"
)

// Outcome is how the search for other answers came out. The zero value is NotDecided.
type Outcome uint8

// The outcomes.
const (
	NotDecided Outcome = iota // the steps ran out; there may be more regions than those told
	Same                      // proved: no input has another answer
	Changed                   // proved: inputs have another answer where the regions say, and nowhere else
	Possible                  // as Changed, but clauses of all regions may leave them without any input
)

// String names the outcome in words.
func (o Outcome) String() string {
	return [...]string{"not decided", "no answer differs", "answers differ", "answers possibly differ"}[min(o, 3)]
}

// DefaultBudget is the number of steps that the comparison of two tables takes when asked for none.
const DefaultBudget = 100_000

// ErrSchema is the error of a comparison of tables that do not have the same facts and results.
var ErrSchema = errors.New("the two sets have different facts or results, so their answers cannot be compared")

// Effect is what another table means for the answers.
type Effect struct {
	Outcome Outcome
	// Regions are sorted by size, the largest first. They have no input in common,
	// unless the tables collect; see [Region.Collects].
	Regions []Region
	// Steps is what the search took.
	Steps int

	joint *joint
}

// Tables compares the answers of two tables of one name, b with a. A budget of 0 is
// [DefaultBudget] steps. The error is [ErrSchema].
func Tables(a, b *rules.Table, budget int) (Effect, error) {
	if a.Name() != b.Name() || !sameFacts(a.Schema(), b.Schema()) || !reflect.DeepEqual(a.Result(), b.Result()) {
		return Effect{}, ErrSchema
	}
	return effect(a, b, budget), nil
}

func sameFacts(a, b *rules.Schema) bool {
	return a == b || reflect.DeepEqual(a.Facts(), b.Facts())
}

func effect(a, b *rules.Table, budget int) Effect {
	if budget <= 0 {
		budget = DefaultBudget
	}
	f := &finder{joint: join(a, b), budget: budget}
	f.search()
	out := Effect{Steps: f.steps, joint: f.joint}
	for _, found := range f.found {
		out.Regions = append(out.Regions, f.region(found))
	}
	slices.SortStableFunc(out.Regions, func(x, y Region) int { return cmp.Compare(y.Share, x.Share) })
	switch {
	case f.spent:
	case len(out.Regions) == 0:
		out.Outcome = Same
	case slices.ContainsFunc(out.Regions, func(r Region) bool { return r.Certain }):
		out.Outcome = Changed
	default:
		out.Outcome = Possible
	}
	return out
}

// finder looks for the parts of the space in which answers differ.
type finder struct {
	*joint
	budget int
	steps  int
	spent  bool // the steps ran out
	turn   int32
	found  []finding
}

// finding is a block of the space without some boxes, in which the tables say different
// things. Under collect that is what only one of them says.
type finding struct {
	cells  region.Region
	except []int32 // boxes that keep what they hold out of it
	says   [2]said
	point  []int32 // an input of it, nil when none is known
	asked  []bool  // axis -> the rules that answer ask for it; nil: all that is bounded
}

func (f *finder) search() {
	switch {
	case first(f.hit[0]) && first(f.hit[1]):
		f.winners()
	case f.hit[0] == rules.Collect && f.hit[1] == rules.Collect:
		f.collected()
	default:
		f.parts()
	}
}

// parts looks into every box that changed, since answers differ nowhere else, and
// parts it until what both tables say is settled.
func (f *finder) parts() {
	f.turn = -1
	if !f.alike {
		f.within(f.whole())
	} else {
		for _, b := range f.changed {
			f.turn = b
			if part, ok := f.whole().Within(&f.boxes[b]); ok {
				f.within(part)
			}
		}
	}
	var real []finding
	for _, found := range f.unite() {
		point, some := f.input(found.cells)
		if found.point = point; some {
			real = append(real, found)
		}
	}
	f.found = real
}

func (f *finder) within(part region.Region) {
	s := region.Search{
		Axes: f.axes, Boxes: f.boxes, Within: part, Budget: f.budget - f.steps, Judge: f.look,
		Breaks: func([]int32) bool { return false }, // what differs is noted, and never ends the search
	}
	answer := s.Run()
	f.steps += answer.Steps
	f.spent = f.spent || answer.Outcome != region.Proved
}

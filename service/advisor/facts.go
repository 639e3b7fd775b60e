package advisor

import (
	"errors"
	"fmt"
	"math"

	"github.com/glossladder/glossladder/rules"
)

// factSheet is the facts of one question to the tables, set by name. The first fault stays in err: every name and
// bound comes from the contract, so a fault is ours and never the caller's.
type factSheet struct {
	in     *rules.Input
	schema *rules.Schema
	err    error
	// spare is room to keep the facts in while others are tried; nil while it is in use.
	spare *rules.Input
	// recall sets what the shop's record says.
	recall recall
}

func newFactSheet(schema *rules.Schema) *factSheet {
	return &factSheet{in: schema.NewInput(), schema: schema}
}

func (f *factSheet) id(name string) (rules.FactID, bool) {
	id, ok := f.schema.FactID(name)
	if !ok {
		f.err = errors.Join(f.err, fmt.Errorf("fact %s is not in the schema", name))
	}
	return id, ok
}

func (f *factSheet) word(name, word string) {
	id, ok := f.id(name)
	if !ok {
		return
	}
	if word == "" {
		f.in.Clear(id)
		return
	}
	f.err = errors.Join(f.err, f.in.SetWord(id, word))
}

func (f *factSheet) flag(name string, value *bool) {
	id, ok := f.id(name)
	if !ok {
		return
	}
	if value == nil {
		f.in.Clear(id)
		return
	}
	f.err = errors.Join(f.err, f.in.SetFlag(id, *value))
}

func (f *factSheet) yes(name string, value bool) { f.flag(name, &value) }

// rounding says on which side of a value its grid point may lie.
type rounding func(float64) float64

// The roundings: a lower bound is rounded down and an upper bound up, so that the grid never flatters.
var (
	nearest rounding = math.Round
	down    rounding = math.Floor
	up      rounding = math.Ceil
)

// number sets a fact to the point of its instrument's grid on the side asked for, within its bounds.
func (f *factSheet) number(name string, value *float64, side rounding) {
	id, ok := f.id(name)
	if !ok {
		return
	}
	if value == nil || math.IsNaN(*value) {
		f.in.Clear(id)
		return
	}
	fact := f.schema.Fact(id)
	f.err = errors.Join(f.err, f.in.SetNumber(id, onGrid(*value, fact, side)))
}

func onGrid(value float64, fact rules.Fact, side rounding) float64 {
	perUnit := math.Round(1/fact.Step*1e6) / 1e6
	steps := value * perUnit
	if near := math.Round(steps); math.Abs(steps-near) < 1e-6 {
		steps = near // 0.1 is not a binary fraction: 8.2 µm must not become 8.1
	} else {
		steps = side(steps)
	}
	return min(max(steps/perUnit, fact.Min), fact.Max)
}

// with runs ask with a fact sheet that differs in some facts, and puts them back.
func (f *factSheet) with(set func(*factSheet), ask func()) {
	saved := f.spare
	f.spare = nil
	if saved == nil {
		saved = f.in.Clone()
	} else {
		saved.CopyFrom(f.in)
	}
	set(f)
	ask()
	f.in.CopyFrom(saved)
	f.spare = saved
}

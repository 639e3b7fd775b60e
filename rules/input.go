package rules

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/glossladder/glossladder/rules/internal/space"
	"github.com/glossladder/glossladder/rules/strictyaml"
)

// Input is the facts of one case, coded. All are missing at first. It is not
// safe for concurrent use; two inputs of one schema can be copied with CopyFrom.
type Input struct {
	schema *Schema
	codes  []int32
}

// FactError is a value that a fact cannot have.
type FactError struct {
	Fact    string
	Value   string // as given
	Message string // what is wrong, and a way out
}

// Error is the fact, the value and the way out in one line.
func (e *FactError) Error() string {
	return fmt.Sprintf("%s cannot be %s: %s", e.Fact, e.Value, e.Message)
}

// NewInput is an input in which every fact is missing.
func (s *Schema) NewInput() *Input {
	in := &Input{schema: s, codes: make([]int32, len(s.facts))}
	in.Reset()
	return in
}

// Schema is the schema that the input was made for.
func (in *Input) Schema() *Schema { return in.schema }

// Reset makes every fact missing.
func (in *Input) Reset() {
	for i := range in.codes {
		in.codes[i] = space.Missing
	}
}

// CopyFrom takes over the facts of another input of the same schema.
func (in *Input) CopyFrom(from *Input) { copy(in.codes, from.codes) }

// Clone is an independent copy.
func (in *Input) Clone() *Input {
	return &Input{schema: in.schema, codes: append([]int32(nil), in.codes...)}
}

// Equal reports whether another input of the same schema has the same facts.
func (in *Input) Equal(o *Input) bool { return slices.Equal(in.codes, o.codes) }

// Clear makes a fact missing.
func (in *Input) Clear(id FactID) { in.codes[id] = space.Missing }

// Known reports whether a fact was given.
func (in *Input) Known(id FactID) bool { return in.codes[id] != space.Missing }

func (in *Input) reject(id FactID, kind Kind, value string) error {
	if id < 0 || int(id) >= len(in.codes) {
		return &FactError{Fact: fmt.Sprintf("fact %d", id), Value: value, Message: "there is no such fact"}
	}
	if f := &in.schema.facts[id]; f.Kind != kind {
		return &FactError{Fact: f.Name, Value: value, Message: "it is a " + f.Kind.String()}
	}
	return nil
}

// SetNumber gives a number in the fact's unit. It returns a [*FactError] when v
// is not finite, outside the bounds, or beside the instrument's steps by more
// than a millionth of a step; the fact then keeps its old value.
func (in *Input) SetNumber(id FactID, v float64) error {
	if in.holds(id, Number) && !math.IsNaN(v) && !math.IsInf(v, 0) {
		if code, on := in.schema.space.Axes[id].Grid.Code(v); on {
			in.codes[id] = code
			return nil
		}
	}
	return in.wrongNumber(id, v)
}

// wrongNumber says why a number is refused.
func (in *Input) wrongNumber(id FactID, v float64) error {
	value := showNumber(v)
	if err := in.reject(id, Number, value); err != nil {
		return err
	}
	f := &in.schema.facts[id]
	e := &FactError{Fact: f.Name, Value: value + unit(f.Unit)}
	grid := in.schema.space.Axes[id].Grid
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		e.Message = "it is no number; leave the fact out when it was not measured"
	case v < f.Min || v > f.Max:
		e.Message = fmt.Sprintf("it must be %s to %s%s", showNumber(f.Min), showNumber(f.Max), unit(f.Unit))
	default:
		code, _ := grid.Code(v)
		e.Message = fmt.Sprintf("it comes in steps of %s; the nearest is %s%s",
			showNumber(f.Step), showNumber(grid.Value(code)), unit(f.Unit))
	}
	return e
}

// holds says whether a fact is there and of a kind.
func (in *Input) holds(id FactID, kind Kind) bool {
	return id >= 0 && int(id) < len(in.schema.facts) && in.schema.facts[id].Kind == kind
}

// SetWord gives one of the fact's words, or returns a [*FactError].
func (in *Input) SetWord(id FactID, word string) error {
	if err := in.reject(id, Word, word); err != nil {
		return err
	}
	axis := &in.schema.space.Axes[id]
	code := axis.WordCode(word)
	if code < 0 {
		e := &FactError{Fact: axis.Name, Value: fmt.Sprintf("%q", word), Message: "it is one of " + strings.Join(axis.Words, ", ")}
		if near := strictyaml.Nearest(word, axis.Words); near != "" {
			e.Message = fmt.Sprintf("did you mean %q?", near)
		}
		return e
	}
	in.codes[id] = code
	return nil
}

// SetFlag gives true or false.
func (in *Input) SetFlag(id FactID, v bool) error {
	if !in.holds(id, Flag) {
		return in.reject(id, Flag, strconv.FormatBool(v))
	}
	in.codes[id] = 0
	if v {
		in.codes[id] = 1
	}
	return nil
}

// Number is a fact's number; ok is false when it is missing or no number.
func (in *Input) Number(id FactID) (v float64, ok bool) {
	if in.schema.facts[id].Kind != Number || !in.Known(id) {
		return 0, false
	}
	return in.schema.space.Axes[id].Grid.Value(in.codes[id]), true
}

// Word is a fact's word; ok is false when it is missing or no word.
func (in *Input) Word(id FactID) (word string, ok bool) {
	if in.schema.facts[id].Kind != Word || !in.Known(id) {
		return "", false
	}
	return in.schema.facts[id].Words[in.codes[id]], true
}

// Flag is a fact's flag; known is false when it is missing or no flag.
func (in *Input) Flag(id FactID) (v, known bool) {
	if in.schema.facts[id].Kind != Flag || !in.Known(id) {
		return false, false
	}
	return in.codes[id] == 1, true
}

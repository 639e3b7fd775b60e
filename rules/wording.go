package rules

import (
	"fmt"
	"math"
	"strings"

	"github.com/glossladder/glossladder/rules/internal/space"
)

// label is a fact's name for people, without an ending that names the unit again.
func (s *Schema) label(id FactID) string { return s.facts[id].Label }

// value is a code in words: "38 µm", "soft", "yes", "not measured".
func (s *Schema) value(id FactID, code int32) string {
	f := &s.facts[id]
	switch {
	case code < 0 && f.Class == Measurable:
		return "not measured"
	case code < 0:
		return "not known"
	case f.Kind == Number:
		return showNumber(s.space.Axes[id].Grid.Value(code)) + unit(f.Unit)
	case f.Kind == Word:
		return f.Words[code]
	case code == 1:
		return "yes"
	}
	return "no"
}

// Value is a fact of an input in words, with its unit: "38 µm", "soft", "yes",
// "not measured".
func (in *Input) Value(id FactID) string { return in.schema.value(id, in.codes[id]) }

// bound is what a dim lets through, in words that follow "it must be".
func (s *Schema) bound(d *space.Dim) string {
	if s.letsNothingIn(d) {
		return "not known"
	}
	out := s.plainBound(d)
	if d.Missing == space.True {
		out += ", or not known"
	}
	return out
}

// boundSeen is what a dim lets through, for somebody who knows the value, or that it
// is missing: nobody is told that not knowing would do as well.
func (s *Schema) boundSeen(d *space.Dim, code int32) string {
	if s.letsNothingIn(d) || code < 0 && d.Missing == space.True {
		return "not known"
	}
	return s.plainBound(d)
}

// letsNothingIn says whether only a missing value passes a dim.
func (s *Schema) letsNothingIn(d *space.Dim) bool {
	if s.facts[d.Axis].Kind == Number {
		return d.Lo > d.Hi
	}
	return d.Mask == 0
}

func (s *Schema) plainBound(d *space.Dim) string {
	id := FactID(d.Axis)
	f := &s.facts[id]
	size := s.space.Axes[id].Size()
	if f.Kind != Number {
		return s.wordBound(id, d.Mask, size)
	}
	lo, hi := s.value(id, d.Lo), s.value(id, min(d.Hi, size-1))
	switch {
	case d.Lo == 0 && d.Hi >= size-1:
		return "known"
	case d.Lo == d.Hi:
		return lo
	case d.Lo == 0:
		return "at most " + hi
	case d.Hi >= size-1:
		return "at least " + lo
	}
	return showNumber(s.space.Axes[id].Grid.Value(d.Lo)) + " to " + hi
}

// wordBound is a set of words; an ordered set that reaches an end is a bound.
func (s *Schema) wordBound(id FactID, mask uint64, size int32) string {
	all := uint64(1)<<size - 1
	if mask == all {
		return "known"
	}
	f := &s.facts[id]
	var in, out []string
	for k := range size {
		if mask>>k&1 == 1 {
			in = append(in, s.value(id, k))
		} else {
			out = append(out, s.value(id, k))
		}
	}
	switch {
	case len(in) == 1:
		return in[0]
	case f.Ordered && mask == 1<<len(in)-1:
		return "at most " + in[len(in)-1]
	case f.Ordered && mask == all&^(1<<len(out)-1):
		return "at least " + in[0]
	case len(out) == 1:
		return "anything but " + out[0]
	}
	return strings.Join(in[:len(in)-1], ", ") + " or " + in[len(in)-1]
}

// spare is the margin of a check in words, empty when there is nothing to say.
func (s *Schema) spare(id FactID, margin float64) string {
	f := &s.facts[id]
	switch {
	case math.IsInf(margin, 0) || f.Kind == Flag || f.Kind == Word && !f.Ordered:
		return ""
	case f.Kind == Word && margin == 0:
		return "the last word that will do"
	case f.Kind == Word:
		return ""
	case margin == 0:
		return "just"
	}
	return showNumber(margin) + unit(f.Unit) + " to spare"
}

// off is how far a value lies beside what a dim lets through.
func (s *Schema) off(d *space.Dim, code int32) string {
	f := &s.facts[d.Axis]
	a := &s.space.Axes[d.Axis]
	if code < 0 || f.Kind != Number || d.Lo > d.Hi {
		return ""
	}
	if code < d.Lo {
		return showNumber(a.Grid.Span(code, d.Lo)) + unit(f.Unit) + " short"
	}
	return showNumber(a.Grid.Span(d.Hi, code)) + unit(f.Unit) + " too much"
}

func place(r *Rule) string { return fmt.Sprintf("%s:%d", r.File, r.Line) }

package rules

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Result is what a rule answers: a value for some of its table's fields. It is
// immutable. The zero Result has no fields.
type Result struct {
	typ    *ResultType
	values []fieldValue // along typ.Fields
}

type fieldValue struct {
	set    bool
	number float64
	flag   bool
	words  []string // one for a single word or text
}

// Type is the result type; nil for the zero Result.
func (r Result) Type() *ResultType { return r.typ }

func (r Result) value(field string) (*fieldValue, *Field) {
	if r.typ == nil {
		return nil, nil
	}
	i := r.typ.index(field)
	if i < 0 || !r.values[i].set {
		return nil, nil
	}
	return &r.values[i], &r.typ.Fields[i]
}

// Has reports whether the rule gives the field.
func (r Result) Has(field string) bool { v, _ := r.value(field); return v != nil }

// Word is the word of a field; ok is false when it is not given or of another kind.
func (r Result) Word(field string) (word string, ok bool) { return r.single(field, Word) }

// Text is the text of a field; ok is false when it is not given or of another kind.
func (r Result) Text(field string) (text string, ok bool) { return r.single(field, Text) }

func (r Result) single(field string, k Kind) (string, bool) {
	v, f := r.value(field)
	if v == nil || f.Kind != k || f.List {
		return "", false
	}
	return v.words[0], true
}

// Number is the number of a field in the field's unit; ok is false when it is
// not given or of another kind.
func (r Result) Number(field string) (n float64, ok bool) {
	v, f := r.value(field)
	if v == nil || f.Kind != Number {
		return 0, false
	}
	return v.number, true
}

// Flag is the flag of a field; ok is false when it is not given or of another kind.
func (r Result) Flag(field string) (yes, ok bool) {
	v, f := r.value(field)
	if v == nil || f.Kind != Flag {
		return false, false
	}
	return v.flag, true
}

// Words are the words or texts of a list field in the file's order, nil when it
// is not given. Do not change them.
func (r Result) Words(field string) []string {
	v, f := r.value(field)
	if v == nil || !f.List {
		return nil
	}
	return v.words
}

// FieldValue is one given field, for printing.
type FieldValue struct {
	Field Field
	Value string // as a person reads it, without the unit
}

// Fields are the given fields in the order of the result type.
func (r Result) Fields() []FieldValue {
	var out []FieldValue
	for i, v := range r.values {
		if v.set {
			out = append(out, FieldValue{Field: r.typ.Fields[i], Value: v.show(r.typ.Fields[i].Kind)})
		}
	}
	return out
}

func (v *fieldValue) show(k Kind) string {
	switch k {
	case Number:
		return showNumber(v.number)
	case Flag:
		return strconv.FormatBool(v.flag)
	}
	return strings.Join(v.words, ", ")
}

// Equal reports whether two results give the same fields the same values. The
// order of a list counts.
func (r Result) Equal(o Result) bool {
	return (r.typ == o.typ || r.typ != nil && o.typ != nil && r.typ.Table == o.typ.Table) &&
		slices.EqualFunc(r.values, o.values, func(a, b fieldValue) bool {
			return a.set == b.set && a.number == b.number && a.flag == b.flag && slices.Equal(a.words, b.words)
		})
}

// String is the given fields in words: "step: polish, passes: 4".
func (r Result) String() string {
	var parts []string
	for _, f := range r.Fields() {
		parts = append(parts, f.Field.Name+": "+f.Value+unit(f.Field.Unit))
	}
	return strings.Join(parts, ", ")
}

// key tells results apart in one string.
func (r Result) key() string {
	var b strings.Builder
	for i, v := range r.values {
		if v.set {
			fmt.Fprintf(&b, "%d=%v %t %q;", i, v.number, v.flag, v.words)
		}
	}
	return b.String()
}

// strength ranks a result under priority: less is stronger.
func (r Result) strength() int {
	word, _ := r.Word(r.typ.Priority)
	f, _ := r.typ.Field(r.typ.Priority)
	i := slices.Index(f.Words, word)
	if r.typ.HighestWins {
		return len(f.Words) - i
	}
	return i
}

func showNumber(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

func unit(u string) string {
	if u == "" {
		return ""
	}
	return " " + u
}

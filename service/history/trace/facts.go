package trace

import "github.com/glossladder/glossladder/service/history"

// ValueKind says what a fact is.
type ValueKind uint8

// The kinds of value. The zero kind is not known.
const (
	Unknown ValueKind = iota
	Number
	Word
	Flag
)

// Value is what a fact was seen to be.
type Value struct {
	Kind   ValueKind
	Flag   bool
	Number float64
	Word   string
}

// ValueOf is the value of a fact as [history.FactSheet] has it; unknown for anything that is no fact.
func ValueOf(v any) Value {
	switch v := v.(type) {
	case float64:
		return Value{Kind: Number, Number: v}
	case string:
		return Value{Kind: Word, Word: v}
	case bool:
		return Value{Kind: Flag, Flag: v}
	}
	return Value{}
}

// Facts are facts by name. They belong to some [Words], and keep their room when they are cleared.
type Facts struct {
	words  *Words
	values []Value
	set    []uint32
}

// NewFacts knows no fact yet.
func NewFacts(words *Words) *Facts { return &Facts{words: words} }

// Clear makes every fact unknown.
func (f *Facts) Clear() {
	for _, n := range f.set {
		f.values[n] = Value{}
	}
	f.set = f.set[:0]
}

// At is the value of the fact with a number that [Words.Number] gave.
func (f *Facts) At(number uint32) *Value {
	if int(number) >= len(f.values) {
		return &Value{}
	}
	return &f.values[number]
}

// Known gives the numbers of the facts that were set since the last clearing; one that was taken back is unknown.
func (f *Facts) Known() []uint32 { return f.set }

// Get is the value of a fact.
func (f *Facts) Get(fact string) *Value {
	n, known := f.words.number[fact]
	if !known {
		return &Value{}
	}
	return f.At(n)
}

// Number is a fact that is a number; false when it is not known or none.
func (f *Facts) Number(fact string) (float64, bool) {
	v := f.Get(fact)
	return v.Number, v.Kind == Number
}

// Word is a fact that is a word, "" when it is not known or none.
func (f *Facts) Word(fact string) string { return f.Get(fact).Word }

// Set sets a fact.
func (f *Facts) Set(fact string, v Value) {
	f.put(f.words.Number(fact), v)
}

// Drop makes a fact unknown.
func (f *Facts) Drop(fact string) {
	if n, known := f.words.number[fact]; known && int(n) < len(f.values) {
		f.values[n] = Value{}
	}
}

func (f *Facts) put(n uint32, v Value) {
	if int(n) >= len(f.values) {
		f.values = append(f.values, make([]Value, max(len(f.words.words), int(n)+1)-len(f.values))...)
	}
	if f.values[n].Kind == Unknown {
		f.set = append(f.set, n)
	}
	f.values[n] = v
}

// Sheet is a [history.FactSheet] without its facts.
type Sheet struct {
	Panel, About string
	Asked        []Question
}

// Question is what one table was asked, and said: every rule that it told, or one answer without a rule.
type Question struct {
	Table string
	Said  []history.TableAnswer
}

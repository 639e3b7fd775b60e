package check

import (
	"cmp"
	"fmt"
	"slices"
)

// Code names a kind of finding. Codes do not change once they are in use.
type Code string

// The codes.
const (
	Gap          Code = "gap"             // no rule answers some inputs
	Conflict     Code = "conflict"        // two rules hold at once and may not
	NeverWins    Code = "never-wins"      // rules before it leave it nothing
	NeverTrue    Code = "never-true"      // no input makes the condition true
	AlwaysTrue   Code = "always-true"     // every input does, and it does not say so
	Duplicate    Code = "duplicate"       // two rules with the same condition and result
	Mergeable    Code = "mergeable"       // two rules that one could say
	OutOfBounds  Code = "out-of-bounds"   // a number that its fact cannot reach
	FinerThan    Code = "finer-than-step" // a number between two steps of its fact
	UnusedWord   Code = "unused-word"     // a result that no rule gives
	NotDecided   Code = "not-decided"     // the search came to no end
	UnusedAccept Code = "unused-accept"   // a finding is accepted that is not there
)

// Codes are all codes.
func Codes() []Code {
	return []Code{
		Gap, Conflict, NeverTrue, NeverWins, AlwaysTrue, Duplicate, OutOfBounds, FinerThan, UnusedWord, NotDecided, Mergeable, UnusedAccept,
	}
}

// Level says how bad a finding is.
type Level string

// The levels.
const (
	Error   Level = "error"   // an input without its answer, or a rule that cannot mean what it says
	Warning Level = "warning" // worth a look
	Advice  Level = "advice"  // the rules do what they say, and could say it better
)

// Place is a rule in its file, or a number in it.
type Place struct {
	Rule, File string
	Line, Col  int    // from 1
	Says       string // what the rule answers; empty for a place that is no rule
}

// Counterexample is the inputs for which a finding is so.
type Counterexample struct {
	Region string         // as far as they reach around the one given, in words that name only the facts that matter
	When   string         // the same as a rule's condition: true for these inputs alone
	Given  map[string]any // one of them by fact: float64, string or bool. Facts left out are missing
}

// Finding is one thing that is wrong with a table, or doubtful.
type Finding struct {
	Code    Code
	Level   Level
	Table   string
	Places  []Place         // the rules involved, the one to look at first in front; the table's file when none is
	Message string          // in lower case, without a full stop
	Example string          // the inputs for which it is so and one of them, in words; empty when there are none
	Input   *Counterexample // the same for programs; nil when there are none
	Effect  string          // what it does to decisions
	Mend    string          // the smallest way out
	Stub    string          // a rule to add, as a file has it; empty when none would help
	Subject string          // what a line "# accept CODE SUBJECT: REASON" of the file calls it
	More    int             // how many more of the kind there are that are not told one by one

	Accepted string // the reason that the file gives for leaving it so; empty when it does not
}

// String is "start.yaml:7:11: message: example; mend [code]".
func (f Finding) String() string {
	p := f.Places[0]
	at := p.File
	if p.Line > 0 {
		at += fmt.Sprintf(":%d:%d", p.Line, p.Col)
	}
	text := at + ": " + f.Message
	if f.Example != "" {
		text += ": " + f.Example
	}
	if f.Mend != "" {
		text += "; " + f.Mend
	}
	return text + " [" + string(f.Code) + "]"
}

func sorted(fs []Finding) []Finding {
	slices.SortStableFunc(fs, func(a, b Finding) int {
		p, q := a.Places[0], b.Places[0]
		return cmp.Or(cmp.Compare(p.File, q.File), cmp.Compare(p.Line, q.Line), cmp.Compare(p.Col, q.Col), cmp.Compare(a.Code, b.Code))
	})
	return fs
}

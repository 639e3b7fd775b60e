package check

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/glossladder/glossladder/rules"
)

// Code names a kind of finding. Codes do not change once they are in use.
type Code string

// The codes.
const (
	Gap        Code = "gap"         // no rule answers some input
	Conflict   Code = "conflict"    // two rules hold at once and may not
	NeverWins  Code = "never-wins"  // rules before it leave it nothing
	NeverTrue  Code = "never-true"  // no input makes the condition true
	AlwaysTrue Code = "always-true" // every input does, and it does not say so
	Duplicate  Code = "duplicate"   // two rules with the same condition and result
	UnusedWord Code = "unused-word" // a result that no rule gives
	NotDecided Code = "not-decided" // the search came to no end
	maxOfAKind      = 20
)

// Level says how bad a finding is.
type Level string

// The levels.
const (
	Error   Level = "error"   // an input without its answer, or a rule that cannot mean what it says
	Warning Level = "warning" // worth a look
)

// Place is a rule in its file.
type Place struct {
	Rule, File string
	Line, Col  int // from 1
}

// Finding is one thing that is wrong with a table.
type Finding struct {
	Code    Code
	Level   Level
	Table   string
	Places  []Place // the rules involved, the one to look at first in front; the table's file when none is
	Message string  // in lower case, without a full stop
	Example string  // an input for which it is so, in words; empty when there is none
	Mend    string  // the smallest way out
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

func place(r rules.Rule) Place { return Place{Rule: r.ID, File: r.File, Line: r.Line, Col: r.Col} }

func sorted(fs []Finding) []Finding {
	slices.SortStableFunc(fs, func(a, b Finding) int {
		p, q := a.Places[0], b.Places[0]
		return cmp.Or(cmp.Compare(p.File, q.File), cmp.Compare(p.Line, q.Line), cmp.Compare(p.Col, q.Col), cmp.Compare(a.Code, b.Code))
	})
	return fs
}

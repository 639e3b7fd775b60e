package rules

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules/strictyaml"
)

// Problem is one mistake in a rule folder.
type Problem struct {
	File    string // within the folder, with forward slashes
	Line    int    // from 1; 0 when the whole file is meant
	Col     int    // from 1, in runes
	Rule    string // the rule's id, or empty
	Message string
	Hint    string // a way out, or empty
}

// Error is "start.yaml:7:11: message; hint".
func (p Problem) Error() string {
	var b strings.Builder
	b.WriteString(p.File)
	if p.Line > 0 {
		fmt.Fprintf(&b, ":%d:%d", p.Line, p.Col)
	}
	b.WriteString(": " + p.Message)
	if p.Hint != "" {
		b.WriteString("; " + p.Hint)
	}
	return b.String()
}

// Problems are all mistakes of a load, by file, line and column. At most 100 are
// kept; a last one says how many more there were.
type Problems []Problem

// maxProblems is as many as a person will work through before loading again.
const maxProblems = 100

// Error is one problem a line.
func (ps Problems) Error() string {
	lines := make([]string, len(ps))
	for i, p := range ps {
		lines[i] = p.Error()
	}
	return strings.Join(lines, "\n")
}

// sorted orders the problems, drops repetitions and caps their number.
func (ps Problems) sorted() Problems {
	slices.SortStableFunc(ps, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Col, b.Col))
	})
	ps = slices.Compact(ps)
	if extra := len(ps) - maxProblems; extra > 0 {
		ps = append(ps[:maxProblems:maxProblems], Problem{
			File: ps[maxProblems].File, Message: fmt.Sprintf("and %d more problems", extra),
		})
	}
	return ps
}

// add takes over what the reader of YAML found.
func (ps *Problems) add(found ...strictyaml.Problem) {
	for _, p := range found {
		*ps = append(*ps, Problem{File: p.File, Line: p.Line, Col: p.Col, Message: p.Message, Hint: p.Hint})
	}
}

func (ps *Problems) at(file string, pos strictyaml.Pos, rule, message, hint string) {
	*ps = append(*ps, Problem{File: file, Line: pos.Line, Col: pos.Col, Rule: rule, Message: message, Hint: hint})
}

package strictyaml

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Pos is a place in a file. Line and Col start at 1, and Col counts runes. A byte order mark is not counted.
// The zero Pos means that the place is not known.
type Pos struct{ Line, Col int }

// String returns "7:11".
func (p Pos) String() string { return fmt.Sprintf("%d:%d", p.Line, p.Col) }

func (p Pos) compare(q Pos) int {
	return cmp.Or(cmp.Compare(p.Line, q.Line), cmp.Compare(p.Col, q.Col))
}

// Problem is one mistake in a file. Message is in lower case without a full stop. Hint, when not empty, is a way out.
type Problem struct {
	File string
	Pos
	Message, Hint string
}

// Error returns "start.yaml:7:11: message; hint".
func (p Problem) Error() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s:%d:%d: %s", p.File, p.Line, p.Col, p.Message)
	if p.Hint != "" {
		b.WriteString("; ")
		b.WriteString(p.Hint)
	}
	return b.String()
}

// Problems are the mistakes of one or more files. As an error it reads one problem a line. An empty Problems is not an
// error: see [Problems.Err].
type Problems []Problem

// Error returns the problems one a line.
func (ps Problems) Error() string {
	lines := make([]string, len(ps))
	for i, p := range ps {
		lines[i] = p.Error()
	}
	return strings.Join(lines, "\n")
}

// Err returns ps as an error, or nil when there is no problem.
func (ps Problems) Err() error {
	if len(ps) == 0 {
		return nil
	}
	return ps
}

// Sort puts the problems in the order of file, line and column. Problems of one place keep their order.
func (ps Problems) Sort() {
	slices.SortStableFunc(ps, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.File, b.File), a.compare(b.Pos))
	})
}

// Capped returns at most [MaxProblems] problems, and behind them one that says how many were left out.
func (ps Problems) Capped() Problems {
	if len(ps) <= MaxProblems {
		return ps
	}
	more := ps[MaxProblems]
	more.Message, more.Hint = fmt.Sprintf("%d more problems from here on", len(ps)-MaxProblems), ""
	return append(ps[:MaxProblems:MaxProblems], more)
}

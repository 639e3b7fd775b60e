package postgres

import (
	"fmt"
	"regexp"
	"slices"
)

// statement is a writing statement with its arguments by name, @stage, made ready once: the driver would look for the names
// anew at each call.
type statement struct {
	text  string
	names []string
}

// named gives the arguments of a statement.
type named map[string]any

func makeStatement(text string) statement {
	var s statement
	s.text = regexp.MustCompile(`@[a-z]+`).ReplaceAllStringFunc(text, func(name string) string {
		at := slices.Index(s.names, name[1:])
		if at < 0 {
			at = len(s.names)
			s.names = append(s.names, name[1:])
		}
		return fmt.Sprintf("$%d", at+1)
	})
	return s
}

func (s statement) args(by named) []any {
	out := make([]any, len(s.names))
	for i, name := range s.names {
		out[i] = by[name]
	}
	return out
}

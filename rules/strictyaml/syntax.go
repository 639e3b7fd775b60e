package strictyaml

import (
	"errors"
	"fmt"
	"strings"

	"go.yaml.in/yaml/v4"
)

// complaint is one of the parser's messages in an author's words.
type complaint struct {
	parser        string // a part of the parser's message
	message, hint string
	atOpening     bool // report where the construct opens: the parser noticed only at its end
}

func complaints() []complaint {
	const (
		quoteIt = "put the whole text in quotes"
		indent  = "check the indentation, and put text with a special character in quotes"
		noTag   = "a tag (a word after !) is not allowed"
		noName  = "an anchor or alias (a word after & or *) is not allowed"
	)
	return []complaint{
		{parser: "mapping values are not allowed", message: "a colon is not allowed here", hint: "check the indentation, or put the text with the colon in quotes"},
		{parser: "mapping keys are not allowed", message: "a question mark is not allowed here", hint: quoteIt},
		{parser: "block sequence entries are not allowed", message: "a list item is not allowed here", hint: "start the list on a line of its own"},
		{parser: "expected ',' or ']'", message: "the list that opens here is not closed, or lacks a comma", hint: "close it with ]", atOpening: true},
		{parser: "expected ',' or '}'", message: "the map that opens here is not closed, or lacks a comma", hint: "close it with }", atOpening: true},
		{parser: "expected '-' indicator", message: "a list item (- ...) is expected here", hint: indent},
		{parser: "did not find expected key", message: "a key is expected here", hint: indent},
		{parser: "could not find expected ':'", message: "the key that begins here has no colon on its line", hint: indent, atOpening: true},
		{parser: "did not find expected node content", message: "a value is expected here", hint: indent},
		{parser: "unexpected end of stream", message: "the quote that opens here is never closed", hint: "close it", atOpening: true},
		{parser: "unexpected document indicator", message: "the quote that opens here is not closed before the document ends", hint: "close it", atOpening: true},
		{parser: "unknown escape character", message: "this backslash begins no known escape", hint: "use single quotes, where a backslash is only a backslash"},
		{parser: "hexadecimal number", message: "this escape lacks hexadecimal digits"},
		{parser: "Unicode character escape", message: "this escape names no character"},
		{parser: errTooDeep.Error(), message: errTooDeep.Error(), hint: "make it flatter"},
		{parser: "unknown anchor", message: noName, hint: "write the value out, or put the text in quotes"},
		{parser: "alphabetic or numeric character", message: noName, hint: quoteIt},
		{parser: "whitespace or line break", message: noName + ", nor a tag (a word after !)", hint: quoteIt},
		{parser: "tag", message: noTag, hint: quoteIt},
		{parser: "'!'", message: noTag, hint: quoteIt},
		{parser: "URI", message: noTag, hint: quoteIt},
		{parser: "directive", message: "directives are not allowed", hint: "take the line out"},
		{parser: "document start", message: "nothing may follow the document here", hint: indent},
		{parser: "document-end", message: "nothing may follow the three dots"},
		{parser: "comment or line break", message: "only a line end may follow the | or > and its digits", hint: quoteIt},
		{parser: "comment without preceding whitespace", message: "a comment needs a space before it"},
		{parser: "indicator equal to 0", message: "an indentation of 0 is not possible"},
		{parser: "tab", message: "tab in the indentation", hint: "use spaces"},
	}
}

// syntax puts the parser's complaint into an author's words, at the place where the author can mend it.
func (s *source) syntax(err error) Problem {
	var le *yaml.LoadError
	if !errors.As(err, &le) {
		return s.problem(Pos{1, 1}, "this is not valid YAML", "")
	}
	at := Pos{le.Mark.Line, le.Mark.Column}
	if strings.Contains(le.Message, "cannot start any token") {
		return s.problem(at, fmt.Sprintf("a value cannot start with %s", s.runeAt(at)), "put the whole text in quotes")
	}
	for _, c := range complaints() {
		if !strings.Contains(le.Message, c.parser) {
			continue
		}
		if opening := (Pos{le.ContextMark.Line, le.ContextMark.Column}); c.atOpening && opening.Line > 0 {
			at = opening
		}
		return s.problem(at, c.message, c.hint)
	}
	return s.problem(at, "this is not valid YAML", "check the indentation, brackets and quotes")
}

// runeAt shows the character at a place.
func (s *source) runeAt(at Pos) string {
	at = s.inside(at)
	if line := []rune(s.lines[at.Line-1]); at.Col <= len(line) {
		return fmt.Sprintf("%q", line[at.Col-1])
	}
	return "a line end"
}

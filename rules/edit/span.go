package edit

import (
	"bytes"
	"strings"
	"unicode/utf8"

	"github.com/glossladder/glossladder/rules/strictyaml"
)

// text is a file's bytes with the places of its lines.
type text struct {
	src   []byte
	lines []int  // the byte at which each line begins
	eol   string // how the file ends its lines
}

func newText(src []byte) *text {
	t := &text{src: src, lines: []int{0}, eol: "\n"}
	if bytes.HasPrefix(src, []byte("\ufeff")) {
		t.lines[0] = len("\ufeff") // places do not count the mark
	}
	if i := bytes.IndexByte(src, '\n'); i > 0 && src[i-1] == '\r' {
		t.eol = "\r\n"
	}
	for i, b := range src {
		if b == '\n' {
			t.lines = append(t.lines, i+1)
		}
	}
	return t
}

// offset is the byte of a place.
func (t *text) offset(p strictyaml.Pos) int {
	at := t.lines[p.Line-1]
	for range p.Col - 1 {
		_, size := utf8.DecodeRune(t.src[at:])
		at += size
	}
	return at
}

// span is where a value stands: from its first byte to behind its last.
func (t *text) span(n *strictyaml.Node) (start, end int) {
	start = t.offset(n.Pos())
	if n.Kind() == strictyaml.Scalar {
		end = t.offset(n.PosOf(utf8.RuneCountInString(n.Text())))
		if quote := t.src[start]; n.Quoted() && (quote == '"' || quote == '\'') {
			end++
		}
		return start, end
	}
	end = start
	for _, item := range n.Items() {
		_, end = t.span(item)
	}
	for _, e := range n.Entries() {
		_, end = t.span(e.Value)
	}
	if !t.braced(n) {
		return start, end
	}
	return start, t.closing(max(end, start+1))
}

// braced says whether a map or a list stands in brackets.
func (t *text) braced(n *strictyaml.Node) bool {
	return n.Kind() != strictyaml.Scalar && strings.ContainsRune("{[", rune(t.src[t.offset(n.Pos())]))
}

// closing is behind the bracket that closes a map or a list whose last value ends at at: only blanks, commas and comments
// stand between them.
func (t *text) closing(at int) int {
	for at < len(t.src) {
		switch t.src[at] {
		case '}', ']':
			return at + 1
		case '#':
			if line := bytes.IndexByte(t.src[at:], '\n'); line >= 0 {
				at += line
				continue
			}
			return len(t.src)
		}
		at++
	}
	return at
}

// restOfLine is what follows on the line of at.
func (t *text) restOfLine(at int) string {
	rest := t.src[at:]
	if line := bytes.IndexByte(rest, '\n'); line >= 0 {
		rest = rest[:line]
	}
	return strings.TrimRight(string(rest), "\r")
}

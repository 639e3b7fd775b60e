package strictyaml

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// source is a file's text cut into lines. The line ends (LF or CRLF) are left out, and the last line may be empty.
type source struct {
	file  string
	lines []string
	runes []int // the length of each line in runes, counted once: one long line may hold every node of a file
}

// readSource cuts src into lines and refuses what no rule file needs and what would make an editor and the parser count
// lines differently: characters that look like nothing, and line ends other than LF and CRLF.
func readSource(file string, src []byte) (*source, Problems) {
	s := &source{file: file}
	if len(src) > MaxBytes {
		return s, Problems{s.problem(Pos{1, 1}, fmt.Sprintf("the file has %d bytes, at most %d are read", len(src), MaxBytes), "split it")}
	}
	s.lines = strings.Split(string(src), "\n")
	s.runes = make([]int, 0, len(s.lines))
	var ps Problems
	for i, line := range s.lines {
		if i < len(s.lines)-1 {
			line = strings.TrimSuffix(line, "\r")
			s.lines[i] = line
		}
		s.runes = append(s.runes, utf8.RuneCountInString(line))
		ps = append(ps, s.readLine(i+1, line)...)
	}
	return s, ps
}

func (s *source) readLine(number int, line string) (ps Problems) {
	if indent := line[:len(line)-len(strings.TrimLeft(line, " \t"))]; len(indent) < len(line) {
		if tab := strings.IndexByte(indent, '\t'); tab >= 0 {
			ps = append(ps, s.problem(Pos{number, tab + 1}, "tab in the indentation", "use spaces"))
		}
	}
	col := 0
	for at, r := range line {
		col++
		if r == utf8.RuneError {
			if _, size := utf8.DecodeRuneInString(line[at:]); size == 1 {
				return append(ps, s.problem(Pos{number, col}, "the text is not UTF-8 here", "save the file as UTF-8"))
			}
		}
		if what := refusedRune(r); what != "" {
			return append(ps, s.problem(Pos{number, col}, what+" is not allowed", "take it out, or write it as an escape in double quotes"))
		}
	}
	return ps
}

func refusedRune(r rune) string {
	switch {
	case r == '\t':
		return ""
	case r == '\r':
		return "a carriage return inside a line"
	case r == '\u0085', r == '\u2028', r == '\u2029':
		return fmt.Sprintf("the line separator U+%04X", r)
	case r == '\ufeff':
		return "a byte order mark inside the text"
	case r < ' ', 0x7f <= r && r <= 0x9f, r == 0xfffe, r == 0xffff:
		return fmt.Sprintf("the control character U+%04X", r)
	}
	return ""
}

func (s *source) problem(at Pos, message, hint string) Problem {
	return Problem{File: s.file, Pos: s.inside(at), Message: message, Hint: hint}
}

// inside moves a place that lies after the end of its line or of the file to the nearest place an editor can go to. A file
// that ends in a line end has nothing on its last, empty line, so the end of the line before is meant.
func (s *source) inside(p Pos) Pos {
	last := len(s.lines)
	if last > 1 && s.lines[last-1] == "" {
		last--
	}
	if p.Line < 1 || last == 0 {
		return Pos{1, 1}
	}
	if p.Line > last {
		return Pos{last, s.runes[last-1] + 1}
	}
	return Pos{p.Line, min(max(p.Col, 1), s.runes[p.Line-1]+1)}
}

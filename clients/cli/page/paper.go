package page

import (
	"io"
	"strings"
	"time"
	"unicode/utf8"
)

// Style is how text is set.
type Style struct {
	// Width is the number of columns to stay within. Words longer than that stand out. Zero: 88.
	Width int
	// Color marks roles with terminal colours. Whatever a colour says a word says too.
	Color bool
	// Full gives the reason of every caution and the facts behind every rule; without it a caution names only its rule.
	Full bool
	// Zone is the time zone in which times are told. Nil: UTC.
	Zone *time.Location
}

func (s Style) zone() *time.Location {
	if s.Zone == nil {
		return time.UTC
	}
	return s.Zone
}

const defaultWidth = 88

// role is what a piece of text is, which decides its colour.
type role uint8

const (
	plain role = iota
	strong
	faint
	good
	wary
	grave
)

// codes are the terminal's own names for the roles, as ECMA-48 SGR parameters.
func (r role) codes() string {
	return [...]string{plain: "", strong: "1", faint: "2", good: "32", wary: "33", grave: "1;31"}[r]
}

// span is a piece of text in one role. A no-break space in it holds a number and its unit together.
type span struct {
	text string
	role role
}

func say(text string) span        { return span{text: text} }
func in(r role, text string) span { return span{text: text, role: r} }

// paper is what is being written on.
type paper struct {
	out   strings.Builder
	style Style
}

func newPaper(style Style) *paper {
	if style.Width <= 0 {
		style.Width = defaultWidth
	}
	return &paper{style: style}
}

func (p *paper) writeTo(w io.Writer) error {
	_, err := io.WriteString(w, p.out.String())
	return err
}

func (p *paper) blank() { p.out.WriteByte('\n') }

// gap is a blank line, unless one is there already or nothing is.
func (p *paper) gap() {
	if text := p.out.String(); text != "" && !strings.HasSuffix(text, "\n\n") {
		p.blank()
	}
}

// heading is a line of its own above what belongs to it.
func (p *paper) heading(indent int, text string) { p.para(indent, in(strong, text)) }

// para is a wrapped paragraph.
func (p *paper) para(indent int, spans ...span) { p.item(indent, indent, span{}, spans...) }

// item is a paragraph behind a lead. The lead stands at indent, the text at hang and, if wrapped, below itself. A lead
// that is too long for its place moves the first line only.
func (p *paper) item(indent, hang int, lead span, spans ...span) {
	words := wordsOf(spans)
	line := []span{}
	col := indent
	if lead.text != "" {
		line = append(line, lead)
		col += width(lead.text)
	}
	pad := max(hang-col, 0)
	if lead.text != "" && pad == 0 && len(words) > 0 {
		pad = 1
	}
	start := true
	for _, word := range words {
		gap := 1
		if start {
			gap = pad
		}
		if !start && col+gap+width(word.text) > p.style.Width {
			p.line(indent, line)
			line, indent, col, gap = line[:0], hang, hang, 0
		}
		start = false
		line = append(line, span{text: strings.Repeat(" ", gap)}, word)
		col += gap + width(word.text)
	}
	p.line(indent, line)
}

// line writes one line, and a colour only where it changes.
func (p *paper) line(indent int, spans []span) {
	p.out.WriteString(strings.Repeat(" ", indent))
	for i := 0; i < len(spans); {
		role, text := spans[i].role, ""
		for ; i < len(spans) && (spans[i].role == role || blankText(spans[i].text) && i+1 < len(spans) && spans[i+1].role == role); i++ {
			text += spans[i].text
		}
		p.out.WriteString(p.colored(role, strings.ReplaceAll(text, nbsp, " ")))
	}
	p.out.WriteByte('\n')
}

func (p *paper) colored(r role, text string) string {
	if !p.style.Color || r == plain || blankText(text) {
		return text
	}
	return "\x1b[" + r.codes() + "m" + text + "\x1b[0m"
}

func blankText(text string) bool { return strings.Trim(text, " ") == "" }

const nbsp = "\u00a0"

// wordsOf cuts spans at spaces and line ends, not at no-break spaces.
func wordsOf(spans []span) []span {
	var words []span
	for _, s := range spans {
		for _, word := range strings.FieldsFunc(s.text, func(r rune) bool { return r == ' ' || r == '\n' || r == '\t' }) {
			words = append(words, span{text: word, role: s.role})
		}
	}
	return words
}

// width is the number of columns of a text: everything this package prints takes one column a rune.
func width(text string) int { return utf8.RuneCountInString(text) }

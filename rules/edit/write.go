package edit

import (
	"bytes"
	"encoding/json"
	"strings"
	"unicode/utf8"

	"github.com/glossladder/glossladder/rules/strictyaml"
)

// widest is how wide a line may become before a text is laid out over several.
const widest = 130

// rewrite says what to cut so that a field of a rule gets its new value.
func (t *text) rewrite(rule *strictyaml.Node, e strictyaml.Entry, f field) ([]cut, error) {
	if f.value == "" {
		return nil, &FormError{Field: f.name, Says: "it cannot be empty"}
	}
	if f.name == "then" {
		return t.rewriteMap(rule, e, f)
	}
	if e.Value.Kind() == strictyaml.Scalar && strings.TrimSpace(e.Value.Text()) == f.value {
		return nil, nil
	}
	start, end := t.span(e.Value)
	p := pen{
		indent: e.KeyPos.Col + 1, col: utf8.RuneCount(t.src[t.lines[e.Value.Pos().Line-1]:start]), eol: t.eol,
		flow: t.braced(rule), first: t.src[start], followed: strings.TrimSpace(t.restOfLine(end)) != "",
	}
	if header := t.restOfLine(start); e.Value.Quoted() && strings.ContainsAny(string(p.first), ">|") && strings.Contains(header, "#") {
		// The head of a block has a comment: it stays, and the text below it changes.
		return []cut{{start + len(header), end, p.eol + p.lines(f.value)}}, nil
	}
	return []cut{{start, end, p.scalar(f.value)}}, nil
}

// rewriteMap writes the answer of a rule as its author wrote it, in braces or over several lines.
func (t *text) rewriteMap(rule *strictyaml.Node, e strictyaml.Entry, f field) ([]cut, error) {
	want, problems := strictyaml.Parse(f.name, []byte(f.value))
	switch {
	case len(problems) > 0:
		return nil, &FormError{Field: f.name, Says: problems[0].Message + "; write it like {step: finish}"}
	case want.Kind() != strictyaml.Map:
		return nil, &FormError{Field: f.name, Says: "it is " + want.Kind().String() + ", not a map; write it like {step: finish}"}
	case same(want, e.Value):
		return nil, nil
	}
	inBraces := strings.HasPrefix(f.value, "{")
	if t.braced(rule) && !inBraces {
		return nil, &FormError{Field: f.name, Says: "the rule stands in braces, so write its answer in braces too"}
	}
	start, end := t.span(e.Value)
	lines := strings.Split(strings.ReplaceAll(f.value, "\r\n", "\n"), "\n")
	blanks, before := e.KeyPos.Col+1, ""
	colon := t.offset(e.KeyPos) + len(e.Key)
	between := t.src[colon+1 : start]
	switch bare := len(bytes.TrimSpace(between)) == 0; {
	case !bare && inBraces: // a comment stands in between, so the value stays below it
		blanks = e.Value.Pos().Col + 1
	case !bare:
		blanks = e.Value.Pos().Col - 1
	case inBraces:
		start, before = colon+1, " "
	default:
		start, before = colon+1, t.eol+strings.Repeat(" ", blanks)
	}
	return []cut{{start, end, before + strings.Join(lines, t.eol+strings.Repeat(" ", blanks))}}, nil
}

// pen knows the place where a scalar is to be written.
type pen struct {
	indent   int    // of further lines
	col      int    // in runes, from 0
	eol      string // the file's own
	flow     bool   // within braces
	first    byte   // of the value that stood there
	followed bool   // by a comment, or by more of the line
}

// scalar writes a text as its author wrote the one before, as far as that holds the new one.
func (p pen) scalar(value string) string {
	oneLine := !strings.ContainsAny(value, "\n\r")
	fits := p.col+utf8.RuneCountInString(value) <= widest
	switch {
	case p.first == '\'' && oneLine && printable(value):
		return "'" + strings.ReplaceAll(value, "'", "''") + "'"
	case p.first == '"':
		return doubleQuoted(value)
	case p.plain(value) && (fits || p.flow || p.followed):
		return value
	case oneLine && printable(value) && !p.flow && !p.followed && !fits:
		return ">-" + p.eol + p.lines(value)
	}
	return doubleQuoted(value)
}

// plain says whether a text can stand without quotes.
func (p pen) plain(value string) bool {
	around := [2]string{"a: ", "\n"}
	if p.flow {
		around = [2]string{"{a: ", ", b: c}"}
	}
	root, problems := strictyaml.Parse("", []byte(around[0]+value+around[1]))
	if len(problems) > 0 || root.Kind() != strictyaml.Map {
		return false
	}
	e, _ := entryOf(root, "a")
	return e.Value.Kind() == strictyaml.Scalar && !e.Value.Quoted() && e.Value.Text() == value
}

func printable(value string) bool {
	return strings.IndexFunc(value, func(r rune) bool {
		return r < ' ' || 0x7f <= r && r <= 0x9f || r == '\u2028' || r == '\u2029' || r == '\ufeff'
	}) < 0
}

// lines breaks a text at single blanks into lines of a block.
func (p pen) lines(value string) string {
	blanks := strings.Repeat(" ", p.indent)
	var out strings.Builder
	out.WriteString(blanks)
	width := p.indent
	words := strings.Split(value, " ")
	for i, word := range words {
		wide := utf8.RuneCountInString(word)
		// Where blanks stand side by side, a line end would be read as one of them.
		single := i > 0 && word != "" && words[i-1] != ""
		switch {
		case i == 0:
		case single && width+1+wide > widest:
			out.WriteString(p.eol + blanks)
			width = p.indent
		default:
			out.WriteString(" ")
			width++
		}
		out.WriteString(word)
		width += wide
	}
	return out.String()
}

func doubleQuoted(value string) string {
	var out bytes.Buffer
	encoder := json.NewEncoder(&out) // every escape of JSON is one of YAML's
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(value); err != nil { // a string always encodes
		return ""
	}
	return strings.TrimSuffix(out.String(), "\n")
}

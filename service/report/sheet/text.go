package sheet

import (
	"io"
	"strings"
	"unicode/utf8"
)

// textWidth is how wide plain text is set.
const textWidth = 84

// Plain writes the sheet as plain text of UTF-8, up to 84 letters wide except where a single word is longer. The error is that of
// the writer.
func (s *Sheet) Plain(w io.Writer) error {
	var out strings.Builder
	if s.Over != "" {
		out.WriteString(clean(s.Over) + "\n")
	}
	out.WriteString(clean(s.Title) + "\n" + strings.Repeat("═", utf8.RuneCountInString(clean(s.Title))) + "\n")
	for _, line := range []string{s.Under, s.Notice} {
		if line != "" {
			out.WriteString(wrap(line, "", "") + "\n")
		}
	}
	out.WriteString(factLines(s.Facts))
	for _, section := range s.Sections {
		if len(section.Blocks) == 0 {
			continue
		}
		out.WriteString("\n" + clean(section.Heading) + "\n" + strings.Repeat("─", utf8.RuneCountInString(clean(section.Heading))) + "\n")
		for _, b := range section.Blocks {
			out.WriteString(plain(b))
		}
	}
	out.WriteString("\n")
	for _, line := range s.Foot {
		out.WriteString(wrap(line, "", "") + "\n")
	}
	_, err := io.WriteString(w, out.String())
	return err
}

func plain(b Block) string {
	switch b := b.(type) {
	case Paragraph:
		return wrap(b.Text.String(), "", "") + "\n"
	case Subheading:
		return wrap(string(b), "", "") + "\n"
	case List:
		var out strings.Builder
		for _, item := range b {
			out.WriteString(wrap(item.String(), "- ", "  ") + "\n")
		}
		return out.String()
	case Table:
		return tableLines(&b)
	case Figure:
		if b.Chart.Empty() {
			return ""
		}
		var out strings.Builder
		out.WriteString("\n" + wrap(b.Caption, "", "") + "\n")
		var drawn strings.Builder
		_ = b.Chart.Letters(&drawn) // a builder takes everything
		for line := range strings.SplitSeq(strings.TrimSuffix(drawn.String(), "\n"), "\n") {
			out.WriteString(safe(line) + "\n")
		}
		if b.Note != "" {
			out.WriteString(wrap(b.Note, "", "") + "\n")
		}
		return out.String()
	}
	return ""
}

// mostName is how long a name may be that its value stands beside.
const mostName = 30

func factLines(facts []Fact) string {
	widest := 0
	for _, f := range facts {
		widest = max(widest, min(mostName, utf8.RuneCountInString(clean(f.Name))))
	}
	var out strings.Builder
	for _, f := range facts {
		name := clean(f.Name)
		if utf8.RuneCountInString(name) > mostName {
			out.WriteString(wrap(name, "", "") + "\n")
			name = strings.Repeat(" ", widest)
		}
		name += strings.Repeat(" ", widest-utf8.RuneCountInString(name)+2)
		out.WriteString(wrap(f.Value, name, strings.Repeat(" ", widest+2)) + "\n")
	}
	return out.String()
}

// tableLines sets each row as its name and then, line by line, what each column says: columns do not fit beside each other on a
// narrow screen.
func tableLines(t *Table) string {
	var out strings.Builder
	for _, row := range t.Rows {
		var facts []Fact
		for i, cell := range row {
			if text := cell.String(); i == 0 {
				out.WriteString(wrap(text, "", "") + "\n")
			} else if text != "" {
				facts = append(facts, Fact{"  " + clean(t.Columns[i].Head), text})
			}
		}
		out.WriteString(indented(facts))
	}
	if t.Note != "" {
		out.WriteString(wrap(t.Note, "", "") + "\n")
	}
	return out.String()
}

func indented(facts []Fact) string {
	for i := range facts {
		facts[i].Name = strings.TrimLeft(facts[i].Name, " ")
	}
	lines := strings.SplitAfter(factLines(facts), "\n")
	var out strings.Builder
	for _, line := range lines {
		if line != "" {
			out.WriteString("  " + line)
		}
	}
	return out.String()
}

// clean makes one line of a text and takes out what would move a terminal's cursor or turn the direction of writing.
func clean(text string) string { return strings.TrimSpace(safe(text)) }

func safe(text string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r >= 0x7f && r < 0xa0 || r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069 {
			return ' '
		}
		return r
	}, text)
}

// wrap breaks a text between words; first stands before its first line, rest before the others.
func wrap(text, first, rest string) string {
	var lines []string
	line := first
	empty := true
	for _, word := range strings.FieldsFunc(clean(text), func(r rune) bool { return r == ' ' }) { // a no-break space holds
		if !empty && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > textWidth {
			lines = append(lines, line)
			line, empty = rest, true
		}
		if !empty {
			line += " "
		}
		line, empty = line+word, false
	}
	return strings.TrimRight(strings.Join(append(lines, line), "\n"), " ")
}

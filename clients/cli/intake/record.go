package intake

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"github.com/glossladder/glossladder/rules/strictyaml"
)

// cell is one field of a record, without the spaces around it.
type cell struct {
	text string
	at   strictyaml.Pos
}

// records cuts a table into records. The separator is told by the first line that is no comment: a semicolon or a tab if
// it has one, else a comma. A line that begins with # is a comment. Only the separators other than the comma leave room
// for decimal commas.
func (t *table) records(text []byte) [][]cell {
	text = bytes.TrimPrefix(text, []byte("\ufeff"))
	if len(text) > strictyaml.MaxBytes {
		t.complain(strictyaml.Pos{Line: 1, Col: 1}, fmt.Sprintf("the file has %d bytes, at most %d are read", len(text), strictyaml.MaxBytes), "split it")
		return nil
	}
	if !utf8.Valid(text) {
		t.complain(strictyaml.Pos{Line: 1 + bytes.Count(text[:invalidAt(text)], []byte("\n")), Col: 1}, "the text is not UTF-8 here", "save the file as UTF-8")
		return nil
	}
	lines := strings.Split(string(text), "\n")
	r := csv.NewReader(bytes.NewReader(text))
	r.Comma, r.Comment, r.FieldsPerRecord = t.separator, '#', -1
	if t.separator == 0 {
		r.Comma = separator(lines)
	}
	r.TrimLeadingSpace = r.Comma != '\t' // or it would trim empty fields away
	t.decimalComma = r.Comma != ','
	var records [][]cell
	for {
		record, err := r.Read()
		if errors.Is(err, io.EOF) {
			return records
		}
		if err != nil {
			t.broken(err, lines)
			if _, told := errors.AsType[*csv.ParseError](err); !told {
				return records
			}
			continue
		}
		cells := make([]cell, len(record))
		for i, field := range record {
			line, col := r.FieldPos(i)
			cells[i] = cell{text: strings.TrimSpace(field), at: inRunes(lines, line, col)}
		}
		records = append(records, cells)
	}
}

func (t *table) broken(err error, lines []string) {
	parse, told := errors.AsType[*csv.ParseError](err)
	if !told {
		t.complain(strictyaml.Pos{Line: 1, Col: 1}, err.Error(), "")
		return
	}
	hint := "put the whole field in quotes, and double each quote inside it"
	t.complain(inRunes(lines, parse.Line, parse.Column), "a quote is out of place", hint)
}

func separator(lines []string) rune {
	for _, line := range lines {
		line = strings.TrimSpace(line)
		switch {
		case line == "" || strings.HasPrefix(line, "#"):
			continue
		case strings.Contains(line, ";"):
			return ';'
		case strings.Contains(line, "\t"):
			return '\t'
		}
		break
	}
	return ','
}

// inRunes turns a column that counts bytes into one that counts runes.
func inRunes(lines []string, line, col int) strictyaml.Pos {
	if line >= 1 && line <= len(lines) {
		before := lines[line-1][:min(max(col-1, 0), len(lines[line-1]))]
		col = 1 + utf8.RuneCountInString(before)
	}
	return strictyaml.Pos{Line: line, Col: col}
}

func invalidAt(text []byte) int {
	at := 0
	for at < len(text) {
		r, size := utf8.DecodeRune(text[at:])
		if r == utf8.RuneError && size == 1 {
			return at
		}
		at += size
	}
	return at
}

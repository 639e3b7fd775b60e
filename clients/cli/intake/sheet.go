package intake

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules/strictyaml"
)

// sheet is a file of a gauge with its fields under their names, whatever it was written in.
type sheet struct {
	names []cell
	rows  []sheetRow
}

// sheetRow has one list of values under each name: a table gives one, JSON may give several readings at once.
type sheetRow struct {
	at    strictyaml.Pos
	cells [][]cell
}

// column finds a name or adds it behind the others.
func (s *sheet) column(name string, at strictyaml.Pos) int {
	i := slices.IndexFunc(s.names, func(c cell) bool { return c.text == name })
	if i < 0 {
		s.names = append(s.names, cell{text: name, at: at})
		return len(s.names) - 1
	}
	return i
}

func (r *sheetRow) put(i int, cells ...cell) {
	for len(r.cells) <= i {
		r.cells = append(r.cells, nil)
	}
	r.cells[i] = append(r.cells[i], cells...)
}

// of are the values under a name.
func (r *sheetRow) of(i int) []cell {
	if i >= len(r.cells) {
		return nil
	}
	return r.cells[i]
}

// The most that a gauge's file may hold: more is no day's work of a gauge.
const (
	mostColumns = 200
	mostRows    = 10_000
	mostSpots   = 100 // of a panel
)

// preamble is how many lines a gauge may write about itself before it names its columns.
const preamble = 40

// readSheet reads a table. Gauges like to say things about themselves first: the names of the columns are the first line that
// has everything the mapping names or, without a mapping, a column of readings.
func (t *table) readSheet(text []byte, m Mapping) *sheet {
	t.separator = mostSeparating(text)
	records := t.records(text)
	if len(records) == 0 {
		if len(t.problems) == 0 {
			t.complain(strictyaml.Pos{Line: 1, Col: 1}, "the file is empty", "its first line names the columns: "+strings.Join(GaugeColumns(), ", "))
		}
		return nil
	}
	if len(records) > mostRows {
		t.complain(records[mostRows][0].at, fmt.Sprintf("the file has %d rows, at most %d are read", len(records), mostRows), "split it")
		return nil
	}
	first := records[:min(len(records), preamble)]
	head := slices.IndexFunc(first, m.isHeader)
	if head < 0 {
		head = widest(first)
	}
	out := &sheet{names: records[head]}
	if len(out.names) > mostColumns {
		t.complain(out.names[mostColumns].at, fmt.Sprintf("the file has %d columns, at most %d are read", len(out.names), mostColumns), "")
		return nil
	}
	for _, record := range records[head+1:] {
		if !slices.ContainsFunc(record, func(c cell) bool { return c.text != "" }) {
			continue // spreadsheets leave such rows at the end
		}
		if len(record) > len(out.names) && slices.ContainsFunc(record[len(out.names):], func(c cell) bool { return c.text != "" }) {
			t.complain(record[len(out.names)].at, "the row has more fields than there are columns", "a decimal comma needs ; between the fields, or quotes around the number")
			continue
		}
		row := sheetRow{at: record[0].at}
		for i, c := range record[:min(len(record), len(out.names))] {
			if c.text != "" {
				row.put(i, c)
			}
		}
		out.rows = append(out.rows, row)
	}
	return out
}

// widest is the first record that has the most fields: of a file whose names say nothing to us the one to tell them of.
func widest(records [][]cell) int {
	out := 0
	for i, r := range records {
		if len(r) > len(records[out]) {
			out = i
		}
	}
	return out
}

func (m Mapping) isHeader(record []cell) bool {
	for _, theirs := range m.Columns {
		if !slices.ContainsFunc(record, func(c cell) bool { return strings.EqualFold(c.text, strings.TrimSpace(theirs)) }) {
			return false
		}
	}
	if len(m.Columns) > 0 {
		return true
	}
	return slices.ContainsFunc(record, func(c cell) bool {
		known, ok := gaugeColumn(byName(c.text))
		return ok && known.reading()
	})
}

// mostSeparating tells the separator by how often each stands in the text. Decimal commas stand beside another one at least as
// often.
func mostSeparating(text []byte) rune {
	commas := bytes.Count(text, []byte(","))
	for _, other := range []string{";", "\t"} {
		if n := bytes.Count(text, []byte(other)); n > 0 && n >= commas {
			return rune(other[0])
		}
	}
	return ','
}

// leftOut are the columns that hold nothing of ours, for a person to look over.
func (s *sheet) leftOut(placed []column) []string {
	var out []string
	for i, c := range s.names {
		if placed[i].name != "" {
			continue
		}
		name := c.text
		if name == "" {
			name = fmt.Sprintf("column %d, which has no name", i+1)
		}
		out = append(out, name)
	}
	return out
}

package intake

import (
	"slices"
	"strconv"
	"strings"

	"github.com/glossladder/glossladder/rules/strictyaml"
)

// Readings are the rows of a table of readings, in its order.
type Readings struct {
	file string
	rows []row
}

// row is the readings of one line: one each of some instruments, at one spot.
type row struct {
	panel, spot cell
	when        moment
	whenAt      strictyaml.Pos
	readings    []reading
	nearEdge    bool
}

type reading struct {
	column column
	value  float64
	at     strictyaml.Pos
}

// moment is what a row belongs to.
type moment struct {
	phase phase
	// trial counts from 1; 0 is the last trial of the request.
	trial int
}

type phase uint8

const (
	found phase = iota // the inspection
	beforeTrial
	afterTrial
)

// table is a table while it is read.
type table struct {
	file         string
	separator    rune // 0: as the first line has it
	columns      []column
	decimalComma bool
	rows         []row
	problems     strictyaml.Problems
}

// ReadTable reads a table of readings with named columns: panel and spot, and any of when, film_um or film_mil, clear_um
// or clear_mil, gloss20_gu, gloss60_gu, gloss85_gu, haze_hu, near_edge. Each row is one reading of each instrument that
// has a value in it, so that three readings at a spot are three rows. When is "inspection" or empty, "before" or "after"
// for the last trial, or "before 2" for another. All problems come back at once, by place.
func ReadTable(src Source) (*Readings, strictyaml.Problems) {
	t := &table{file: src.Name}
	records := t.records(src.Text)
	if len(records) == 0 && len(t.problems) == 0 {
		t.complain(strictyaml.Pos{Line: 1, Col: 1}, "the table is empty", "the first line names the columns: "+strings.Join(columnNames(), ", "))
	}
	if len(records) > 0 {
		t.header(records[0])
	}
	if len(t.problems) == 0 {
		for _, record := range records[1:] {
			t.row(record)
		}
	}
	t.problems.Sort()
	return &Readings{file: src.Name, rows: t.rows}, t.problems.Capped()
}

func (t *table) complain(at strictyaml.Pos, message, hint string) {
	t.problems = append(t.problems, strictyaml.Problem{File: t.file, Pos: at, Message: message, Hint: hint})
}

func (t *table) row(cells []cell) {
	if !slices.ContainsFunc(cells, func(c cell) bool { return c.text != "" }) {
		return // spreadsheets leave such rows at the end
	}
	if len(cells) > len(t.columns) {
		t.complain(cells[len(t.columns)].at, "the row has more fields than there are columns", "a decimal comma needs ; between the fields")
		return
	}
	out := row{}
	for i, c := range cells {
		switch column := t.columns[i]; {
		case column.name == "panel":
			out.panel = c
		case column.name == "spot":
			out.spot = c
		case column.name == "when":
			out.when, out.whenAt = t.moment(c), c.at
		case column.name == "near_edge":
			out.nearEdge = t.flag(c)
		case c.text != "":
			t.reading(&out, column, c)
		}
	}
	for _, needed := range []struct {
		name string
		text string
	}{{"panel", out.panel.text}, {"spot", out.spot.text}} {
		if needed.text == "" {
			t.complain(cells[0].at, "the row has no "+needed.name, "every reading needs its panel and its spot")
		}
	}
	if len(out.readings) == 0 {
		t.complain(cells[0].at, "the row has no reading", "leave it out, or write a number in a column of readings")
	}
	t.rows = append(t.rows, out)
}

func (t *table) reading(into *row, column column, c cell) {
	text := c.text
	if t.decimalComma && strings.Count(text, ",") == 1 && !strings.Contains(text, ".") {
		text = strings.Replace(text, ",", ".", 1)
	}
	value, message, hint := quantity(text, column.unit, column.bare)
	if message != "" {
		t.complain(c.at, column.name+": "+message, hint)
	}
	into.readings = append(into.readings, reading{column: column, value: value, at: c.at})
}

func (t *table) moment(c cell) moment {
	text := strings.ToLower(c.text)
	if text == "" || text == "inspection" {
		return moment{}
	}
	m := moment{phase: beforeTrial}
	number, ok := strings.CutPrefix(text, "before")
	if !ok {
		m.phase = afterTrial
		number, ok = strings.CutPrefix(text, "after")
	}
	if number = strings.Trim(number, " -_"); ok && number != "" {
		var err error
		m.trial, err = strconv.Atoi(number)
		ok = err == nil && m.trial > 0
	}
	if !ok {
		t.complain(c.at, "when: "+shown(c.text)+" is no moment", "write inspection, before or after, or before 2 for the second trial")
	}
	return m
}

func (t *table) flag(c cell) bool {
	switch strings.ToLower(c.text) {
	case "true", "yes":
		return true
	case "", "false", "no":
		return false
	}
	t.complain(c.at, "near_edge: "+shown(c.text)+" is not true or false", "")
	return false
}

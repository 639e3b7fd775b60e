package intake

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules/strictyaml"
)

// Gauge is what a file from a gauge or a meter holds.
type Gauge struct {
	// Rows are its rows, in their order, for a person to look over.
	Rows []GaugeRow
	// Readings are the rows by panel, moment and step, in order of first sight: what is to be recorded.
	Readings []*glossladderv1.Readings
	// Places tells the line of every reading: "readings[0].film[0].total_um[2]".
	Places *Places
	// Used gives the file's name for each of our columns, LeftOut the names that hold nothing of ours.
	Used    map[string]string
	LeftOut []string
}

// GaugeRow is one row of a gauge's file.
type GaugeRow struct {
	Line              int
	Panel, Spot, When string
	Step              string
	Values            []GaugeValue
}

// GaugeValue is one reading of a row, in the unit of the contract.
type GaugeValue struct {
	Column string
	Value  float64
}

// ReadGauge reads a table, or JSON, of readings from a gauge or a meter. A row is one reading of each instrument that has a value
// in it; "when" is before (or inspection), during or after. All problems come back at once, by place, and then the gauge is good
// for nothing else.
func ReadGauge(src Source, m Mapping) (*Gauge, strictyaml.Problems) {
	t := &table{file: src.Name}
	var s *sheet
	isJSON := false
	if start := bytes.TrimLeft(bytes.TrimPrefix(src.Text, []byte("\ufeff")), " \t\r\n"); len(start) > 0 && (start[0] == '{' || start[0] == '[') {
		isJSON = true
		s = t.readJSON(src.Text)
	} else {
		s = t.readSheet(src.Text, m)
	}
	g := &gaugeReader{t: t, mapping: m, out: &Gauge{Places: newPlaces(), Used: map[string]string{}}, found: map[string]*group{}}
	switch m.Decimal {
	case "comma":
		t.decimalComma = true
	case "point":
		t.decimalComma = false
	default:
		t.decimalComma = isJSON || t.separator != ','
	}
	if s != nil {
		g.read(s)
	}
	t.problems.Sort()
	return g.out, t.problems.Capped()
}

// gaugeReader is a file of a gauge on its way to readings.
type gaugeReader struct {
	t       *table
	mapping Mapping
	columns []column
	out     *Gauge
	found   map[string]*group
}

// group is the readings of one panel at one moment of the work.
type group struct {
	readings *glossladderv1.Readings
	path     string
}

func (g *gaugeReader) read(s *sheet) {
	told := len(g.t.problems)
	g.columns = g.mapping.place(s.names, g.t.complain)
	g.out.LeftOut = s.leftOut(g.columns)
	anyReading := false
	for i, c := range g.columns {
		if c.name != "" {
			g.out.Used[c.name] = s.names[i].text
		}
		anyReading = anyReading || c.reading()
	}
	for _, needed := range []string{"panel", "spot"} {
		if g.out.Used[needed] == "" && g.mapping.Every[needed] == "" {
			g.t.complain(s.names[0].at, "there is no column "+needed, fmt.Sprintf("the file has %s; say which it is, or what every row has", quotedNames(s.names)))
		}
	}
	if !anyReading {
		g.t.complain(s.names[0].at, "there is no column with readings", fmt.Sprintf("the file has %s; say which of %s they are", quotedNames(s.names), strings.Join(readingColumns(), ", ")))
	}
	if len(g.t.problems) > told {
		return // the columns are not known; the rows would be blamed for it
	}
	for i := range s.rows {
		if !g.row(&s.rows[i]) {
			return
		}
	}
	if len(g.out.Rows) == 0 && len(g.t.problems) == 0 {
		g.t.complain(s.names[0].at, "the file has no rows", "")
	}
}

func readingColumns() []string {
	var out []string
	for _, c := range gaugeColumns {
		if c.reading() {
			out = append(out, c.name)
		}
	}
	return out
}

// row reads a row; false when the file is none of readings, and the rest would only say so again.
func (g *gaugeReader) row(r *sheetRow) bool {
	words := map[string]cell{}
	for _, name := range fixable {
		if every := g.mapping.Every[name]; every != "" {
			words[name] = cell{text: every, at: r.at}
		}
	}
	var values []reading
	nearEdge := false
	for i, c := range g.columns {
		for _, given := range r.of(i) {
			switch {
			case c.name == "near_edge":
				nearEdge = g.t.flag(given)
			case c.reading():
				values = append(values, g.value(c, given))
			case c.name != "":
				words[c.name] = given
			}
		}
	}
	if len(values) == 0 {
		g.t.complain(r.at, "the row has no reading", "leave it out, or write a number in a column of readings")
	}
	for _, name := range []string{"panel", "spot"} {
		if words[name].text == "" {
			g.t.complain(r.at, "the row has no "+name, "every reading needs its panel and its spot")
		}
	}
	to, ok := g.group(r, words)
	if !ok {
		return true
	}
	if len(to.readings.GetFilm()) > mostSpots || len(to.readings.GetGloss()) > mostSpots {
		g.t.complain(r.at, fmt.Sprintf("panel %s has more than %d spots", to.readings.GetPanelId(), mostSpots), "readings at one place share the name of their spot")
		return false
	}
	row := GaugeRow{Line: r.at.Line, Panel: to.readings.GetPanelId(), Spot: words["spot"].text, When: words["when"].text, Step: words["step"].text}
	for _, v := range values {
		row.Values = append(row.Values, GaugeValue{Column: v.column.name, Value: v.value})
		g.put(to, words["spot"], v, nearEdge)
	}
	g.out.Rows = append(g.out.Rows, row)
	return true
}

func (g *gaugeReader) value(c column, given cell) reading {
	text := given.text
	if g.t.decimalComma && strings.Count(text, ",") == 1 && !strings.Contains(text, ".") {
		text = strings.Replace(text, ",", ".", 1)
	}
	value, message, hint := quantity(text, c.unit, c.bare)
	if message != "" {
		g.t.complain(given.at, c.name+": "+message, hint)
	}
	return reading{column: c, value: value, at: given.at}
}

// group finds the readings that a row belongs to, or begins them.
func (g *gaugeReader) group(r *sheetRow, words map[string]cell) (*group, bool) {
	problems := len(g.t.problems)
	readings := &glossladderv1.Readings{PanelId: g.panel(words["panel"].text)}
	readings.Time = g.moment(r, words["when"])
	if step := words["step"]; step.text != "" {
		number, message, hint := word(step.text, glossladderv1.Step_STEP_UNSPECIFIED.Descriptor())
		if message != "" {
			g.t.complain(step.at, "step: "+message, hint)
		}
		readings.Step = glossladderv1.Step(number)
	}
	if len(g.t.problems) > problems {
		return nil, false
	}
	key := fmt.Sprint(readings.GetPanelId(), "|", readings.GetTime(), "|", readings.GetStep())
	if known := g.found[key]; known != nil {
		return known, true
	}
	out := &group{readings: readings, path: "readings[" + strconv.Itoa(len(g.out.Readings)) + "]"}
	g.found[key] = out
	g.out.Readings = append(g.out.Readings, readings)
	at := Place{File: g.t.file, Pos: r.at}
	g.out.Places.put(out.path, at)
	for name, field := range map[string]string{"panel": "panel_id", "when": "time", "step": "step"} {
		if c, said := words[name]; said {
			g.out.Places.put(out.path+"."+field, Place{File: g.t.file, Pos: c.at})
		}
	}
	return out, true
}

// panel is our id of a panel: as mapped, or as written in small letters with hyphens.
func (g *gaugeReader) panel(theirs string) string {
	for word, ours := range g.mapping.Panels {
		if strings.EqualFold(strings.TrimSpace(word), theirs) {
			return ours
		}
	}
	return strings.Join(strings.FieldsFunc(strings.ToLower(theirs), func(r rune) bool { return r == ' ' || r == '_' || r == '-' }), "-")
}

func (g *gaugeReader) moment(r *sheetRow, c cell) glossladderv1.ReadingsTime {
	switch strings.ToLower(c.text) {
	case "before", "inspection":
		return glossladderv1.ReadingsTime_READINGS_TIME_BEFORE
	case "during":
		return glossladderv1.ReadingsTime_READINGS_TIME_DURING
	case "after":
		return glossladderv1.ReadingsTime_READINGS_TIME_AFTER
	case "":
		g.t.complain(r.at, "the row does not say when it was read", "it is before, during or after the work: a column when, or the same for every row")
	default:
		g.t.complain(c.at, "when: "+shown(c.text)+" is no moment of a job", "write before, during or after")
	}
	return 0
}

// put adds a reading to its spot.
func (g *gaugeReader) put(to *group, spot cell, v reading, nearEdge bool) {
	if v.column.unit == celsius {
		// The hottest counts: what heat forbids it forbids by the hottest.
		if to.readings.PanelC == nil || v.value > to.readings.GetPanelC() {
			to.readings.PanelC = &v.value
			g.out.Places.put(to.path+".panel_c", Place{File: g.t.file, Pos: v.at})
		}
		return
	}
	a := &attaching{readings: &Readings{file: g.t.file}, places: g.out.Places}
	a.put(row{spot: spot, readings: []reading{v}, nearEdge: nearEdge}, to.readings.ProtoReflect(), to.path, "film", "gloss")
}

package intake

import (
	"strings"

	"github.com/glossladder/glossladder/rules/strictyaml"
)

// columns are the columns that a table of readings may have, in the order to advise.
var columns = [...]column{
	{name: "panel"},
	{name: "spot"},
	{name: "when"},
	{name: "film_um", field: "total_um", unit: microns},
	{name: "film_mil", field: "total_um", unit: microns, bare: Bare{FilmMil: true}},
	{name: "clear_um", field: "clear_um", unit: microns},
	{name: "clear_mil", field: "clear_um", unit: microns, bare: Bare{FilmMil: true}},
	{name: "gloss20_gu", field: "at20_gu", unit: glossGU},
	{name: "gloss60_gu", field: "at60_gu", unit: glossGU},
	{name: "gloss85_gu", field: "at85_gu", unit: glossGU},
	{name: "haze_hu", field: "haze_hu", unit: hazeHU},
	{name: "near_edge"},
}

// column is one column of a table of readings.
type column struct {
	name string
	// field is the list of a spot that a reading goes to, "" for a column that holds none.
	field string
	unit  unit
	bare  Bare
}

func (c column) reading() bool { return c.field != "" }

// film says that the reading belongs to a film spot, not to a gloss spot.
func (c column) film() bool { return c.unit == microns }

func columnNames() []string {
	names := make([]string, len(columns))
	for i, c := range columns {
		names[i] = c.name
	}
	return names
}

func columnNamed(name string) (column, bool) {
	for _, c := range columns {
		if c.name == name {
			return c, true
		}
	}
	return column{}, false
}

// header reads the first record: which column stands where. It complains about every name it does not know.
func (t *table) header(cells []cell) {
	seen := map[string]bool{}
	for _, c := range cells {
		name := strings.ReplaceAll(strings.ToLower(c.text), " ", "_")
		known, ok := columnNamed(name)
		switch {
		case !ok:
			hint := "the columns are " + strings.Join(columnNames(), ", ")
			if near := strictyaml.Nearest(name, columnNames()); near != "" {
				hint = "did you mean " + near + "?"
			}
			t.complain(c.at, "there is no column "+shown(c.text), hint)
		case seen[name]:
			t.complain(c.at, "there are two columns "+name, "keep one")
		}
		seen[name] = true
		t.columns = append(t.columns, known)
	}
	for _, name := range []string{"panel", "spot"} {
		if !seen[name] {
			t.complain(cells[0].at, "there is no column "+name, "every reading needs its panel and its spot")
		}
	}
	if len(t.problems) == 0 && !t.anyReading() {
		t.complain(cells[0].at, "there is no column with readings", "the columns are "+strings.Join(columnNames(), ", "))
	}
}

func (t *table) anyReading() bool {
	for _, c := range t.columns {
		if c.reading() {
			return true
		}
	}
	return false
}

package intake

import (
	"fmt"
	"maps"
	"math/big"
	"slices"
	"strings"
	"unicode"

	"github.com/glossladder/glossladder/rules/strictyaml"
)

// Mapping says how the columns of a file from a gauge or a meter become readings. What it does not name is found by name: a column
// "Film (µm)" is film_um. The zero value maps nothing.
type Mapping struct {
	// Columns gives the file's name for a column, by ours: "film_um": "Thickness".
	Columns map[string]string `json:"columns,omitempty"`
	// Every gives what holds for every row, by our column: "panel": "bonnet". A file's own column goes before it.
	Every map[string]string `json:"every,omitempty"`
	// Panels gives our panel, by the file's word for it: "HOOD": "bonnet".
	Panels map[string]string `json:"panels,omitempty"`
	// Decimal is "comma" or "point". Empty: a comma counts as one wherever it separates no fields.
	Decimal string `json:"decimal,omitempty"`
}

// gaugeColumns are the columns that a gauge's file may have: those of a table of readings and a few of the work.
var gaugeColumns = append(slices.Clone(columns[:]),
	column{name: "step"},
	column{name: "panel_c", field: "panel_c", unit: celsius},
	column{name: "panel_f", field: "panel_c", unit: celsius, bare: Bare{HeatF: true}},
)

// GaugeColumns are our names of the columns that a gauge's file may have.
func GaugeColumns() []string {
	names := make([]string, len(gaugeColumns))
	for i, c := range gaugeColumns {
		names[i] = c.name
	}
	return names
}

func gaugeColumn(name string) (column, bool) {
	for _, c := range gaugeColumns {
		if c.name == name {
			return c, true
		}
	}
	return column{}, false
}

// Check complains about names that are none of ours, in words for whoever wrote them.
func (m Mapping) Check() error {
	for _, name := range slices.Sorted(maps.Keys(m.Columns)) {
		if _, ok := gaugeColumn(name); !ok {
			return fmt.Errorf("there is no column %s; the columns are %s", shown(name), strings.Join(GaugeColumns(), ", "))
		}
	}
	for _, name := range slices.Sorted(maps.Keys(m.Every)) {
		if !slices.Contains(fixable[:], name) {
			return fmt.Errorf("%s cannot be the same for every row; what can is %s", name, strings.Join(fixable[:], ", "))
		}
	}
	return nil
}

// fixable are the columns that may be told once for a whole file.
var fixable = [...]string{"panel", "spot", "when", "step"}

// With is the mapping with another's words over it.
func (m Mapping) With(over Mapping) Mapping {
	out := Mapping{Columns: merged(m.Columns, over.Columns), Every: merged(m.Every, over.Every), Panels: merged(m.Panels, over.Panels), Decimal: m.Decimal}
	if over.Decimal != "" {
		out.Decimal = over.Decimal
	}
	// A length is read in one unit: the newer word for it takes the older one's place.
	for _, pair := range [][2]string{{"film_um", "film_mil"}, {"clear_um", "clear_mil"}, {"panel_c", "panel_f"}} {
		for i, name := range pair {
			if _, said := over.Columns[name]; said {
				if _, both := over.Columns[pair[1-i]]; !both {
					delete(out.Columns, pair[1-i])
				}
			}
		}
	}
	return out
}

func merged(under, over map[string]string) map[string]string {
	if len(under)+len(over) == 0 {
		return nil
	}
	out := maps.Clone(under)
	if out == nil {
		out = map[string]string{}
	}
	maps.Copy(out, over)
	return out
}

// place finds our columns in a file's names: by the mapping first, by name otherwise. It gives our column for each name, and
// complains about names that the mapping expects and the file does not have.
func (m Mapping) place(names []cell, complain func(at strictyaml.Pos, message, hint string)) []column {
	out := make([]column, len(names))
	taken := map[string]bool{}
	for _, ours := range slices.Sorted(maps.Keys(m.Columns)) {
		i := slices.IndexFunc(names, func(c cell) bool { return strings.EqualFold(c.text, strings.TrimSpace(m.Columns[ours])) })
		if i < 0 {
			complain(names[0].at, "there is no column "+shown(m.Columns[ours])+" for "+ours, "the file has "+quotedNames(names))
			continue
		}
		if out[i].name != "" {
			complain(names[i].at, fmt.Sprintf("the column %s is to be both %s and %s", shown(names[i].text), out[i].name, ours), "map it once")
			continue
		}
		out[i], _ = gaugeColumn(ours)
		taken[ours] = true
		contradicted(names[i], out[i], complain)
	}
	for i, c := range names {
		if out[i].name != "" {
			continue
		}
		known, ok := gaugeColumn(byName(c.text))
		switch {
		case !ok:
		case taken[known.name] && m.Columns[known.name] == "":
			complain(c.at, "there are two columns "+known.name, "keep one, or map the one to read")
		case !taken[known.name]:
			out[i], taken[known.name] = known, true
		}
	}
	return out
}

// byName is our column whose name is a file's but for case, spaces and signs; "" if there is none.
func byName(theirs string) string {
	key := letters(theirs)
	for _, c := range gaugeColumns {
		if letters(c.name) == key {
			return c.name
		}
	}
	return ""
}

func letters(name string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == 'µ' || r == 'μ': // the micro sign and the Greek letter
			return 'u'
		case unicode.IsLetter(r) || unicode.IsDigit(r):
			return unicode.ToLower(r)
		}
		return -1
	}, name)
}

// contradicted complains about a column whose name tells another unit than it is mapped to: "Thickness (mil)" as film_um.
func contradicted(c cell, to column, complain func(at strictyaml.Pos, message, hint string)) {
	open := strings.LastIndexAny(c.text, "([")
	if open < 0 || !to.reading() {
		return
	}
	written := strings.TrimSpace(strings.Trim(c.text[open:], "()[] "))
	said, known := conversion(written, to.unit, Bare{})
	if !known || written == "" {
		return
	}
	one := big.NewRat(77, 1)
	meant, _ := conversion("", to.unit, to.bare)
	if said(one).Cmp(meant(one)) != 0 {
		complain(c.at, fmt.Sprintf("the column %s says %s, and is mapped to %s", shown(c.text), written, to.name), "map it to the column of its own unit")
	}
}

func quotedNames(names []cell) string {
	out := make([]string, 0, len(names))
	for _, c := range names {
		if c.text != "" {
			out = append(out, shown(c.text))
		}
	}
	return strings.Join(out, ", ")
}

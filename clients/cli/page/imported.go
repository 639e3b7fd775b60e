package page

import (
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"
)

// Import is what a gauge's file held.
type Import struct {
	Rows    []ImportRow
	LeftOut []string // columns that hold nothing of ours
	Known   []ImportKnown
	Preview bool
}

// ImportRow is one row.
type ImportRow struct {
	Line                    int
	Panel, Spot, When, Step string
	Values                  []ImportValue
}

// ImportValue is one reading, in the unit of the contract.
type ImportValue struct {
	Column string
	Value  float64
}

// ImportKnown is readings that are on record already.
type ImportKnown struct {
	Panel  string
	Values int
	Events []int64
}

// Imported says what a gauge's file held and what of it is on record already; a preview shows every row.
func Imported(w io.Writer, in *Import, style Style) error {
	p := newPaper(style)
	values := 0
	for _, row := range in.Rows {
		values += len(row.Values)
	}
	if in.Preview {
		p.importRows(in.Rows)
		p.blank()
	}
	p.para(0, say(fmt.Sprintf("The file holds %s in %s.", plural(values, "reading", "readings"), plural(len(in.Rows), "row", "rows"))))
	if len(in.LeftOut) > 0 {
		p.para(0, say("Columns that are not read: "+strings.Join(in.LeftOut, ", ")+"."))
	}
	for _, known := range in.Known {
		events := make([]string, len(known.Events))
		for i, e := range known.Events {
			events[i] = fmt.Sprint(e)
		}
		p.para(0, say(fmt.Sprintf("%s: %s on record already, in event %s; left out.", known.Panel, plural(known.Values, "reading is", "readings are"), listed(events))))
	}
	return p.writeTo(w)
}

func (p *paper) importRows(rows []ImportRow) {
	var columns []string
	for _, row := range rows {
		for _, v := range row.Values {
			if !slices.Contains(columns, v.Column) {
				columns = append(columns, v.Column)
			}
		}
	}
	heading := []string{"line", "panel", "spot", "when", "step"}
	for _, c := range columns {
		heading = append(heading, columnWords(c))
	}
	out := make([][]span, len(rows))
	for i, row := range rows {
		out[i] = []span{in(faint, fmt.Sprint(row.Line)), say(row.Panel), say(row.Spot), say(row.When), say(row.Step)}
		for _, c := range columns {
			var values []string
			for _, v := range row.Values {
				if v.Column == c {
					values = append(values, tenths(v.Value))
				}
			}
			out[i] = append(out[i], say(strings.Join(values, ", ")))
		}
	}
	p.grid(0, heading, out)
}

// columnWords names a column with the unit that its values are shown in, which is the contract's.
func columnWords(column string) string {
	name, _, _ := strings.Cut(column, "_")
	switch {
	case strings.HasPrefix(column, "gloss"):
		return "gloss " + strings.TrimPrefix(name, "gloss") + "°, GU"
	case column == "haze_hu":
		return "haze, HU"
	case strings.HasPrefix(column, "panel_"):
		return "panel, °C"
	}
	return name + ", µm"
}

// SourceWords is how a gauge's files are read.
type SourceWords struct {
	Columns, Every, Panels map[string]string
	Decimal                string
}

// Source says how a gauge's files are read.
func Source(w io.Writer, name string, s SourceWords, style Style) error {
	p := newPaper(style)
	p.heading(0, name)
	for _, part := range []struct {
		lead  string
		words map[string]string
	}{{"column", s.Columns}, {"every row", s.Every}} {
		for _, ours := range slices.Sorted(maps.Keys(part.words)) {
			p.item(titleAt, textAt, say(part.lead), say(ours+" is \""+part.words[ours]+"\""))
		}
	}
	for _, theirs := range slices.Sorted(maps.Keys(s.Panels)) {
		p.item(titleAt, textAt, say("panel"), say(s.Panels[theirs]+" is \""+theirs+"\""))
	}
	if s.Decimal != "" {
		p.item(titleAt, textAt, say("decimals"), say("behind a "+s.Decimal))
	}
	return p.writeTo(w)
}

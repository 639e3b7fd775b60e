package sheet

import (
	_ "embed"
	"fmt"
	"html/template"
	"io"

	"github.com/glossladder/glossladder/service/report/chart"
)

//go:embed page.html
var pageSource string

//go:embed page.css
var style string

// mostRows of a chart or a table fit on one page with their heading.
const mostRows = 12

// HTML writes the sheet as one file of HTML. The error is that of the writer.
func (s *Sheet) HTML(w io.Writer) error {
	page, err := template.New("page").Funcs(template.FuncMap{"kind": kindOf, "drawings": drawings}).Parse(pageSource)
	if err != nil {
		return fmt.Errorf("read the page's template: %w", err)
	}
	return page.Execute(w, struct {
		*Sheet
		Style template.CSS
		Size  template.CSS
	}{s, template.CSS(style), s.size()}) //nolint:gosec // our own file
}

// size is the page's size and margins.
func (s *Sheet) size() template.CSS {
	if s.Paper == Letter {
		return "@page { size: letter portrait; }"
	}
	return "@page { size: A4 portrait; }"
}

// kindOf names a block for the template.
func kindOf(b Block) string {
	switch b.(type) {
	case Paragraph:
		return "paragraph"
	case Subheading:
		return "heading"
	case List:
		return "list"
	case Table:
		return "table"
	case Figure:
		return "figure"
	}
	return ""
}

// Short reports whether the table fits on one page with what stands around it, so that it is not to be cut.
func (t Table) Short() bool { return len(t.Rows) <= mostRows }

// drawings are the parts of a chart, each small enough for a page.
func drawings(c chart.Chart) []template.HTML {
	var out []template.HTML
	for _, part := range c.Split(mostRows) {
		out = append(out, template.HTML(part.SVG())) //nolint:gosec // the chart escapes every text that it is given
	}
	return out
}

package page

import "strings"

// grid is a table: a heading, and rows of cells under it. Columns are as wide as their widest cell.
func (p *paper) grid(indent int, heading []string, rows [][]span) {
	widths := make([]int, len(heading))
	for i, h := range heading {
		widths[i] = width(h)
		for _, row := range rows {
			widths[i] = max(widths[i], width(row[i].text))
		}
	}
	head := make([]span, len(heading))
	for i, h := range heading {
		head[i] = in(faint, h)
	}
	for _, row := range append([][]span{head}, rows...) {
		line := []span{}
		for i, cell := range row {
			line = append(line, cell)
			if i < len(row)-1 {
				line = append(line, say(strings.Repeat(" ", widths[i]-width(cell.text)+2)))
			}
		}
		p.line(indent, line)
	}
}

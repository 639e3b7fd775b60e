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

// leastText is the fewest columns that a text is wrapped into beside others.
const leastText = 20

// ledger is a table whose last column is text: it wraps within its column, or, where that would be too narrow, stands below its row.
func (p *paper) ledger(heading []string, rows [][]span) {
	last := len(heading) - 1
	widths, hang := make([]int, last), lineAt
	for i := range last {
		widths[i] = width(heading[i])
		for _, row := range rows {
			widths[i] = max(widths[i], width(row[i].text))
		}
		hang += widths[i] + 2
	}
	beside := p.style.Width-hang >= leastText
	if !beside {
		hang = lineAt + 2
	}
	head := make([]span, len(heading))
	for i, h := range heading {
		head[i] = in(faint, h)
	}
	for _, row := range append([][]span{head}, rows...) {
		var line []span
		for i, cell := range row[:last] {
			line = append(line, cell, say(strings.Repeat(" ", widths[i]-width(cell.text)+2)))
		}
		text := wrapped(row[last], p.style.Width-hang)
		if beside {
			line, text = append(line, text[0]), text[1:]
		} else {
			line = line[:len(line)-1]
		}
		p.line(lineAt, line)
		for _, more := range text {
			p.line(hang, []span{more})
		}
	}
}

// wrapped cuts a text into lines of at most so many columns, where its words allow; it gives one line at least.
func wrapped(text span, columns int) []span {
	lines := []span{{role: text.role}}
	for _, word := range wordsOf([]span{text}) {
		now := &lines[len(lines)-1]
		switch {
		case now.text == "":
			now.text = word.text
		case width(now.text)+1+width(word.text) <= columns:
			now.text += " " + word.text
		default:
			lines = append(lines, word)
		}
	}
	return lines
}

package page

import (
	"fmt"
	"io"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// DecisionMap sets a decision over two facts as a grid. The panel as it is stands between stars.
func DecisionMap(w io.Writer, m *glossladderv1.DecisionMap, ruleSet string, style Style) error {
	p := newPaper(style)
	title := question(&glossladderv1.DecisionExplanation{Table: m.GetTable(), About: m.GetAbout()})
	p.heading(0, fmt.Sprintf("%s: %s across, %s down", title, m.GetXLabel(), m.GetYLabel()))
	heading := append([]string{""}, m.GetXs()...)
	var rows [][]span
	for y, row := range m.GetRows() {
		cells := []span{in(faint, m.GetYs()[y])}
		for x, answer := range row.GetAnswers() {
			text := spokenAnswer(m.GetTable(), answer)
			if int(m.GetAtX()) == x && int(m.GetAtY()) == y {
				cells = append(cells, in(strong, "*"+text+"*"))
				continue
			}
			cells = append(cells, say(text))
		}
		rows = append(rows, cells)
	}
	p.grid(titleAt, heading, rows)
	p.para(0, in(faint, "The panel as it is stands between stars; all other facts stay as they are, or as they follow."))
	if !m.GetExact() {
		p.para(0, in(wary, "Not exact: facts that hang together may change the answer within a field."))
	}
	p.decidedBy(ruleSet)
	return p.writeTo(w)
}

package page

import (
	"fmt"
	"io"
	"strings"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// Explanation sets what is behind the answer for one panel. With Full in the style every condition is told too.
func Explanation(w io.Writer, e *glossladderv1.Explanation, style Style) error {
	p := newPaper(style)
	p.item(0, 0, in(strong, e.GetPanelId()), say("·"), say(stopped(e.GetHeadline())))
	for _, d := range e.GetDecisions() {
		p.decision(d)
	}
	p.wanted(0, e.GetMeasureNext(), false)
	p.decidedBy(e.GetRuleSet())
	return p.writeTo(w)
}

func (p *paper) decision(d *glossladderv1.DecisionExplanation) {
	p.blank()
	p.heading(0, question(d))
	p.item(titleAt, textAt, say("why"), say(stopped(d.GetWhy())), in(faint, place(d.GetReason())))
	if p.style.Full {
		for _, c := range d.GetReason().GetConditions() {
			p.para(textAt, in(faint, conditionWords(c)))
		}
	}
	if n := d.GetWhyNot(); n != nil {
		p.item(titleAt, textAt, say("why not "+stepWord(n.GetStep())), say(stopped(upperFirst(n.GetSentence()))), in(faint, fileLine(n.GetFile(), n.GetLine())))
	}
	for i, n := range d.GetNearMisses() {
		p.item(titleAt, textAt, lead(i, "nearly"), in(strong, spokenAnswer(d.GetTable(), n.GetAnswer())+":"), say(stopped(n.GetFailed())),
			in(faint, fmt.Sprintf("(%s:%d%s%s)", n.GetFile(), n.GetLine(), nbsp, n.GetRuleId())))
	}
	for i, c := range d.GetChanges() {
		text := say(stopped(upperFirst(c.GetSentence())))
		if c.GetBorderline() {
			text.role = wary
		}
		p.item(titleAt, textAt, lead(i, "would change it"), text)
	}
}

// lead is told once, before the first of several.
func lead(i int, text string) span {
	if i > 0 {
		return say(" ")
	}
	return say(text)
}

func conditionWords(c *glossladderv1.Condition) string {
	text := c.GetLabel() + " is " + c.GetValue()
	if c.GetWants() != "" && c.GetWants() != c.GetValue() {
		text += ", asked: " + c.GetWants()
	}
	if c.Margin != nil {
		text += ", " + with(c.GetMargin(), c.GetUnit()) + " to spare"
	}
	return text
}

func fileLine(file string, line int32) string {
	if file == "" {
		return ""
	}
	return fmt.Sprintf("(%s:%d)", file, line)
}

// DecisionMap sets a decision over two facts as a grid. The panel as it is stands between stars.
func DecisionMap(w io.Writer, m *glossladderv1.DecisionMap, ruleSet string, style Style) error {
	p := newPaper(style)
	title := upperFirst(m.GetTable())
	if m.GetAbout() != "" {
		title += " for " + m.GetAbout()
	}
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
	p.para(0, in(faint, "The panel as it is stands between stars; all other facts stay as they are."))
	if !m.GetExact() {
		p.para(0, in(wary, "Not exact: a condition that ties several facts together may change the answer within a field."))
	}
	p.decidedBy(ruleSet)
	return p.writeTo(w)
}

// spokenAnswer is an answer of a table as people say it.
func spokenAnswer(table, answer string) string {
	switch {
	case answer == "":
		return "no rule"
	case answer == "none":
		return "no step"
	case table == "ladder":
		return strings.ReplaceAll(answer, "-", " → ")
	}
	return answer
}

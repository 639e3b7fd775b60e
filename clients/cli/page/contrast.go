package page

import (
	"fmt"
	"io"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// Pairs sets, for each decision, the panel beside its nearest neighbour that gets another answer, and why each gets its
// own.
func Pairs(w io.Writer, e *glossladderv1.Explanation, table string, style Style) error {
	p := newPaper(style)
	p.heading(0, e.GetPanelId()+": two panels that differ in one thing")
	none, told := true, map[string]bool{}
	for _, d := range Shown(e.GetDecisions(), table) {
		if len(d.GetChanges()) == 0 {
			continue
		}
		none = false
		c := firstNew(d.GetChanges(), told)
		told[c.GetFact()] = true
		p.blank()
		p.heading(0, question(d))
		p.item(titleAt, textAt, say("as it is"), say(stopped(upperFirst(c.GetLabel()+": "+c.GetNow()))), in(strong, stopped(d.GetSays())))
		if spans := ruled(d.GetReason()); spans != nil {
			p.item(titleAt, textAt, say("why"), spans...)
		}
		p.item(titleAt, textAt, say("the same, but"), say(stopped(upperFirst(c.GetLabel()+": "+c.GetRange()))), in(strong, stopped(upperFirst(c.GetWould()))))
		p.item(titleAt, textAt, say("why then"), becauseThen(c)...)
		if c.GetBorderline() {
			p.para(textAt, in(wary, "The two lie closer together than the reading can tell. Measure again before you decide."))
		}
	}
	if none {
		p.para(titleAt, say("No change of a single thing changes an answer here."))
	}
	p.decidedBy(e.GetRuleSet())
	return p.writeTo(w)
}

// firstNew is the nearest change of something that no pair has shown yet, or the nearest.
func firstNew(changes []*glossladderv1.AnswerChange, told map[string]bool) *glossladderv1.AnswerChange {
	for _, c := range changes {
		if !told[c.GetFact()] {
			return c
		}
	}
	return changes[0]
}

// becauseThen is the reason of the rule that answers after a change.
func becauseThen(c *glossladderv1.AnswerChange) []span {
	if c.GetRuleId() == "" {
		return []span{say("Nothing speaks against it then.")}
	}
	return []span{say(stopped(upperFirst(c.GetBecause()))), in(faint, fmt.Sprintf("(%s)", c.GetRuleId()))}
}

package page

import (
	"fmt"
	"io"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// Pairs sets, for each decision, the panel beside its nearest neighbour that gets another answer, and the one
// difference that decides.
func Pairs(w io.Writer, e *glossladderv1.Explanation, style Style) error {
	p := newPaper(style)
	p.heading(0, e.GetPanelId()+": two panels that differ in one thing")
	none := true
	for _, d := range e.GetDecisions() {
		if len(d.GetChanges()) == 0 {
			continue
		}
		none = false
		c := d.GetChanges()[0]
		p.blank()
		p.heading(0, question(d))
		p.item(titleAt, textAt, say("as it is"), say(fmt.Sprintf("%s %s:", c.GetLabel(), c.GetNow())), in(strong, stopped(spokenAnswer(d.GetTable(), d.GetAnswer()))))
		p.item(titleAt, textAt, say("the same, but"), say(fmt.Sprintf("%s %s:", c.GetLabel(), c.GetRange())), in(strong, stopped(spokenAnswer(d.GetTable(), c.GetAnswer()))))
		p.item(titleAt, textAt, say("what decides"), reasonOfChange(c)...)
		p.item(titleAt, textAt, say("why"), say(stopped(d.GetWhy())), in(faint, place(d.GetReason())))
	}
	if none {
		p.para(titleAt, say("No change of a single fact changes an answer here."))
	}
	p.decidedBy(e.GetRuleSet())
	return p.writeTo(w)
}

// Quiz asks up to n questions and answers them below, with reasons.
func Quiz(w io.Writer, e *glossladderv1.Explanation, n int, style Style) error {
	p := newPaper(style)
	type asked struct {
		d *glossladderv1.DecisionExplanation
		c *glossladderv1.AnswerChange
	}
	var all []asked
	for rank := range 3 { // the nearest change of every decision before the next nearest of any
		for _, d := range e.GetDecisions() {
			if rank < len(d.GetChanges()) && len(all) < n {
				all = append(all, asked{d, d.GetChanges()[rank]})
			}
		}
	}
	p.heading(0, e.GetPanelId()+": questions")
	for i, q := range all {
		p.item(titleAt, titleAt+3, say(fmt.Sprintf("%d.", i+1)), in(strong, question(q.d)+"."), say(fmt.Sprintf(
			"All is as in the inspection: what is the answer, now that %s is %s? And what if it were %s?", q.c.GetLabel(), q.c.GetNow(), q.c.GetRange())))
	}
	p.blank()
	p.heading(0, "Answers")
	for i, q := range all {
		p.item(titleAt, titleAt+3, say(fmt.Sprintf("%d.", i+1)), in(strong, stopped(upperFirst(spokenAnswer(q.d.GetTable(), q.d.GetAnswer())))),
			say(stopped(q.d.GetWhy())), in(faint, place(q.d.GetReason())))
		p.para(titleAt+3, append([]span{say("Then:"), in(strong, stopped(spokenAnswer(q.d.GetTable(), q.c.GetAnswer())))}, reasonOfChange(q.c)...)...)
	}
	p.decidedBy(e.GetRuleSet())
	return p.writeTo(w)
}

// question is what a decision is about: "Start for wash marks 2".
func question(d *glossladderv1.DecisionExplanation) string {
	if d.GetAbout() == "" {
		return upperFirst(d.GetTable())
	}
	return upperFirst(d.GetTable()) + " for " + d.GetAbout()
}

// reasonOfChange is the sentence of a change and the rule that answers then.
func reasonOfChange(c *glossladderv1.AnswerChange) []span {
	out := []span{say(stopped(upperFirst(c.GetSentence())))}
	if c.GetRuleId() != "" {
		out = append(out, in(faint, "("+c.GetRuleId()+")"))
	}
	return out
}

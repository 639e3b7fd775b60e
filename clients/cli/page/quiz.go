package page

import (
	"fmt"
	"io"
	"math/rand/v2"
	"slices"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// Exam is how a quiz is set.
type Exam struct {
	// Questions is how many at most.
	Questions int
	// Seed picks and orders them: the same seed gives the same sheet. Zero takes the nearest changes first.
	Seed uint64
	// Answers are "below" the questions, "none", or "only" the answers.
	Answers string
}

// asking is one question of a quiz: the panel as it is, and with one thing otherwise.
type asking struct {
	d *glossladderv1.DecisionExplanation
	c *glossladderv1.AnswerChange
}

// Quiz asks about a panel, and answers with reasons after the last question or on a sheet of its own.
func Quiz(w io.Writer, e *glossladderv1.Explanation, of *glossladderv1.Inspection, exam Exam, style Style) error {
	p := newPaper(style)
	all := askings(e, exam)
	if exam.Answers != "only" {
		p.heading(0, e.GetPanelId()+": questions")
		p.situation(of, e.GetPanelId())
		for i, q := range all {
			p.item(titleAt, titleAt+3, say(fmt.Sprintf("%d.", i+1)), in(strong, examQuestion(q.d)), say("And "+q.c.GetSupposed()+"?"))
		}
		if len(all) == 0 {
			p.para(titleAt, say("There is nothing to ask: no change of a single thing changes an answer here."))
		}
	}
	if exam.Answers != "none" {
		p.gap()
		p.heading(0, e.GetPanelId()+": answers")
		for i, q := range all {
			p.item(titleAt, titleAt+3, say(fmt.Sprintf("%d.", i+1)), append([]span{in(strong, stopped(q.d.GetWhy()))}, ruled(q.d.GetReason())...)...)
			p.para(titleAt+3, append([]span{say("Then"), in(strong, stopped(q.c.GetWould()))}, becauseThen(q.c)...)...)
		}
	}
	p.decidedBy(e.GetRuleSet())
	return p.writeTo(w)
}

// askings are the questions: the nearest change of every decision before the next nearest of any, or by the seed.
func askings(e *glossladderv1.Explanation, exam Exam) []asking {
	var all []asking
	for rank := range 3 {
		for _, d := range Shown(e.GetDecisions(), "") {
			if rank < len(d.GetChanges()) {
				all = append(all, asking{d, d.GetChanges()[rank]})
			}
		}
	}
	if exam.Seed != 0 {
		r := rand.New(rand.NewPCG(exam.Seed, 0)) //nolint:gosec // a sheet of questions that can be printed again, no secret
		r.Shuffle(len(all), func(i, k int) { all[i], all[k] = all[k], all[i] })
	}
	return all[:min(exam.Questions, len(all))]
}

// examQuestion is a decision put as a question.
func examQuestion(d *glossladderv1.DecisionExplanation) string {
	switch d.GetTable() {
	case "readiness":
		return "May work begin?"
	case "start":
		return "Where do you start with " + d.GetAbout() + "?"
	case "limit":
		return "What is the strongest step that this panel allows?"
	case "ladder":
		return "Which steps do you plan?"
	case "verdict":
		return "What is your verdict on " + d.GetAbout() + "?"
	}
	return question(d) + "?"
}

// situation tells what whoever is asked has to know of the panel.
func (p *paper) situation(of *glossladderv1.Inspection, id string) {
	at := slices.IndexFunc(of.GetPanels(), func(panel *glossladderv1.Panel) bool { return panel.GetId() == id })
	if at < 0 {
		return
	}
	for _, line := range situationOf(of, of.GetPanels()[at]) {
		p.item(titleAt, textAt, say(line.lead), say(stopped(line.text)))
	}
	p.blank()
}

package page

import (
	"fmt"
	"io"
	"slices"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// Again tells a recorded decision again, question by question, by the rules that made it.
func Again(w io.Writer, said *glossladderv1.ExplainDecisionResponse, job string, sequence int64, style Style) error {
	p := newPaper(style)
	what := "advice on an inspection"
	if said.GetTrial() != 0 {
		what = fmt.Sprintf("verdict on the trial of event %d", said.GetTrial())
	}
	p.heading(0, fmt.Sprintf("Event %d of job %s: %s", sequence, job, what))
	p.para(0, in(faint, fmt.Sprintf("Told again by rule set %.12s, which made it, with the facts as they were seen then.", said.GetRuleSet())))
	panel := ""
	for _, q := range said.GetQuestions() {
		if q.GetPanelId() != panel {
			panel = q.GetPanelId()
			p.gap()
			p.heading(0, panel)
		}
		p.question(q)
	}
	if len(said.GetQuestions()) == 0 {
		p.para(0, in(faint, "No question of it is on record, or none of that panel and table."))
	}
	return p.writeTo(w)
}

func (p *paper) question(q *glossladderv1.QuestionExplained) {
	lead := q.GetTable()
	if q.GetAbout() != "" {
		lead += ", " + q.GetAbout()
	}
	p.para(2, in(strong, lead+":"), say(recordedWords(q)))
	if !q.GetAgrees() {
		p.para(4, in(grave, "These rules give another answer than the one on record: the record or the rule set is not what it was."))
	}
	for _, reason := range q.GetReasons() {
		p.para(4, because(reason)...)
		if reason.GetSentence() != "" {
			p.para(6, in(faint, "seen: "+reason.GetSentence()))
		}
	}
	if p.style.Full {
		for _, near := range q.GetNearMisses() {
			p.para(6, in(faint, fmt.Sprintf("just missed %s (%s:%d): %s", near.GetRuleId(), near.GetFile(), near.GetLine(), near.GetFailed())))
		}
	}
	for _, fact := range q.GetStrangeFacts() {
		p.para(6, in(wary, fact+" is no longer in the vocabulary and counts as not known."))
	}
}

// recordedWords is what a table said then: the words of its answers or, where it answers in numbers, what its rule gives.
func recordedWords(q *glossladderv1.QuestionExplained) string {
	var words []string
	for i, said := range q.GetRecorded() {
		word := answerOr(said.GetAnswer())
		if said.GetAnswer() == "" && said.GetRuleId() != "" && i < len(q.GetResults()) {
			word = q.GetResults()[i]
		}
		if !slices.Contains(words, word) {
			words = append(words, word)
		}
	}
	return listed(words)
}

package advisor

import (
	"slices"

	"github.com/glossladder/glossladder/rules"
)

// Question is what is asked about a panel.
type Question struct {
	// Panel is its id, "" for the first.
	Panel string
	// Trials are every trial on it, the oldest first. With them the verdict on the last is explained, without them all that
	// is decided before work.
	Trials []Trial
	// Would is the step that somebody would have taken, and WouldVerdict the verdict; "" for none.
	Would, WouldVerdict string
}

// Explanation is everything behind the answer for one panel.
type Explanation struct {
	RuleSet, Panel, Headline string
	// Decisions are in the order in which a person asks: may work begin, the start of each defect, the limit, the ladder, how
	// each step is run, what to watch; with trials the verdict alone.
	Decisions   []DecisionExplanation
	MeasureNext []Wanted
}

// How a decision came out.
const (
	Answered  = "answered"
	NoAnswer  = "no-answer" // no rule holds
	BadAnswer = "error"     // rules hold together that must not, or break what no rule may
)

// DecisionExplanation is one question and everything behind its answer. It has the same shape whatever Outcome says.
type DecisionExplanation struct {
	Table string
	// About is the defect or the step; "" for the whole panel.
	About   string
	Outcome string
	// Problem says what is wrong with the rules; "" unless Outcome is [BadAnswer].
	Problem string
	// Answer is as rules write it, "" when no rule held.
	Answer string
	// Says is the answer as people say it, and Why the same with at most three conditions, in one sentence.
	Says, Why string
	Reason    Reason
	// More are the reasons of whatever else holds, where every rule that holds is told.
	More []Reason
	// WhyNot is nil when nothing was asked about, or it is the answer, or allowed.
	WhyNot     *WhyNot
	NearMisses []NearMiss
	Changes    []AnswerChange
	// Borderline says that a change lies inside the reading's own uncertainty.
	Borderline bool

	do string // what is to be done, for the end of Why
}

// mostTold is how many conditions, near misses and changes a person is told of at once.
const mostTold = 3

// asked is one question as it was put to a table.
type asked struct {
	subject
	table *rules.Table
	about string
	facts *rules.Input
}

// Explain tells what is behind the answer for one panel, or behind the verdict on its last trial. A rule set that cannot
// answer is explained too. Errors are an [*InputError] for what cannot be reckoned with, or a panel that is not there.
func (a *Advisor) Explain(in Inspection, ask Question) (Explanation, error) {
	e, questions, failed, giveBack, err := a.enquire(in, ask)
	if err != nil {
		return Explanation{}, err
	}
	defer giveBack()
	out := Explanation{RuleSet: a.set.Hash(), Panel: e.now.panel.ID}
	if failed != nil {
		out.Headline = "The rules cannot answer here: " + failed.Error() + "."
		out.Decisions = e.explainFailed(questions, failed)
		return out, nil
	}
	out.Headline, out.MeasureNext = e.said.advice.Headline, e.said.advice.MeasureNext
	if v := e.said.verdict; v != nil {
		out.Headline, out.MeasureNext = v.Headline, v.MeasureNext
	}
	levers := e.move()
	for i := range questions {
		out.Decisions = append(out.Decisions, e.explain(&questions[i], levers, ask))
	}
	return out, nil
}

// move tries every lever at all its places.
func (e *enquiry) move() []moved {
	var out []moved
	for _, l := range e.levers() {
		out = append(out, moved{lever: l, parts: e.stretches(&l)})
	}
	return out
}

// explain puts one question again and tells all about it.
func (e *enquiry) explain(q *asked, levers []moved, ask Question) DecisionExplanation {
	t, d := q.table, e.decision
	t.Decide(q.facts, d)
	told := t.Why(q.facts, d)
	found := e.found[q.subject]
	out := DecisionExplanation{Table: t.Name(), About: q.about, Outcome: Answered, Answer: found.answer, Says: saidInWords(t.Name(), &found), do: found.do}
	out.Reason, out.More = e.reasons(q, told.Winners)
	if len(told.Winners) == 0 && t.Hit() != rules.Collect {
		out.Outcome = NoAnswer
	}
	about := -1
	if q.subject.table == "start" {
		about = q.nth
	}
	var asks []string
	for _, c := range out.Reason.Conditions {
		asks = append(asks, c.Fact)
	}
	out.Changes = e.changes(q.subject, about, levers, asks)
	out.Borderline = slices.ContainsFunc(out.Changes, func(a AnswerChange) bool { return a.Borderline })
	out.Why = whyInWords(&out, e.a.set.Schema())
	near := slices.Clone(d.Near)
	out.NearMisses = e.nearMisses(q, near, told.Near, found.answer)
	out.WhyNot = e.whyNot(q, ask, &found, levers)
	return out
}

// reasons are the rule that answered and those told beside it, the gravest first. A verdict that no rule could lift has the
// reason of what stopped it.
func (e *enquiry) reasons(q *asked, winners []rules.RuleReason) (Reason, []Reason) {
	var all []Reason
	for _, w := range winners {
		all = append(all, reasonOf(q.table.Name(), w, e.a.set.Schema()))
	}
	lead := e.found[q.subject].rule
	if watch := e.found[q.subject].watch; len(watch) > 0 {
		lead = watch[0].Reason.Rule
	}
	if v := e.said.verdict; v != nil && v.Reason.Table != q.table.Name() {
		return v.Reason, nil
	}
	for i := range all {
		if all[i].Rule == lead {
			reason := all[i]
			return reason, slices.Delete(all, i, i+1)
		}
	}
	return Reason{Table: q.table.Name()}, all
}

// explainFailed tells of the questions that were answered before a rule set failed, and of the one where it did.
func (e *enquiry) explainFailed(questions []asked, failed *RulesError) []DecisionExplanation {
	var out []DecisionExplanation
	for i := range questions {
		q := &questions[i]
		if q.table.Name() == failed.Reason.Table {
			continue
		}
		q.table.Decide(q.facts, e.decision)
		d := DecisionExplanation{Table: q.table.Name(), About: q.about, Outcome: NoAnswer, Reason: Reason{Table: q.table.Name()}}
		for k, w := range q.table.Why(q.facts, e.decision).Winners {
			reason := reasonOf(d.Table, w, e.a.set.Schema())
			if k > 0 {
				d.More = append(d.More, reason)
				continue
			}
			d.Outcome, d.Reason, d.Answer = Answered, reason, answerWord(q.table, w.Result)
		}
		d.Says = saidInWords(d.Table, &finding{answer: d.Answer, key: d.Answer})
		d.Why = whyInWords(&d, e.a.set.Schema())
		out = append(out, d)
	}
	return append(out, DecisionExplanation{
		Table: failed.Reason.Table, Outcome: BadAnswer, Problem: failed.Says, Reason: failed.Reason,
		Says: "The rules cannot answer", Why: "The rules cannot answer: " + failed.Says,
	})
}

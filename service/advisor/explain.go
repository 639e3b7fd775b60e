package advisor

import (
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules"
)

// Explanation is everything behind the answer for one panel.
type Explanation struct {
	RuleSet, Panel, Headline string
	// Decisions are in the order in which they were taken: the start of each defect, the limit, the ladder.
	Decisions   []DecisionExplanation
	MeasureNext []Wanted
}

// DecisionExplanation is one question and everything behind its answer.
type DecisionExplanation struct {
	Table string
	// About is the defect; "" for the whole panel.
	About string
	// Answer is "" when no rule held.
	Answer string
	// Why is one sentence with at most three conditions.
	Why    string
	Reason Reason
	// WhyNot is nil when no step was asked about, or it is the answer, or allowed.
	WhyNot     *WhyNot
	NearMisses []NearMiss
	Changes    []AnswerChange
	// Borderline says that a change lies inside the reading's own uncertainty.
	Borderline bool
}

// NearMiss is a rule that fails on exactly one thing and would answer otherwise.
type NearMiss struct {
	Rule, File     string
	Line           int
	Answer, Failed string
}

// mostTold is how many conditions, near misses and changes a person is told of at once.
const mostTold = 3

// asked is one question as it was put to a table.
type asked struct {
	table *rules.Table
	about string
	facts *rules.Input
}

// Explain tells what is behind the answer for one panel, "" for the first. Would is a step that somebody would have
// taken, or "". Errors are those of [Advisor.Recommend], and an [*InputError] for a panel that is not there.
func (a *Advisor) Explain(in Inspection, panel, would string) (Explanation, error) {
	c, questions, advice, giveBack, err := a.follow(in, panel)
	if err != nil {
		return Explanation{}, err
	}
	defer giveBack()
	out := Explanation{RuleSet: a.set.Hash(), Panel: advice.Panel, Headline: advice.Headline, MeasureNext: advice.MeasureNext}
	for i := range questions {
		out.Decisions = append(out.Decisions, c.explain(&questions[i], would))
	}
	return out, nil
}

// follow answers for one panel and keeps every question about start, limit and ladder as it was put.
func (a *Advisor) follow(in Inspection, panel string) (*panelCase, []asked, PanelAdvice, func(), error) {
	at := 0
	if panel != "" {
		at = slices.IndexFunc(in.Panels, func(p Panel) bool { return p.ID == panel })
	}
	if at < 0 || at >= len(in.Panels) {
		return nil, nil, PanelAdvice{}, nil, &InputError{Troubles: []Trouble{{Field: "panel_id", Says: "no panel of the inspection is called " + panel}}}
	}
	decision, giveBack := a.borrowDecision()
	cases, err := a.study(in, decision)
	if err != nil {
		giveBack()
		return nil, nil, PanelAdvice{}, nil, err
	}
	c := cases[at]
	var questions []asked
	c.watch = func(t *rules.Table) {
		if t != a.tables.start && t != a.tables.limit && t != a.tables.ladder {
			return
		}
		q := asked{table: t, facts: c.sheet.in.Clone()}
		if t == a.tables.start {
			q.about = c.defectAsked()
		}
		questions = append(questions, q)
	}
	advice, err := c.advise()
	if err != nil {
		giveBack()
		return nil, nil, PanelAdvice{}, nil, err
	}
	return c, questions, advice, giveBack, nil
}

// defectAsked is the defect that the question is about: "wash marks 2".
func (c *panelCase) defectAsked() string {
	schema := c.a.set.Schema()
	kind, _ := schema.FactID("defect.kind")
	severity, _ := schema.FactID("defect.severity")
	about := plainWord(c.sheet.in.Value(kind))
	if c.sheet.in.Known(severity) {
		about += " " + c.sheet.in.Value(severity)
	}
	return about
}

// explain puts one question again and tells all about it.
func (c *panelCase) explain(q *asked, would string) DecisionExplanation {
	t, d := q.table, c.decision
	t.Decide(q.facts, d)
	said := t.Why(q.facts, d)
	out := DecisionExplanation{Table: t.Name(), About: q.about, Reason: Reason{Table: t.Name()}}
	if len(said.Winners) > 0 {
		out.Reason = reasonOf(t.Name(), said.Winners[0], c.a.set.Schema())
		out.Answer = answerWord(t, said.Winners[0].Result)
	}
	out.Why = whyInWords(&out)
	out.NearMisses = nearMisses(q, d.Near, said.Near, out.Answer)
	out.Changes = c.changes(q)
	out.Borderline = slices.ContainsFunc(out.Changes, func(a AnswerChange) bool { return a.Borderline })
	out.WhyNot = whyNot(q, would, out.Answer)
	return out
}

// nearMisses are the rules that a change of the one thing they fail on would make the answer; those that fail by a
// distance come first, for they are what a trainee mixes up.
func nearMisses(q *asked, places []rules.Near, near []rules.NearMiss, answer string) []NearMiss {
	var by, other []NearMiss
	for i, n := range near {
		miss := NearMiss{Rule: n.Rule, File: n.File, Line: n.Line, Answer: answerWord(q.table, n.Result), Failed: n.Text}
		if n.Fact >= 0 && strings.HasPrefix(q.table.Schema().Fact(n.Fact).Name, "step.") {
			continue // it follows from an earlier decision, which tells its own
		}
		if miss.Answer == answer || !wouldWin(q, int(places[i].Rule)) {
			continue
		}
		refusal := q.table.WhyNot(q.facts, int(places[i].Rule))
		if len(refusal.Failed) == 1 && refusal.Failed[0].Off > 0 {
			by = append(by, miss)
		} else {
			other = append(other, miss)
		}
	}
	all := slices.Concat(by, other)
	return all[:min(mostTold, len(all))]
}

// wouldWin says whether a rule gives the answer once what it asks has been made so.
func wouldWin(q *asked, place int) bool {
	held, ok := q.table.MadeToHold(q.facts, place)
	if !ok {
		return false
	}
	var d rules.Decision
	q.table.Decide(held, &d)
	return slices.Contains(d.Winners, int32(place))
}

// answerWord is the word that a rule of start, limit or ladder answers with.
func answerWord(t *rules.Table, r rules.Result) string {
	for _, field := range t.Result().Fields {
		if word, ok := r.Word(field.Name); ok {
			return word
		}
	}
	return ""
}

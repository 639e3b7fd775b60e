package page

import (
	"fmt"
	"io"
	"slices"
	"strings"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// Shown picks the decisions that are set: those of one table, every one for "all", and for "" those that a person asks
// about first.
func Shown(all []*glossladderv1.DecisionExplanation, table string) []*glossladderv1.DecisionExplanation {
	return slices.DeleteFunc(slices.Clone(all), func(d *glossladderv1.DecisionExplanation) bool {
		switch {
		case table == "all" || d.GetOutcome() == glossladderv1.DecisionOutcome_DECISION_OUTCOME_ERROR:
			return false
		case table != "":
			return d.GetTable() != table
		case d.GetTable() == "readiness":
			return d.GetAnswer() == "" || d.GetAnswer() == "note" // nothing stands in the way
		}
		return d.GetTable() == "settings" || d.GetTable() == "cautions"
	})
}

// Explanation sets what is behind the answer for one panel: the decisions of a table, as for [Shown]. With Full in the
// style every condition is told too.
func Explanation(w io.Writer, e *glossladderv1.Explanation, table string, style Style) error {
	p := newPaper(style)
	p.item(0, 0, in(strong, e.GetPanelId()), say("·"), say(stopped(e.GetHeadline())))
	told := map[string]bool{}
	for _, d := range Shown(e.GetDecisions(), table) {
		p.decision(d, told)
	}
	if table == "" || table == "all" {
		p.wanted(0, e.GetMeasureNext(), false)
	}
	p.decidedBy(e.GetRuleSet())
	return p.writeTo(w)
}

// decision sets one decision. Told is the facts whose change was told of already: what would change the start changes the
// ladder too, and is not told twice.
func (p *paper) decision(d *glossladderv1.DecisionExplanation, told map[string]bool) {
	p.blank()
	p.heading(0, question(d))
	p.whyOf(d)
	if n := d.GetWhyNot(); n != nil {
		lead := "why not " + plainWord(n.GetVerdict())
		if n.GetVerdict() == glossladderv1.VerdictKind_VERDICT_KIND_UNSPECIFIED {
			lead = "why not " + stepWord(n.GetStep())
		}
		spans := []span{say(stopped(upperFirst(n.GetSentence())))}
		if len(n.GetFailed()) > 0 { // otherwise the rule that answered speaks against it
			spans = append(spans, in(faint, filed(n.GetFile(), n.GetLine(), n.GetRuleId())))
		}
		p.item(titleAt, textAt, say(lead), spans...)
	}
	p.nearlyOf(d)
	p.changesOf(d, told)
}

// changesOf sets what would change an answer, by kind: without Full nothing that was told before.
func (p *paper) changesOf(d *glossladderv1.DecisionExplanation, told map[string]bool) {
	changes := slices.DeleteFunc(slices.Clone(d.GetChanges()), func(c *glossladderv1.AnswerChange) bool {
		twice := d.GetTable() == "ladder" && told[c.GetFact()] || strings.Contains(d.GetWhyNot().GetSentence(), c.GetSupposed())
		return twice && !p.style.Full
	})
	for _, c := range d.GetChanges() {
		told[c.GetFact()] = true
	}
	var kinds []string // those of the nearest first
	for _, c := range changes {
		if kind := kindOf(d, c); !slices.Contains(kinds, kind) {
			kinds = append(kinds, kind)
		}
	}
	slices.SortStableFunc(changes, func(a, b *glossladderv1.AnswerChange) int {
		return slices.Index(kinds, kindOf(d, a)) - slices.Index(kinds, kindOf(d, b))
	})
	was := ""
	for _, c := range changes {
		kind := kindOf(d, c)
		text := say(stopped(upperFirst(c.GetSupposed()) + ", " + c.GetWould()))
		if c.GetBorderline() {
			text = in(wary, "Measure again before you decide: "+stopped(c.GetSupposed()+", "+c.GetWould()))
		}
		shown := say(kind)
		if kind == was {
			shown = say(" ")
		}
		p.item(titleAt, textAt, shown, text)
		was = kind
	}
}

// kindOf says what sort of change it is: what decided, what is open to choice, what nobody knows, and what merely would.
func kindOf(d *glossladderv1.DecisionExplanation, c *glossladderv1.AnswerChange) string {
	switch {
	case c.GetBorderline():
		return "borderline"
	case strings.HasPrefix(c.GetSentence(), "Not measured: "):
		return "not measured"
	case c.GetNow() == "not known":
		return "not known"
	case strings.HasPrefix(c.GetSentence(), "Your choice: "):
		return "your choice"
	case slices.ContainsFunc(d.GetReason().GetConditions(), func(seen *glossladderv1.Condition) bool {
		return seen.GetFact() == c.GetFact() || slices.Contains(c.GetWith(), seen.GetFact())
	}):
		return "decided it"
	}
	return "would change it"
}

// whyOf sets the answer, its rule's own words and, in full, every condition.
func (p *paper) whyOf(d *glossladderv1.DecisionExplanation) {
	if problem := d.GetProblem(); problem != "" {
		p.item(titleAt, textAt, say("problem"), in(grave, stopped(upperFirst(problem))), in(faint, place(d.GetReason())))
		return
	}
	p.item(titleAt, textAt, say("why"), append([]span{in(strong, stopped(d.GetWhy()))}, ruled(d.GetReason())...)...)
	if !p.style.Full {
		return
	}
	for _, c := range d.GetReason().GetConditions() {
		p.para(textAt, in(faint, conditionWords(c)))
	}
	for i, more := range d.GetMore() {
		p.item(titleAt, textAt, lead(i, "also"), because(more)...)
		for _, c := range more.GetConditions() {
			p.para(textAt, in(faint, conditionWords(c)))
		}
	}
}

// nearlyOf sets the near misses: without Full only those that fail by a distance and that no change tells of.
func (p *paper) nearlyOf(d *glossladderv1.DecisionExplanation) {
	said := 0
	for _, n := range d.GetNearMisses() {
		if !p.style.Full && (n.By == nil || slices.ContainsFunc(d.GetChanges(), func(c *glossladderv1.AnswerChange) bool {
			return c.GetFact() == n.GetFact() || slices.Contains(c.GetWith(), n.GetFact())
		})) {
			continue
		}
		p.item(titleAt, textAt, lead(said, "nearly"), in(strong, spokenAnswer(d.GetTable(), n.GetAnswer())+":"), say(stopped(n.GetFailed())),
			in(faint, filed(n.GetFile(), n.GetLine(), n.GetRuleId())))
		said++
	}
}

// question is what a decision is about, as a heading.
func question(d *glossladderv1.DecisionExplanation) string {
	switch d.GetTable() {
	case "readiness":
		return "May work begin?"
	case "start":
		return "Where to start with " + d.GetAbout()
	case "limit":
		return "How strong a step this panel allows"
	case "ladder":
		return "Which steps follow"
	case "settings":
		return "How to run the " + d.GetAbout()
	case "cautions":
		return "What to watch"
	case "verdict":
		return "The verdict on " + d.GetAbout()
	}
	return upperFirst(strings.TrimSpace(d.GetTable() + " " + d.GetAbout()))
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

func filed(file string, line int32, rule string) string {
	if file == "" {
		return ""
	}
	return fmt.Sprintf("(%s:%d%s%s)", file, line, nbsp, rule)
}

// spokenAnswer is an answer of a table as people say it.
func spokenAnswer(table, answer string) string {
	switch {
	case answer == "" && table == "readiness":
		return "may begin"
	case answer == "":
		return "no rule"
	case answer == "none":
		return "no step"
	case table == "ladder":
		return strings.ReplaceAll(answer, "-", " → ")
	}
	return strings.ReplaceAll(answer, "-", " ")
}

package advisor

import (
	"fmt"
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules"
)

// WhyNot is why a step that somebody would have taken is not the answer.
type WhyNot struct {
	Step string
	// Rule is the one that comes nearest to giving the step; "" when none gives it.
	Rule, File string
	Line       int
	// Failed are the clauses of it that do not hold, with by how much.
	Failed []string
	// EvenThen is the rule that would come first even if they did.
	EvenThen string
	Sentence string
}

// whyNot is nil for a question that has nothing against the step.
func whyNot(q *asked, would, answer string) *WhyNot {
	name := q.table.Name()
	if would == "" || would == answer || name == "ladder" || name == "limit" && strength(would) <= strength(answer) {
		return nil
	}
	out := &WhyNot{Step: would}
	place, refusal, ok := nearestRule(q, would)
	if !ok {
		out.Sentence = fmt.Sprintf("no rule of the table %s answers %s", name, answerInWords(name, would))
		return out
	}
	out.Rule, out.File, out.Line = refusal.Rule, refusal.File, refusal.Line
	for _, f := range refusal.Failed {
		out.Failed = append(out.Failed, f.Text)
	}
	for _, id := range refusal.Waiting {
		out.Failed = append(out.Failed, fmt.Sprintf("%s is %s", q.table.Schema().Fact(id).Label, q.facts.Value(id)))
	}
	if !refusal.Holds {
		out.EvenThen = evenThen(q, place, would)
	}
	out.Sentence = fmt.Sprintf("%s would need %s, but %s", answerInWords(name, would), refusal.Rule, refusal.Text)
	if refusal.Holds {
		out.Sentence = fmt.Sprintf("%s is what %s gives; %s", answerInWords(name, would), refusal.Rule, refusal.Text)
	}
	if out.EvenThen != "" {
		out.Sentence += fmt.Sprintf("; and even then %s comes first", out.EvenThen)
	}
	return out
}

// nearestRule is the rule that gives a step and fails on the fewest things. For the limit a stronger one will do too.
func nearestRule(q *asked, would string) (place int, refusal rules.Refusal, ok bool) {
	for i, rule := range q.table.Rules() {
		word := answerWord(q.table, rule.Result)
		if word != would && (q.table.Name() != "limit" || strength(word) < strength(would)) {
			continue
		}
		r := q.table.WhyNot(q.facts, i)
		if !ok || lacking(&r) < lacking(&refusal) {
			place, refusal, ok = i, r, true
		}
	}
	return place, refusal, ok
}

func lacking(r *rules.Refusal) int { return len(r.Failed) + len(r.Waiting) }

// evenThen is the rule that answers otherwise although all that a rule asks has been mended.
func evenThen(q *asked, place int, would string) string {
	held, ok := q.table.MadeToHold(q.facts, place)
	if !ok {
		return ""
	}
	var d rules.Decision
	q.table.Decide(held, &d)
	if d.Outcome != rules.Answered || slices.Contains(d.Winners, int32(place)) {
		return ""
	}
	first := q.table.Rules()[d.Winners[0]]
	word := answerWord(q.table, first.Result)
	if word == would || q.table.Name() == "limit" && strength(word) >= strength(would) {
		return ""
	}
	return first.ID
}

// whyInWords is the answer and the conditions nearest to failing, in one sentence.
func whyInWords(d *DecisionExplanation) string {
	if d.Answer == "" {
		return fmt.Sprintf("no rule of the table %s holds for sure", d.Table)
	}
	said := map[string]string{
		"start": "start with " + answerInWords(d.Table, d.Answer), "limit": "nothing stronger than " + answerInWords(d.Table, d.Answer),
		"ladder": LadderInWords(d.Answer),
	}[d.Table]
	if d.Table == "limit" && d.Answer == noStep {
		said = "no step is allowed"
	}
	conditions := slices.Clone(d.Reason.Conditions)
	slices.SortStableFunc(conditions, func(a, b Condition) int { return strictness(a) - strictness(b) })
	var parts []string
	for _, c := range conditions[:min(mostTold, len(conditions))] {
		value := c.Value
		if c.Margin == nil && c.Unit == "" {
			value = plainWord(value)
		}
		parts = append(parts, c.Label+" is "+value)
	}
	if len(parts) == 0 {
		return upperFirst(said) + ": " + lowerFirst(trimStop(d.Reason.Because))
	}
	return fmt.Sprintf("%s, because %s: %s", upperFirst(said), strings.Join(parts, ", "), lowerFirst(trimStop(d.Reason.Because)))
}

// strictness puts conditions that a small change breaks first.
func strictness(c Condition) int {
	if c.Margin == nil {
		return 1
	}
	return 0
}

// upperFirst begins a sentence.
func upperFirst(s string) string {
	if s == "" {
		return ""
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

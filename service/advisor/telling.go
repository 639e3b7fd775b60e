package advisor

import (
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules"
)

// whyInWords is the answer and the conditions that decide it, in one sentence.
func whyInWords(d *DecisionExplanation, schema *rules.Schema) string {
	out := d.Says
	if conditions := d.telling(schema); len(conditions) > 0 && d.Outcome == Answered && d.Table != "cautions" {
		out += ", because " + inAnd(conditions)
	}
	return out + withDo(d.do)
}

// telling are at most three conditions of the rule that answered, in the order of the facts: first those that a change of
// one thing would break, and what merely may be unknown only where nothing else is asked.
func (d *DecisionExplanation) telling(schema *rules.Schema) []string {
	all := d.Reason.Conditions
	var places []int
	for i := range all {
		if !d.repeats(&all[i]) {
			places = append(places, i)
		}
	}
	slices.SortStableFunc(places, func(a, b int) int { return d.dull(&all[a]) - d.dull(&all[b]) })
	if len(places) > 0 && d.dull(&all[places[0]]) < dullest {
		places = slices.DeleteFunc(places, func(at int) bool { return d.dull(&all[at]) == dullest })
	}
	places = places[:min(mostTold, len(places))]
	slices.Sort(places)
	if k := slices.IndexFunc(places, func(at int) bool { return all[at].Fact == "defect.severity" }); k > 0 && all[places[k-1]].Fact == "defect.kind" && !unknownValue(all[places[k]].Value) {
		kind := conditionSays(&all[places[k-1]], schema) + " of severity " + all[places[k]].Value
		return append(d.say(places[:k-1], schema), append([]string{kind}, d.say(places[k+1:], schema)...)...)
	}
	return d.say(places, schema)
}

// say puts conditions into words, each once.
func (d *DecisionExplanation) say(places []int, schema *rules.Schema) []string {
	all := d.Reason.Conditions
	var out []string
	for _, at := range places {
		says := conditionSays(&all[at], schema)
		if says != "" && !slices.Contains(out, says) && !strings.Contains(d.Reason.Because, upperFirst(says)) { // the rule says it itself
			out = append(out, says)
		}
	}
	return out
}

// repeats says whether a condition only says again what the answer says: where a ladder starts, which step is set up.
func (d *DecisionExplanation) repeats(c *Condition) bool {
	return d.Table == "ladder" && c.Fact == "step.first" || (d.Table == "settings" || d.Table == "verdict") && c.Fact == "step.now"
}

// conditionSays is a condition as people say it, "" for what is no bound on a single fact.
func conditionSays(c *Condition, schema *rules.Schema) string {
	id, ok := schema.FactID(c.Fact)
	if !ok {
		return ""
	}
	return seenInWords(schema.Fact(id), c.Value, !unknownValue(c.Value))
}

func unknownValue(value string) bool { return value == "not known" || value == "not measured" }

const dullest = 3

// dull is how little a condition tells, from 0.
func (d *DecisionExplanation) dull(c *Condition) int {
	decisive := slices.ContainsFunc(d.Changes, func(a AnswerChange) bool { return a.Fact == c.Fact || slices.Contains(a.With, c.Fact) })
	switch {
	case strings.HasPrefix(c.Fact, "step."), c.Value == noChange:
		return 2
	case decisive, c.Fact == "defect.kind", unknownValue(c.Value) && strings.HasPrefix(c.Wants, "not "):
		return 0
	case unknownValue(c.Value):
		return dullest // it may be unknown, and is
	case c.Value == "no":
		return 2
	}
	return 1
}

package advisor

import (
	"fmt"
	"strings"

	"github.com/glossladder/glossladder/rules"
)

// AnswerChange is a range of one fact that gives another answer, all else as it is.
type AnswerChange struct {
	Fact, Label, Now, Range string
	// Answer is "" where no rule holds.
	Answer, Rule string
	Class        rules.Class
	// Away is nil for what has no distance; it is in Unit.
	Away *float64
	Unit string
	// Borderline says that Away lies inside the reading's own uncertainty.
	Borderline bool
	Sentence   string

	unknown bool // the fact has no value now
}

// changes are the nearest changes of the answer, one for each fact.
func (c *panelCase) changes(q *asked) []AnswerChange {
	var flips rules.Flips
	q.table.Flips(q.facts, &flips)
	told := map[rules.FactID]bool{}
	var out []AnswerChange
	for _, flip := range flips.List {
		if len(out) == mostTold {
			break
		}
		if told[flip.Fact] {
			continue
		}
		told[flip.Fact] = true
		out = append(out, c.change(q, flip))
	}
	return out
}

func (c *panelCase) change(q *asked, flip rules.Flip) AnswerChange {
	schema := c.a.set.Schema()
	fact := schema.Fact(flip.Fact)
	out := AnswerChange{
		Fact: fact.Name, Label: fact.Label, Now: q.facts.Value(flip.Fact), Range: schema.Range(flip), Class: fact.Class, Unit: fact.Unit,
		unknown: !q.facts.Known(flip.Fact),
	}
	if fact.Kind != rules.Number {
		out.Now, out.Range = plainWord(out.Now), plainWord(out.Range)
	}
	if strings.HasPrefix(fact.Name, "step.") {
		out.Class = rules.Given // here it follows from an earlier decision
	}
	if flip.Outcome == rules.Answered {
		rule := q.table.Rules()[flip.Rules[0]]
		out.Rule, out.Answer = rule.ID, answerWord(q.table, rule.Result)
	}
	if fact.Kind == rules.Number && q.facts.Known(flip.Fact) {
		out.Away = ptr(flip.Away)
		uncertain, known := c.uncertainty(fact.Name)
		out.Borderline = known && flip.Away <= uncertain
	}
	out.Sentence = flipInWords(&out, q.table.Name())
	return out
}

// uncertainty is how far the true value may lie from what a fact says: for film the way from the lowest reading down to
// its lower bound, for gloss the expanded uncertainty of the panel's mean.
func (c *panelCase) uncertainty(fact string) (float64, bool) {
	switch {
	case c.film != nil && (fact == "film.lowest_um" || fact == "film.lowest_bound_um"):
		return float64(c.film.Measured.LowestUm - c.film.Measured.LowestBoundUm), true
	case c.film != nil && (fact == "film.clear_um" || fact == "film.usable_um" || strings.HasPrefix(fact, "film.after_")):
		if c.film.Clear != nil {
			return float64(c.film.Clear.LowestUm - c.film.Clear.LowestBoundUm), true
		}
		whole := float64(c.film.Measured.LowestUm - c.film.Measured.LowestBoundUm)
		return whole * c.policy.film.ClearSharePct / 100, true
	case c.gloss != nil && c.gloss.PlusMinusGU != nil &&
		(fact == "gloss.headroom_gu" || fact == fmt.Sprintf("gloss.at%d_gu", c.gloss.Angle)):
		return *c.gloss.PlusMinusGU, true
	}
	return 0, false
}

// flipInWords says what a change would take, and whether it is advice.
func flipInWords(a *AnswerChange, table string) string {
	becomes := "no rule would answer"
	if a.Answer != "" {
		becomes = "the answer would be " + answerInWords(table, a.Answer)
	}
	switch {
	case a.unknown:
		return fmt.Sprintf("%s is not known; if it turns out %s, %s", a.Label, a.Range, becomes)
	case a.Class == rules.Choosable:
		return fmt.Sprintf("%s is yours to choose: with %s instead of %s, %s", a.Label, a.Range, a.Now, becomes)
	case a.Class == rules.Measurable && a.Borderline:
		return fmt.Sprintf("borderline: measure again before you decide; %s is %s, and if it were %s, %s", a.Label, a.Now, a.Range, becomes)
	case a.Class == rules.Measurable:
		return fmt.Sprintf("if %s measured again is %s (now %s), %s", a.Label, a.Range, a.Now, becomes)
	}
	return fmt.Sprintf("%s, %s, decided this; if it were %s, %s", a.Label, a.Now, a.Range, becomes)
}

// answerInWords is an answer as people say it.
func answerInWords(table, answer string) string {
	if table == "ladder" {
		return LadderInWords(answer)
	}
	if answer == noStep {
		return "no step"
	}
	return answer
}

// plainWord is a word of a closed list as people say it.
func plainWord(word string) string { return strings.ReplaceAll(word, "-", " ") }

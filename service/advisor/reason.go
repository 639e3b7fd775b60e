package advisor

import (
	"math"
	"strings"

	"github.com/glossladder/glossladder/rules"
)

// Reason is the rule that answered and what it saw. Rule is "" when no rule of the table held.
type Reason struct {
	Table, Rule, Because string
	File                 string
	Line                 int
	Conditions           []Condition
	// Sentence is the conditions in one line.
	Sentence string
}

// Condition is one fact beside the bound it met.
type Condition struct {
	Fact, Label, Value, Wants string
	// Margin is the distance to the nearest value that would have failed, in Unit; nil when there is none.
	Margin *float64
	Unit   string
}

// Caution is one thing to watch. Panels is empty for the whole job.
type Caution struct {
	Topic, Level, Do string
	Reason           Reason
	Panels           []string
}

// ReasonOf tells an explanation of the engine as the adviser tells its own.
func ReasonOf(table string, why rules.RuleReason, schema *rules.Schema) Reason {
	return reasonOf(table, why, schema)
}

func reasonOf(table string, why rules.RuleReason, schema *rules.Schema) Reason {
	out := Reason{Table: table, Rule: why.Rule, Because: why.Because, File: why.File, Line: why.Line}
	texts := make([]string, 0, len(why.Conditions))
	out.Conditions = make([]Condition, 0, len(why.Conditions))
	for _, c := range why.Conditions {
		condition := Condition{Label: c.Label, Value: c.Value, Wants: c.Bound}
		if c.Fact >= 0 {
			fact := schema.Fact(c.Fact)
			if unknownValue(c.Value) && strings.HasPrefix(fact.Name, "history.") {
				continue // that nothing is on record explains nothing
			}
			condition.Fact, condition.Unit = fact.Name, fact.Unit
			if fact.Kind == rules.Number && !math.IsInf(c.Margin, 0) {
				condition.Margin = ptr(c.Margin)
			}
		}
		out.Conditions = append(out.Conditions, condition)
		texts = append(texts, c.Text)
	}
	out.Sentence = strings.Join(texts, "; ")
	return out
}

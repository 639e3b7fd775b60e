package hindsight

import (
	"slices"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/history"
)

// Explained is one question of a recorded decision, put into words again.
type Explained struct {
	Panel string
	// About is the defect or the step that it is about. Empty: the panel.
	About string
	// Recorded is what was said then.
	Recorded []history.TableAnswer
	// Explanation is why, with the facts as they were seen.
	Explanation rules.Explanation
	// Agrees says that the set gives the very rules that are on record. By the set that made the decision it always does; anything
	// else means that the record or the set is not what it was.
	Agrees bool
	// Strange are facts on record that the vocabulary of today does not have any more, or not with that value: they count as not
	// known.
	Strange []string
}

// Explain puts a recorded decision into words by a set, which should be the one that made it: its hash is on record.
// Questions come in the order in which they were asked.
func Explain(set *rules.Set, decision *history.Decision) []Explained {
	var out []Explained
	var d rules.Decision
	for i := range decision.Sheets {
		sheet := &decision.Sheets[i]
		in, strange := inputOf(set.Schema(), sheet.Facts)
		for at := 0; at < len(sheet.Answers); {
			next := at + 1
			for next < len(sheet.Answers) && sheet.Answers[next].Table == sheet.Answers[at].Table {
				next++
			}
			said := sheet.Answers[at:next]
			at = next
			table, ok := set.Table(said[0].Table)
			if !ok {
				continue
			}
			table.Decide(in, &d)
			one := Explained{
				Panel: sheet.Panel, About: sheet.About, Recorded: said, Explanation: table.Why(in, &d), Strange: strange,
			}
			one.Agrees = agrees(said, one.Explanation.Winners)
			out = append(out, one)
		}
	}
	return out
}

func agrees(said []history.TableAnswer, winners []rules.RuleReason) bool {
	var then, now []string
	for _, a := range said {
		if a.Rule != "" {
			then = append(then, a.Rule)
		}
	}
	for _, w := range winners {
		now = append(now, w.Rule)
	}
	return slices.Equal(then, now)
}

// inputOf sets facts as they are on record; what the vocabulary does not take is named.
func inputOf(schema *rules.Schema, facts map[string]any) (in *rules.Input, strange []string) {
	in = schema.NewInput()
	for name, value := range facts {
		id, ok := schema.FactID(name)
		var err error
		switch value := value.(type) {
		case float64:
			if ok {
				err = in.SetNumber(id, value)
			}
		case string:
			if ok {
				err = in.SetWord(id, value)
			}
		case bool:
			if ok {
				err = in.SetFlag(id, value)
			}
		}
		if !ok || err != nil {
			strange = append(strange, name)
		}
	}
	slices.Sort(strange)
	return in, strange
}

package advisor

import (
	"fmt"
	"strings"

	"github.com/glossladder/glossladder/rules"
)

// DecisionMap is one decision over two facts, all others as they are: exact regions, no samples.
type DecisionMap struct {
	RuleSet, Table, About string
	XLabel, YLabel        string
	// Xs and Ys are stretches in words, rising, the last for a value that is not known.
	Xs, Ys []string
	// Answers are row by row; "" where no rule holds.
	Answers  [][]string
	AtX, AtY int
	Exact    bool
}

// Map gives a decision for one panel, "" for the first, over two facts. Table is start, limit or ladder, "" for start;
// of several defects it is the one that asks for the strongest step. Facts may be named by the end of their name where
// only one has it. Errors are those of [Advisor.Explain], and an [*InputError] for a name that is not there.
func (a *Advisor) Map(in Inspection, panel, table, x, y string) (DecisionMap, error) {
	if table == "" {
		table = a.tables.start.Name()
	}
	var wrong troubles
	xID, yID := a.factNamed("x", x, &wrong), a.factNamed("y", y, &wrong)
	if len(wrong) == 0 && xID == yID {
		wrong.add("y", fmt.Errorf("%s is the fact across already; name another", y))
	}
	if err := wrong.asError(); err != nil {
		return DecisionMap{}, err
	}
	_, questions, advice, giveBack, err := a.follow(in, panel)
	if err != nil {
		return DecisionMap{}, err
	}
	defer giveBack()
	q := pick(questions, table, &advice)
	if q == nil {
		return DecisionMap{}, &InputError{Troubles: []Trouble{{Field: "table", Says: table + " was not asked for this panel; it is start (with a defect), limit or ladder"}}}
	}
	m := q.table.Border(q.facts, xID, yID)
	schema := a.set.Schema()
	out := DecisionMap{
		RuleSet: a.set.Hash(), Table: table, About: q.about, Exact: m.Exact, AtX: m.AtX, AtY: m.AtY,
		XLabel: schema.Fact(xID).Label, YLabel: schema.Fact(yID).Label,
	}
	for _, s := range m.Xs {
		out.Xs = append(out.Xs, stretchInWords(schema, xID, s))
	}
	for i, s := range m.Ys {
		out.Ys = append(out.Ys, stretchInWords(schema, yID, s))
		row := make([]string, len(m.Cells[i]))
		for k, cell := range m.Cells[i] {
			if said := m.Answers[cell]; said.Outcome == rules.Answered {
				row[k] = answerWord(q.table, q.table.Rules()[said.Rules[0]].Result)
			}
		}
		out.Answers = append(out.Answers, row)
	}
	return out, nil
}

// stretchInWords is a stretch as people say it; the minus of a number stays.
func stretchInWords(schema *rules.Schema, id rules.FactID, s rules.Stretch) string {
	if schema.Fact(id).Kind == rules.Number {
		return schema.Stretch(id, s)
	}
	return plainWord(schema.Stretch(id, s))
}

// pick is the question to a table; of several the first that gave the panel's start.
func pick(questions []asked, table string, advice *PanelAdvice) *asked {
	defect := 0
	var found *asked
	for i := range questions {
		if questions[i].table.Name() != table {
			continue
		}
		if found == nil {
			found = &questions[i]
		}
		if table == "start" {
			if advice.Defects[defect].Start == advice.Start {
				return &questions[i]
			}
			defect++
		}
	}
	return found
}

// factNamed finds a fact by its name or by the end of it.
func (a *Advisor) factNamed(field, name string, wrong *troubles) rules.FactID {
	schema := a.set.Schema()
	if id, ok := schema.FactID(name); ok {
		return id
	}
	var found []rules.FactID
	var names []string
	for i, fact := range schema.Facts() {
		if strings.HasSuffix(fact.Name, "."+name) {
			found, names = append(found, rules.FactID(i)), append(names, fact.Name)
		}
	}
	switch len(found) {
	case 1:
		return found[0]
	case 0:
		wrong.add(field, fmt.Errorf("%q is no fact; rules facts lists them", name))
	default:
		wrong.add(field, fmt.Errorf("%q is the end of several: %s; write the whole name", name, strings.Join(names, ", ")))
	}
	return 0
}

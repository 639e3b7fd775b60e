package advisor

import (
	"fmt"
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules"
)

// DecisionMap is one decision over two things, all others as they are: exact regions, no samples.
type DecisionMap struct {
	RuleSet, Table, About string
	XLabel, YLabel        string
	// Xs and Ys are stretches in words, rising, the last for a value that is not known, where that can be.
	Xs, Ys []string
	// Answers are row by row; "" where no rule holds.
	Answers  [][]string
	AtX, AtY int
	Exact    bool
}

// MapQuestion is what is mapped.
type MapQuestion struct {
	// Panel is its id, "" for the first, and Trials are those on it where a verdict is mapped.
	Panel  string
	Trials []Trial
	// Table is start, limit, ladder, readiness or verdict, "" for the verdict where there are trials and else for the start.
	Table string
	// Defect picks the start of one kind of mark; "" for the one that asks for the strongest step.
	Defect string
	// X and Y are facts, by name or by the end of it where only one has it. "film" is the lowest film reading.
	X, Y string
}

// Map gives a decision over two things. What an inspection or a trial itself states or a gauge reads is moved there, so that
// all that follows from it moves too; any other fact is moved alone, for the one table that reads it. Errors are those of
// [Advisor.Explain], and an [*InputError] for a name that is not there.
func (a *Advisor) Map(in Inspection, ask MapQuestion) (DecisionMap, error) {
	if ask.Table == "" {
		ask.Table = "start"
		if len(ask.Trials) > 0 {
			ask.Table = "verdict"
		}
	}
	var wrong troubles
	x, y := a.factNamed("x", ask.X, &wrong), a.factNamed("y", ask.Y, &wrong)
	if len(wrong) == 0 && x == y {
		wrong.add("y", fmt.Errorf("%s is the fact across already; name another", ask.Y))
	}
	if err := wrong.asError(); err != nil {
		return DecisionMap{}, err
	}
	e, questions, failed, giveBack, err := a.enquire(in, Question{Panel: ask.Panel, Trials: ask.Trials})
	if err != nil {
		return DecisionMap{}, err
	}
	defer giveBack()
	if failed != nil {
		return DecisionMap{}, failed
	}
	q, err := e.pick(questions, ask)
	if err != nil {
		return DecisionMap{}, err
	}
	out := DecisionMap{RuleSet: a.set.Hash(), Table: ask.Table, About: q.about}
	if across, down := e.leverFor(x, q), e.leverFor(y, q); across != nil && down != nil {
		err := e.mapLevers(q, across, down, &out)
		return out, err
	}
	mapFacts(q, x, y, &out)
	return out, nil
}

// mapFacts moves two facts of one table alone.
func mapFacts(q *asked, x, y rules.FactID, out *DecisionMap) {
	m := q.table.Border(q.facts, x, y)
	schema := q.table.Schema()
	out.Exact, out.AtX, out.AtY = m.Exact, m.AtX, m.AtY
	out.XLabel, out.YLabel = schema.Fact(x).Label, schema.Fact(y).Label
	for _, s := range m.Xs {
		out.Xs = append(out.Xs, stretchInWords(schema, x, s))
	}
	for i, s := range m.Ys {
		out.Ys = append(out.Ys, stretchInWords(schema, y, s))
		row := make([]string, len(m.Cells[i]))
		for k, cell := range m.Cells[i] {
			if said := m.Answers[cell]; said.Outcome == rules.Answered {
				row[k] = answerWord(q.table, q.table.Rules()[said.Rules[0]].Result)
			}
		}
		out.Answers = append(out.Answers, row)
	}
}

// stretchInWords is a stretch as people say it; the minus of a number stays.
func stretchInWords(schema *rules.Schema, id rules.FactID, s rules.Stretch) string {
	if schema.Fact(id).Kind == rules.Number {
		return schema.Stretch(id, s)
	}
	return plainWord(schema.Stretch(id, s))
}

// pick is the question that is mapped; of several starts that of the defect asked for, or the first that gave the panel's.
func (e *enquiry) pick(questions []asked, ask MapQuestion) (*asked, error) {
	if !slices.Contains([]string{"start", "limit", "ladder", "readiness", "verdict"}, ask.Table) {
		return nil, &InputError{Troubles: []Trouble{{Field: "table", Says: fmt.Sprintf("%q has no map; start, limit, ladder, readiness and verdict have", ask.Table)}}}
	}
	var found *asked
	for i := range questions {
		q := &questions[i]
		if q.table.Name() != ask.Table || ask.Defect != "" && ask.Table == "start" && e.now.panel.Defects[q.nth].Kind != ask.Defect {
			continue
		}
		if found == nil || ask.Table == "start" && strength(e.found[q.subject].answer) > strength(e.found[found.subject].answer) {
			found = q
		}
	}
	switch {
	case found != nil:
		return found, nil
	case ask.Defect != "":
		return nil, &InputError{Troubles: []Trouble{{Field: "defect", Says: "the panel has no " + plainWord(ask.Defect)}}}
	}
	return nil, &InputError{Troubles: []Trouble{{Field: "table", Says: ask.Table + " was not asked for this panel; start needs a defect, verdict a trial, and with a trial there is only the verdict"}}}
}

// leverFor is what moves a fact in the inspection or the trial; nil when it is only a fact.
func (e *enquiry) leverFor(id rules.FactID, q *asked) *lever {
	name := e.a.set.Schema().Fact(id).Name
	for _, l := range e.levers() {
		if l.fact.Name == name && (l.about < 0 || q.subject.table != "start" || l.about == q.nth) {
			return &l
		}
	}
	return nil
}

// aliases are short names for what a whole reading moves.
var aliases = map[string]string{"film": "film.lowest_um"}

// factNamed finds a fact by its name or by the end of it.
func (a *Advisor) factNamed(field, name string, wrong *troubles) rules.FactID {
	if whole, ok := aliases[name]; ok {
		name = whole
	}
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

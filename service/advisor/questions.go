package advisor

import (
	"strings"

	"github.com/glossladder/glossladder/rules"
)

// explained are the tables in the order in which a person asks.
var explained = []string{"readiness", "start", "limit", "ladder", "settings", "cautions", "verdict"}

// note keeps a question as it is being put.
func (e *enquiry) note(t *rules.Table) asked {
	c := e.base
	q := asked{table: t, facts: c.sheet.in.Clone(), subject: subject{table: t.Name()}}
	switch t {
	case e.a.tables.start:
		q.about = c.defectAsked()
	case e.a.tables.settings:
		q.about = c.wordNow("step.now")
		q.nth = strength(q.about)
	case e.a.tables.verdict:
		last := e.now.trials[len(e.now.trials)-1]
		q.about = "the " + last.Step
	}
	return q
}

// inOrder picks the questions that are explained: with trials the last verdict, else what is decided before work, of each
// table those of every defect and step.
func (e *enquiry) inOrder(questions []asked) []asked {
	if e.said.verdict == nil {
		questions = append(questions, e.cautionsAsked())
	}
	var out []asked
	for _, table := range explained {
		if (table == "verdict") != (e.said.verdict != nil) {
			continue
		}
		nth := 0
		for _, q := range questions {
			if q.table.Name() != table {
				continue
			}
			if table == "start" {
				q.nth = nth
			}
			nth++
			if table == "verdict" && len(out) > 0 {
				out = out[:0]
			}
			out = append(out, q)
		}
	}
	return out
}

// cautionsAsked is the round of cautions that speaks of the panel.
func (e *enquiry) cautionsAsked() asked {
	return asked{table: e.a.tables.cautions, facts: e.base.sheet.in.Clone(), subject: subject{table: "cautions"}}
}

// defectAsked is the defect that the question is about: "wash marks of severity 2".
func (c *panelCase) defectAsked() string {
	about := plainWord(c.wordNow("defect.kind"))
	severity, _ := c.a.set.Schema().FactID("defect.severity")
	if v, known := c.sheet.in.Number(severity); known {
		about += " of severity " + showNumber(v, "")
	}
	return about
}

func (c *panelCase) wordNow(fact string) string {
	id, _ := c.a.set.Schema().FactID(fact)
	return c.sheet.in.Value(id)
}

// plainWord is a word of a closed list as people say it.
func plainWord(word string) string { return strings.ReplaceAll(word, "-", " ") }

// answerWord is the word that a rule of a table answers with.
func answerWord(t *rules.Table, r rules.Result) string {
	for _, field := range t.Result().Fields {
		if word, ok := r.Word(field.Name); ok {
			return word
		}
	}
	return ""
}

package rules

import (
	"errors"
	"fmt"

	"github.com/glossladder/glossladder/rules/internal/cond"
)

// BuildTable makes a table without files, so that tests can have tables larger
// than a file may be. Rule i is named r-i; results give one word field each.
func BuildTable(s *Schema, table string, hit Hit, whens, words []string) (*Table, error) {
	typ, ok := s.Result(table)
	if !ok {
		return nil, fmt.Errorf("no table %s", table)
	}
	t := &Table{schema: s, typ: &typ, name: table, file: table + ".yaml", hit: hit}
	compiler := cond.NewCompiler(s.space)
	var conditions []cond.Condition
	for i, when := range whens {
		c, mistakes := compiler.Compile(when)
		for _, m := range mistakes {
			return nil, fmt.Errorf("%s: %w", when, errors.New(m.Message))
		}
		conditions = append(conditions, c)
		values := make([]fieldValue, len(typ.Fields))
		values[0] = fieldValue{set: true, words: []string{words[i%len(words)]}}
		t.rules = append(t.rules, Rule{
			ID: fmt.Sprintf("r-%d", i), Because: "generated", When: when, Index: i, Line: i + 1,
			File: t.file, Result: Result{typ: &typ, values: values},
		})
	}
	t.finish(compiler.Clauses(), conditions)
	return t, nil
}

// Boxes is the number of boxes that a table's conditions became.
func (t *Table) Boxes() int { return len(t.owner) }

// ClauseCount is the number of clauses that are no bound on a single fact.
func (t *Table) ClauseCount() int { return t.index.Clauses().Len() }

// BoxTruth is the three-valued truth of one rule by a scan over its boxes.
func (t *Table) BoxTruth(in *Input, rule int) string {
	var sc Scratch
	t.index.Begin(&sc.s)
	best := "false"
	for b := t.boxes[rule][0]; b < t.boxes[rule][1]; b++ {
		switch v := t.index.Truth(b, in.codes, &sc.s).String(); {
		case v == "true":
			return v
		case v == "unknown":
			best = v
		}
	}
	return best
}

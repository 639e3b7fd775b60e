package rules

import (
	"fmt"
	"maps"
	"slices"

	"github.com/glossladder/glossladder/rules/strictyaml"
)

// WithTable is the set with other text for the file of one table. The text is read
// and checked as [Load] does, and the error is [Problems]. The worked cases, the
// documents and the other tables are taken over as they are: a case may then name a
// rule that the new text no longer has.
func (s *Set) WithTable(table string, src []byte) (*Set, error) {
	at := slices.IndexFunc(s.tables, func(t *Table) bool { return t.name == table })
	if at < 0 {
		return nil, fmt.Errorf("there is no table %s", table)
	}
	file := s.tables[at].file
	l := &loader{schema: s.schema, drafts: map[string]*draft{}}
	root, ps := strictyaml.Parse(file, src)
	l.problems.add(ps...)
	if root != nil {
		l.tableFile(file, root)
	}
	d := l.drafts[table]
	if d == nil && len(l.problems) == 0 {
		l.fail(file, "the text holds another table than "+table, "")
	}
	if found := l.problems.sorted(); len(found) > 0 {
		return nil, found
	}
	d.table.finish(d.clauses, d.conditions)
	out := &Set{schema: s.schema, docs: s.docs, cases: s.cases, tables: slices.Clone(s.tables), files: maps.Clone(s.files)}
	out.tables[at], out.files[file] = d.table, src
	out.hash = hashOf(out.files)
	return out, nil
}

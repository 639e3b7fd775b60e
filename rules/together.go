package rules

import (
	"errors"
	"fmt"
	"slices"

	"github.com/glossladder/glossladder/rules/strictyaml"
)

// ErrOwnFacts is the error of sets that cannot be held in one schema.
var ErrOwnFacts = errors.New("the two sets declare a fact of their own in two ways")

// Together gives two sets as if both folders declared the facts that either does, so
// that they can be compared. A number may then have the wider bounds of the two. Sets
// of the same facts are given back as they are. The error is [ErrOwnFacts] where a fact
// cannot be both things.
func Together(a, b *Set) (*Set, *Set, error) {
	if slices.EqualFunc(a.schema.Own(), b.schema.Own(), sameValues) {
		return a, b, nil
	}
	own, err := unite(a.schema.Own(), b.schema.Own())
	if err != nil {
		return nil, nil, err
	}
	schema, err := a.schema.with(own)
	if err != nil {
		return nil, nil, fmt.Errorf("%w: %w", ErrOwnFacts, err)
	}
	if a, err = a.under(schema); err != nil {
		return nil, nil, err
	}
	b, err = b.under(schema)
	return a, b, err
}

func sameValues(a, b Fact) bool {
	return a.Name == b.Name && a.Kind == b.Kind && a.Min == b.Min && a.Max == b.Max && a.Step == b.Step && slices.Equal(a.Words, b.Words) &&
		a.Ordered == b.Ordered
}

func unite(a, b []Fact) ([]Fact, error) {
	out := slices.Clone(a)
	for _, f := range b {
		at := slices.IndexFunc(out, func(o Fact) bool { return o.Name == f.Name })
		if at < 0 {
			out = append(out, f)
			continue
		}
		if o := &out[at]; o.Kind == Number && f.Kind == Number && o.Step == f.Step {
			o.Min, o.Max = min(o.Min, f.Min), max(o.Max, f.Max)
		} else if !sameValues(*o, f) {
			return nil, fmt.Errorf("%w: %s", ErrOwnFacts, f.Name)
		}
	}
	return out, nil
}

// under is the set with its tables read anew for another schema; it keeps its hash.
// The worked cases are left out.
func (s *Set) under(schema *Schema) (*Set, error) {
	l := &loader{schema: schema, drafts: map[string]*draft{}}
	for _, t := range s.tables {
		root, ps := strictyaml.Parse(t.file, s.files[t.file])
		l.problems.add(ps...)
		if root != nil {
			l.tableFile(t.file, root)
		}
	}
	if found := l.problems.sorted(); len(found) > 0 {
		return nil, found
	}
	out := &Set{schema: schema, docs: s.docs, files: s.files, hash: s.hash}
	for _, t := range s.tables {
		d := l.drafts[t.name]
		d.table.finish(d.clauses, d.conditions)
		out.tables = append(out.tables, d.table)
	}
	return out, nil
}

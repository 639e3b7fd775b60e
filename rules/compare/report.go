package compare

import (
	"bytes"
	"fmt"
	"path"
	"reflect"

	"github.com/glossladder/glossladder/rules"
)

// Report is how set B differs from set A.
type Report struct {
	// A and B are the hashes of the sets.
	A, B string
	// Tables are those whose files differ, in the order of the schema.
	Tables []Table
	// Files are the other files that differ: documents, promises and worked cases.
	Files []File
}

// Table is how one table differs.
type Table struct {
	Name string
	// HitA and HitB are the hit policies.
	HitA, HitB rules.Hit
	// Rules are the rules that differ. None: only comments or the layout do.
	Rules []RuleChange
	// Effect is what it means for the answers.
	Effect Effect
}

// File is a file that holds no table and differs.
type File struct {
	Name string
	// Kind says whether both sets have it, or B or A alone.
	Kind Kind
	// Case says that it holds worked cases.
	Case bool
}

// Sets compares b with a. A budget of 0 is [DefaultBudget] steps a table. Facts that
// only one of the folders declares count for both. The error wraps [ErrSchema] or
// [rules.ErrOwnFacts].
func Sets(a, b *rules.Set, budget int) (*Report, error) {
	a, b, err := rules.Together(a, b)
	if err != nil {
		return nil, err
	}
	if !sameFacts(a.Schema(), b.Schema()) || !reflect.DeepEqual(a.Schema().Results(), b.Schema().Results()) {
		return nil, fmt.Errorf("compare %.12s and %.12s: %w", a.Hash(), b.Hash(), ErrSchema)
	}
	out := &Report{A: a.Hash(), B: b.Hash()}
	tables := map[string]bool{}
	for i, t := range a.Tables() {
		u := b.Tables()[i]
		tables[t.File()], tables[u.File()] = true, true
		was, _ := a.Source(t.File())
		is, _ := b.Source(u.File())
		if bytes.Equal(was, is) {
			continue
		}
		e := effect(t, u, budget)
		out.Tables = append(out.Tables, Table{Name: t.Name(), HitA: t.Hit(), HitB: u.Hit(), Rules: ruleChanges(e.joint), Effect: e})
	}
	out.files(a, b, tables)
	return out, nil
}

// files notes what differs beside the tables.
func (r *Report) files(a, b *rules.Set, tables map[string]bool) {
	note := func(name string, kind Kind) {
		if !tables[name] {
			r.Files = append(r.Files, File{Name: name, Kind: kind, Case: path.Dir(name) == "cases"})
		}
	}
	for _, name := range b.Files() {
		is, _ := b.Source(name)
		was, ok := a.Source(name)
		switch {
		case !ok:
			note(name, Added)
		case !bytes.Equal(was, is):
			note(name, Edited)
		}
	}
	for _, name := range a.Files() {
		if _, ok := b.Source(name); !ok {
			note(name, Removed)
		}
	}
}

// Outcome is the outcome over all tables: the most doubtful one that matters. It is
// Same when no table differs.
func (r *Report) Outcome() Outcome {
	out := Same
	for _, t := range r.Tables {
		switch o := t.Effect.Outcome; {
		case o == NotDecided:
			return NotDecided
		case o == Changed, o == Possible && out == Same:
			out = o
		}
	}
	return out
}

// WordingOnly says that tables differ and it is proved that no answer does.
func (r *Report) WordingOnly() bool { return len(r.Tables) > 0 && r.Outcome() == Same }

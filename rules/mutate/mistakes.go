package mutate

import (
	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/cond"
	"github.com/glossladder/glossladder/rules/internal/space"
	"github.com/glossladder/glossladder/rules/strictyaml"
)

// maker makes the mutants of one table.
type maker struct {
	table    *rules.Table
	source   source
	places   places
	compiler *cond.Compiler
	out      []Mutant
}

// mistakes are all small mistakes in a table, lets first, then rule by rule.
func mistakes(set *rules.Set, t *rules.Table) []Mutant {
	m := maker{
		table: t, source: sourceOf(t), places: placesOf(set, t),
		compiler: cond.NewCompiler(space.New(t.Geometry().Axes)),
	}
	for i, l := range t.Lets() {
		m.inLet(i, l)
		m.compiler.Let(l.Name, l.Formula)
	}
	for i := range t.Rules() {
		m.inCondition(i)
		m.otherResult(i)
		m.gone(i)
		m.order(i)
	}
	return m.out
}

// add takes a mutant with its place in the file.
func (m *maker) add(kind Kind, at strictyaml.Pos, source []byte, more Mutant) {
	more.Table, more.Kind, more.File = m.table.Name(), kind, m.table.File()
	more.Line, more.Col, more.source = at.Line, at.Col, source
	m.out = append(m.out, more)
}

func kindOf(s cond.Slip) Kind {
	if s == cond.DroppedClause {
		return Clause
	}
	return Bound
}

func (m *maker) inLet(at int, l rules.Let) {
	node := m.places.lets[l.Name]
	for _, v := range m.compiler.Variants(node.Text()) {
		text := m.source.withLet(at, letText(l.Name, v.Source))
		m.add(kindOf(v.Slip), node.PosOf(v.At), text, Mutant{Let: l.Name, Was: v.Was, Now: v.Now})
	}
}

func (m *maker) inCondition(at int) {
	r, node := &m.table.Rules()[at], m.places.rules[at]
	for _, v := range m.compiler.Variants(node.Text()) {
		text := m.source.withRule(at, ruleText(r, v.Source, resultText(r.Result)))
		m.add(kindOf(v.Slip), node.PosOf(v.At), text, Mutant{Rule: r.ID, Was: v.Was, Now: v.Now})
	}
}

func idPlace(r *rules.Rule) strictyaml.Pos { return strictyaml.Pos{Line: r.Line, Col: r.Col} }

// otherResult gives a rule the result of the nearest rule that answers something
// else: the next one in the file, or one before it.
func (m *maker) otherResult(at int) {
	all := m.table.Rules()
	r := &all[at]
	for k := 1; k < len(all); k++ {
		o := &all[(at+k)%len(all)]
		if o.Result.Equal(r.Result) {
			continue
		}
		text := m.source.withRule(at, ruleText(r, r.When, resultText(o.Result)))
		m.add(Result, idPlace(r), text, Mutant{Rule: r.ID, Was: r.Result.String(), Now: o.ID})
		return
	}
}

// gone makes a rule never hold. It keeps its id, so that cases may go on naming it.
func (m *maker) gone(at int) {
	r := &m.table.Rules()[at]
	if len(m.table.Rules()) == 1 {
		return
	}
	m.add(Rule, idPlace(r), m.source.withRule(at, ruleText(r, "false", resultText(r.Result))), Mutant{Rule: r.ID, Was: r.When})
}

// order swaps a rule and the next one. Under priority only rules of the same
// strength are told apart by their order.
func (m *maker) order(at int) {
	all := m.table.Rules()
	if at+1 == len(all) || m.table.Hit() != rules.First && m.table.Hit() != rules.Priority {
		return
	}
	r, next := &all[at], &all[at+1]
	if m.table.Hit() == rules.Priority && !alike(m.table, r, next) {
		return
	}
	m.add(Order, idPlace(r), m.source.swapped(at), Mutant{
		Rule: r.ID, Was: r.ID, Now: next.ID, reordered: []string{r.ID, next.ID},
	})
}

// alike says whether two rules of a priority table are equally strong.
func alike(t *rules.Table, a, b *rules.Rule) bool {
	typ := t.Result()
	one, _ := a.Result.Word(typ.Priority)
	two, _ := b.Result.Word(typ.Priority)
	return one == two
}

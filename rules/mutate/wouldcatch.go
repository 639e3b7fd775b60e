package mutate

import (
	"slices"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/cases"
	"github.com/glossladder/glossladder/rules/internal/example"
)

// wouldCatch is the smallest case that tells a mutant from the table as it is, from
// an input that they answer differently; nil where rules of the table quarrel there,
// which no case expects.
func (j *judge) wouldCatch(c *comparison, m *Mutant, point []int32) *cases.Suggestion {
	breaks := func(codes []int32) bool { return c.differ(j.table.Schema().InputAt(codes)) }
	if c.boxes == nil {
		c.unite()
	}
	smallest, axes := example.Smallest(j.table.Geometry().Axes, c.boxes, point, nil, breaks)
	matter := make([]rules.FactID, len(axes))
	for i, a := range axes {
		matter[i] = rules.FactID(a)
	}
	in := j.table.Schema().InputAt(smallest)
	if j.table.Decide(in, &j.d); j.d.Outcome == rules.Conflict {
		return nil
	}
	s := cases.Expect(j.table, in, matter)
	if m.Kind == Result && s.Many {
		j.tell(&s, c.tables[1], m)
	}
	return &s
}

// tell names what the changed rule of a table that collects gave: its short fields if
// no other rule gives the same ones, else all.
func (j *judge) tell(s *cases.Suggestion, now *rules.Table, m *Mutant) {
	at := slices.IndexFunc(j.table.Rules(), func(r rules.Rule) bool { return r.ID == m.Rule })
	var short, all []string
	for _, f := range j.table.Rules()[at].Result.Fields() {
		all = append(all, f.Field.Name)
		if f.Field.Kind != rules.Text {
			short = append(short, f.Field.Name)
		}
	}
	if len(short) == 0 || j.stillGiven(s, now, at, short) {
		short = all
	}
	s.Tell(j.table, at, short)
}

// stillGiven says whether some rule of the changed table gives the same fields.
func (j *judge) stillGiven(s *cases.Suggestion, now *rules.Table, at int, fields []string) bool {
	now.Decide(s.Given, &j.d)
	given := func(r rules.Result, name string) string {
		for _, f := range r.Fields() {
			if f.Field.Name == name {
				return f.Value
			}
		}
		return ""
	}
	was := j.table.Rules()[at].Result
	return slices.ContainsFunc(j.d.Winners, func(w int32) bool {
		return !slices.ContainsFunc(fields, func(name string) bool { return given(now.Rules()[w].Result, name) != given(was, name) })
	})
}

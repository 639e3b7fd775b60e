package promise

import (
	"slices"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/cond"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// results is the space of facts with the fields of tables' results behind them, so
// that one condition may name both.
type results struct {
	set    *rules.Set
	facts  int32
	axes   []space.Axis
	space  *space.Space
	tables []*resultTable
	owner  []int32 // result axis less facts -> table
	memo   cond.Memo
	d      rules.Decision
}

// resultTable is a table with the codes of what its rules give.
type resultTable struct {
	table    *rules.Table
	geometry rules.Geometry
	axes     []int32   // the result axes of the table
	codes    [][]int32 // rule -> along axes
}

func newResults(set *rules.Set) *results {
	rs := &results{set: set}
	for _, t := range set.Tables() {
		if rs.axes == nil {
			rs.axes = slices.Clone(t.Geometry().Axes)
			rs.facts = int32(len(rs.axes))
		}
		rs.addTable(t)
	}
	rs.space = space.New(rs.axes)
	return rs
}

func (rs *results) addTable(t *rules.Table) {
	rt := &resultTable{table: t, geometry: t.Geometry(), codes: make([][]int32, len(t.Rules()))}
	for _, f := range t.Result().Fields {
		axis, ok := axisOf(t.Name(), &f)
		if !ok {
			continue
		}
		axis.Scale = rs.scale(&axis)
		rt.axes = append(rt.axes, int32(len(rs.axes)))
		rs.axes = append(rs.axes, axis)
		rs.owner = append(rs.owner, int32(len(rs.tables)))
		for r, rule := range t.Rules() {
			rt.codes[r] = append(rt.codes[r], codeOf(rule.Result, &f, &axis))
		}
	}
	rs.tables = append(rs.tables, rt)
}

// scale lets a result be compared with the results and the facts that have its words
// in its order: start.step <= limit.step.
func (rs *results) scale(a *space.Axis) string {
	if a.Kind != space.Word || !a.Ordered {
		return ""
	}
	for i := range rs.axes {
		if other := &rs.axes[i]; other.Ordered && other.Scale != "" && slices.Equal(other.Words, a.Words) {
			return other.Scale
		}
	}
	return "result " + a.Name
}

// axisOf is a field of a result as an axis; lists, texts and numbers without a
// step are none.
func axisOf(table string, f *rules.Field) (space.Axis, bool) {
	a := space.Axis{Name: table + "." + f.Name, Words: f.Words, Ordered: f.Ordered}
	switch {
	case f.List:
		return a, false
	case f.Kind == rules.Word:
		a.Kind = space.Word
		return a, true
	case f.Kind == rules.Flag:
		a.Kind = space.Flag
		return a, true
	case f.Kind == rules.Number && f.Step > 0:
		g, err := space.NewGrid(f.Min, f.Max, f.Step)
		a.Kind, a.Grid = space.Number, g
		return a, err == nil
	}
	return a, false
}

func codeOf(r rules.Result, f *rules.Field, a *space.Axis) int32 {
	if word, ok := r.Word(f.Name); ok {
		return a.WordCode(word)
	}
	if yes, ok := r.Flag(f.Name); ok {
		if yes {
			return 1
		}
		return 0
	}
	if v, ok := r.Number(f.Name); ok {
		code, _ := a.Grid.Code(v)
		return code
	}
	return space.Missing
}

// fill asks every table and puts what it answers behind the facts. A table that
// collects gives nothing here.
func (rs *results) fill(facts []int32) []int32 {
	codes := make([]int32, len(rs.axes))
	copy(codes, facts[:rs.facts])
	for i := rs.facts; i < int32(len(codes)); i++ {
		codes[i] = space.Missing
	}
	in := rs.set.Schema().InputAt(facts[:rs.facts])
	for _, rt := range rs.tables {
		if rt.table.Hit() == rules.Collect {
			continue
		}
		rt.table.Decide(in, &rs.d)
		if rs.d.Outcome != rules.Answered {
			continue
		}
		for i, a := range rt.axes {
			codes[a] = rt.codes[rs.d.Winners[0]][i]
		}
	}
	return codes
}

// holds decides a condition for real.
func (rs *results) holds(c *cond.Condition, clauses *cond.Clauses, codes []int32) bool {
	rs.memo.Reset(clauses)
	for i := range c.Boxes {
		b := &c.Boxes[i]
		truth := b.Truth(codes)
		for _, l := range b.Literals {
			if truth == space.False {
				break
			}
			t := clauses.Truth(l.Clause, codes, &rs.memo)
			if !l.Want {
				t = t.Not()
			}
			truth = min(truth, t)
		}
		if truth == space.True {
			return true
		}
	}
	return false
}

// result is the table and the place among its axes of a result's name.
func (rs *results) result(name string) (rt *resultTable, at int, ok bool) {
	axis, ok := rs.space.Find(name)
	if !ok || axis < rs.facts {
		return nil, 0, false
	}
	rt = rs.tables[rs.owner[axis-rs.facts]]
	return rt, slices.Index(rt.axes, axis), true
}

package cond

import (
	"fmt"
	"sort"
	"strings"

	"github.com/expr-lang/expr/vm"

	"github.com/glossladder/glossladder/rules/internal/space"
)

// Clause is a part of a condition that boxes cannot say: a yes-or-no column
// named by its text.
type Clause struct {
	Text  string
	Reads []int32 // the axes it needs, rising

	opposite string      // the text of what is so when the clause is false
	program  *vm.Program // of the comparison l cmp r
	cmp      string
	l, r     *term
	tree     *node // of a part with too many cases for boxes
}

// Says is what is so when the clause comes out as wanted.
func (c *Clause) Says(want bool) string {
	if want {
		return c.Text
	}
	return c.opposite
}

// Clauses are the columns of one table. One text has one column, and its
// opposite is the same column wanted false. It is built while conditions are
// compiled and read-only, so safe for concurrent use, after that.
type Clauses struct {
	space  *space.Space
	list   []Clause
	byText map[string]int32
	boxed  [][]any // an axis's values as interfaces, for short axes that a clause reads
	failed error
}

// NewClauses starts an empty list of columns.
func NewClauses(s *space.Space) *Clauses {
	return &Clauses{space: s, byText: map[string]int32{}, boxed: make([][]any, len(s.Axes))}
}

// Len is the number of columns.
func (cs *Clauses) Len() int { return len(cs.list) }

// At is a column.
func (cs *Clauses) At(i int32) *Clause { return &cs.list[i] }

func (cs *Clauses) compare(f *formula, axes []int32) int32 {
	l, r, cmp := f.l, f.r, f.cmp
	lt, rt := l.text(cs.space), r.text(cs.space)
	if cmp == "==" && rt < lt {
		l, r, lt, rt = r, l, rt, lt
	}
	text := strip(lt) + " " + cmp + " " + strip(rt)
	if i, ok := cs.byText[text]; ok {
		return i
	}
	program, err := cs.program(cmp, l, r)
	if err != nil && cs.failed == nil {
		cs.failed = fmt.Errorf("%s cannot be compiled: %w", text, err)
	}
	opposite := strip(lt) + " " + map[string]string{"==": "!=", "<": ">=", "<=": ">"}[cmp] + " " + strip(rt)
	return cs.add(text, Clause{Text: text, opposite: opposite, Reads: axes, program: program, cmp: cmp, l: l, r: r})
}

func (cs *Clauses) tree(n *node) int32 {
	text := n.text(cs.space, cs)
	if i, ok := cs.byText[text]; ok {
		return i
	}
	read := map[int32]bool{}
	n.reads(read, func(c int32) []int32 { return cs.list[c].Reads })
	var axes []int32
	for a := range read {
		axes = append(axes, a)
	}
	sort.Slice(axes, func(i, j int) bool { return axes[i] < axes[j] })
	return cs.add(text, Clause{Text: text, opposite: "not " + text, Reads: axes, tree: n})
}

func (cs *Clauses) add(text string, c Clause) int32 {
	i := int32(len(cs.list))
	cs.list = append(cs.list, c)
	cs.byText[text] = i
	for _, a := range c.Reads {
		axis := &cs.space.Axes[a]
		if cs.boxed[a] != nil || axis.Size() > maxTable {
			continue
		}
		cs.boxed[a] = make([]any, axis.Size())
		for k := range cs.boxed[a] {
			cs.boxed[a][k] = axis.Value(int32(k))
		}
	}
	return i
}

// strip takes the outermost brackets off a term's text.
func strip(s string) string {
	if !strings.HasPrefix(s, "(") || !strings.HasSuffix(s, ")") {
		return s
	}
	depth := 0
	for i, r := range s {
		switch r {
		case '(':
			depth++
		case ')':
			if depth--; depth == 0 && i < len(s)-1 {
				return s
			}
		}
	}
	return s[1 : len(s)-1]
}

func (n *node) text(s *space.Space, cs *Clauses) string {
	switch n.op {
	case nTrue:
		return "true"
	case nFalse:
		return "false"
	case nSet:
		return setText(&n.set, s)
	case nClause:
		return cs.list[n.lit.Clause].Says(n.lit.Want)
	}
	parts := make([]string, len(n.kids))
	for i, k := range n.kids {
		parts[i] = k.text(s, cs)
	}
	join := " and "
	if n.op == nOr {
		join = " or "
	}
	return "(" + strings.Join(parts, join) + ")"
}

func setText(set *space.Set, s *space.Space) string {
	a := &s.Axes[set.Axis]
	if set.Empty() {
		return "not known(" + a.Name + ")"
	}
	if set.Missing == space.False {
		return "known(" + a.Name + ")"
	}
	if a.Kind == space.Flag {
		if set.Mask == 0b01 {
			return "not " + a.Name
		}
		return a.Name
	}
	var parts []string
	for k, w := range a.Words {
		if set.Mask>>k&1 == 1 {
			parts = append(parts, w)
		}
	}
	for _, p := range set.Spans {
		if p.Lo == p.Hi {
			parts = append(parts, fmt.Sprint(a.Value(p.Lo)))
			continue
		}
		parts = append(parts, fmt.Sprintf("%v..%v", a.Value(p.Lo), a.Value(p.Hi)))
	}
	return a.Name + " in [" + strings.Join(parts, ", ") + "]"
}

// Memo remembers the answers of clauses during one decision. Its zero value is
// ready. It is not safe for concurrent use.
type Memo struct {
	marks []uint8 // 0: not asked yet, else 1 + the truth
	env   map[string]any
	vm    vm.VM
	asked int
}

// Reset forgets the answers, for the next decision.
func (m *Memo) Reset(cs *Clauses) {
	m.asked = 0
	if len(cs.list) == 0 {
		return
	}
	if len(m.marks) != len(cs.list) {
		m.marks = make([]uint8, len(cs.list))
		return
	}
	clear(m.marks)
}

// Asked is the number of clauses evaluated since the last Reset.
func (m *Memo) Asked() int { return m.asked }

// Truth is the answer of a clause: unknown while a fact it reads is missing, and
// when its arithmetic leaves the finite numbers or the machine refuses. Each
// clause is evaluated at most once between two Resets.
func (cs *Clauses) Truth(i int32, codes []int32, m *Memo) space.Truth {
	if v := m.marks[i]; v != 0 {
		return space.Truth(v - 1)
	}
	c := &cs.list[i]
	var t space.Truth
	if c.tree != nil {
		t = c.tree.truth(codes, func(k int32) space.Truth { return cs.Truth(k, codes, m) })
	} else {
		t = cs.run(c, codes, m)
	}
	m.asked++
	m.marks[i] = 1 + uint8(t)
	return t
}

func (cs *Clauses) run(c *Clause, codes []int32, m *Memo) space.Truth {
	for _, a := range c.Reads {
		if codes[a] == space.Missing {
			return space.Unknown
		}
	}
	if m.env == nil {
		m.env = map[string]any{}
	}
	for _, a := range c.Reads {
		axis := &cs.space.Axes[a]
		if cs.boxed[a] != nil {
			m.env[axis.Name] = cs.boxed[a][codes[a]]
		} else {
			m.env[axis.Name] = axis.Value(codes[a])
		}
	}
	out, err := m.vm.Run(c.program, m.env)
	if err != nil {
		return space.Unknown
	}
	yes, ok := out.(bool)
	if !ok {
		return space.Unknown
	}
	return space.Of(yes)
}

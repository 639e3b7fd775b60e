package cond

import (
	"fmt"
	"slices"
	"sort"

	"github.com/expr-lang/expr/ast"

	"github.com/glossladder/glossladder/rules/internal/space"
)

// Compiler compiles the conditions of one table: its lets, then its rules. It
// is not safe for concurrent use.
type Compiler struct {
	space    *space.Space
	clauses  *Clauses
	lets     map[string]value
	letNames []string
	work     lowering
}

// NewCompiler starts a table over a space.
func NewCompiler(s *space.Space) *Compiler {
	return &Compiler{space: s, clauses: NewClauses(s), lets: map[string]value{}}
}

// Clauses are the opaque columns met so far.
func (c *Compiler) Clauses() *Clauses { return c.clauses }

// Let defines let.NAME for what is compiled later. A let with mistakes is
// remembered, so that its uses are not complained about as well.
func (c *Compiler) Let(name, src string) []Mistake {
	tree, mistake := parse(src)
	c.letNames = append(c.letNames, name)
	if mistake != nil {
		c.lets[name] = value{kind: kBad}
		return []Mistake{*mistake}
	}
	ck := c.inspector()
	v := ck.check(tree)
	switch {
	case v.kind == kList || v.kind == kRange:
		ck.bad(v.at, "a let is a number, a word, or true or false, not "+v.kind.String(), "")
	case ck.tooHeavy(v):
	}
	if len(ck.mistakes) > 0 {
		v = value{kind: kBad}
	}
	c.lets[name] = v
	return sorted(ck.mistakes)
}

func (c *Compiler) inspector() *inspector {
	return &inspector{space: c.space, lets: c.lets, letNames: c.letNames}
}

// Condition is a compiled condition: it holds where one of its boxes does.
type Condition struct {
	Boxes []space.Box
	// Reads are the axes that the condition names, rising.
	Reads []int32
}

// Compile compiles a rule's condition, or says everything that is wrong with it.
func (c *Compiler) Compile(src string) (Condition, []Mistake) {
	tree, mistake := parse(src)
	if mistake != nil {
		return Condition{}, []Mistake{*mistake}
	}
	ck := c.inspector()
	v := ck.check(tree)
	if v.kind != kBad && v.kind != kTruth {
		ck.bad(start(tree), "a condition is true or false, this is "+v.kind.String(), conditionHint(tree))
	}
	if len(ck.mistakes) > 0 || v.kind != kTruth || ck.tooHeavy(v) {
		return Condition{}, sorted(ck.mistakes)
	}
	return c.lower(v.formula)
}

func conditionHint(n ast.Node) string {
	if _, ok := n.(*ast.ConditionalNode); ok {
		return ""
	}
	return "compare it with something"
}

func (c *Compiler) lower(f *formula) (Condition, []Mistake) {
	w := &c.work
	codes := w.codes
	if codes == nil {
		codes = make([]int32, len(c.space.Axes))
	}
	*w = lowering{space: c.space, clauses: c.clauses, codes: codes}
	root := w.formula(f, false)
	if w.failed != nil {
		return Condition{}, []Mistake{{Message: w.failed.Error(), Hint: "split the rule or make its formulas simpler"}}
	}
	out := Condition{Boxes: w.boxes(root), Reads: formulaReads(f)}
	if c.clauses.failed != nil {
		err := c.clauses.failed
		c.clauses.failed = nil
		return Condition{}, []Mistake{{Message: fmt.Sprint(err)}}
	}
	return out, nil
}

func formulaReads(f *formula) []int32 {
	read := map[int32]bool{}
	seenF, seenT := map[*formula]bool{}, map[*term]bool{}
	var terms func(t *term)
	var walk func(f *formula)
	terms = func(t *term) {
		if seenT[t] {
			return
		}
		seenT[t] = true
		if t.op == tFact {
			read[t.axis] = true
		}
		if t.test != nil {
			walk(t.test)
		}
		for _, k := range t.kids {
			terms(k)
		}
	}
	walk = func(f *formula) {
		if seenF[f] {
			return
		}
		seenF[f] = true
		if f.op == fFlag || f.op == fKnown {
			read[f.axis] = true
		}
		for _, k := range f.kids {
			walk(k)
		}
		if f.l != nil {
			terms(f.l)
			terms(f.r)
		}
	}
	walk(f)
	out := make([]int32, 0, len(read))
	for a := range read {
		out = append(out, a)
	}
	slices.Sort(out)
	return out
}

func sorted(ms []Mistake) []Mistake {
	sort.SliceStable(ms, func(i, j int) bool { return ms[i].At < ms[j].At })
	return ms
}

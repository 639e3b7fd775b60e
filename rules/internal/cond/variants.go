package cond

import (
	"fmt"
	"slices"
	"strings"

	"github.com/expr-lang/expr/ast"
)

// Slip says what kind of small mistake a variant is.
type Slip uint8

// The slips.
const (
	MovedBound    Slip = iota + 1 // a bound moved by one step of its fact, or by one word
	DroppedClause                 // one of the parts that and, or, or a list joins is left out
)

// Variant is a condition with one small mistake in it.
type Variant struct {
	Slip   Slip
	Source string // the whole condition
	At     int    // of what was changed, in runes of the condition as written
	Was    string // what was changed, in the normal spelling
	Now    string // what stands there instead; empty when it is left out
}

// Variants are all conditions that one small mistake makes of a condition or of the
// formula of a let, in the order of their places. The lets above must have been
// defined. Some may not compile: a bound can leave what the language allows. A text
// that does not compile has none.
func (c *Compiler) Variants(src string) []Variant {
	tree, mistake := parse(src)
	if mistake != nil {
		return nil
	}
	m := mistaker{Compiler: c, root: tree}
	if v := c.inspector().check(tree); v.kind == kTruth && v.formula.op != fConst && len(joined(tree)) == 1 {
		m.try(DroppedClause, tree, "true", func() { m.root = &ast.BoolNode{Value: true} }, func() { m.root = tree })
	}
	m.walk(tree, func(n ast.Node) { m.root = n }, tree)
	slices.SortStableFunc(m.out, func(a, b Variant) int { return a.At - b.At })
	return m.out
}

// mistaker makes one change of the tree at a time, prints it, and takes it back.
type mistaker struct {
	*Compiler
	root ast.Node
	out  []Variant
}

// try changes the tree. What is told of is the place: a part that is left out, or the
// comparison around a bound that moves.
func (m *mistaker) try(slip Slip, place ast.Node, now string, change, restore func()) {
	v := Variant{Slip: slip, At: start(place), Was: spell(place), Now: now}
	change()
	v.Source = spell(m.root)
	if slip == MovedBound {
		if v.Now = spell(place); v.Now == v.Was { // the whole is a single number
			v.Now = v.Source
		}
	}
	restore()
	m.out = append(m.out, v)
}

// spell is a tree in expr's own spelling, with let as rules write it.
func spell(n ast.Node) string { return strings.ReplaceAll(n.String(), letName+".", "let.") }

// walk visits the tree; set puts another node in n's place, and whole is the
// comparison that n is a part of.
func (m *mistaker) walk(n ast.Node, set func(ast.Node), whole ast.Node) {
	switch x := n.(type) {
	case *ast.UnaryNode:
		m.walk(x.Node, func(k ast.Node) { x.Node = k }, whole)
	case *ast.BinaryNode:
		m.binary(x, set, whole)
	case *ast.ConditionalNode:
		m.walk(x.Cond, func(k ast.Node) { x.Cond = k }, x.Cond)
		m.walk(x.Exp1, func(k ast.Node) { x.Exp1 = k }, whole)
		m.walk(x.Exp2, func(k ast.Node) { x.Exp2 = k }, whole)
	case *ast.BuiltinNode:
		for i := range x.Arguments {
			m.walk(x.Arguments[i], func(k ast.Node) { x.Arguments[i] = k }, whole)
		}
	case *ast.CallNode:
		for i := range x.Arguments {
			m.walk(x.Arguments[i], func(k ast.Node) { x.Arguments[i] = k }, whole)
		}
	case *ast.IntegerNode:
		m.number(n, float64(x.Value), set, whole)
	case *ast.FloatNode:
		m.number(n, x.Value, set, whole)
	}
}

func (m *mistaker) binary(x *ast.BinaryNode, set func(ast.Node), whole ast.Node) {
	switch {
	case logical(x.Operator):
		parts := joined(x)
		for i, part := range parts {
			rest := rejoin(x.Operator, slices.Delete(slices.Clone(parts), i, i+1))
			m.try(DroppedClause, part, "", func() { set(rest) }, func() { set(x) })
		}
		m.side(x)
		return
	case x.Operator == "in":
		m.list(x)
	case x.Operator != "..":
		m.word(x, x.Left, &x.Right)
		m.word(x, x.Right, &x.Left)
	}
	if comparing(x.Operator) {
		whole = x
	}
	m.walk(x.Left, func(k ast.Node) { x.Left = k }, whole)
	m.walk(x.Right, func(k ast.Node) { x.Right = k }, whole)
}

// side walks the parts of a chain. The nodes between them are no parts of their own.
func (m *mistaker) side(x *ast.BinaryNode) {
	for _, place := range []*ast.Node{&x.Left, &x.Right} {
		if b, ok := (*place).(*ast.BinaryNode); ok && same(b.Operator, x.Operator) {
			m.side(b)
			continue
		}
		m.walk(*place, func(k ast.Node) { *place = k }, *place)
	}
}

// number moves a literal by one step either way.
func (m *mistaker) number(n ast.Node, v float64, set func(ast.Node), whole ast.Node) {
	step := m.step(whole)
	for _, by := range []float64{-step, step} {
		// Whole steps are counted from zero, so that 0.1 + 0.2 is 0.3.
		moved := &ast.FloatNode{Value: tidy(v + by)}
		moved.SetLocation(n.Location())
		m.try(MovedBound, whole, "", func() { set(moved) }, func() { set(n) })
	}
}

// tidy takes away the noise behind the ninth decimal, which no step has.
func tidy(v float64) float64 {
	var out float64
	if _, err := fmt.Sscanf(fmt.Sprintf("%.9f", v), "%g", &out); err != nil {
		return v
	}
	return out
}

// word moves a word of an ordered fact to its neighbours.
func (m *mistaker) word(x *ast.BinaryNode, other ast.Node, place *ast.Node) {
	literal, ok := (*place).(*ast.StringNode)
	if !ok || !comparing(x.Operator) {
		return
	}
	read := map[int32]bool{}
	m.reads(other, read)
	if len(read) != 1 {
		return
	}
	for a := range read {
		axis := &m.space.Axes[a]
		at := axis.WordCode(literal.Value)
		for _, k := range []int32{at - 1, at + 1} {
			if !axis.Ordered || at < 0 || k < 0 || k >= axis.Size() {
				continue
			}
			moved := &ast.StringNode{Value: axis.Words[k]}
			moved.SetLocation(literal.Location())
			m.try(MovedBound, x, "", func() { *place = moved }, func() { *place = literal })
		}
	}
}

// list leaves out one member of a list.
func (m *mistaker) list(x *ast.BinaryNode) {
	list, ok := x.Right.(*ast.ArrayNode)
	if !ok || len(list.Nodes) < 2 {
		return
	}
	all := list.Nodes
	for i, member := range all {
		rest := slices.Delete(slices.Clone(all), i, i+1)
		m.try(DroppedClause, member, "", func() { list.Nodes = rest }, func() { list.Nodes = all })
	}
}

func comparing(op string) bool {
	return slices.Contains([]string{"==", "!=", "<", "<=", ">", ">=", "in"}, op)
}

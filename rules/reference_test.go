package rules_test

import (
	"math"
	"slices"
	"strings"

	"github.com/expr-lang/expr/ast"
	"github.com/expr-lang/expr/parser"
)

// reference is a second, simple reader of conditions: it walks expr's tree and
// applies Kleene's strong three-valued logic (S. C. Kleene, Introduction to
// Metamathematics, §64) at one point. It shares no code with the engine.
type reference struct {
	tree ast.Node
	at   point
}

// The three truths as the engine spells them.
const (
	yes   = "true"
	no    = "false"
	maybe = "unknown"
)

func newReference(src string) (reference, error) {
	tree, err := parser.Parse(src)
	if err != nil {
		return reference{}, err
	}
	return reference{tree: tree.Node}, nil
}

func (r reference) truth(p point) string {
	r.at = p
	return r.bool(r.tree)
}

func word(b bool) string {
	if b {
		return yes
	}
	return no
}

func not(t string) string {
	switch t {
	case yes:
		return no
	case no:
		return yes
	}
	return maybe
}

func and(a, b string) string {
	if a == no || b == no {
		return no
	}
	if a == yes && b == yes {
		return yes
	}
	return maybe
}

func (r reference) value(n ast.Node) any {
	name := ""
	switch x := n.(type) {
	case *ast.IdentifierNode:
		name = x.Value
	case *ast.MemberNode:
		name = x.Node.(*ast.IdentifierNode).Value + "." + x.Property.(*ast.StringNode).Value
	}
	i := slices.IndexFunc(smallFacts(), func(f smallFact) bool { return f.name == name })
	return r.at[i]
}

func (r reference) bool(n ast.Node) string {
	switch x := n.(type) {
	case *ast.BoolNode:
		return word(x.Value)
	case *ast.MemberNode:
		v, ok := r.value(x).(bool)
		if !ok {
			return maybe
		}
		return word(v)
	case *ast.UnaryNode:
		return not(r.bool(x.Node))
	case *ast.CallNode: // known(fact)
		return word(r.value(x.Arguments[0]) != nil)
	case *ast.ConditionalNode:
		return r.either(x, r.bool)
	case *ast.BinaryNode:
		switch x.Operator {
		case "and", "&&":
			return and(r.bool(x.Left), r.bool(x.Right))
		case "or", "||":
			return not(and(not(r.bool(x.Left)), not(r.bool(x.Right))))
		case "in":
			return r.in(x)
		}
		return r.compare(x)
	}
	panic("a node that random conditions do not have")
}

// either is a conditional: its test decides, or both sides agree.
func (r reference) either(x *ast.ConditionalNode, side func(ast.Node) string) string {
	switch r.bool(x.Cond) {
	case yes:
		return side(x.Exp1)
	case no:
		return side(x.Exp2)
	}
	if a := side(x.Exp1); a == side(x.Exp2) {
		return a
	}
	return maybe
}

func (r reference) in(x *ast.BinaryNode) string {
	switch right := x.Right.(type) {
	case *ast.ArrayNode:
		out := no
		for _, item := range right.Nodes {
			eq := r.compare(&ast.BinaryNode{Operator: "==", Left: x.Left, Right: item})
			out = not(and(not(out), not(eq)))
		}
		return out
	case *ast.BinaryNode:
		return and(r.compare(&ast.BinaryNode{Operator: ">=", Left: x.Left, Right: right.Left}),
			r.compare(&ast.BinaryNode{Operator: "<=", Left: x.Left, Right: right.Right}))
	}
	panic("a list that random conditions do not have")
}

// compare takes conditionals out of the two sides first: the comparison of each
// side must be the same for an undecided test not to matter.
func (r reference) compare(x *ast.BinaryNode) string {
	if c := firstChoice(x); c != nil {
		return r.either(c, func(side ast.Node) string {
			return r.compare(swap(x, c, side).(*ast.BinaryNode))
		})
	}
	a, ok1 := r.number(x.Left, x.Right)
	b, ok2 := r.number(x.Right, x.Left)
	if !ok1 || !ok2 {
		return maybe
	}
	switch x.Operator {
	case "==":
		return word(a == b)
	case "!=":
		return word(a != b)
	case "<":
		return word(a < b)
	case "<=":
		return word(a <= b)
	case ">":
		return word(a > b)
	}
	return word(a >= b)
}

// number is the value of a side; words are their places in the list of the fact
// on either side.
func (r reference) number(n, other ast.Node) (float64, bool) {
	switch x := n.(type) {
	case *ast.IntegerNode:
		return float64(x.Value), true
	case *ast.FloatNode:
		return x.Value, true
	case *ast.StringNode:
		words := grades
		if m, ok := other.(*ast.MemberNode); ok && m.Property.(*ast.StringNode).Value == "sort" {
			words = sorts
		}
		return float64(slices.Index(words, x.Value)), true
	case *ast.MemberNode:
		switch v := r.value(x).(type) {
		case float64:
			return v, true
		case string:
			if i := slices.Index(grades, v); i >= 0 {
				return float64(i), true
			}
			return float64(slices.Index(sorts, v)), true
		}
		if strings.HasPrefix(x.Node.(*ast.IdentifierNode).Value, "d") {
			panic("a comparison of flags, which random conditions do not have")
		}
		return 0, false
	case *ast.UnaryNode:
		v, ok := r.number(x.Node, nil)
		switch x.Operator {
		case "-":
			return -v, ok
		case "+":
			return v, ok
		}
		panic("an operator that random conditions do not have")
	case *ast.BinaryNode:
		a, ok1 := r.number(x.Left, nil)
		b, ok2 := r.number(x.Right, nil)
		v := arithmetic(x.Operator, a, b)
		finite := !math.IsInf(v, 0) && !math.IsNaN(v)
		return v, ok1 && ok2 && finite && !(x.Operator == "/" && b == 0)
	case *ast.BuiltinNode:
		var vs []float64
		for _, arg := range x.Arguments {
			v, ok := r.number(arg, nil)
			if !ok {
				return 0, false
			}
			vs = append(vs, v)
		}
		return function(x.Name, vs), true
	}
	panic("arithmetic that random conditions do not have")
}

func arithmetic(op string, a, b float64) float64 {
	switch op {
	case "+":
		return a + b
	case "-":
		return a - b
	case "*":
		return a * b
	}
	return a / b
}

func function(name string, vs []float64) float64 {
	switch name {
	case "abs":
		return math.Abs(vs[0])
	case "floor":
		return math.Floor(vs[0])
	case "ceil":
		return math.Ceil(vs[0])
	case "round":
		return math.Round(vs[0])
	case "min":
		return slices.Min(vs)
	}
	return slices.Max(vs)
}

type choiceFinder struct{ found *ast.ConditionalNode }

func (f *choiceFinder) Visit(n *ast.Node) {
	if c, ok := (*n).(*ast.ConditionalNode); ok {
		f.found = c // the walk goes inside first: the last one seen is outermost
	}
}

func firstChoice(n ast.Node) *ast.ConditionalNode {
	f := &choiceFinder{}
	ast.Walk(&n, f)
	return f.found
}

// swap copies a tree with by in the place of old.
func swap(n, old, by ast.Node) ast.Node {
	if n == old {
		return by
	}
	switch x := n.(type) {
	case *ast.BinaryNode:
		return &ast.BinaryNode{Operator: x.Operator, Left: swap(x.Left, old, by), Right: swap(x.Right, old, by)}
	case *ast.UnaryNode:
		return &ast.UnaryNode{Operator: x.Operator, Node: swap(x.Node, old, by)}
	case *ast.BuiltinNode:
		out := &ast.BuiltinNode{Name: x.Name}
		for _, a := range x.Arguments {
			out.Arguments = append(out.Arguments, swap(a, old, by))
		}
		return out
	case *ast.ConditionalNode:
		return &ast.ConditionalNode{Cond: x.Cond, Exp1: swap(x.Exp1, old, by), Exp2: swap(x.Exp2, old, by)}
	}
	return n
}

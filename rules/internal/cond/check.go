package cond

import (
	"fmt"
	"slices"
	"strings"

	"github.com/expr-lang/expr/ast"

	"github.com/glossladder/glossladder/rules/internal/space"
	"github.com/glossladder/glossladder/rules/strictyaml"
)

type kind uint8

const (
	kBad kind = iota // already complained about
	kNumber
	kWord
	kTruth
	kList
	kRange
)

func (k kind) String() string {
	return [...]string{"nothing", "a number", "a word", "true or false", "a list", "a range"}[k]
}

// value is a checked part of a condition.
type value struct {
	kind    kind
	term    *term    // of a number or a word
	formula *formula // of a truth
	items   []value  // of a list; the two ends of a range
	at      int
}

// inspector finds every mistake of one condition.
type inspector struct {
	space    *space.Space
	lets     map[string]value
	letNames []string
	mistakes []Mistake

	listing   bool // constants are wanted
	constants []Constant
}

func (c *inspector) bad(at int, message, hint string) value {
	m := Mistake{At: at, Message: message, Hint: hint}
	if !slices.Contains(c.mistakes, m) {
		c.mistakes = append(c.mistakes, m)
	}
	return value{kind: kBad, at: at}
}

// check types a tree. It goes on after a mistake, so that one reading finds all.
func (c *inspector) check(n ast.Node) value {
	at := start(n)
	switch x := n.(type) {
	case *ast.BoolNode:
		return truth(&formula{op: fConst, yes: x.Value, at: at})
	case *ast.IntegerNode:
		if x.Value > 1<<53 || x.Value < -1<<53 {
			return c.bad(at, fmt.Sprintf("%d is too large a number", x.Value), "")
		}
		return number(&term{op: tConst, k: float64(x.Value), at: at})
	case *ast.FloatNode:
		return number(&term{op: tConst, k: x.Value, at: at})
	case *ast.StringNode:
		return value{kind: kWord, at: at, term: &term{op: tConst, axis: -1, word: x.Value, at: at}}
	case *ast.NilNode:
		return c.bad(at, "nil has no place in a condition", "write known(fact), or not known(fact)")
	case *ast.IdentifierNode, *ast.MemberNode:
		return c.name(n, at)
	case *ast.UnaryNode:
		return c.unary(x, at)
	case *ast.BinaryNode:
		return c.binary(x, at)
	case *ast.ConditionalNode:
		return c.conditional(x, at)
	case *ast.ArrayNode:
		out := value{kind: kList, at: at}
		for _, e := range x.Nodes {
			out.items = append(out.items, c.check(e))
		}
		return out
	case *ast.BuiltinNode:
		return c.call(x.Name, x.Arguments, at)
	case *ast.CallNode:
		name, ok := path(x.Callee)
		if !ok {
			return c.bad(at, "a condition calls nothing but functions by name", functionsHint)
		}
		return c.call(name, x.Arguments, at)
	}
	return c.bad(at, notAllowed(n)+" is not allowed in a condition", "")
}

func truth(f *formula) value { return value{kind: kTruth, formula: f, at: f.at} }
func number(t *term) value   { return value{kind: kNumber, term: t, at: t.at} }

func notAllowed(n ast.Node) string {
	switch n.(type) {
	case *ast.SliceNode:
		return "a slice"
	case *ast.ChainNode:
		return "?."
	case *ast.MapNode, *ast.PairNode:
		return "a map"
	case *ast.PredicateNode, *ast.PointerNode:
		return "a closure"
	case *ast.VariableDeclaratorNode:
		return "let"
	case *ast.SequenceNode:
		return "a sequence"
	case *ast.BytesNode:
		return "a byte string"
	}
	return "this"
}

// name resolves a fact or a let.
func (c *inspector) name(n ast.Node, at int) value {
	name, ok := path(n)
	if !ok {
		if m, isMember := n.(*ast.MemberNode); isMember {
			c.check(m.Node)
		}
		return c.bad(at, "indexing is not allowed in a condition", "name a fact as group.fact")
	}
	if let, isLet := strings.CutPrefix(name, letName+"."); isLet {
		if v, ok := c.lets[let]; ok {
			return v.usedAt(at)
		}
		return c.bad(at, fmt.Sprintf("let.%s is not defined above", let), meant("let.", strictyaml.Nearest(let, c.letNames)))
	}
	axis, ok := c.space.Find(name)
	if !ok {
		return c.unknownName(name, at)
	}
	switch c.space.Axes[axis].Kind {
	case space.Number:
		return number(&term{op: tFact, axis: axis, at: at})
	case space.Word:
		return value{kind: kWord, at: at, term: &term{op: tFact, axis: axis, at: at}}
	}
	return truth(&formula{op: fFlag, axis: axis, at: at})
}

func (c *inspector) unknownName(name string, at int) value {
	var among, inside []string
	for i := range c.space.Axes {
		n := c.space.Axes[i].Name
		among = append(among, n)
		if strings.HasPrefix(n, name+".") {
			inside = append(inside, n)
		}
	}
	if len(inside) > 0 {
		return c.bad(at, name+" is a group of facts, not a fact", "it holds "+strings.Join(inside, ", "))
	}
	near := meant("", strictyaml.Nearest(name, among))
	if near == "" {
		for i := range c.space.Axes {
			if slices.Contains(c.space.Axes[i].Words, name) {
				near = fmt.Sprintf("a word stands in quotes: %q", name)
				break
			}
		}
	}
	return c.bad(at, name+" is not a fact", near)
}

func meant(prefix, word string) string {
	if word == "" {
		return ""
	}
	return "did you mean " + prefix + word + "?"
}

func (c *inspector) unary(x *ast.UnaryNode, at int) value {
	v := c.check(x.Node)
	switch x.Operator {
	case "!", "not":
		if c.want(v, kTruth, "after "+x.Operator) {
			return truth(&formula{op: fNot, kids: []*formula{v.formula}, at: at})
		}
	case "-", "+":
		if !c.want(v, kNumber, "after "+x.Operator) {
			break
		}
		if x.Operator == "+" {
			return v
		}
		if v.term.op == tConst {
			return number(&term{op: tConst, k: -v.term.k, at: at})
		}
		return number(&term{op: tNeg, kids: []*term{v.term}, at: at})
	default:
		return c.bad(at, "operator "+x.Operator+" is not allowed in a condition", "")
	}
	return value{kind: kBad, at: at}
}

// want complains unless v has the kind. A bad value was complained about before.
func (c *inspector) want(v value, k kind, where string) bool {
	if v.kind == k {
		return true
	}
	if v.kind != kBad {
		hint := ""
		if k == kTruth && v.kind == kNumber {
			hint = "compare it with something"
		}
		c.bad(v.at, fmt.Sprintf("%s stands %s, not %s", k, where, v.kind), hint)
	}
	return false
}

func (c *inspector) binary(x *ast.BinaryNode, at int) value {
	l, r := c.check(x.Left), c.check(x.Right)
	where := "beside " + x.Operator
	switch x.Operator {
	case "and", "&&", "or", "||":
		ok := c.want(l, kTruth, where)
		if !c.want(r, kTruth, where) || !ok {
			return value{kind: kBad, at: at}
		}
		op := fAnd
		if x.Operator == "or" || x.Operator == "||" {
			op = fOr
		}
		return truth(&formula{op: op, kids: []*formula{l.formula, r.formula}, at: at})
	case "+", "-", "*", "/":
		ok := c.want(l, kNumber, where)
		if !c.want(r, kNumber, where) || !ok {
			return value{kind: kBad, at: at}
		}
		op := map[string]termOp{"+": tAdd, "-": tSub, "*": tMul, "/": tDiv}[x.Operator]
		return c.arithmetic(&term{op: op, kids: []*term{l.term, r.term}, at: at}, r.at)
	case "==", "!=", "<", "<=", ">", ">=":
		return c.comparison(x.Operator, l, r, at)
	case "in":
		return c.in(l, r, at)
	case "..":
		ok := c.want(l, kNumber, where)
		if !c.want(r, kNumber, where) || !ok {
			return value{kind: kBad, at: at}
		}
		return value{kind: kRange, items: []value{l, r}, at: at}
	}
	return c.bad(x.Location().From, "operator "+x.Operator+" is not allowed in a condition", operatorHint(x.Operator))
}

func operatorHint(op string) string {
	switch op {
	case "matches", "contains", "startsWith", "endsWith":
		return "words are closed lists: write fact in [\"…\", \"…\"]"
	case "??":
		return "write known(fact) ? fact : other"
	}
	return ""
}

// arithmetic folds constants and refuses a division by a constant zero.
func (c *inspector) arithmetic(t *term, divisorAt int) value {
	for _, k := range t.kids {
		if k.op != tConst {
			if t.op == tDiv && t.kids[1].op == tConst && t.kids[1].k == 0 {
				return c.bad(divisorAt, "division by zero", "")
			}
			return number(t)
		}
	}
	v, st := t.eval(nil, nil)
	if st != fine {
		return c.bad(divisorAt, "this arithmetic has no result", "")
	}
	return number(&term{op: tConst, k: v, at: t.at})
}

func (c *inspector) conditional(x *ast.ConditionalNode, at int) value {
	test, l, r := c.check(x.Cond), c.check(x.Exp1), c.check(x.Exp2)
	ok := c.want(test, kTruth, "before ?")
	if !ok || l.kind == kBad || r.kind == kBad {
		return value{kind: kBad, at: at}
	}
	if l.kind != r.kind {
		return c.bad(r.at, fmt.Sprintf("both sides of : must be alike, this is %s and the other %s", r.kind, l.kind), "")
	}
	switch l.kind {
	case kTruth:
		return truth(&formula{op: fCase, kids: []*formula{test.formula, l.formula, r.formula}, at: at})
	case kNumber, kWord:
		return value{kind: l.kind, at: at, term: &term{op: tCase, axis: -1, test: test.formula, kids: []*term{l.term, r.term}, at: at}}
	}
	return c.bad(l.at, l.kind.String()+" cannot stand beside :", "")
}

// path is the dotted name that a chain of members spells.
func path(n ast.Node) (string, bool) {
	switch x := n.(type) {
	case *ast.IdentifierNode:
		return x.Value, true
	case *ast.MemberNode:
		p, ok := path(x.Node)
		s, isName := x.Property.(*ast.StringNode)
		if !ok || !isName || x.Optional {
			return "", false
		}
		return p + "." + s.Value, true
	}
	return "", false
}

// start is the place of the first rune of a tree: expr gives an operator's place
// for a binary node and the last name's for a member.
func start(n ast.Node) int {
	at := n.Location().From
	switch x := n.(type) {
	case *ast.MemberNode:
		return min(at, start(x.Node))
	case *ast.BinaryNode:
		return min(at, start(x.Left))
	case *ast.ConditionalNode:
		return start(x.Cond)
	case *ast.SliceNode:
		return min(at, start(x.Node))
	case *ast.ChainNode:
		return min(at, start(x.Node))
	case *ast.CallNode:
		return min(at, start(x.Callee))
	}
	return at
}

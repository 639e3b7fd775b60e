package cond

import (
	"errors"
	"math"
	"reflect"

	"github.com/expr-lang/expr/ast"
	"github.com/expr-lang/expr/builtin"
	"github.com/expr-lang/expr/checker"
	"github.com/expr-lang/expr/compiler"
	"github.com/expr-lang/expr/conf"
	"github.com/expr-lang/expr/parser"
	"github.com/expr-lang/expr/types"
	"github.com/expr-lang/expr/vm"

	"github.com/glossladder/glossladder/rules/internal/space"
)

var (
	errDivision = errors.New("division by zero")
	errInfinite = errors.New("not a finite number")
)

// program compiles l cmp r for expr's machine. Facts are looked up by their
// whole dotted name; words are their codes, so that order is right.
func (cs *Clauses) program(cmp string, l, r *term) (*vm.Program, error) {
	b := &builder{space: cs.space, env: types.Map{}}
	ln, _ := b.build(l)
	rn, _ := b.build(r)
	cfg := conf.CreateNew()
	cfg.WithEnv(b.env)
	cfg.Functions["ratio"] = ratioFunction
	cfg.Functions["finite"] = finiteFunction
	tree := &parser.Tree{Node: &ast.BinaryNode{Operator: cmp, Left: ln, Right: rn}}
	if _, err := checker.Check(tree, cfg); err != nil {
		return nil, err
	}
	return compiler.Compile(tree, cfg)
}

// ratioFunction divides, and refuses what expr would answer with an infinity.
var ratioFunction = &builtin.Function{
	Name: "ratio",
	Func: func(args ...any) (any, error) {
		x, isNumber := args[0].(float64)
		y, isDivisor := args[1].(float64)
		if !isNumber || !isDivisor || y == 0 {
			return nil, errDivision
		}
		return finite(x / y)
	},
	Types: []reflect.Type{reflect.TypeFor[func(float64, float64) float64]()},
}

var finiteFunction = &builtin.Function{
	Name:  "finite",
	Func:  func(args ...any) (any, error) { return finite(args[0]) },
	Types: []reflect.Type{reflect.TypeFor[func(float64) float64]()},
}

func finite(v any) (any, error) {
	x, isNumber := v.(float64)
	if !isNumber || math.IsNaN(x) || math.IsInf(x, 0) {
		return nil, errInfinite
	}
	return v, nil
}

type builder struct {
	space *space.Space
	env   types.Map
}

// build renders a term for expr, with a bound on its size. Where the bound is
// not plainly finite the value is guarded.
func (b *builder) build(t *term) (ast.Node, float64) {
	switch t.op {
	case tConst:
		return &ast.FloatNode{Value: t.k}, math.Abs(t.k)
	case tFact:
		a := &b.space.Axes[t.axis]
		b.env[a.Name] = types.Float64
		return &ast.IdentifierNode{Value: a.Name}, max(math.Abs(a.Value(0)), math.Abs(a.Value(a.Size()-1)))
	}
	nodes := make([]ast.Node, len(t.kids))
	sizes := make([]float64, len(t.kids))
	for i, k := range t.kids {
		nodes[i], sizes[i] = b.build(k)
	}
	switch t.op {
	case tNeg:
		return &ast.UnaryNode{Operator: "-", Node: nodes[0]}, sizes[0]
	case tDiv:
		return call("ratio", nodes...), math.MaxFloat64
	case tMul:
		return guarded(&ast.BinaryNode{Operator: "*", Left: nodes[0], Right: nodes[1]}, sizes[0]*sizes[1])
	case tAdd, tSub:
		return guarded(&ast.BinaryNode{Operator: termNames[t.op], Left: nodes[0], Right: nodes[1]}, sizes[0]+sizes[1])
	}
	size := 1.0
	for _, s := range sizes {
		size = max(size, s+1)
	}
	return &ast.BuiltinNode{Name: termNames[t.op], Arguments: nodes}, size
}

func guarded(n ast.Node, size float64) (ast.Node, float64) {
	if size < outsize {
		return n, size
	}
	return call("finite", n), math.MaxFloat64
}

func call(name string, args ...ast.Node) ast.Node {
	return &ast.CallNode{Callee: &ast.IdentifierNode{Value: name}, Arguments: args}
}

// outsize is where a bound on a term stops being plainly finite.
const outsize = math.MaxFloat64 / 1e6

package cond

import (
	"fmt"
	"strings"

	"github.com/expr-lang/expr/ast"
)

var functions = map[string]struct {
	op    termOp
	least int
	most  int
}{
	"abs": {tAbs, 1, 1}, "round": {tRound, 1, 1}, "floor": {tFloor, 1, 1}, "ceil": {tCeil, 1, 1},
	"min": {tMin, 2, 16}, "max": {tMax, 2, 16},
}

const functionsHint = "the functions are abs, ceil, floor, known, max, min and round"

func (c *inspector) call(name string, args []ast.Node, at int) value {
	if name == "known" {
		return c.known(args, at)
	}
	f, ok := functions[name]
	if !ok {
		return c.bad(at, strings.ReplaceAll(name, letName, "let")+"() is not allowed in a condition", functionsHint)
	}
	t := &term{op: f.op, at: at}
	good := true
	for _, a := range args {
		v := c.check(a)
		if good = c.want(v, kNumber, "inside "+name+"()") && good; good {
			t.kids = append(t.kids, v.term)
		}
	}
	if len(args) < f.least || len(args) > f.most {
		many := fmt.Sprintf("%d to %d numbers", f.least, f.most)
		if f.most == 1 {
			many = "one number"
		}
		return c.bad(at, fmt.Sprintf("%s() takes %s, not %d", name, many, len(args)), "")
	}
	if !good {
		return value{kind: kBad, at: at}
	}
	return c.arithmetic(t, at)
}

func (c *inspector) known(args []ast.Node, at int) value {
	if len(args) != 1 {
		return c.bad(at, fmt.Sprintf("known() takes one fact, not %d", len(args)), "")
	}
	name, ok := path(args[0])
	if !ok || strings.HasPrefix(name, letName+".") {
		c.check(args[0])
		return c.bad(start(args[0]), "known() takes a fact", "name the facts that the formula reads")
	}
	axis, ok := c.space.Find(name)
	if !ok {
		return c.unknownName(name, start(args[0]))
	}
	return truth(&formula{op: fKnown, axis: axis, at: at})
}

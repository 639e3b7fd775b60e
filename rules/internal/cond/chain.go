package cond

import "github.com/expr-lang/expr/ast"

func logical(op string) bool { return op == "and" || op == "&&" || op == "or" || op == "||" }

func same(a, b string) bool {
	plain := map[string]string{"and": "&&", "&&": "&&", "or": "||", "||": "||"}
	return plain[a] != "" && plain[a] == plain[b]
}

// joined are the parts that one chain of and, or of or, joins; n itself when it is none.
func joined(n ast.Node) []ast.Node {
	x, ok := n.(*ast.BinaryNode)
	if !ok || !logical(x.Operator) {
		return []ast.Node{n}
	}
	var out []ast.Node
	for _, k := range []ast.Node{x.Left, x.Right} {
		if b, ok := k.(*ast.BinaryNode); ok && same(b.Operator, x.Operator) {
			out = append(out, joined(b)...)
			continue
		}
		out = append(out, k)
	}
	return out
}

func rejoin(op string, parts []ast.Node) ast.Node {
	out := parts[0]
	for _, p := range parts[1:] {
		out = &ast.BinaryNode{Operator: op, Left: out, Right: p}
	}
	return out
}

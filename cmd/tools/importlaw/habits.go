package importlaw

import (
	"go/ast"
	"go/token"
)

// checkHabits finds what no hand-written file of the project does: a package name without a meaning, work at start-up,
// imports for their side effects or without a name, and writes to package variables.
func checkHabits(src source, variables map[string]bool) []Breach {
	var breaches []Breach
	if saysNothing(src.file.Name.Name) {
		breaches = append(breaches, src.breach(src.file.Name.Pos(), "package %s says nothing: name it for its subject", src.file.Name.Name))
	}
	for _, spec := range src.file.Imports {
		switch {
		case spec.Name == nil:
		case spec.Name.Name == ".":
			breaches = append(breaches, src.breach(spec.Pos(), "imports %s into its own names: use a qualified import", importPath(spec)))
		case spec.Name.Name == "_" && importPath(spec) != "embed" && importPath(spec) != "time/tzdata": // these are data
			breaches = append(breaches, src.breach(spec.Pos(), "imports %s for its side effects: call what you need", importPath(spec)))
		}
	}
	for _, decl := range src.file.Decls {
		fn, ok := decl.(*ast.FuncDecl)
		if !ok {
			continue
		}
		if fn.Recv == nil && fn.Name.Name == "init" {
			breaches = append(breaches, src.breach(fn.Pos(), "has an init function: let the caller decide when work is done"))
		}
		breaches = append(breaches, checkWrites(src, fn, variables)...)
	}
	return breaches
}

// packageVariables returns the names of the variables declared at the top of a package's files.
func packageVariables(sources []source) map[string]bool {
	names := map[string]bool{}
	for _, src := range sources {
		for _, decl := range src.file.Decls {
			group, ok := decl.(*ast.GenDecl)
			if !ok || group.Tok != token.VAR {
				continue
			}
			for _, spec := range group.Specs {
				if declared, ok := spec.(*ast.ValueSpec); ok {
					for _, name := range declared.Names {
						names[name.Name] = true
					}
				}
			}
		}
	}
	return names
}

// checkWrites finds assignments to package variables, to their fields and to their elements. It sees what is written by
// name; a write through a pointer or a method is left to the reviewer.
func checkWrites(src source, fn *ast.FuncDecl, variables map[string]bool) []Breach {
	var breaches []Breach
	judge := func(written ast.Expr) {
		name, ok := rootName(written)
		if ok && variables[name.Name] && !local(src.file, name) {
			breaches = append(breaches, src.breach(name.Pos(), "writes to the package variable %s: keep state in a value", name.Name))
		}
	}
	ast.Inspect(fn, func(node ast.Node) bool {
		switch n := node.(type) {
		case *ast.AssignStmt:
			if n.Tok != token.DEFINE {
				for _, written := range n.Lhs {
					judge(written)
				}
			}
		case *ast.IncDecStmt:
			judge(n.X)
		case *ast.RangeStmt:
			if n.Tok == token.ASSIGN {
				for _, written := range []ast.Expr{n.Key, n.Value} {
					judge(written)
				}
			}
		}
		return true
	})
	return breaches
}

// rootName returns the variable that an expression on the left of an assignment belongs to.
func rootName(e ast.Expr) (*ast.Ident, bool) {
	for {
		switch x := e.(type) {
		case *ast.Ident:
			return x, true
		case *ast.SelectorExpr:
			e = x.X
		case *ast.IndexExpr:
			e = x.X
		case *ast.ParenExpr:
			e = x.X
		case *ast.StarExpr:
			e = x.X
		default:
			return nil, false
		}
	}
}

// local reports whether name was declared inside a function: it resolves in its file, and not to a name at the top.
func local(file *ast.File, name *ast.Ident) bool {
	return name.Obj != nil && file.Scope.Lookup(name.Name) != name.Obj
}

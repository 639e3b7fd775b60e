package importlaw

import (
	"go/ast"
	"slices"
)

// temptation is a package that a domain room may import, though not use whole.
type temptation struct {
	path string
	// refused are the names not to use; if nil, only the names in allowed may be used.
	refused, allowed []string
	reason           string
}

var temptations = [...]temptation{
	{
		path:    "time",
		refused: []string{"Now", "Since", "Until", "Sleep", "After", "AfterFunc", "Tick", "NewTimer", "NewTicker", "Local", "LoadLocation"},
		reason:  "a domain room has no clock: take the time as an argument",
	},
	{
		path:    "fmt",
		refused: []string{"Print", "Printf", "Println", "Scan", "Scanf", "Scanln"},
		reason:  "a domain room has no terminal: return the text",
	},
	{path: "math/rand", allowed: seeded(), reason: "a domain room has no chance of its own: take a seeded source"},
	{path: "math/rand/v2", allowed: seeded(), reason: "a domain room has no chance of its own: take a seeded source"},
}

// seeded lists the names of both math/rand packages that give the same numbers for the same seed.
func seeded() []string {
	return []string{"New", "NewSource", "NewPCG", "NewChaCha8", "NewZipf", "Rand", "Source", "Source64", "PCG", "ChaCha8", "Zipf"}
}

func (t temptation) forbids(name string) bool {
	if t.refused != nil {
		return slices.Contains(t.refused, name)
	}
	return !slices.Contains(t.allowed, name)
}

// checkPurity finds uses of the clock, the terminal and chance in a file of a domain room.
func checkPurity(room Room, src source) []Breach {
	tempting := map[string]temptation{}
	for _, spec := range src.file.Imports {
		for _, t := range temptations {
			if importPath(spec) == t.path {
				tempting[importName(spec)] = t
			}
		}
	}
	var breaches []Breach
	ast.Inspect(src.file, func(node ast.Node) bool {
		selector, ok := node.(*ast.SelectorExpr)
		if !ok {
			return true
		}
		// A name that resolves inside the file is a variable that hides the import.
		if pkg, ok := selector.X.(*ast.Ident); ok && pkg.Obj == nil {
			if t, ok := tempting[pkg.Name]; ok && t.forbids(selector.Sel.Name) {
				breaches = append(breaches, src.breach(selector.Pos(), "%s may not use %s.%s: %s", room.Path, t.path, selector.Sel.Name, t.reason))
			}
		}
		return true
	})
	return breaches
}

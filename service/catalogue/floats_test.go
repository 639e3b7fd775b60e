package catalogue_test

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"io/fs"
	"os"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const module = "github.com/glossladder/glossladder"

// aboutMoney is how fields and variables are named that hold an amount of money.
var aboutMoney = regexp.MustCompile(`(?i)(^|_)(price|cost|costs|money|hourly_?rate|budget|labour_cost|total_cost)$|[a-z](Price|Cost|Money|HourlyRate|Budget)$`)

// moneyReader type-checks the packages of a tree as far as their own sources go, and notes where money meets a float. What comes through
// other libraries has no type here and is not seen.
type moneyReader struct {
	tree    fs.FS
	files   *token.FileSet
	checked map[string]*types.Package
	read    int
	found   []string
}

// floatMoney lists every place of a tree at which an amount of money is made a float or kept in one.
func floatMoney(t *testing.T, tree fs.FS) (places []string, packages int) {
	t.Helper()
	r := &moneyReader{tree: tree, files: token.NewFileSet(), checked: map[string]*types.Package{}}
	require.NoError(t, fs.WalkDir(tree, ".", func(dir string, e fs.DirEntry, err error) error {
		if err != nil || !e.IsDir() {
			return err
		}
		if name := e.Name(); dir != "." && (strings.HasPrefix(name, ".") || name == "node_modules" || name == "testdata" || dir == "cmd/tools") {
			return fs.SkipDir
		}
		_, err = r.Import(path.Join(module, dir))
		return err
	}))
	slices.Sort(r.found)
	return slices.Compact(r.found), r.read
}

// Import checks a package of the tree; any other is an empty one, whose names have no types.
func (r *moneyReader) Import(name string) (*types.Package, error) {
	if known, ok := r.checked[name]; ok {
		return known, nil
	}
	empty := types.NewPackage(name, path.Base(name))
	empty.MarkComplete()
	r.checked[name] = empty // an import that leads back here sees this one
	dir, ours := strings.CutPrefix(name, module)
	if !ours {
		return empty, nil
	}
	sources, err := r.sources(strings.TrimPrefix(dir+"/", "/"))
	if err != nil || len(sources) == 0 {
		return empty, err
	}
	r.read++
	info := &types.Info{Types: map[ast.Expr]types.TypeAndValue{}, Defs: map[*ast.Ident]types.Object{}}
	config := types.Config{Importer: r, Error: func(error) {}, FakeImportC: true}
	pkg, _ := config.Check(name, r.files, sources, info) // names of other libraries cannot be found, and need not be
	if pkg != nil {
		r.checked[name] = pkg
	}
	for _, file := range sources {
		ast.Inspect(file, func(n ast.Node) bool { r.look(n, info); return true })
	}
	return r.checked[name], nil
}

func (r *moneyReader) sources(dir string) ([]*ast.File, error) {
	entries, err := fs.ReadDir(r.tree, path.Clean(dir))
	if err != nil {
		return nil, nil //nolint:nilerr // a package that the tree does not have is somebody else's
	}
	var out []*ast.File
	for _, e := range entries {
		if e.IsDir() || !strings.HasSuffix(e.Name(), ".go") || strings.HasSuffix(e.Name(), "_test.go") {
			continue
		}
		name := path.Join(dir, e.Name())
		text, err := fs.ReadFile(r.tree, name)
		if err != nil {
			return nil, err
		}
		file, err := parser.ParseFile(r.files, name, text, parser.SkipObjectResolution)
		if err != nil {
			return nil, fmt.Errorf("parse: %w", err)
		}
		out = append(out, file)
	}
	return out, nil
}

// look notes a conversion of money to a float or of a float to money, and whatever has a name of money and the type of a float.
func (r *moneyReader) look(n ast.Node, info *types.Info) {
	switch n := n.(type) {
	case *ast.CallExpr:
		if len(n.Args) != 1 || !info.Types[n.Fun].IsType() {
			return
		}
		to, from := info.Types[n.Fun].Type, info.Types[n.Args[0]]
		if isFloat(to) && isMoney(from.Type) || isMoney(to) && from.Value == nil && isFloat(from.Type) {
			r.note(n.Pos(), "converts between money and a float")
		}
	case *ast.Ident:
		if v, ok := info.Defs[n].(*types.Var); ok && aboutMoney.MatchString(n.Name) && isFloat(v.Type()) {
			r.note(n.Pos(), n.Name+" is a float")
		}
	}
}

func (r *moneyReader) note(at token.Pos, says string) {
	r.found = append(r.found, fmt.Sprintf("%s: %s", r.files.Position(at), says))
}

func isMoney(t types.Type) bool {
	named, ok := t.(*types.Named)
	return ok && named.Obj().Name() == "Money" && named.Obj().Pkg().Path() == module+"/service/catalogue"
}

// isFloat looks through pointers and lists.
func isFloat(t types.Type) bool {
	if t == nil {
		return false
	}
	switch t := t.Underlying().(type) {
	case *types.Basic:
		return t.Info()&types.IsFloat != 0
	case *types.Pointer:
		return isFloat(t.Elem())
	case *types.Slice:
		return isFloat(t.Elem())
	}
	return false
}

func TestMoneyIsNeverAFloat(t *testing.T) {
	places, packages := floatMoney(t, os.DirFS("../.."))
	assert.Greater(t, packages, 30, "the sources of the project were not found")
	assert.Empty(t, places)
}

// The reading of sources finds each way in which money could become a float, and nothing else.
func TestTheSearchForFloatMoneyFindsIt(t *testing.T) {
	tree := fstest.MapFS{
		"service/catalogue/money.go": {Data: []byte("package catalogue\ntype Money int64\ntype Pad struct { Price Money; LifeVehicles float64 }\n")},
		"service/bad/bad.go": {Data: []byte(`package bad
import "` + module + `/service/catalogue"
type Line struct { UnitPrice float64; Cost *float32; Area float64 }
func dear(p catalogue.Pad) float64 { return float64(p.Price) * 1.2 }
func back(v float64) catalogue.Money { return catalogue.Money(v) }
func fine(p catalogue.Pad) (catalogue.Money, float64) { return p.Price * catalogue.Money(2), float64(3) * p.LifeVehicles }
func hold() { price := 1.5; _ = price }
`)},
	}
	places, packages := floatMoney(t, tree)
	assert.Equal(t, 2, packages)
	assert.Equal(t, []string{
		"service/bad/bad.go:3:20: UnitPrice is a float", "service/bad/bad.go:3:39: Cost is a float",
		"service/bad/bad.go:4:45: converts between money and a float", "service/bad/bad.go:5:47: converts between money and a float",
		"service/bad/bad.go:7:15: price is a float",
	}, places)
}

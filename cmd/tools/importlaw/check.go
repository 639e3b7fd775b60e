package importlaw

import (
	"cmp"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"slices"
	"strings"
)

// Breach is one place where the tree breaks its law.
type Breach struct {
	// File is slash-separated and relative to the root of the tree.
	File string
	// Line counts from 1.
	Line    int
	Message string
}

// String returns the breach as file:line: message.
func (b Breach) String() string { return fmt.Sprintf("%s:%d: %s", b.File, b.Line, b.Message) }

// Check reads every Go file of tree and returns all breaches, sorted by file and line. Folders that the go command
// ignores (testdata, vendor, names that begin with a dot or an underscore) and node_modules are left out. The error is
// about reading tree only: a file that does not parse is a breach.
func (l Law) Check(tree fs.FS) ([]Breach, error) {
	folders, err := goFiles(tree)
	if err != nil {
		return nil, err
	}
	var breaches []Breach
	for folder, names := range folders {
		breaches = append(breaches, checkFolderName(folder, names)...)
		found, err := l.checkFolder(tree, folder, names)
		if err != nil {
			return nil, err
		}
		breaches = append(breaches, found...)
	}
	slices.SortFunc(breaches, func(a, b Breach) int {
		return cmp.Or(cmp.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Message, b.Message))
	})
	return breaches, nil
}

// goFiles returns the names of the Go files in each folder that has any.
func goFiles(tree fs.FS) (map[string][]string, error) {
	folders := map[string][]string{}
	err := fs.WalkDir(tree, ".", func(file string, entry fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case entry.IsDir() && ignoredFolder(file):
			return fs.SkipDir
		case entry.Type().IsRegular() && path.Ext(file) == ".go":
			folders[path.Dir(file)] = append(folders[path.Dir(file)], path.Base(file))
		}
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("walk the source tree: %w", err)
	}
	return folders, nil
}

func ignoredFolder(folder string) bool {
	name := path.Base(folder)
	return folder != "." && (name == "testdata" || name == "vendor" || name == "node_modules" || strings.ContainsAny(name[:1], "._"))
}

// checkFolder judges the files of one folder; what they write to is only known once all of them are read.
func (l Law) checkFolder(tree fs.FS, folder string, names []string) ([]Breach, error) {
	sources, breaches, err := readFolder(tree, folder, names)
	if err != nil || len(sources) == 0 {
		return breaches, err
	}
	room, ok := l.room(folder)
	if !ok {
		return append(breaches, Breach{sources[0].path, 1, "folder " + folder + " lies in no room: add it to the law"}), nil
	}
	variables := packageVariables(sources)
	for _, src := range sources {
		breaches = append(breaches, l.checkImports(room, src)...)
		if room.Pure {
			breaches = append(breaches, checkPurity(room, src)...)
		}
		if !ast.IsGenerated(src.file) {
			breaches = append(breaches, checkHabits(src, variables)...)
		}
	}
	return breaches, nil
}

// source is one file that is not a test.
type source struct {
	path string
	set  *token.FileSet
	file *ast.File
}

func (s source) breach(at token.Pos, format string, args ...any) Breach {
	return Breach{s.path, s.set.Position(at).Line, fmt.Sprintf(format, args...)}
}

func readFolder(tree fs.FS, folder string, names []string) (sources []source, breaches []Breach, err error) {
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file := path.Join(folder, name)
		text, err := fs.ReadFile(tree, file)
		if err != nil {
			return nil, nil, fmt.Errorf("read source file: %w", err)
		}
		set := token.NewFileSet()
		parsed, err := parser.ParseFile(set, file, text, parser.ParseComments)
		if err != nil {
			breaches = append(breaches, Breach{file, 1, "does not parse: " + err.Error()})
			continue
		}
		sources = append(sources, source{file, set, parsed})
	}
	return sources, breaches, nil
}

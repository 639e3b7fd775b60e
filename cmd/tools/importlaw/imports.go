package importlaw

import (
	"go/ast"
	"path"
	"slices"
	"strconv"
	"strings"
)

// worldly lists what a domain room may not import from the standard library, with all that lies below it.
var worldly = [...]string{
	"crypto/rand", "database", "expvar", "io/ioutil", "log", "net", "os", "path/filepath", "plugin", "runtime/debug", "syscall",
}

// checkImports judges the imports of one file by the room it stands in.
func (l Law) checkImports(room Room, src source) []Breach {
	var breaches []Breach
	for _, spec := range src.file.Imports {
		if complaint := l.importComplaint(room, importPath(spec)); complaint != "" {
			breaches = append(breaches, src.breach(spec.Pos(), "%s may not import %s: %s", room.Path, importPath(spec), complaint))
		}
	}
	return breaches
}

// importComplaint says why room may not import path, or "" if it may.
func (l Law) importComplaint(room Room, path string) string {
	switch {
	case within(path, l.Module):
		return l.arrowComplaint(room, strings.TrimPrefix(strings.TrimPrefix(path, l.Module), "/"))
	case outsideStandard(path) && !room.mayImportLibrary(path):
		return "the library is not listed for this room"
	case room.Pure && slices.ContainsFunc(worldly[:], func(root string) bool { return within(path, root) }):
		return "a domain room knows no wire, database, file system, chance or log"
	}
	return ""
}

func (l Law) arrowComplaint(room Room, folder string) string {
	target, ok := l.room(folder)
	switch {
	case !ok:
		return "it lies in no room"
	case !room.mayUse(target):
		return "no arrow runs from " + room.Path + " to " + target.Path
	}
	return ""
}

// outsideStandard reports whether path is from outside the standard library: its first element is then a host name,
// or "C" for cgo.
func outsideStandard(path string) bool {
	first, _, _ := strings.Cut(path, "/")
	return strings.Contains(first, ".") || path == "C"
}

func importPath(spec *ast.ImportSpec) string {
	unquoted, err := strconv.Unquote(spec.Path.Value)
	if err != nil { // the parser accepts only quoted paths
		return spec.Path.Value
	}
	return unquoted
}

// importName returns the name that the file calls an import by. Without a name of its own it is the last element of the
// path, which holds for every package whose calls are judged; a version suffix is skipped.
func importName(spec *ast.ImportSpec) string {
	if spec.Name != nil {
		return spec.Name.Name
	}
	folder, name := path.Split(importPath(spec))
	if len(name) > 1 && name[0] == 'v' && strings.Trim(name[1:], "0123456789") == "" {
		return path.Base(folder)
	}
	return name
}

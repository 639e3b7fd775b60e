package rules

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules/strictyaml"
)

// Document is a file of the folder that holds no table, such as a catalogue.
// Read turns its bytes into what [Set.Document] gives; its error may be
// [Problems] or strictyaml's, which keep their places.
type Document struct {
	Name string
	Read func(name string, src []byte) (any, error)
}

const (
	promisesFile = "promises.yaml"
	casesFolder  = "cases"
	maxFileSize  = 1 << 20
	maxFiles     = 500
)

// Load reads the rule folder at the root of fsys: table files and the named
// documents, under cases/ the worked cases, and where the schema lets a folder
// declare facts of its own, those of [FactsFile]. It gives a whole set, or as
// error [Problems] with everything that is wrong, never half.
func Load(fsys fs.FS, schema *Schema, docs ...Document) (*Set, error) {
	l := &loader{
		fsys: fsys, schema: schema, docs: docs, drafts: map[string]*draft{},
		set: &Set{schema: schema, docs: map[string]any{}, files: map[string][]byte{}},
	}
	l.root()
	l.absent()
	for _, name := range sortedNames(l.set.files) {
		if path.Dir(name) == casesFolder {
			l.caseFile(name, l.set.files[name])
		}
	}
	if ps := l.own(l.problems).sorted(); len(ps) > 0 {
		return nil, ps
	}
	for _, r := range l.schema.results {
		d := l.drafts[r.Table]
		d.table.finish(d.clauses, d.conditions)
		l.set.tables = append(l.set.tables, d.table)
	}
	l.set.hash = hashOf(l.set.files)
	return l.set, nil
}

type loader struct {
	fsys     fs.FS
	schema   *Schema
	docs     []Document
	set      *Set
	drafts   map[string]*draft
	unnamed  bool // a table file's table could not be told
	problems Problems
}

func (l *loader) fail(file, message, hint string) {
	l.problems = append(l.problems, Problem{File: file, Message: message, Hint: hint})
}

// root reads the folder's own files and looks for the folder of cases.
func (l *loader) root() {
	entries, err := fs.ReadDir(l.fsys, ".")
	if err != nil {
		l.fail(".", "the folder cannot be read: "+reason(err), "")
		return
	}
	own := l.schema.own != "" && slices.ContainsFunc(entries, func(e fs.DirEntry) bool { return e.Name() == FactsFile })
	if own {
		l.ownFacts() // every other file may name them
	}
	for _, e := range entries {
		name := e.Name()
		switch {
		case own && name == FactsFile:
		case e.IsDir() && name == casesFolder:
			l.folderOfCases()
		case e.IsDir():
			l.fail(name, "a rule folder has no folder of this name", "worked cases stand in cases/")
		case strings.HasSuffix(name, ".md"), name == BaseFile:
		case !strings.HasSuffix(name, ".yaml"):
			l.stray(name)
		default:
			if src, ok := l.read(name); ok {
				l.file(name, src)
			}
		}
	}
}

func (l *loader) stray(name string) {
	hint := "a rule folder holds .yaml files, and .md files for notes"
	if strings.HasSuffix(name, ".yml") {
		hint = "rename it to " + strings.TrimSuffix(name, ".yml") + ".yaml"
	}
	l.fail(name, "this file does not belong here", hint)
}

func (l *loader) folderOfCases() {
	entries, err := fs.ReadDir(l.fsys, casesFolder)
	if err != nil {
		l.fail(casesFolder, "the folder cannot be read: "+reason(err), "")
		return
	}
	for _, e := range entries {
		name := path.Join(casesFolder, e.Name())
		switch {
		case e.IsDir():
			l.fail(name, "the folder of cases has no folders", "")
		case strings.HasSuffix(name, ".md"):
		case !strings.HasSuffix(name, ".yaml"):
			l.stray(name)
		default:
			l.read(name)
		}
	}
}

// read keeps a file's bytes, which then count in the hash.
func (l *loader) read(name string) ([]byte, bool) {
	if len(l.set.files) == maxFiles {
		l.fail(name, fmt.Sprintf("the folder has more than %d files", maxFiles), "")
		return nil, false
	}
	info, err := fs.Stat(l.fsys, name)
	if err == nil && info.Size() > maxFileSize {
		l.fail(name, fmt.Sprintf("the file has %d bytes, at most %d are allowed", info.Size(), maxFileSize), "")
		return nil, false
	}
	var src []byte
	if err == nil {
		src, err = fs.ReadFile(l.fsys, name)
	}
	if err != nil {
		l.fail(name, "the file cannot be read: "+reason(err), "")
		return nil, false
	}
	l.set.files[name] = src
	return src, true
}

// reason leaves a path error's path out: the problem names the file.
func reason(err error) string {
	if pe, ok := errors.AsType[*fs.PathError](err); ok {
		return pe.Err.Error()
	}
	return err.Error()
}

func (l *loader) file(name string, src []byte) {
	for _, d := range l.docs {
		if d.Name == name {
			l.document(d, src)
			return
		}
	}
	root, ps := strictyaml.Parse(name, src)
	l.problems.add(ps...)
	if root == nil {
		l.unnamed = l.unnamed || name != promisesFile
		return
	}
	if name == promisesFile {
		if root.Kind() != strictyaml.Map {
			l.problems.add(root.Problem("promises are a map, not "+root.Kind().String(), ""))
		}
		return
	}
	l.tableFile(name, root)
}

func (l *loader) document(d Document, src []byte) {
	v, err := d.Read(d.Name, src)
	if err == nil {
		l.set.docs[d.Name] = v
		return
	}
	if ps, ok := errors.AsType[Problems](err); ok {
		l.problems = append(l.problems, ps...)
	} else if ps, ok := errors.AsType[strictyaml.Problems](err); ok {
		l.problems.add(ps...)
	} else if p, ok := errors.AsType[strictyaml.Problem](err); ok {
		l.problems.add(p)
	} else {
		l.fail(d.Name, err.Error(), "")
	}
}

// absent complains about tables and documents that no file gives. When some
// file's table could not be told it may be the missing one, so nothing is said.
func (l *loader) absent() {
	for _, d := range l.docs {
		if _, ok := l.set.files[d.Name]; !ok {
			l.fail(d.Name, "the file is missing", "every rule folder needs it")
		}
	}
	for _, r := range l.schema.results {
		if l.drafts[r.Table] == nil && !l.unnamed {
			l.fail(r.Table+".yaml", "no file holds the table "+r.Table, "every rule folder needs it")
		}
	}
}

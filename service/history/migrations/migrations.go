// Package migrations holds the numbered steps by which a store takes its shape, for SQLite and for PostgreSQL.
//
// A step that both understand stands once, in shared; only where they must differ has each its own file, under the same number
// and name. A step that was released is never edited: a change of shape is a new step. Steps run forward only; the way back is a
// backup. The package runs nothing and imports no database.
package migrations

import (
	"embed"
	"io/fs"
	"slices"
	"strings"
)

//go:embed shared/*.sql sqlite/*.sql postgres/*.sql
var files embed.FS

// SQLite gives the steps for SQLite, one file a step.
func SQLite() fs.FS { return steps{"sqlite", "shared"} }

// PostgreSQL gives the steps for PostgreSQL, one file a step.
func PostgreSQL() fs.FS { return steps{"postgres", "shared"} }

// steps is a flat folder of all files in some folders.
type steps []string

// Open opens a step by its name, or "." for the folder.
func (s steps) Open(name string) (fs.File, error) {
	if name == "." {
		return files.Open(s[0])
	}
	for _, folder := range s {
		if file, err := files.Open(folder + "/" + name); err == nil {
			return file, nil
		}
	}
	return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
}

// ReadDir lists the steps by name, which begins with the number.
func (s steps) ReadDir(name string) ([]fs.DirEntry, error) {
	if name != "." {
		return nil, &fs.PathError{Op: "readdir", Path: name, Err: fs.ErrNotExist}
	}
	var all []fs.DirEntry
	for _, folder := range s {
		entries, err := files.ReadDir(folder)
		if err != nil {
			return nil, err
		}
		all = append(all, entries...)
	}
	slices.SortFunc(all, func(a, b fs.DirEntry) int { return strings.Compare(a.Name(), b.Name()) })
	return all, nil
}

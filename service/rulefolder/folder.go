package rulefolder

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/glossladder/glossladder/service/durable"
)

// Folder is a shop's rule folder by its path.
type Folder string

// FS is the folder without names that begin with a dot: version control, an editor's own files, and drafts are no part of
// a rule set.
func (f Folder) FS() fs.FS { return shown{os.DirFS(string(f))} }

// Edit changes files of the folder. Work is given the files as they are and says what to change; until it is done no other
// process that edits by this package can come in between. An edit of several files is done whole or not at all: after a
// crash the next Edit or [Folder.Mend] ends it. The error of work comes back as it is.
func (f Folder) Edit(ctx context.Context, work func(now Files) ([]Change, error)) (err error) {
	unlock, err := f.lock(ctx)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, unlock()) }()
	if _, err := f.mend(); err != nil {
		return &WriteError{Folder: string(f), Cause: err}
	}
	now, err := Read(f.FS())
	if err != nil {
		return err
	}
	changes, err := work(now)
	if err != nil {
		return err
	}
	changes = slices.DeleteFunc(changes, func(c Change) bool {
		text, exists := now[c.Name]
		return !c.Delete && exists && string(text) == string(c.Text)
	})
	if len(changes) == 0 {
		return nil
	}
	return f.write(now, changes)
}

// Mend ends an edit that a crash cut short. It returns what it could not do: the name of a file that somebody has changed
// since, which leaves the edit undone from there on.
func (f Folder) Mend(ctx context.Context) (stuck string, err error) {
	if _, err := os.Stat(f.path(journalName)); errors.Is(err, fs.ErrNotExist) {
		return "", nil
	}
	unlock, err := f.lock(ctx)
	if err != nil {
		return "", err
	}
	defer func() { err = errors.Join(err, unlock()) }()
	return f.mend()
}

func (f Folder) lock(ctx context.Context) (func() error, error) {
	unlock, err := durable.Lock(ctx, string(f))
	if err != nil && ctx.Err() == nil {
		return nil, &WriteError{Folder: string(f), Cause: err}
	}
	return unlock, err
}

func (f Folder) path(name string) string { return filepath.Join(string(f), filepath.FromSlash(name)) }

// shown leaves names out that begin with a dot.
type shown struct{ fs.FS }

func (s shown) ReadDir(name string) ([]fs.DirEntry, error) {
	entries, err := fs.ReadDir(s.FS, name)
	return slices.DeleteFunc(entries, func(e fs.DirEntry) bool { return strings.HasPrefix(e.Name(), ".") }), err
}

func (s shown) ReadFile(name string) ([]byte, error)  { return fs.ReadFile(s.FS, name) }
func (s shown) Stat(name string) (fs.FileInfo, error) { return fs.Stat(s.FS, name) }

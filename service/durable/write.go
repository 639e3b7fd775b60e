package durable

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
)

// mark stands in the name of every file that is not finished yet. Such names begin with a dot.
const mark = ".unfinished-"

// Draft is a new text of a file, safe on disk but not in its place yet.
type Draft struct {
	path string // where it will stand
	temp string
}

// Prepare writes a text beside path and syncs it. The draft takes the place of path by Commit, or goes by Discard. An
// existing file keeps its permissions; a new one gets perm.
func Prepare(path string, text []byte, perm fs.FileMode) (Draft, error) {
	if info, err := os.Lstat(path); err == nil {
		if !info.Mode().IsRegular() {
			return Draft{}, &fs.PathError{Op: "write", Path: path, Err: errors.New("it is no plain file; edit what it points to")}
		}
		perm = info.Mode().Perm()
	}
	dir, name := filepath.Split(path)
	file, err := os.CreateTemp(dir, "."+name+mark+"*")
	if err != nil {
		return Draft{}, err
	}
	d := Draft{path: path, temp: file.Name()}
	_, err = file.Write(text)
	err = errors.Join(err, file.Chmod(perm), file.Sync(), file.Close())
	if err != nil {
		return Draft{}, errors.Join(err, d.Discard())
	}
	return d, nil
}

// Name is the name of the draft beside its place.
func (d Draft) Name() string { return filepath.Base(d.temp) }

// Commit puts the draft in its place. The folder is to be synced with [SyncDir] afterwards.
func (d Draft) Commit() error { return os.Rename(d.temp, d.path) }

// Discard takes the draft away. One that is gone already is no error.
func (d Draft) Discard() error {
	if err := os.Remove(d.temp); !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}

// WriteFile puts a text at path, whole or not at all.
func WriteFile(path string, text []byte, perm fs.FileMode) error {
	d, err := Prepare(path, text, perm)
	if err != nil {
		return err
	}
	if err := d.Commit(); err != nil {
		return errors.Join(err, d.Discard())
	}
	return SyncDir(filepath.Dir(path))
}

// SyncDir makes sure that names made, moved or removed in a folder stay so after a crash.
func SyncDir(dir string) error {
	if runtime.GOOS == "windows" { // folders cannot be synced there, and need not be
		return nil
	}
	open, err := os.Open(dir)
	if err != nil {
		return err
	}
	return errors.Join(open.Sync(), open.Close())
}

// Sweep removes drafts that a crash left behind in a folder. Nobody else may be writing there.
func Sweep(dir string) error {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return err
	}
	var failed []error
	for _, entry := range entries {
		if strings.HasPrefix(entry.Name(), ".") && strings.Contains(entry.Name(), mark) {
			if err := os.RemoveAll(filepath.Join(dir, entry.Name())); err != nil {
				failed = append(failed, fmt.Errorf("take away what a crash left: %w", err))
			}
		}
	}
	return errors.Join(failed...)
}

// MakeDir makes a folder for drafts of a whole folder beside path. Fill it, sync it with [SyncDir] and rename it to path.
func MakeDir(path string) (string, error) {
	dir, name := filepath.Split(path)
	return os.MkdirTemp(dir, "."+name+mark+"*")
}

package rulefolder

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"

	"github.com/glossladder/glossladder/service/durable"
)

// journalName is the file that says which moves an edit of several files consists of. It is there from the moment when all
// texts are safe on disk until the last of them is in its place.
const journalName = ".edit.json"

// move is one file of an edit.
type move struct {
	Name  string `json:"name"`
	Draft string `json:"draft,omitempty"` // within the file's folder; empty: the file goes away
	Was   string `json:"was,omitempty"`   // etag of the text before; empty: there was none
	Is    string `json:"is,omitempty"`    // etag of the text after; empty: there is none
}

// write puts the changes in their places. Files were read as now under the lock that is still held.
func (f Folder) write(now Files, changes []Change) error {
	moves, drafts, err := f.prepare(now, changes)
	undo := func(err error) error {
		for _, d := range drafts {
			err = errors.Join(err, d.Discard())
		}
		return &WriteError{Folder: string(f), Cause: err}
	}
	if err != nil {
		return undo(err)
	}
	// A single move is whole by itself.
	if len(moves) > 1 {
		text, err := json.Marshal(moves)
		if err != nil {
			return undo(err)
		}
		if err := durable.WriteFile(f.path(journalName), text, 0o644); err != nil {
			return undo(errors.Join(err, f.forget()))
		}
	}
	for i, m := range moves {
		if err := f.do(m); err != nil {
			if i == 0 {
				return undo(errors.Join(err, f.forget()))
			}
			// Part of it is done: from here on it only goes forward.
			return fmt.Errorf("the edit of %s is cut short and will be ended by the next one: %w", string(f), err)
		}
	}
	return errors.Join(f.settle(moves), f.forget())
}

// prepare makes every new text safe on disk.
func (f Folder) prepare(now Files, changes []Change) (moves []move, drafts []durable.Draft, err error) {
	for _, c := range changes {
		m := move{Name: c.Name}
		if text, exists := now[c.Name]; exists {
			m.Was = Etag(text)
		}
		if !c.Delete {
			if err := os.MkdirAll(filepath.Dir(f.path(c.Name)), 0o755); err != nil {
				return nil, drafts, err
			}
			draft, err := durable.Prepare(f.path(c.Name), c.Text, 0o644)
			if err != nil {
				return nil, drafts, err
			}
			drafts = append(drafts, draft)
			m.Draft, m.Is = draft.Name(), Etag(c.Text)
		}
		moves = append(moves, m)
	}
	return moves, drafts, nil
}

func (f Folder) do(m move) error {
	if m.Draft == "" {
		return os.Remove(f.path(m.Name))
	}
	return os.Rename(f.path(path.Join(path.Dir(m.Name), m.Draft)), f.path(m.Name))
}

// settle makes the moves outlast a crash.
func (f Folder) settle(moves []move) error {
	var failed []error
	done := map[string]bool{}
	for _, m := range moves {
		if dir := filepath.Dir(f.path(m.Name)); !done[dir] {
			done[dir] = true
			failed = append(failed, durable.SyncDir(dir))
		}
	}
	return errors.Join(failed...)
}

// forget takes the journal away.
func (f Folder) forget() error {
	err := os.Remove(f.path(journalName))
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return errors.Join(err, durable.SyncDir(string(f)))
}

// mend ends an edit that a crash cut short, and takes away drafts that belong to none. The lock is held. A file that
// somebody has changed since ends it: what that person did is not undone.
func (f Folder) mend() (stuck string, err error) {
	text, err := os.ReadFile(f.path(journalName))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return "", err
	}
	var moves []move
	if err == nil {
		if moves, err = readJournal(text); err != nil {
			return "", fmt.Errorf("%s is no journal of an edit; take it away: %w", f.path(journalName), err)
		}
	}
	for _, m := range moves {
		is, err := f.etag(m.Name)
		if err != nil {
			return "", err
		}
		if is == m.Is {
			continue
		}
		if is != m.Was {
			stuck = m.Name
			break
		}
		if err := f.do(m); err != nil {
			return "", err
		}
	}
	err = errors.Join(f.settle(moves), f.forget(), durable.Sweep(string(f)))
	if cases := f.path("cases"); err == nil {
		if _, missing := os.Stat(cases); missing == nil {
			err = durable.Sweep(cases)
		}
	}
	return stuck, err
}

// readJournal believes only what this package can have written: a folder may come from anywhere, and a journal must not
// reach out of it.
func readJournal(text []byte) (moves []move, err error) {
	if err := json.Unmarshal(text, &moves); err != nil {
		return nil, err
	}
	for _, m := range moves {
		if !fs.ValidPath(m.Name) || m.Draft != "" && (!strings.HasPrefix(m.Draft, ".") || !fs.ValidPath(m.Draft) || path.Dir(m.Draft) != ".") {
			return nil, fmt.Errorf("it moves %q to %q", m.Draft, m.Name)
		}
	}
	return moves, nil
}

func (f Folder) etag(name string) (string, error) {
	text, err := os.ReadFile(f.path(name))
	if errors.Is(err, fs.ErrNotExist) {
		return "", nil
	}
	return Etag(text), err
}

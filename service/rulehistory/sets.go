package rulehistory

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/durable"
)

// Keep makes the files of a set safe on disk under their hash, which it returns. A set that is there already is not written
// again, unless it was damaged.
func (h *History) Keep(files map[string][]byte) (ruleSet string, err error) {
	ruleSet = rules.HashOf(files)
	if _, err := h.read(ruleSet); err == nil {
		return ruleSet, nil
	}
	if err := h.put(ruleSet, files); err != nil {
		return ruleSet, fmt.Errorf("keep rule set %s: %w", ruleSet[:8], err)
	}
	return ruleSet, nil
}

// put writes the files into a folder of their own and moves it to its place, so that a set is there whole or not at all.
func (h *History) put(ruleSet string, files map[string][]byte) error {
	sets := filepath.Join(h.dir, setsFolder)
	if err := os.MkdirAll(sets, 0o755); err != nil {
		return err
	}
	place := filepath.Join(sets, ruleSet)
	draft, err := durable.MakeDir(place)
	if err != nil {
		return err
	}
	defer os.RemoveAll(draft) //nolint:errcheck // moved away when all went well
	if err := write(draft, files); err != nil {
		return err
	}
	err = os.Rename(draft, place)
	if err == nil {
		return durable.SyncDir(sets)
	}
	// Another process has kept the same set in the meantime, or what is there is damaged.
	if _, damaged := h.read(ruleSet); damaged == nil {
		return nil
	}
	if err := os.RemoveAll(place); err != nil {
		return err
	}
	if err := os.Rename(draft, place); err != nil {
		return err
	}
	return durable.SyncDir(sets)
}

func write(dir string, files map[string][]byte) error {
	if err := os.Chmod(dir, 0o755); err != nil {
		return err
	}
	folders := map[string]bool{dir: true}
	for name, text := range files {
		path := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return err
		}
		folders[filepath.Dir(path)] = true
		file, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o444)
		if err != nil {
			return err
		}
		_, err = file.Write(text)
		if err := errors.Join(err, file.Sync(), file.Close()); err != nil {
			return err
		}
	}
	for folder := range folders {
		if err := durable.SyncDir(folder); err != nil {
			return err
		}
	}
	return nil
}

// Files are the files of a set by its hash, or by the first characters of it, as they were kept. Errors are [*NoSetError],
// [*DamagedError] and [ErrAmbiguous].
func (h *History) Files(begins string) (ruleSet string, files map[string][]byte, err error) {
	if ruleSet, err = h.find(begins); err != nil {
		return "", nil, err
	}
	files, err = h.read(ruleSet)
	return ruleSet, files, err
}

// find is the hash that begins so.
func (h *History) find(begins string) (ruleSet string, err error) {
	entries, err := os.ReadDir(filepath.Join(h.dir, setsFolder))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return "", fmt.Errorf("read the history: %w", err)
	}
	for _, entry := range entries {
		if begins == "" || strings.HasPrefix(entry.Name(), ".") || !strings.HasPrefix(entry.Name(), strings.ToLower(begins)) {
			continue
		}
		if ruleSet != "" {
			return "", ErrAmbiguous
		}
		ruleSet = entry.Name()
	}
	if ruleSet == "" {
		return "", &NoSetError{RuleSet: begins}
	}
	return ruleSet, nil
}

// read gives the files of a set, or a [*DamagedError] when they are not those that were kept.
func (h *History) read(ruleSet string) (map[string][]byte, error) {
	files := map[string][]byte{}
	folder := os.DirFS(filepath.Join(h.dir, setsFolder, ruleSet))
	err := fs.WalkDir(folder, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		files[name], err = fs.ReadFile(folder, name)
		return err
	})
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, &NoSetError{RuleSet: ruleSet}
	case err != nil:
		return nil, fmt.Errorf("read the history: %w", err)
	case rules.HashOf(files) != ruleSet:
		return nil, &DamagedError{RuleSet: ruleSet}
	}
	return files, nil
}

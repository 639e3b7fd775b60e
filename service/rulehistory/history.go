package rulehistory

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"iter"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"github.com/glossladder/glossladder/service/durable"
)

// History is a folder on disk. It is safe for concurrent use, by several processes too.
type History struct{ dir string }

const (
	setsFolder    = "sets"
	entriesFolder = "entries"
	ending        = ".json"
)

// At is the history in a folder. Nothing is read or made before it is asked for.
func At(dir string) *History { return &History{dir: dir} }

// Dir is the folder.
func (h *History) Dir() string { return h.dir }

// Add notes that a set, kept with [History.Keep] before, came into force, and returns the entry with its number.
func (h *History) Add(e Entry) (Entry, error) {
	dir := filepath.Join(h.dir, entriesFolder)
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return e, fmt.Errorf("note the rule set in force: %w", err)
	}
	text, err := json.Marshal(e)
	if err != nil {
		return e, err
	}
	numbers, err := h.numbers()
	if err != nil {
		return e, err
	}
	e.Number = 1
	if len(numbers) > 0 {
		e.Number = numbers[0] + 1
	}
	// Another process may take the number first: the numbers, not the clocks, are the order in which sets came into force.
	for ; ; e.Number++ {
		file, err := os.OpenFile(h.entryPath(e.Number), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		if err != nil {
			return e, fmt.Errorf("note the rule set in force: %w", err)
		}
		_, err = file.Write(text)
		return e, errors.Join(err, file.Sync(), file.Close(), durable.SyncDir(dir))
	}
}

// Entries gives every time that a set came into force, newest first, from number before on downwards; 0 is from the newest.
func (h *History) Entries(before int) iter.Seq2[Entry, error] {
	return func(yield func(Entry, error) bool) {
		numbers, err := h.numbers()
		if err != nil {
			yield(Entry{}, err)
			return
		}
		for _, number := range numbers {
			if before > 0 && number >= before {
				continue
			}
			e, ok, err := h.entry(number)
			if !ok && err == nil {
				continue
			}
			if !yield(e, err) || err != nil {
				return
			}
		}
	}
}

// Last is the last entry of a folder.
func (h *History) Last(folder string) (last Entry, found bool, err error) {
	for e, err := range h.Entries(0) {
		if err != nil {
			return Entry{}, false, err
		}
		if e.Folder == folder {
			return e, true, nil
		}
	}
	return Entry{}, false, nil
}

// entry reads one entry. One that another process is still writing, or that a crash cut short, is not there.
func (h *History) entry(number int) (e Entry, ok bool, err error) {
	text, err := os.ReadFile(h.entryPath(number))
	if err != nil {
		return e, false, fmt.Errorf("read the history: %w", err)
	}
	whole := json.Unmarshal(text, &e) == nil
	e.Number = number
	return e, whole, nil
}

func (h *History) entryPath(number int) string {
	return filepath.Join(h.dir, entriesFolder, fmt.Sprintf("%012d%s", number, ending))
}

// numbers are the numbers of all entries, newest first.
func (h *History) numbers() ([]int, error) {
	files, err := os.ReadDir(filepath.Join(h.dir, entriesFolder))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("read the history: %w", err)
	}
	var numbers []int
	for _, file := range files {
		name, ok := strings.CutSuffix(file.Name(), ending)
		if number, err := strconv.Atoi(name); ok && err == nil && number > 0 {
			numbers = append(numbers, number)
		}
	}
	slices.SortFunc(numbers, func(a, b int) int { return b - a })
	return numbers, nil
}

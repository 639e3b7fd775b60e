package rulehistory

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"github.com/glossladder/glossladder/service/durable"
)

const wrongFolder = "wrong"

// WrongSince is since when the files of a folder do not load: the time noted before, or now, which is then noted.
func (h *History) WrongSince(folder string, now time.Time) (time.Time, error) {
	path := h.wrongPath(folder)
	text, err := os.ReadFile(path)
	if err == nil {
		if since, err := time.Parse(time.RFC3339Nano, string(text)); err == nil {
			return since, nil
		}
	} else if !errors.Is(err, fs.ErrNotExist) {
		return now, fmt.Errorf("read since when the rules are wrong: %w", err)
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return now, fmt.Errorf("note since when the rules are wrong: %w", err)
	}
	if err := durable.WriteFile(path, []byte(now.Format(time.RFC3339Nano)), 0o644); err != nil {
		return now, fmt.Errorf("note since when the rules are wrong: %w", err)
	}
	return now, nil
}

// Mended forgets since when a folder was wrong.
func (h *History) Mended(folder string) error {
	if err := os.Remove(h.wrongPath(folder)); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("note that the rules are mended: %w", err)
	}
	return nil
}

// wrongPath names a file for a folder whose own name may hold anything.
func (h *History) wrongPath(folder string) string {
	sum := sha256.Sum256([]byte(folder))
	return filepath.Join(h.dir, wrongFolder, hex.EncodeToString(sum[:16]))
}

package access

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"github.com/glossladder/glossladder/service/durable"
)

// Folder is where keys, the pairing code and the certificate of one service are kept, readable by its user alone. Several
// processes may use it at once.
type Folder struct{ dir string }

// At returns the folder. It is made when something is first written.
func At(dir string) Folder { return Folder{dir: dir} }

// record is the file of keys.
type record struct {
	Keys    []Key    `json:"keys"`
	Pairing *pairing `json:"pairing,omitempty"`
}

func (f Folder) keysFile() string { return filepath.Join(f.dir, "keys.json") }

// read returns what is kept; an empty record where there is none yet.
func (f Folder) read() (record, error) {
	var kept record
	content, err := os.ReadFile(f.keysFile())
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return record{}, nil
	case err != nil:
		return record{}, fmt.Errorf("read keys: %w", err)
	}
	if err := json.Unmarshal(content, &kept); err != nil {
		return record{}, fmt.Errorf("%s is no file of keys: %w; put it aside and make new keys", f.keysFile(), err)
	}
	return kept, nil
}

// edit changes what is kept, one process at a time. Nothing is written if change fails.
func (f Folder) edit(ctx context.Context, change func(*record) error) error {
	unlock, err := f.lock(ctx)
	if err != nil {
		return err
	}
	kept, err := f.read()
	if err == nil {
		err = change(&kept)
	}
	if err == nil {
		err = f.write(kept)
	}
	return errors.Join(err, unlock())
}

func (f Folder) lock(ctx context.Context) (unlock func() error, err error) {
	if err := os.MkdirAll(f.dir, 0o700); err != nil {
		return nil, fmt.Errorf("folder of keys: %w", err)
	}
	return durable.Lock(ctx, f.dir)
}

func (f Folder) write(kept record) error {
	content, err := json.MarshalIndent(kept, "", "  ")
	if err != nil {
		return fmt.Errorf("write keys: %w", err)
	}
	if err := durable.WriteFile(f.keysFile(), append(content, '\n'), 0o600); err != nil {
		return fmt.Errorf("write keys: %w", err)
	}
	return nil
}

// Opens says whether anybody could get in: there is a key, or a pairing code that is still good.
func (f Folder) Opens(now time.Time) (bool, error) {
	kept, err := f.read()
	return len(kept.Keys) > 0 || kept.Pairing.good(now), err
}

package sqlite

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"modernc.org/sqlite"
)

// Backup writes a copy of the file as it is now to a new file, while others read and write. The copy is there whole and
// verified, or not at all. A file that is there already is left alone, and the error is [fs.ErrExist].
func (s *Store) Backup(ctx context.Context, path string) error {
	if _, err := os.Lstat(path); !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("back up to %s: %w; name a new file", path, errors.Join(err, fs.ErrExist))
	}
	part := path + ".part"
	defer func() {
		for _, ending := range []string{"", "-wal", "-shm", "-journal"} {
			_ = os.Remove(part + ending)
		}
	}()
	if err := s.copyTo(ctx, part); err != nil {
		return s.fault(err)
	}
	if err := verify(ctx, part); err != nil {
		return err
	}
	if err := syncFile(part); err != nil {
		return fmt.Errorf("back up: %w", err)
	}
	if err := os.Rename(part, path); err != nil {
		return fmt.Errorf("back up: %w", err)
	}
	return syncFile(filepath.Dir(path))
}

// copier is what the driver's connection can do beside SQL.
type copier interface {
	NewBackup(to string) (*sqlite.Backup, error)
}

// copyTo copies all pages in one step, which holds one reader's view of the file throughout: a copy in several steps would
// begin anew with every write in between.
func (s *Store) copyTo(ctx context.Context, part string) error {
	conn, err := s.reads.Conn(ctx)
	if err != nil {
		return err
	}
	copied := conn.Raw(func(driver any) error {
		from, ok := driver.(copier)
		if !ok {
			return errors.New("the driver cannot back up")
		}
		copying, err := from.NewBackup(part)
		if err != nil {
			return err
		}
		_, err = copying.Step(-1)
		return errors.Join(err, copying.Finish())
	})
	return errors.Join(copied, conn.Close())
}

func verify(ctx context.Context, path string) error {
	pool, err := connect(path, "deferred")
	if err != nil {
		return err
	}
	copied := &Store{path: path, reads: pool}
	return errors.Join(copied.Verify(ctx), pool.Close())
}

func syncFile(path string) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}

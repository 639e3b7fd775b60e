package app

import (
	"context"
	"errors"
)

// ErrDatabaseBackup says that a database is not backed up from here.
var ErrDatabaseBackup = errors.New("a PostgreSQL database is backed up and checked with its own tools, such as pg_dump; job export --all writes every job too")

// fileStore is what a store in a file can do besides.
type fileStore interface {
	Backup(ctx context.Context, path string) error
	Verify(ctx context.Context) error
}

// Backup writes a copy of the file of vehicles and jobs, as it is now, to a new file, whole and verified or not at all, while
// others use it. A database is [ErrDatabaseBackup].
func (a *App) Backup(ctx context.Context, path string) error {
	store, err := a.fileStore(ctx)
	if err != nil {
		return err
	}
	return store.Backup(ctx, path)
}

// VerifyData reads the whole file of vehicles and jobs and returns what is damaged. A database is [ErrDatabaseBackup].
func (a *App) VerifyData(ctx context.Context) error {
	store, err := a.fileStore(ctx)
	if err != nil {
		return err
	}
	return store.Verify(ctx)
}

func (a *App) fileStore(ctx context.Context) (fileStore, error) {
	store, _, err := a.record.Open(ctx)
	if err != nil {
		return nil, err
	}
	file, ok := store.(fileStore)
	if !ok {
		return nil, ErrDatabaseBackup
	}
	return file, nil
}

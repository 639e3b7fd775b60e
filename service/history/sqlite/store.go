// Package sqlite keeps vehicles and jobs in one SQLite file.
//
// The file is in WAL mode with synchronous FULL, so that what was acknowledged outlives the process and the machine. All writes
// of a program go through one connection: those that wait at the same time are committed together, and none is acknowledged
// before the commit that holds it has reached the disk. Readers have connections of their own and wait for nobody. Other
// programs may use the same file at the same time.
//
// The package imports no contract and knows no stage of a job.
package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"net/url"
	"path/filepath"
	"runtime"
	"time"

	"github.com/pressly/goose/v3"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/migrations"
)

// Store is one file. Make it with Open and give it back with Close.
type Store struct {
	path   string
	writes *sql.DB // one connection
	reads  *sql.DB
	writer *writer
}

// Open opens a file, makes it if it is not there, and brings it to the present shape. The folder must be there. A file that
// holds something else, cannot be written, is damaged or was changed by a later program is a [*history.StoreError].
func Open(ctx context.Context, path string) (*Store, error) {
	s := &Store{path: path}
	var err error
	if s.writes, err = connect(path, "immediate", "journal_mode(WAL)", "synchronous(FULL)", "foreign_keys(1)"); err != nil {
		return nil, s.fault(err)
	}
	s.writes.SetMaxOpenConns(1)
	if err := s.prepareInTurn(ctx); err != nil {
		return nil, errors.Join(s.fault(err), s.writes.Close())
	}
	if s.reads, err = connect(path, "deferred", "query_only(1)"); err != nil {
		return nil, errors.Join(s.fault(err), s.writes.Close())
	}
	s.reads.SetMaxOpenConns(max(4, 2*runtime.NumCPU()))
	if s.writer, err = startWriter(ctx, s.writes); err != nil {
		return nil, errors.Join(s.fault(err), s.reads.Close(), s.writes.Close())
	}
	return s, nil
}

// connect makes a pool. The wait for a lock is set first, for the other settings may need it. A transaction that means to write
// asks for the lock up front: one that reads first and locks later fails at once when somebody else was quicker, and no wait
// covers that.
func connect(path, lock string, pragmas ...string) (*sql.DB, error) {
	whole, err := filepath.Abs(path)
	if err != nil {
		return nil, err
	}
	query := url.Values{"_pragma": append([]string{"busy_timeout(5000)"}, pragmas...), "_txlock": {lock}}
	name := url.URL{Scheme: "file", Opaque: (&url.URL{Path: filepath.ToSlash(whole)}).EscapedPath(), RawQuery: query.Encode()}
	return sql.Open("sqlite", name.String())
}

// application marks our files; see the first migration.
const application = 1198288755

// prepareInTurn is prepare where other programs may be at the same file. Going over to WAL, and a read that finds it has to write,
// are refused at once while another is at it; the wait for locks does not cover them.
func (s *Store) prepareInTurn(ctx context.Context) error {
	const tries, pause = 100, 50 * time.Millisecond
	for try := 1; ; try++ {
		err := s.prepare(ctx)
		if !busy(err) || try == tries {
			return err
		}
		select {
		case <-ctx.Done():
			return errors.Join(ctx.Err(), err)
		case <-time.After(pause):
		}
	}
}

// prepare refuses what is not ours and runs the migrations that are still to do.
func (s *Store) prepare(ctx context.Context) error {
	var tables, id int64
	if err := s.writes.QueryRowContext(ctx, "pragma application_id").Scan(&id); err != nil {
		return err
	}
	if err := s.writes.QueryRowContext(ctx, "select count(*) from sqlite_schema").Scan(&tables); err != nil {
		return err
	}
	if tables > 0 && id != application && !s.halfMade(ctx) {
		return &history.StoreError{Fault: history.Foreign, Where: s.path}
	}
	provider, err := goose.NewProvider(goose.DialectSQLite3, s.writes, migrations.SQLite(), goose.WithDisableGlobalRegistry(true))
	if err != nil {
		return fmt.Errorf("read migrations: %w", err)
	}
	have, known, err := provider.GetVersions(ctx)
	if err != nil {
		return err
	}
	if have > known {
		return &history.StoreError{
			Fault: history.Newer, Where: s.path, Err: fmt.Errorf("it is at step %d, this program knows %d", have, known),
		}
	}
	// Another program may be taking the same steps. Whoever comes second finds them taken and looks again.
	for try := 0; ; try++ {
		pending, err := provider.HasPending(ctx)
		if err == nil && !pending {
			return nil
		}
		if _, upErr := provider.Up(ctx); upErr != nil && (try == 10 || ctx.Err() != nil) {
			return errors.Join(err, upErr)
		}
	}
}

// halfMade reports whether nothing but the list of migrations is in the file: its making was cut short.
func (s *Store) halfMade(ctx context.Context) bool {
	var others int
	err := s.writes.QueryRowContext(ctx, "select count(*) from sqlite_schema where tbl_name not like 'goose_%' and tbl_name not like 'sqlite_%'").Scan(&others)
	return err == nil && others == 0
}

// Close waits for writes under way and closes the file.
func (s *Store) Close() error { return errors.Join(s.writer.stop(), s.reads.Close(), s.writes.Close()) }

// Verify reads the whole file and returns a [*history.StoreError] if it is damaged or a job does not fit its events.
func (s *Store) Verify(ctx context.Context) error {
	var says string
	if err := s.reads.QueryRowContext(ctx, "pragma integrity_check(1)").Scan(&says); err != nil {
		return s.fault(err)
	}
	if says != "ok" {
		return &history.StoreError{Fault: history.Damaged, Where: s.path, Err: errors.New(says)}
	}
	var loose int
	const broken = `select count(*) from jobs j where last_sequence <>
		(select count(*) from events e where e.job_id = j.id) or last_sequence <> (select max(sequence) from events e where e.job_id = j.id)`
	if err := s.reads.QueryRowContext(ctx, broken).Scan(&loose); err != nil {
		return s.fault(err)
	}
	if loose > 0 {
		return &history.StoreError{Fault: history.Damaged, Where: s.path, Err: fmt.Errorf("%d jobs do not fit their events", loose)}
	}
	return nil
}

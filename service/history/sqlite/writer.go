package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"sync"

	"github.com/glossladder/glossladder/service/history"
)

// mostTogether is how many writes one commit may hold. A commit costs one wait for the disk however many it holds.
const mostTogether = 256

// writer does all writes of a program, one after another, on one connection. Those that wait while one is being committed are
// committed together after it. Each hears of its own outcome, and only after the commit that holds it.
type writer struct {
	pool    *sql.DB
	conn    *sql.Conn
	queue   chan *write
	stopped chan struct{}
	once    sync.Once
	closing chan struct{}
}

// write is one caller's work and its outcome.
type write struct {
	ctx  context.Context
	work func(context.Context, *session) error
	done chan error
}

// errClosed is given to whoever writes after the end.
var errClosed = errors.New("the store is closed")

func startWriter(ctx context.Context, pool *sql.DB) (*writer, error) {
	conn, err := pool.Conn(ctx)
	if err != nil {
		return nil, err
	}
	w := &writer{pool: pool, conn: conn, queue: make(chan *write, mostTogether), stopped: make(chan struct{}), closing: make(chan struct{})}
	go w.run(&session{conn: conn, prepared: map[string]*sql.Stmt{}})
	return w, nil
}

// do runs work in a transaction and returns when it is on disk, or was undone. A caller that gives up before its turn has
// written nothing; one whose turn has come is told the outcome all the same.
func (w *writer) do(ctx context.Context, work func(context.Context, *session) error) error {
	// What has begun is carried through: a commit that is cut off half-way leaves nobody who knows what happened.
	job := &write{ctx: ctx, work: work, done: make(chan error, 1)}
	select {
	case <-w.closing:
		return errClosed
	default:
	}
	select {
	case w.queue <- job:
	case <-ctx.Done():
		return ctx.Err()
	case <-w.closing:
		return errClosed
	}
	select {
	case err := <-job.done:
		return err
	case <-w.stopped:
	}
	select {
	case err := <-job.done:
		return err
	default:
		return errClosed
	}
}

func (w *writer) stop() error {
	w.once.Do(func() { close(w.closing) })
	<-w.stopped
	return w.conn.Close()
}

func (w *writer) run(s *session) {
	defer close(w.stopped)
	defer s.close()
	for {
		var first *write
		select {
		case first = <-w.queue:
		case <-w.closing:
			select {
			case first = <-w.queue: // those that came in before the end are served
			default:
				return
			}
		}
		w.together(s, append([]*write{first}, w.waiting()...))
	}
}

// waiting takes what is in the queue now.
func (w *writer) waiting() []*write {
	var more []*write
	for len(more) < mostTogether-1 {
		select {
		case job := <-w.queue:
			more = append(more, job)
		default:
			return more
		}
	}
	return more
}

// together does a batch of writes in one transaction. Each has a savepoint of its own, so that one that fails takes nothing
// from the others; a write alone needs none.
func (w *writer) together(s *session, batch []*write) {
	alive := batch[:0]
	for _, job := range batch {
		if err := job.ctx.Err(); err != nil {
			job.done <- err
			continue
		}
		alive = append(alive, job)
	}
	if len(alive) == 0 {
		return
	}
	ctx := context.WithoutCancel(alive[0].ctx)
	outcomes := make([]error, len(alive))
	err := s.exec(ctx, "begin immediate")
	if err == nil {
		if len(alive) == 1 {
			outcomes[0] = alive[0].work(ctx, s)
			err = outcomes[0]
		} else {
			err = s.savepoints(ctx, alive, outcomes)
		}
		err = s.end(ctx, err)
	}
	for i, job := range alive {
		if outcomes[i] == nil {
			outcomes[i] = err
		}
		job.done <- outcomes[i]
	}
}

// savepoints runs each write under a savepoint. The error is one that spoils the whole transaction.
func (s *session) savepoints(ctx context.Context, batch []*write, outcomes []error) error {
	for i, job := range batch {
		if err := s.exec(ctx, "savepoint one"); err != nil {
			return err
		}
		if outcomes[i] = job.work(ctx, s); outcomes[i] != nil {
			if err := s.exec(ctx, "rollback to one"); err != nil {
				return err
			}
		}
		if err := s.exec(ctx, "release one"); err != nil {
			return err
		}
	}
	return nil
}

// end commits, or rolls back after an error.
func (s *session) end(ctx context.Context, err error) error {
	if err == nil {
		if err = s.exec(ctx, "commit"); err == nil {
			return nil
		}
		// A commit that fails for want of room has written no end mark. One whose wait for the disk failed may have, and a
		// restart would find it.
		if fault, ok := errors.AsType[*history.StoreError](classify(err)); ok && fault.Fault == history.Away {
			fault.Unknown = true
			err = fault
		}
	}
	// SQLite ends some transactions itself when they fail; there is then nothing to roll back.
	_ = s.exec(ctx, "rollback")
	return err
}

// session is the writer's connection with its prepared statements.
type session struct {
	conn     *sql.Conn
	prepared map[string]*sql.Stmt
}

// stmt is a statement made ready once; it is closed with the session.
func (s *session) stmt(ctx context.Context, query string) (*sql.Stmt, error) {
	if stmt, ok := s.prepared[query]; ok {
		return stmt, nil
	}
	stmt, err := s.conn.PrepareContext(ctx, query)
	if err != nil {
		return nil, fmt.Errorf("prepare: %w", err)
	}
	s.prepared[query] = stmt
	return stmt, nil
}

func (s *session) exec(ctx context.Context, query string, args ...any) error {
	_, err := s.change(ctx, query, args...)
	return err
}

// change runs a statement and tells how many rows it changed.
func (s *session) change(ctx context.Context, query string, args ...any) (int64, error) {
	stmt, err := s.stmt(ctx, query) //nolint:sqlclosecheck // closed with the session
	if err != nil {
		return 0, err
	}
	result, err := stmt.ExecContext(ctx, args...)
	if err != nil {
		return 0, err
	}
	return result.RowsAffected()
}

func (s *session) row(ctx context.Context, query string, args ...any) row {
	stmt, err := s.stmt(ctx, query) //nolint:sqlclosecheck // closed with the session
	if err != nil {
		return failed{err}
	}
	return stmt.QueryRowContext(ctx, args...)
}

func (s *session) close() {
	for _, stmt := range s.prepared {
		_ = stmt.Close()
	}
}

// row is one row to read.
type row interface{ Scan(into ...any) error }

type failed struct{ err error }

func (f failed) Scan(...any) error { return f.err }

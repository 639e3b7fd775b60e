package sqlite

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"time"

	lib "modernc.org/sqlite/lib"

	"github.com/glossladder/glossladder/service/history"
)

// AddListener stores a new listener.
func (s *Store) AddListener(ctx context.Context, l history.Listener) error {
	secrets, err := json.Marshal(l.Secrets)
	if err != nil {
		return fmt.Errorf("encode listener: %w", err)
	}
	err = s.writer.do(ctx, func(ctx context.Context, w *session) error {
		err := w.exec(ctx, "insert into listeners (id, revision, url, secrets, allow_private, created_at, stopped) values (?, ?, ?, ?, ?, ?, ?)",
			l.ID, l.Revision, l.URL, string(secrets), l.AllowPrivate, l.CreatedAt.UnixMicro(), l.Stopped)
		if breaks(err, lib.SQLITE_CONSTRAINT_PRIMARYKEY) {
			return &history.ExistsError{What: "listener", ID: l.ID}
		}
		return err
	})
	return s.fault(err)
}

// ChangeListener stores a listener over the revision expected.
func (s *Store) ChangeListener(ctx context.Context, l history.Listener, expected int64) error {
	secrets, err := json.Marshal(l.Secrets)
	if err != nil {
		return fmt.Errorf("encode listener: %w", err)
	}
	return s.changeListener(ctx, l.ID, expected, "update listeners set revision = ?, url = ?, secrets = ?, allow_private = ?, stopped = ? where id = ? and revision = ?",
		l.Revision, l.URL, string(secrets), l.AllowPrivate, l.Stopped, l.ID, expected)
}

// RemoveListener removes a listener and what it is still to be told.
func (s *Store) RemoveListener(ctx context.Context, id string, expected int64) error {
	return s.changeListener(ctx, id, expected, "delete from listeners where id = ? and (? = 0 or revision = ?)", id, expected, expected)
}

// changeListener changes a listener that must be there, at the revision expected.
func (s *Store) changeListener(ctx context.Context, id string, expected int64, query string, args ...any) error {
	return s.fault(s.writer.do(ctx, func(ctx context.Context, w *session) error {
		n, err := w.change(ctx, query, args...)
		if err != nil || n == 1 {
			return err
		}
		return w.whyNotListener(ctx, id, expected)
	}))
}

// whyNotListener says why a listener was not at the revision expected.
func (w *session) whyNotListener(ctx context.Context, id string, expected int64) error {
	var have int64
	err := w.row(ctx, "select revision from listeners where id = ?", id).Scan(&have)
	switch {
	case errors.Is(err, sql.ErrNoRows):
		return &history.NotFoundError{What: "listener", ID: id}
	case err != nil:
		return err
	}
	return &history.ConflictError{What: "listener", ID: id, Expected: expected, Have: have}
}

// changeOne changes something that must be there.
func (s *Store) changeOne(ctx context.Context, what, id, query string, args ...any) error {
	return s.fault(s.writer.do(ctx, func(ctx context.Context, w *session) error {
		n, err := w.change(ctx, query, args...)
		if err == nil && n == 0 {
			err = &history.NotFoundError{What: what, ID: id}
		}
		return err
	}))
}

const listenerColumns = "l.id, l.revision, l.url, l.secrets, l.allow_private, l.created_at, l.stopped"

// listenerFields are where the columns of a listener go; done finishes it once they are there.
func listenerFields(l *history.Listener) (into []any, done func() error) {
	var secrets []byte
	var created int64
	return []any{&l.ID, &l.Revision, &l.URL, &secrets, &l.AllowPrivate, &created, &l.Stopped}, func() error {
		l.CreatedAt = time.UnixMicro(created).UTC()
		return json.Unmarshal(secrets, &l.Secrets)
	}
}

func readListener(from row) (l history.Listener, err error) {
	into, done := listenerFields(&l)
	if err := from.Scan(into...); err != nil {
		return l, err
	}
	return l, done()
}

// Listeners gives all listeners by id.
func (s *Store) Listeners(ctx context.Context) ([]history.Listener, error) {
	return collect(ctx, s, readListener, "select "+listenerColumns+" from listeners l order by id")
}

const tellingColumns = listenerColumns + ", t.job_id, t.sequence, t.kind, t.tries, t.due_at, t.given_up, t.why"

func readTelling(from row) (t history.Telling, err error) {
	into, done := listenerFields(&t.Listener)
	var due int64
	if err := from.Scan(append(into, &t.Job, &t.Sequence, &t.Kind, &t.Tries, &due, &t.GivenUp, &t.Why)...); err != nil {
		return t, err
	}
	t.DueAt = time.UnixMicro(due).UTC()
	return t, done()
}

// due finds the first that waits of each listener and job, if its time has come.
const due = "select " + tellingColumns + ` from tellings t join listeners l on l.id = t.listener_id
	where t.given_up = 0 and l.stopped = '' and t.due_at <= ? and not exists (
		select 1 from tellings e where e.listener_id = t.listener_id and e.job_id = t.job_id and e.given_up = 0 and e.sequence < t.sequence)
	order by t.due_at, t.listener_id, t.job_id limit ?`

// Due lends tellings whose time has come.
func (s *Store) Due(ctx context.Context, now, lease time.Time, limit int) ([]history.Telling, error) {
	// A look outside the writer's turn first: most looks find nothing, and a write waits for the disk.
	found, err := collect(ctx, s, readTelling, due, now.UnixMicro(), limit)
	if err != nil || len(found) == 0 {
		return nil, err
	}
	var lent []history.Telling
	err = s.writer.do(ctx, func(ctx context.Context, w *session) error {
		lent = nil
		for _, t := range found {
			// Whoever came first has moved the time on.
			n, err := w.change(ctx, `update tellings set due_at = ?
				where listener_id = ? and job_id = ? and sequence = ? and due_at = ? and given_up = 0`,
				lease.UnixMicro(), t.Listener.ID, t.Job, t.Sequence, t.DueAt.UnixMicro())
			if err != nil {
				return err
			}
			if n == 1 {
				lent = append(lent, t)
			}
		}
		return nil
	})
	if err != nil {
		return nil, s.fault(err)
	}
	return lent, nil
}

const thatTelling = " where listener_id = ? and job_id = ? and sequence = ?"

// Told takes a telling off.
func (s *Store) Told(ctx context.Context, t history.Telling) error {
	return s.settle(ctx, "delete from tellings"+thatTelling, t)
}

// TellLater sets when to try next.
func (s *Store) TellLater(ctx context.Context, t history.Telling, next time.Time, why string) error {
	return s.settle(ctx, "update tellings set tries = tries + 1, due_at = ?, why = ?"+thatTelling, t, next.UnixMicro(), why)
}

// GiveUp tries a telling no more.
func (s *Store) GiveUp(ctx context.Context, t history.Telling, why string) error {
	return s.settle(ctx, "update tellings set tries = tries + 1, given_up = 1, why = ?"+thatTelling, t, why)
}

// settle changes one telling. One that is gone already, with its listener, is no fault.
func (s *Store) settle(ctx context.Context, query string, t history.Telling, args ...any) error {
	return s.fault(s.writer.do(ctx, func(ctx context.Context, w *session) error {
		return w.exec(ctx, query, append(args, t.Listener.ID, t.Job, t.Sequence)...)
	}))
}

// TellAgain makes what was given up due.
func (s *Store) TellAgain(ctx context.Context, listener string, now time.Time) (again int64, err error) {
	err = s.writer.do(ctx, func(ctx context.Context, w *session) error {
		again, err = w.change(ctx, "update tellings set given_up = 0, tries = 0, due_at = ? where listener_id = ? and given_up = 1", now.UnixMicro(), listener)
		return err
	})
	return again, s.fault(err)
}

// Owed gives what a listener is still to be told after a place.
func (s *Store) Owed(ctx context.Context, listener string, after history.TellingKey, limit int) ([]history.Telling, error) {
	return collect(ctx, s, readTelling, "select "+tellingColumns+` from tellings t join listeners l on l.id = t.listener_id
		where t.listener_id = ? and (t.job_id, t.sequence) > (?, ?) order by t.job_id, t.sequence limit ?`,
		listener, after.Job, after.Sequence, limit)
}

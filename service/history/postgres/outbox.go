package postgres

import (
	"context"
	"encoding/json"
	"fmt"
	"time"

	"github.com/jackc/pgx/v5"

	"github.com/glossladder/glossladder/service/history"
)

// AddListener stores a new listener.
func (s *Store) AddListener(ctx context.Context, l history.Listener) error {
	secrets, err := json.Marshal(l.Secrets)
	if err != nil {
		return fmt.Errorf("encode listener: %w", err)
	}
	_, err = s.change(ctx, "insert into listeners (id, revision, url, secrets, allow_private, created_at, stopped) values ($1, $2, $3, $4, $5, $6, $7)",
		l.ID, l.Revision, l.URL, string(secrets), number(l.AllowPrivate), l.CreatedAt.UnixMicro(), l.Stopped)
	if broke(err, uniqueBroken) {
		return &history.ExistsError{What: "listener", ID: l.ID}
	}
	return err
}

// number is a flag as both stores keep it.
func number(yes bool) int {
	if yes {
		return 1
	}
	return 0
}

// ChangeListener stores a listener over the revision expected.
func (s *Store) ChangeListener(ctx context.Context, l history.Listener, expected int64) error {
	secrets, err := json.Marshal(l.Secrets)
	if err != nil {
		return fmt.Errorf("encode listener: %w", err)
	}
	return s.changeListener(ctx, l.ID, expected,
		"update listeners set revision = $1, url = $2, secrets = $3, allow_private = $4, stopped = $5 where id = $6 and revision = $7",
		l.Revision, l.URL, string(secrets), number(l.AllowPrivate), l.Stopped, l.ID, expected)
}

// RemoveListener removes a listener and what it is still to be told.
func (s *Store) RemoveListener(ctx context.Context, id string, expected int64) error {
	return s.changeListener(ctx, id, expected, "delete from listeners where id = $1 and ($2 = 0 or revision = $2)", id, expected)
}

// changeListener changes a listener that must be there, at the revision expected.
func (s *Store) changeListener(ctx context.Context, id string, expected int64, query string, args ...any) error {
	n, err := s.change(ctx, query, args...)
	if err != nil || n == 1 {
		return err
	}
	have, err := collect(ctx, s, pgx.RowTo[int64], "select revision from listeners where id = $1", id)
	switch {
	case err != nil:
		return err
	case len(have) == 0:
		return &history.NotFoundError{What: "listener", ID: id}
	}
	return &history.ConflictError{What: "listener", ID: id, Expected: expected, Have: have[0]}
}

// changeOne changes something that must be there.
func (s *Store) changeOne(ctx context.Context, what, id, query string, args ...any) error {
	n, err := s.change(ctx, query, args...)
	if err == nil && n == 0 {
		err = &history.NotFoundError{What: what, ID: id}
	}
	return err
}

// change runs a statement, and not again once the server may have done it, and tells how many rows it changed.
func (s *Store) change(ctx context.Context, query string, args ...any) (rows int64, err error) {
	err = s.persist(ctx, false, func() error {
		tag, err := s.pool.Exec(ctx, query, args...)
		rows = tag.RowsAffected()
		return err
	})
	return rows, err
}

const listenerColumns = "l.id, l.revision, l.url, l.secrets, l.allow_private, l.created_at, l.stopped"

// listenerFields are where the columns of a listener go; done finishes it once they are there.
func listenerFields(l *history.Listener) (into []any, done func() error) {
	var secrets string
	var private, created int64
	return []any{&l.ID, &l.Revision, &l.URL, &secrets, &private, &created, &l.Stopped}, func() error {
		l.AllowPrivate, l.CreatedAt = private == 1, time.UnixMicro(created).UTC()
		return json.Unmarshal([]byte(secrets), &l.Secrets)
	}
}

func readListener(row pgx.CollectableRow) (l history.Listener, err error) {
	into, done := listenerFields(&l)
	if err := row.Scan(into...); err != nil {
		return l, err
	}
	return l, done()
}

// Listeners gives all listeners by id.
func (s *Store) Listeners(ctx context.Context) ([]history.Listener, error) {
	return collect(ctx, s, readListener, "select "+listenerColumns+" from listeners l order by id")
}

const tellingColumns = listenerColumns + ", t.job_id, t.sequence, t.kind, t.tries, t.due_at, t.given_up, t.why"

func readTelling(row pgx.CollectableRow) (t history.Telling, err error) {
	into, done := listenerFields(&t.Listener)
	var due, givenUp int64
	if err := row.Scan(append(into, &t.Job, &t.Sequence, &t.Kind, &t.Tries, &due, &givenUp, &t.Why)...); err != nil {
		return t, err
	}
	t.DueAt, t.GivenUp = time.UnixMicro(due).UTC(), givenUp == 1
	return t, done()
}

// lend finds the first that waits of each listener and job, if its time has come and nobody else is at it, and moves its time
// on. What it gives is the row as it was.
const lend = `with ready as (
		select t.* from tellings t join listeners l on l.id = t.listener_id
		where t.given_up = 0 and l.stopped = '' and t.due_at <= $1 and not exists (
			select from tellings e where e.listener_id = t.listener_id and e.job_id = t.job_id and e.given_up = 0 and e.sequence < t.sequence)
		order by t.due_at, t.listener_id, t.job_id limit $3 for update of t skip locked),
	lent as (
		update tellings u set due_at = $2 from ready t
		where u.listener_id = t.listener_id and u.job_id = t.job_id and u.sequence = t.sequence returning u.listener_id, u.job_id, u.sequence)
	select ` + tellingColumns + ` from lent join ready t using (listener_id, job_id, sequence) join listeners l on l.id = t.listener_id
	order by t.due_at, t.listener_id, t.job_id`

// Due lends tellings whose time has come.
func (s *Store) Due(ctx context.Context, now, lease time.Time, limit int) ([]history.Telling, error) {
	return collect(ctx, s, readTelling, lend, now.UnixMicro(), lease.UnixMicro(), limit)
}

// Told takes a telling off.
func (s *Store) Told(ctx context.Context, t history.Telling) error {
	_, err := s.change(ctx, "delete from tellings where listener_id = $1 and job_id = $2 and sequence = $3", t.Listener.ID, t.Job, t.Sequence)
	return err
}

// TellLater sets when to try next.
func (s *Store) TellLater(ctx context.Context, t history.Telling, next time.Time, why string) error {
	_, err := s.change(ctx, "update tellings set tries = $4, due_at = $5, why = $6 where listener_id = $1 and job_id = $2 and sequence = $3",
		t.Listener.ID, t.Job, t.Sequence, t.Tries+1, next.UnixMicro(), why)
	return err
}

// GiveUp tries a telling no more.
func (s *Store) GiveUp(ctx context.Context, t history.Telling, why string) error {
	_, err := s.change(ctx, "update tellings set tries = $4, given_up = 1, why = $5 where listener_id = $1 and job_id = $2 and sequence = $3",
		t.Listener.ID, t.Job, t.Sequence, t.Tries+1, why)
	return err
}

// TellAgain makes what was given up due.
func (s *Store) TellAgain(ctx context.Context, listener string, now time.Time) (int64, error) {
	return s.change(ctx, "update tellings set given_up = 0, tries = 0, due_at = $2 where listener_id = $1 and given_up = 1", listener, now.UnixMicro())
}

// Owed gives what a listener is still to be told after a place.
func (s *Store) Owed(ctx context.Context, listener string, after history.TellingKey, limit int) ([]history.Telling, error) {
	return collect(ctx, s, readTelling, "select "+tellingColumns+` from tellings t join listeners l on l.id = t.listener_id
		where t.listener_id = $1 and (t.job_id, t.sequence) > ($2, $3) order by t.job_id, t.sequence limit $4`,
		listener, after.Job, after.Sequence, limit)
}

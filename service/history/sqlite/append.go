package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"time"

	lib "modernc.org/sqlite/lib"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/trace"
)

// micros is a time as it is stored; nil for "not said".
func micros(t time.Time) any {
	if t.IsZero() {
		return nil
	}
	return t.UnixMicro()
}

func moment(at sql.NullInt64) time.Time {
	if !at.Valid {
		return time.Time{}
	}
	return time.UnixMicro(at.Int64).UTC()
}

// stored is an event ready to store: bodies are encoded before the writer's turn, not during it.
type stored struct {
	*history.Event
	kind     history.Kind
	version  int
	body     string
	trace    []byte // nil for none
	document any
}

func encode(events []history.Event) ([]stored, error) {
	out := make([]stored, len(events))
	for i := range events {
		kind, version, body, err := history.Encode(events[i].Body)
		if err != nil {
			return nil, err
		}
		out[i] = stored{Event: &events[i], kind: kind, version: version, body: string(body), trace: trace.Of(events[i].Body)}
		if events[i].Document != nil {
			out[i].document = string(events[i].Document)
		}
	}
	return out, nil
}

// Append stores a batch, all or nothing.
func (s *Store) Append(ctx context.Context, b history.Batch) (earlier *history.Receipt, err error) {
	events, err := encode(b.Events)
	if err != nil {
		return nil, err
	}
	receipt := history.Receipt{Request: b.Request, Target: b.After.ID, First: b.Expected + 1, Last: b.Expected + int64(len(b.Events))}
	err = s.writer.do(ctx, func(ctx context.Context, w *session) error {
		if earlier, err = w.once(ctx, receipt); earlier != nil || err != nil {
			return err
		}
		if err := w.moveJob(ctx, &b); err != nil {
			return err
		}
		for i := range events {
			if err := w.addEvent(ctx, &events[i]); err != nil {
				return err
			}
		}
		return w.claim(ctx, b.After.ID, b.Claim)
	})
	if err != nil {
		return nil, s.fault(err)
	}
	return earlier, nil
}

// moveJob makes the job or moves it on from the sequence expected.
func (w *session) moveJob(ctx context.Context, b *history.Batch) error {
	a := &b.After
	if b.Expected == 0 {
		err := w.exec(ctx, `insert into jobs (id, vehicle_id, stage, label, notes, booked_for, created_at, updated_at, last_sequence)
			values (?, ?, ?, ?, ?, ?, ?, ?, ?)`,
			a.ID, a.Vehicle, a.Stage, a.Label, a.Notes, micros(a.BookedFor), a.CreatedAt.UnixMicro(), a.UpdatedAt.UnixMicro(), a.Sequence)
		switch {
		case breaks(err, lib.SQLITE_CONSTRAINT_PRIMARYKEY):
			return &history.ExistsError{What: "job", ID: a.ID}
		case breaks(err, lib.SQLITE_CONSTRAINT_FOREIGNKEY):
			return &history.NotFoundError{What: "vehicle", ID: a.Vehicle}
		}
		return err
	}
	var was history.Stage
	err := w.row(ctx, `update jobs set label = ?, notes = ?, booked_for = ?, updated_at = ?, last_sequence = ?
		where id = ? and last_sequence = ? returning stage`,
		a.Label, a.Notes, micros(a.BookedFor), a.UpdatedAt.UnixMicro(), a.Sequence, a.ID, b.Expected).Scan(&was)
	switch {
	case errors.Is(err, sql.ErrNoRows):
		return w.whyNotJob(ctx, a.ID, b.Expected)
	case err != nil || was == a.Stage:
		return err
	}
	// By itself, so that the index of stages is written only when the stage changes.
	return w.exec(ctx, "update jobs set stage = ? where id = ?", a.Stage, a.ID)
}

// whyNotJob says why a job was not at the sequence expected.
func (w *session) whyNotJob(ctx context.Context, id string, expected int64) error {
	var have int64
	err := w.row(ctx, "select last_sequence from jobs where id = ?", id).Scan(&have)
	switch {
	case errors.Is(err, sql.ErrNoRows):
		return &history.NotFoundError{What: "job", ID: id}
	case err != nil:
		return err
	}
	return &history.ConflictError{What: "job", ID: id, Expected: expected, Have: have}
}

// addEvent adds the trace first: an event that comes without one is noted by a trigger.
func (w *session) addEvent(ctx context.Context, e *stored) error {
	if e.trace != nil {
		if err := w.exec(ctx, "insert into traces (job_id, sequence, trace) values (?, ?, ?)", e.Job, e.Sequence, e.trace); err != nil {
			return err
		}
	}
	return w.exec(ctx, `insert into events (job_id, sequence, kind, version, recorded_at, happened_at, recorded_by, request_id, body, document)
		values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
		e.Job, e.Sequence, e.kind, e.version, e.RecordedAt.UnixMicro(), micros(e.HappenedAt), e.By, e.RequestID, e.body, e.document)
}

// once notes that a request is being done; if it was done before it gives the receipt of then. A request without an id is
// always new.
func (w *session) once(ctx context.Context, r history.Receipt) (*history.Receipt, error) {
	if r.ID == "" {
		return nil, nil
	}
	n, err := w.change(ctx, `insert into requests (scope, id, print, target, first_sequence, last_sequence) values (?, ?, ?, ?, ?, ?)
		on conflict (scope, id) do nothing`, r.Scope, r.ID, r.Print, r.Target, r.First, r.Last)
	if err != nil || n == 1 {
		return nil, err
	}
	return readReceipt(w.row(ctx, receiptQuery, r.Scope, r.ID), r.Request)
}

const receiptQuery = "select print, target, first_sequence, last_sequence from requests where scope = ? and id = ?"

func readReceipt(from row, asked history.Request) (*history.Receipt, error) {
	found := &history.Receipt{Request: asked}
	err := from.Scan(&found.Print, &found.Target, &found.First, &found.Last)
	if errors.Is(err, sql.ErrNoRows) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	if asked.Print != "" && found.Print != asked.Print {
		return nil, &history.RequestReusedError{ID: asked.ID}
	}
	return found, nil
}

// Receipt finds what a request did; nil when it never came.
func (s *Store) Receipt(ctx context.Context, scope, id string) (*history.Receipt, error) {
	found, err := readReceipt(s.reads.QueryRowContext(ctx, receiptQuery, scope, id), history.Request{Scope: scope, ID: id})
	return found, s.fault(err)
}

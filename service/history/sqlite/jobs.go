package sqlite

import (
	"cmp"
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"iter"
	"slices"
	"strings"
	"time"

	"github.com/glossladder/glossladder/service/history"
)

const jobColumns = "id, vehicle_id, stage, label, notes, booked_for, created_at, updated_at, last_sequence"

// listColumns are those of a job and what its vehicle is called.
const listColumns = jobColumns + ", (select v.label from vehicles v where v.id = jobs.vehicle_id)"

func readJob(from row) (history.Summary, error) { return readJobWith(from) }

func readListed(from row) (out history.Listed, err error) {
	out.Summary, err = readJobWith(from, &out.VehicleLabel)
	return out, err
}

// readJobWith reads a job and what stands beside it in its row.
func readJobWith(from row, beside ...any) (history.Summary, error) {
	var j history.Summary
	var booked sql.NullInt64
	var created, updated int64
	err := from.Scan(append([]any{&j.ID, &j.Vehicle, &j.Stage, &j.Label, &j.Notes, &booked, &created, &updated, &j.Sequence}, beside...)...)
	j.BookedFor, j.CreatedAt, j.UpdatedAt = moment(booked), time.UnixMicro(created).UTC(), time.UnixMicro(updated).UTC()
	return j, err
}

// Job gives the outside of a job.
func (s *Store) Job(ctx context.Context, id string) (history.Summary, error) {
	j, err := readJob(s.reads.QueryRowContext(ctx, "select "+jobColumns+" from jobs where id = ?", id))
	if errors.Is(err, sql.ErrNoRows) {
		err = &history.NotFoundError{What: "job", ID: id}
	}
	return j, s.fault(err)
}

// ListJobs gives up to query.Limit jobs, the newest first. Each stage is asked for by itself, so that each answer comes in order
// straight from an index, and the answers are merged: the cost grows with the page, not with the number of jobs.
func (s *Store) ListJobs(ctx context.Context, query history.JobQuery) ([]history.Listed, error) {
	stages := query.Stages
	if len(stages) == 0 {
		stages = []history.Stage{""}
	}
	var all []history.Listed
	for _, stage := range stages {
		some, err := s.listStage(ctx, query, stage)
		if err != nil {
			return nil, err
		}
		all = append(all, some...)
	}
	slices.SortFunc(all, func(a, b history.Listed) int {
		return cmp.Or(b.CreatedAt.Compare(a.CreatedAt), cmp.Compare(b.ID, a.ID))
	})
	return all[:min(len(all), query.Limit)], nil
}

func (s *Store) listStage(ctx context.Context, query history.JobQuery, stage history.Stage) ([]history.Listed, error) {
	where, args := []string{"true"}, []any(nil)
	if query.Vehicle != "" {
		where, args = append(where, "vehicle_id = ?"), append(args, query.Vehicle)
	}
	switch {
	case stage != "" && query.Vehicle != "":
		// The plus keeps the index of stages out of it: a vehicle has few jobs, a stage has many.
		where, args = append(where, "+stage = ?"), append(args, stage)
	case stage != "":
		where, args = append(where, "stage = ?"), append(args, stage)
	}
	if query.After != nil {
		where, args = append(where, "(created_at, id) < (?, ?)"), append(args, query.After.CreatedAt.UnixMicro(), query.After.ID)
	}
	return collect(ctx, s, readListed,
		"select "+listColumns+" from jobs where "+strings.Join(where, " and ")+" order by created_at desc, id desc limit ?", append(args, query.Limit)...)
}

// collect reads all rows of a query.
func collect[T any](ctx context.Context, s *Store, read func(row) (T, error), text string, args ...any) (out []T, err error) {
	rows, err := s.reads.QueryContext(ctx, text, args...)
	if err != nil {
		return nil, s.fault(err)
	}
	defer func() { err = s.fault(errors.Join(err, rows.Close())) }()
	for rows.Next() {
		one, err := read(rows)
		if err != nil {
			return nil, err
		}
		out = append(out, one)
	}
	return out, rows.Err()
}

const eventColumns = "job_id, sequence, kind, version, recorded_at, happened_at, recorded_by, request_id, body"

// decoder reads a body as it is stored.
type decoder func(history.Kind, int, []byte) (history.Body, error)

func readEvent(from row) (history.Event, error) { return readEventBy(from, history.Decode) }

func readEventBy(from row, decode decoder) (history.Event, error) {
	var e history.Event
	var kind history.Kind
	var version int
	var recorded int64
	var happened sql.NullInt64
	var body []byte
	var document sql.NullString
	if err := from.Scan(&e.Job, &e.Sequence, &kind, &version, &recorded, &happened, &e.By, &e.RequestID, &body, &document); err != nil {
		return e, err
	}
	e.RecordedAt, e.HappenedAt = time.UnixMicro(recorded).UTC(), moment(happened)
	if document.Valid {
		e.Document = json.RawMessage(document.String)
	}
	var err error
	if e.Body, err = decode(kind, version, body); err != nil {
		return e, &history.UnreadableError{Job: e.Job, Sequence: e.Sequence, Says: err.Error()}
	}
	return e, nil
}

// Events gives up to limit events of a job after a sequence, in order.
func (s *Store) Events(ctx context.Context, job string, after int64, limit int) ([]history.Event, error) {
	events, err := collect(ctx, s, readEvent,
		"select "+eventColumns+", document from events where job_id = ? and sequence > ? order by sequence limit ?", job, after, limit)
	if err != nil || len(events) > 0 {
		return events, err
	}
	_, err = s.Job(ctx, job)
	return nil, err
}

// Scan gives every event of the kinds asked for, job by job.
func (s *Store) Scan(ctx context.Context, query history.ScanQuery) iter.Seq2[history.Event, error] {
	return func(yield func(history.Event, error) bool) {
		text := "select " + eventColumns
		if query.Documents {
			text += ", document"
		} else {
			text += ", null"
		}
		text += " from events where (job_id, sequence) > (?, ?)"
		args := []any{query.AfterJob, query.AfterSequence}
		if len(query.Kinds) > 0 {
			text += " and kind in (?" + strings.Repeat(", ?", len(query.Kinds)-1) + ")"
			for _, kind := range query.Kinds {
				args = append(args, kind)
			}
		}
		rows, err := s.reads.QueryContext(ctx, text+" order by job_id, sequence", args...)
		if err != nil {
			yield(history.Event{}, s.fault(err))
			return
		}
		defer func() { _ = rows.Close() }()
		decode := history.Decode
		if query.Lean {
			decode = history.DecodeLean
		}
		for rows.Next() {
			e, err := readEventBy(rows, decode)
			if !yield(e, s.fault(err)) || err != nil {
				return
			}
		}
		if err := rows.Err(); err != nil {
			yield(history.Event{}, s.fault(err))
		}
	}
}

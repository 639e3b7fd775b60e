package postgres

import (
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"iter"
	"slices"
	"strings"
	"time"

	"github.com/jackc/pgx/v5"

	"github.com/glossladder/glossladder/service/history"
)

const jobColumns = "id, vehicle_id, stage, label, notes, booked_for, created_at, updated_at, last_sequence"

// listColumns are those of a job and what its vehicle is called.
const listColumns = jobColumns + ", (select v.label from vehicles v where v.id = jobs.vehicle_id)"

func readJob(row pgx.CollectableRow) (history.Summary, error) { return readJobWith(row) }

func readListed(row pgx.CollectableRow) (out history.Listed, err error) {
	out.Summary, err = readJobWith(row, &out.VehicleLabel)
	return out, err
}

// readJobWith reads a job and what stands beside it in its row.
func readJobWith(row pgx.CollectableRow, beside ...any) (history.Summary, error) {
	var j history.Summary
	var booked *int64
	var created, updated int64
	err := row.Scan(append([]any{&j.ID, &j.Vehicle, &j.Stage, &j.Label, &j.Notes, &booked, &created, &updated, &j.Sequence}, beside...)...)
	j.BookedFor, j.CreatedAt, j.UpdatedAt = moment(booked), time.UnixMicro(created).UTC(), time.UnixMicro(updated).UTC()
	return j, err
}

// collect reads all rows of a query, again if the server went away meanwhile.
func collect[T any](ctx context.Context, s *Store, read pgx.RowToFunc[T], text string, args ...any) (out []T, err error) {
	err = s.persist(ctx, true, func() error {
		rows, err := s.pool.Query(ctx, text, args...)
		if err != nil {
			return err
		}
		out, err = pgx.CollectRows(rows, read)
		return err
	})
	if len(out) == 0 {
		return nil, err
	}
	return out, err
}

// one reads one row; none is a [*history.NotFoundError].
func one[T any](ctx context.Context, s *Store, read pgx.RowToFunc[T], what, text, id string) (out T, err error) {
	all, err := collect(ctx, s, read, text, id)
	switch {
	case err != nil:
		return out, err
	case len(all) == 0:
		return out, &history.NotFoundError{What: what, ID: id}
	}
	return all[0], nil
}

// Job gives the outside of a job.
func (s *Store) Job(ctx context.Context, id string) (history.Summary, error) {
	return one(ctx, s, readJob, "job", "select "+jobColumns+" from jobs where id = $1", id)
}

// where gathers conditions and their arguments.
type where struct {
	terms []string
	args  []any
}

// add adds a condition that has %d, %d … for the numbers of its arguments.
func (w *where) add(term string, args ...any) {
	numbers := make([]any, len(args))
	for i := range args {
		numbers[i] = len(w.args) + i + 1
	}
	w.terms, w.args = append(w.terms, fmt.Sprintf(term, numbers...)), append(w.args, args...)
}

func (w *where) String() string {
	if len(w.terms) == 0 {
		return ""
	}
	return " where " + strings.Join(w.terms, " and ")
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
	var w where
	if query.Vehicle != "" {
		w.add("vehicle_id = $%d", query.Vehicle)
	}
	if stage != "" {
		w.add("stage = $%d", stage)
	}
	if query.After != nil {
		w.add("(created_at, id) < ($%d, $%d)", query.After.CreatedAt.UnixMicro(), query.After.ID)
	}
	return collect(ctx, s, readListed, fmt.Sprintf("select %s from jobs%s order by created_at desc, id desc limit %d", listColumns, w.String(), query.Limit), w.args...)
}

const eventColumns = "job_id, sequence, kind, version, recorded_at, happened_at, recorded_by, request_id, body"

// decoder reads a body as it is stored.
type decoder func(history.Kind, int, []byte) (history.Body, error)

func readEvent(row pgx.CollectableRow) (history.Event, error) {
	return readEventBy(row, history.Decode)
}

func readEventBy(row pgx.CollectableRow, decode decoder) (history.Event, error) {
	var e history.Event
	var kind history.Kind
	var version int
	var recorded int64
	var happened *int64
	var body []byte
	var document *string
	if err := row.Scan(&e.Job, &e.Sequence, &kind, &version, &recorded, &happened, &e.By, &e.RequestID, &body, &document); err != nil {
		return e, err
	}
	e.RecordedAt, e.HappenedAt = time.UnixMicro(recorded).UTC(), moment(happened)
	if document != nil {
		e.Document = json.RawMessage(*document)
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
		"select "+eventColumns+", document from events where job_id = $1 and sequence > $2 order by sequence limit $3", job, after, limit)
	if err != nil || len(events) > 0 {
		return events, err
	}
	_, err = s.Job(ctx, job)
	return nil, err
}

// Scan gives every event of the kinds asked for, job by job.
func (s *Store) Scan(ctx context.Context, query history.ScanQuery) iter.Seq2[history.Event, error] {
	return func(yield func(history.Event, error) bool) {
		var w where
		w.add("(job_id, sequence) > ($%d, $%d)", query.AfterJob, query.AfterSequence)
		if len(query.Kinds) > 0 {
			w.add("kind = any($%d)", query.Kinds)
		}
		document := "null"
		if query.Documents {
			document = "document"
		}
		rows, err := s.pool.Query(ctx, fmt.Sprintf("select %s, %s from events%s order by job_id, sequence", eventColumns, document, w.String()), w.args...)
		if err != nil {
			yield(history.Event{}, s.fault(err))
			return
		}
		defer rows.Close()
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
		if err := rows.Err(); err != nil && !errors.Is(err, pgx.ErrNoRows) {
			yield(history.Event{}, s.fault(err))
		}
	}
}

package postgres

import (
	"context"
	"errors"
	"time"

	"github.com/jackc/pgx/v5"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/trace"
)

// micros is a time as it is stored; nil for "not said".
func micros(t time.Time) *int64 {
	if t.IsZero() {
		return nil
	}
	at := t.UnixMicro()
	return &at
}

func moment(at *int64) time.Time {
	if at == nil {
		return time.Time{}
	}
	return time.UnixMicro(*at).UTC()
}

// columns are events ready to store, column by column.
type columns struct {
	sequence, recorded []int64
	kind, by, id, body []string
	version            []int32
	happened           []*int64
	document           []*string
	traced             []int64 // sequences
	trace              [][]byte
}

func encode(events []history.Event) (columns, error) {
	var c columns
	for i := range events {
		e := &events[i]
		kind, version, body, err := history.Encode(e.Body)
		if err != nil {
			return c, err
		}
		c.sequence, c.recorded = append(c.sequence, e.Sequence), append(c.recorded, e.RecordedAt.UnixMicro())
		c.kind, c.version, c.body = append(c.kind, string(kind)), append(c.version, int32(version)), append(c.body, string(body))
		c.happened, c.by, c.id = append(c.happened, micros(e.HappenedAt)), append(c.by, e.By), append(c.id, e.RequestID)
		var document *string
		if e.Document != nil {
			text := string(e.Document)
			document = &text
		}
		c.document = append(c.document, document)
		if made := trace.Of(e.Body); made != nil {
			c.traced, c.trace = append(c.traced, e.Sequence), append(c.trace, made)
		}
	}
	return c, nil
}

// A write is one statement: the row of the job or vehicle is made or moved on, if it stands where it is expected and the request
// is new; the request and the events follow from that row, or not at all. Two that write to one row wait for each other there.
const (
	newRequest = ` not exists (select from requests r where r.scope = @scope and r.id = @request)`

	makeJob = `with written as (
			insert into jobs (id, vehicle_id, stage, label, notes, booked_for, created_at, updated_at, last_sequence)
			select @target, @vehicle, @stage, @label, @notes, @booked::bigint, @created, @updated, @last where` + newRequest + `
			on conflict (id) do nothing returning id)`

	moveJob = `with written as (
			update jobs set stage = @stage, label = @label, notes = @notes, booked_for = @booked, updated_at = @updated, last_sequence = @last
			where id = @target and last_sequence = @expected and` + newRequest + ` returning id)`

	addEvents = `, added as (
			insert into events (job_id, sequence, kind, version, recorded_at, happened_at, recorded_by, request_id, body, document)
			select w.id, e.* from written w, unnest(@sequences::bigint[], @kinds::text[], @versions::int[], @recorded::bigint[],
				@happened::bigint[], @by::text[], @ids::text[], @bodies::text[], @documents::text[]) e)`

	addTraces = `, noted as (
			insert into traces (job_id, sequence, trace)
			select w.id, t.* from written w, unnest(@traced::bigint[], @traces::bytea[]) t)`

	keepRequest = `, kept as (
			insert into requests (scope, id, print, target, first_sequence, last_sequence)
			select @scope, @request, @print, w.id, @first, @last from written w where @request::text <> '')
		select count(*) from written`
)

// Append stores a batch, all or nothing.
func (s *Store) Append(ctx context.Context, b history.Batch) (*history.Receipt, error) {
	events, err := encode(b.Events)
	if err != nil {
		return nil, err
	}
	a := &b.After
	args := named{
		"target": a.ID, "stage": a.Stage, "label": a.Label, "notes": a.Notes, "booked": micros(a.BookedFor), "updated": a.UpdatedAt.UnixMicro(),
		"last": b.Expected + int64(len(b.Events)), "first": b.Expected + 1, "expected": b.Expected,
		"scope": b.Request.Scope, "request": b.Request.ID, "print": b.Request.Print,
		"sequences": events.sequence, "kinds": events.kind, "versions": events.version, "recorded": events.recorded, "happened": events.happened,
		"by": events.by, "ids": events.id, "bodies": events.body, "documents": events.document,
		"traced": events.traced, "traces": events.trace,
	}
	statement := s.moveJob
	if b.Expected == 0 {
		statement = s.makeJob
		args["vehicle"], args["created"] = a.Vehicle, a.CreatedAt.UnixMicro()
	}
	run := func() (int64, error) { return s.alone(ctx, statement, args) }
	if b.Claim != nil {
		run = func() (int64, error) { return s.claiming(ctx, statement, args, &b) }
	}
	done, earlier, err := s.once(ctx, b.Request, run)
	switch {
	case broke(err, foreignKeyBroken):
		return nil, &history.NotFoundError{What: "vehicle", ID: a.Vehicle}
	case err != nil || done || earlier != nil:
		return earlier, err
	}
	outside, err := s.Job(ctx, a.ID)
	switch {
	case err != nil:
		return nil, err
	case b.Expected == 0:
		return nil, &history.ExistsError{What: "job", ID: a.ID}
	}
	return nil, &history.ConflictError{What: "job", ID: a.ID, Expected: b.Expected, Have: outside.Sequence}
}

// write runs a writing statement by itself; see once.
func (s *Store) write(ctx context.Context, text statement, args named, by history.Request) (done bool, earlier *history.Receipt, err error) {
	return s.once(ctx, by, func() (int64, error) { return s.alone(ctx, text, args) })
}

// alone is a writing statement in a transaction of its own. It tells how many rows it wrote.
func (s *Store) alone(ctx context.Context, text statement, args named) (rows int64, err error) {
	err = s.pool.QueryRow(ctx, text.text, text.args(args)...).Scan(&rows)
	return rows, err
}

// once runs what writes, which tells how many rows it wrote. When it wrote none because its request was done before, earlier is
// the receipt of then.
func (s *Store) once(ctx context.Context, by history.Request, run func() (int64, error)) (done bool, earlier *history.Receipt, err error) {
	var rows int64
	err = s.persist(ctx, by.ID != "", func() (err error) {
		rows, err = run()
		return err
	})
	// Two calls of one request may meet when neither is on record yet: the second then breaks the key.
	if err != nil && !(by.ID != "" && broke(err, uniqueBroken)) {
		return false, nil, err
	}
	if rows > 0 || by.ID == "" {
		return rows > 0, nil, err
	}
	found, lookErr := s.Receipt(ctx, by.Scope, by.ID)
	switch {
	case lookErr != nil:
		return false, nil, lookErr
	case found == nil:
		return false, nil, err
	case found.Print != by.Print:
		return false, nil, &history.RequestReusedError{ID: by.ID}
	}
	return false, found, nil
}

// Receipt finds what a request did; nil when it never came.
func (s *Store) Receipt(ctx context.Context, scope, id string) (*history.Receipt, error) {
	found := &history.Receipt{Request: history.Request{Scope: scope, ID: id}}
	err := s.persist(ctx, true, func() error {
		return s.pool.QueryRow(ctx, "select print, target, first_sequence, last_sequence from requests where scope = $1 and id = $2", scope, id).
			Scan(&found.Print, &found.Target, &found.First, &found.Last)
	})
	if errors.Is(err, pgx.ErrNoRows) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	return found, nil
}

package sqlite

import (
	"context"
	"database/sql/driver"
	"errors"
	"fmt"
	"io"
	"iter"

	"github.com/glossladder/glossladder/service/history"
)

// The two tables are read by one statement, so that an event is found in one of them whatever happens meanwhile. Where every event
// has its trace, the second is left out: putting the two in order costs something for each row.
const (
	tracesAlone = "select job_id, sequence, trace from traces order by job_id, sequence"
	tracesAll   = `select job_id, sequence, trace, null, null, null from traces
		union all
		select e.job_id, e.sequence, null, e.kind, e.version, e.body from untraced u
			join events e on e.job_id = u.job_id and e.sequence = u.sequence
		order by 1, 2`
)

// Traces gives what a look back needs of every event, job by job. It asks the driver by itself, for the standard library's way from
// there to here takes more than half of the time.
func (s *Store) Traces(ctx context.Context) iter.Seq2[history.Traced, error] {
	return func(yield func(history.Traced, error) bool) {
		left := false
		err := s.readTraces(ctx, func(t history.Traced) bool {
			left = !yield(t, nil)
			return !left
		})
		if err != nil && !left {
			yield(history.Traced{}, s.fault(err))
		}
	}
}

func (s *Store) readTraces(ctx context.Context, each func(history.Traced) bool) error {
	conn, err := s.reads.Conn(ctx)
	if err != nil {
		return err
	}
	read := conn.Raw(func(driven any) error {
		asked, ok := driven.(driver.QueryerContext)
		if !ok {
			return errors.New("the driver cannot be asked")
		}
		return tracesOf(ctx, asked, each)
	})
	return errors.Join(read, conn.Close())
}

// tracesOf asks in a transaction: whether some event has no trace is then told of the same moment as the rest.
func tracesOf(ctx context.Context, conn driver.QueryerContext, each func(history.Traced) bool) (err error) {
	none := func([]driver.Value) (bool, error) { return true, nil }
	if err := query(ctx, conn, "begin", none); err != nil {
		return err
	}
	defer func() { err = errors.Join(err, query(context.WithoutCancel(ctx), conn, "rollback", none)) }()
	text := tracesAlone
	if err := query(ctx, conn, "select 1 from untraced limit 1", func([]driver.Value) (bool, error) {
		text = tracesAll
		return false, nil
	}); err != nil {
		return err
	}
	return query(ctx, conn, text, func(row []driver.Value) (bool, error) {
		t, err := tracedOf(row)
		return err == nil && each(t), err
	})
}

// query gives each row, until one is the last that is wanted.
func query(ctx context.Context, conn driver.QueryerContext, text string, each func([]driver.Value) (more bool, err error)) (err error) {
	rows, err := conn.QueryContext(ctx, text, nil)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, rows.Close()) }()
	row := make([]driver.Value, len(rows.Columns()))
	for {
		if err := ctx.Err(); err != nil {
			return err
		}
		switch err := rows.Next(row); {
		case errors.Is(err, io.EOF):
			return nil
		case err != nil:
			return err
		}
		if more, err := each(row); err != nil || !more {
			return err
		}
	}
}

// tracedOf reads a row of one of the statements above.
func tracedOf(row []driver.Value) (t history.Traced, err error) {
	var sound [3]bool
	t.Job, sound[0] = row[0].(string)
	t.Sequence, sound[1] = row[1].(int64)
	if t.Trace, sound[2] = row[2].([]byte); sound[2] || len(row) == 3 {
		return t, unless(sound)
	}
	var kind, body string
	var version int64
	kind, sound[2] = row[3].(string)
	version, _ = row[4].(int64)
	body, _ = row[5].(string)
	t.Kind, t.Version, t.Body = history.Kind(kind), int(version), []byte(body)
	return t, unless(sound)
}

func unless(sound [3]bool) error {
	if sound == [3]bool{true, true, true} {
		return nil
	}
	return &history.StoreError{Fault: history.Damaged, Err: fmt.Errorf("a trace has a column of another type")}
}

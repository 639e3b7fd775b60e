package postgres

import (
	"context"
	"iter"

	"github.com/jackc/pgx/v5"

	"github.com/glossladder/glossladder/service/history"
)

// Traces gives what a look back needs of every event, job by job. The two tables are read by one statement, so that an event is
// found in one of them whatever happens meanwhile.
func (s *Store) Traces(ctx context.Context) iter.Seq2[history.Traced, error] {
	const text = `select job_id, sequence, trace, null, null, null from traces
		union all
		select job_id, sequence, null, kind, version, body from untraced join events using (job_id, sequence)
		order by job_id, sequence`
	return func(yield func(history.Traced, error) bool) {
		rows, err := s.pool.Query(ctx, text)
		if err != nil {
			yield(history.Traced{}, s.fault(err))
			return
		}
		defer rows.Close()
		for rows.Next() {
			one, err := readTraced(rows)
			if !yield(one, s.fault(err)) || err != nil {
				return
			}
		}
		if err := rows.Err(); err != nil {
			yield(history.Traced{}, s.fault(err))
		}
	}
}

func readTraced(row pgx.Row) (history.Traced, error) {
	var t history.Traced
	var kind *history.Kind
	var version *int
	if err := row.Scan(&t.Job, &t.Sequence, &t.Trace, &kind, &version, &t.Body); err != nil {
		return t, err
	}
	if kind != nil {
		t.Kind, t.Version = *kind, *version
	}
	return t, nil
}

//go:build unix

package postgres_test

import (
	"fmt"
	"testing"

	"github.com/jackc/pgx/v5"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/postgres"
	"github.com/glossladder/glossladder/service/history/storetest"
)

// BenchmarkDurableEvents stores one event after another, each on disk before the next, beside the least that the driver needs to
// do the same: one insert of the same row, committed by itself.
func BenchmarkDurableEvents(b *testing.B) {
	url := freshURL(b)
	store, err := postgres.Open(b.Context(), url)
	require.NoError(b, err)
	b.Cleanup(func() { _ = store.Close() })
	saveCar(b, store)
	_, err = store.Append(b.Context(), storetest.Reading("job", 0))
	require.NoError(b, err)

	conn, err := pgx.Connect(b.Context(), url)
	require.NoError(b, err)
	defer conn.Close(b.Context())
	_, err = conn.Exec(b.Context(), `create table raw_events (job_id text not null, sequence bigint not null, kind text not null, version integer not null,
		recorded_at bigint not null, happened_at bigint, recorded_by text not null, request_id text not null, body text not null, document text,
		primary key (job_id, sequence))`)
	require.NoError(b, err)
	storetest.Turn(b, func(turn int64) error {
		e := storetest.Reading("job", turn).Events[0]
		kind, version, body, err := history.Encode(e.Body)
		if err != nil {
			return err
		}
		_, err = conn.Exec(b.Context(), "insert into raw_events values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)",
			e.Job, e.Sequence, kind, version, e.RecordedAt.UnixMicro(), nil, e.By, e.RequestID, string(body), string(e.Document))
		return err
	}, func(turn int64) error {
		_, err := store.Append(b.Context(), storetest.Reading("job", turn))
		return err
	})
}

// BenchmarkListPage lists pages of 50 of a store of 10,000 and of one of 1,000,000 events: the cost is the page's.
func BenchmarkListPage(b *testing.B) {
	for _, jobs := range []int{1_000, 100_000} {
		b.Run(fmt.Sprintf("%d events", 10*jobs), func(b *testing.B) {
			store := open(b)
			storetest.Fill(b, store, jobs)
			storetest.ListPages(b, store, jobs)
		})
	}
}

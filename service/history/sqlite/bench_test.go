package sqlite_test

import (
	"database/sql"
	"errors"
	"fmt"
	"net/url"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/storetest"
)

// BenchmarkDurableEvents stores one event after another, each on disk before the next, beside the least that the driver needs
// to do the same: one insert of the same row a commit. At once, writers share commits.
func BenchmarkDurableEvents(b *testing.B) {
	b.Run("one after another", func(b *testing.B) {
		raw, store := rawDriver(b), openWithJobs(b, 1)
		storetest.Turn(b, raw, func(turn int64) error {
			_, err := store.Append(b.Context(), storetest.Reading("job-0", turn))
			return err
		})
	})
	b.Run("sixteen at once", func(b *testing.B) {
		const writers = 16
		raw, store := rawDriver(b), openWithJobs(b, writers)
		storetest.Turn(b, func(turn int64) error { return at(writers, func(w int) error { return raw(turn*writers + int64(w)) }) },
			func(turn int64) error {
				return at(writers, func(w int) error {
					_, err := store.Append(b.Context(), storetest.Reading(fmt.Sprintf("job-%d", w), turn))
					return err
				})
			})
	})
}

// at runs as many calls at the same time.
func at(writers int, call func(w int) error) error {
	errs := make(chan error, writers)
	for w := range writers {
		go func() { errs <- call(w) }()
	}
	var all error
	for range writers {
		all = errors.Join(all, <-errs)
	}
	return all
}

func openWithJobs(b *testing.B, jobs int) history.Store {
	store := open(b)
	_, err := store.SaveVehicle(b.Context(), history.Vehicle{ID: "car", Revision: 1, Label: "car"}, 0, history.Request{})
	require.NoError(b, err)
	for i := range jobs {
		made := storetest.Reading(fmt.Sprintf("job-%d", i), 0)
		_, err := store.Append(b.Context(), made)
		require.NoError(b, err)
	}
	return store
}

// rawDriver inserts the same row as the store, in a table of the same shape, without anything else.
func rawDriver(b *testing.B) func(turn int64) error {
	query := url.Values{"_pragma": {"busy_timeout(5000)", "journal_mode(WAL)", "synchronous(FULL)"}}
	db, err := sql.Open("sqlite", "file:"+filepath.Join(b.TempDir(), "raw.db")+"?"+query.Encode())
	require.NoError(b, err)
	b.Cleanup(func() { _ = db.Close() })
	db.SetMaxOpenConns(1)
	_, err = db.ExecContext(b.Context(), `create table events (job_id text not null, sequence bigint not null, kind text not null, version integer not null,
		recorded_at bigint not null, happened_at bigint, recorded_by text not null, request_id text not null, body text not null, document text,
		primary key (job_id, sequence))`)
	require.NoError(b, err)
	insert, err := db.PrepareContext(b.Context(), "insert into events values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)")
	require.NoError(b, err)
	b.Cleanup(func() { _ = insert.Close() })
	return func(turn int64) error {
		e := storetest.Reading("job-0", turn).Events[0]
		kind, version, body, err := history.Encode(e.Body)
		if err != nil {
			return err
		}
		_, err = insert.ExecContext(b.Context(), e.Job, e.Sequence, string(kind), version, e.RecordedAt.UnixMicro(), nil, e.By, e.RequestID, string(body), string(e.Document))
		return err
	}
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

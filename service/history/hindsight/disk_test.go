package hindsight_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/hindsight"
	"github.com/glossladder/glossladder/service/history/sqlite"
)

// write stores jobs in a file, some at a time, as a shop's program would: each job event by event, each event with a document of
// about the size that its message has.
func write(tb testing.TB, store *sqlite.Store, jobs []*job) {
	tb.Helper()
	_, err := store.SaveVehicle(tb.Context(), history.Vehicle{ID: "car", Revision: 1, Label: "car"}, 0, history.Request{})
	require.NoError(tb, err)
	const writers = 128 // they share commits
	errs := make(chan error, writers)
	for w := range writers {
		go func() {
			for i := w; i < len(jobs); i += writers {
				if err := writeJob(tb, store, jobs[i]); err != nil {
					errs <- err
					return
				}
			}
			errs <- nil
		}()
	}
	for range writers {
		require.NoError(tb, <-errs)
	}
}

func writeJob(tb testing.TB, store *sqlite.Store, j *job) error {
	at := time.Date(2026, time.March, 2, 8, 0, 0, 0, time.UTC)
	events := append([]history.Event(nil), j.events...)
	for i := range events {
		events[i].RecordedAt = at.Add(time.Duration(i) * time.Minute)
		_, _, body, err := history.Encode(events[i].Body)
		if err != nil {
			return err
		}
		events[i].Document = json.RawMessage(body)
	}
	_, err := store.Append(tb.Context(), history.Batch{Events: events, After: history.Summary{
		ID: j.id, Vehicle: "car", Stage: history.StageTrial, CreatedAt: at, UpdatedAt: at, Sequence: int64(len(events)),
	}})
	return err
}

// 100,000 recorded decisions in a SQLite file that is opened for it: all that a replay of an edited set does after the edit is
// loaded. Cores is how many were at work on average: the rate is the program's alone where that is two.
func BenchmarkReplayFile(b *testing.B) {
	was := set(b)
	path := filepath.Join(b.TempDir(), "shop.db")
	store, err := sqlite.Open(b.Context(), path)
	require.NoError(b, err)
	began := time.Now()
	write(b, store, record(b, was, 100_000))
	require.NoError(b, store.Close())
	file, err := os.Stat(path)
	require.NoError(b, err)
	b.Logf("written in %v, %d MB", time.Since(began), file.Size()>>20)
	for name, e := range map[string]edit{"start": edits["start sooner"], "policy": edits["less may go"]} {
		now := set(b, e)
		b.Run(name, func(b *testing.B) {
			decisions, before := 0, processorTime(b)
			for b.Loop() {
				store, err := sqlite.Open(b.Context(), path)
				require.NoError(b, err)
				report, err := hindsight.Replay(b.Context(), store.Traces(b.Context()), now, hindsight.Options{Kept: kept(was)})
				require.NoError(b, err)
				require.NoError(b, store.Close())
				require.Equal(b, 100_000, report.Decisions)
				decisions += report.Decisions
			}
			spent := processorTime(b) - before
			b.ReportMetric(float64(decisions)/b.Elapsed().Seconds(), "decisions/s")
			b.ReportMetric(2*float64(decisions)/spent.Seconds(), "decisions/2-core-s")
			b.ReportMetric(spent.Seconds()/b.Elapsed().Seconds(), "cores")
		})
	}
}

// processorTime is what this program has had of all processors.
func processorTime(b *testing.B) time.Duration {
	b.Helper()
	var used syscall.Rusage
	require.NoError(b, syscall.Getrusage(syscall.RUSAGE_SELF, &used))
	return time.Duration(used.Utime.Nano() + used.Stime.Nano())
}

//go:build unix

package hindsight_test

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history/hindsight"
	"github.com/glossladder/glossladder/service/history/sqlite"
)

// 100,000 recorded decisions in a SQLite file that is opened for it: all that a replay of an edited set does after the edit is
// loaded. Decisions/2-core-s is what two cores would do that nobody else uses, by the processor time that it took: where others are at
// work, decisions/s is what they left, and cores tells how much that was.
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

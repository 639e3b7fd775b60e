package sqlite_test

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/sqlite"
	"github.com/glossladder/glossladder/service/history/storetest"
)

const (
	// killsWanted says how often to kill; 10 times without it.
	killsWanted = "GLOSSLADDER_KILLS"
	// victimFile makes this program the one that is killed.
	victimFile = "GLOSSLADDER_VICTIM_FILE"

	victimWriters = 8
	victimBatch   = 3
)

// TestKilledWhileWriting kills a process that writes from several goroutines, again and again, and looks at what it left: all
// that it was told is stored, no half batch, a file that is whole. Every fifth time it begins with no file, so that the making
// of one is cut short too.
func TestKilledWhileWriting(t *testing.T) {
	kills := 10
	if wanted := os.Getenv(killsWanted); wanted != "" {
		var err error
		kills, err = strconv.Atoi(wanted)
		require.NoError(t, err)
	}
	random := rand.New(rand.NewPCG(9, uint64(time.Now().UnixNano()))) //nolint:gosec // chance of when, nothing secret
	var path string
	var told map[string]int64
	total := int64(0)
	for round := range kills {
		if round%5 == 0 {
			path, told = filepath.Join(t.TempDir(), fmt.Sprintf("round-%d.db", round)), map[string]int64{}
		}
		// Half of the time after so many acknowledgements, half of the time after so many microseconds, from the very start.
		acks, wait := random.IntN(120), time.Duration(random.IntN(60_000))*time.Microsecond
		if round%2 == 0 {
			wait = time.Minute
		} else {
			acks = 1 << 30
		}
		killVictim(t, path, told, acks, wait)
		total += inspectRemains(t, path, told)
	}
	t.Logf("%d kills, %d events acknowledged and found", kills, total)
	require.Positive(t, total)
}

// killVictim runs a writer and kills it after so many acknowledgements or so long. It notes in told the last sequence that was
// acknowledged for each job.
func killVictim(t *testing.T, path string, told map[string]int64, acks int, wait time.Duration) {
	t.Helper()
	program, err := os.Executable()
	require.NoError(t, err)
	read, write, err := os.Pipe()
	require.NoError(t, err)
	defer read.Close()
	victim := exec.CommandContext(t.Context(), program, "-test.run=^TestVictim$")
	victim.Env = append(os.Environ(), victimFile+"="+path)
	victim.ExtraFiles = []*os.File{write}
	require.NoError(t, victim.Start())
	require.NoError(t, write.Close())

	kill := time.AfterFunc(wait, func() { _ = victim.Process.Kill() })
	defer kill.Stop()
	lines := bufio.NewScanner(read)
	for n := 0; lines.Scan(); n++ { // what was acknowledged before the kill still comes out of the pipe after it
		var job string
		var sequence int64
		_, err := fmt.Sscanf(lines.Text(), "%s %d", &job, &sequence)
		require.NoError(t, err, "%q", lines.Text())
		told[job] = sequence
		if n == acks {
			require.NoError(t, victim.Process.Kill())
		}
	}
	require.Error(t, victim.Wait(), "the writer must not end by itself")
	require.Equal(t, -1, victim.ProcessState.ExitCode(), "the writer must die of the kill, not of an error")
}

// inspectRemains opens what the kill left and counts the events that were acknowledged.
func inspectRemains(t *testing.T, path string, told map[string]int64) int64 {
	t.Helper()
	store, err := sqlite.Open(t.Context(), path)
	require.NoError(t, err)
	defer func() { require.NoError(t, store.Close()) }()
	require.NoError(t, store.Verify(t.Context()))
	counted := int64(0)
	for w := range victimWriters {
		job := fmt.Sprintf("job-%d", w)
		events, err := eventsOf(t.Context(), store, job)
		require.NoError(t, err)
		if len(events) > 0 {
			require.Zero(t, (len(events)-1)%victimBatch, "%s has a half batch", job)
		}
		require.GreaterOrEqual(t, int64(len(events)), told[job], "an acknowledged event of %s is lost", job)
		for i, e := range events {
			require.Equal(t, int64(i+1), e.Sequence)
			if (i-1)%victimBatch == 0 {
				receipt, err := store.Receipt(t.Context(), "jobs/"+job, e.RequestID)
				require.NoError(t, err)
				require.NotNil(t, receipt, "the request of event %d of %s is lost", e.Sequence, job)
				require.Equal(t, e.Sequence, receipt.First)
			}
		}
		counted += told[job]
	}
	return counted
}

// eventsOf is all events of a job; none if there is no such job.
func eventsOf(ctx context.Context, store history.Store, job string) ([]history.Event, error) {
	var all []history.Event
	for {
		page, err := store.Events(ctx, job, int64(len(all)), history.MostOnPage)
		if _, none := errors.AsType[*history.NotFoundError](err); none {
			return nil, nil
		}
		if err != nil {
			return nil, err
		}
		all = append(all, page...)
		if len(page) < history.MostOnPage {
			return all, nil
		}
	}
}

// TestVictim is no test: it is the process that is killed. It writes until then, and tells of each write when it was told itself.
func TestVictim(t *testing.T) {
	path := os.Getenv(victimFile)
	if path == "" {
		t.Skip("only run by TestKilledWhileWriting")
	}
	acks := os.NewFile(3, "acknowledgements")
	store, err := sqlite.Open(t.Context(), path)
	require.NoError(t, err)
	_, err = store.SaveVehicle(t.Context(), history.Vehicle{ID: "car", Revision: 1, Label: "car"}, 0, history.Request{})
	if err != nil {
		var there *history.ExistsError
		require.ErrorAs(t, err, &there)
	}
	var writers sync.WaitGroup
	for w := range victimWriters {
		writers.Go(func() { writeForever(t, store, acks, fmt.Sprintf("job-%d", w)) })
	}
	writers.Wait()
}

func writeForever(t *testing.T, store history.Store, acks *os.File, job string) {
	before, err := eventsOf(t.Context(), store, job)
	if !assert.NoError(t, err) {
		return
	}
	expected := int64(len(before))
	for {
		b := storetest.Reading(job, expected)
		for i := int64(1); i < victimBatch && expected > 0; i++ {
			b.Events = append(b.Events, storetest.Reading(job, expected+i).Events...)
		}
		b.After.Sequence = expected + int64(len(b.Events))
		if _, err := store.Append(t.Context(), b); !assert.NoError(t, err) {
			return
		}
		expected = b.After.Sequence
		// One short write to a pipe is never split.
		if _, err := fmt.Fprintf(acks, "%s %d\n", job, expected); err != nil {
			return
		}
	}
}

package hindsight_test

import (
	"database/sql"
	"encoding/json"
	"errors"
	"math/rand/v2"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
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

// plainly stores a job as programs did that knew no traces.
func plainly(t *testing.T, db *sql.DB, j *job) {
	t.Helper()
	_, err := db.ExecContext(t.Context(), "insert into jobs values (?, 'car', 'trial', '', '', null, 0, 0, ?)", j.id, len(j.events))
	require.NoError(t, err)
	for _, e := range j.events {
		kind, version, body, err := history.Encode(e.Body)
		require.NoError(t, err)
		_, err = db.ExecContext(t.Context(), `insert into events (job_id, sequence, kind, version, recorded_at, recorded_by, request_id, body)
			values (?, ?, ?, ?, 0, '', '', ?)`, e.Job, e.Sequence, string(kind), version, string(body))
		require.NoError(t, err)
	}
}

// A file with jobs of today, jobs of earlier programs and corrections says the same as the events do before they are stored.
func TestAFileSaysWhatItsEventsSay(t *testing.T) {
	was := set(t)
	jobs := record(t, was, 600)
	r := rand.New(rand.NewPCG(8, 8))
	for _, j := range jobs {
		if r.IntN(4) == 0 {
			j.correct(r)
		}
	}
	path := filepath.Join(t.TempDir(), "shop.db")
	store, err := sqlite.Open(t.Context(), path)
	require.NoError(t, err)
	defer func() { require.NoError(t, store.Close()) }()
	var today []*job
	var before []*job
	for i, j := range jobs {
		if i%3 == 0 {
			before = append(before, j)
		} else {
			today = append(today, j)
		}
	}
	write(t, store, today)
	db, err := sql.Open("sqlite", "file:"+path+"?_pragma=busy_timeout(5000)")
	require.NoError(t, err)
	defer func() { require.NoError(t, db.Close()) }()
	for _, j := range before {
		plainly(t, db, j)
	}
	for _, name := range []string{"start sooner", "less may go", "cuts take more", "nothing"} {
		now := set(t, edits[name])
		want := replay(t, was, now, jobs...)
		got, err := hindsight.Replay(t.Context(), store.Traces(t.Context()), now, hindsight.Options{Kept: kept(was)})
		require.NoError(t, err)
		assert.Equal(t, want, got, name)
		assert.Equal(t, name != "nothing", want.All.Changed() > 0, name)
	}
	weigh := hindsight.Weigh{Least: 1, Surely: 0.6}
	want, err := hindsight.Hints(t.Context(), scan(jobs...), was, weigh)
	require.NoError(t, err)
	got, err := hindsight.Hints(t.Context(), store.Traces(t.Context()), was, weigh)
	require.NoError(t, err)
	assert.Equal(t, want, got)

	_, err = db.ExecContext(t.Context(), `insert into events (job_id, sequence, kind, version, recorded_at, recorded_by, request_id, body)
		values (?, 90, 'decision', 2, 0, '', '', '{}')`, before[9].id)
	require.NoError(t, err)
	_, err = hindsight.Replay(t.Context(), store.Traces(t.Context()), was, hindsight.Options{Kept: kept(was)})
	unreadable, ok := errors.AsType[*history.UnreadableError](err)
	require.True(t, ok, "%v", err)
	assert.Equal(t, before[9].id, unreadable.Job)
	assert.Contains(t, unreadable.Says, "use a later program")
}

// correct says that the inspection was of other paint, or that a trial was made with another step or not at all.
func (j *job) correct(r *rand.Rand) {
	for _, e := range j.events {
		switch body := e.Body.(type) {
		case *history.Inspection:
			if r.IntN(2) == 0 {
				other := body.Panels[0]
				other.Softness = "very-hard"
				j.add(&history.Correction{Sequence: e.Sequence, Why: "typed wrongly", Instead: &history.Inspection{Panels: []history.PanelFound{other}}})
			}
		case *history.Trial:
			var instead history.Body
			if r.IntN(2) == 0 {
				instead = &history.Trial{Panel: body.Panel, Step: "polish", Minutes: body.Minutes}
			}
			j.add(&history.Correction{Sequence: e.Sequence, Why: "typed wrongly", Instead: instead})
			return
		}
	}
}

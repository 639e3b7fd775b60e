package sqlite_test

import (
	"database/sql"
	"path/filepath"
	"testing"

	"github.com/pressly/goose/v3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/migrations"
	"github.com/glossladder/glossladder/service/history/sqlite"
	"github.com/glossladder/glossladder/service/history/storetest"
	"github.com/glossladder/glossladder/service/history/trace"
)

// addPlainly stores an event as programs did that knew no traces.
func addPlainly(t *testing.T, db *sql.DB, job string, sequence int64, body history.Body) {
	t.Helper()
	kind, version, data, err := history.Encode(body)
	require.NoError(t, err)
	_, err = db.ExecContext(t.Context(), `insert into events (job_id, sequence, kind, version, recorded_at, recorded_by, request_id, body)
		values (?, ?, ?, ?, 0, '', '', ?)`, job, sequence, string(kind), version, string(data))
	require.NoError(t, err)
}

func traced(t *testing.T, store history.Store) (out []history.Traced) {
	t.Helper()
	for one, err := range store.Traces(t.Context()) {
		require.NoError(t, err)
		out = append(out, one)
	}
	return out
}

// A file of the step before traces is brought to the present shape; what is in it comes as it is stored, between what comes after.
// The earlier program may still have the file open and go on.
func TestEventsOfEarlierProgramsAreLookedBackOn(t *testing.T) {
	path := filepath.Join(t.TempDir(), "shop.db")
	db, err := sql.Open("sqlite", "file:"+path+"?_pragma=busy_timeout(5000)&_pragma=journal_mode(WAL)")
	require.NoError(t, err)
	defer func() { require.NoError(t, db.Close()) }()
	steps, err := goose.NewProvider(goose.DialectSQLite3, db, migrations.SQLite(), goose.WithDisableGlobalRegistry(true))
	require.NoError(t, err)
	_, err = steps.UpTo(t.Context(), 11)
	require.NoError(t, err)
	_, err = db.ExecContext(t.Context(), `insert into vehicles values ('car', 1, 'car', 'car', '{}', 0, 0);
		insert into jobs values ('b', 'car', 'booked', '', '', null, 0, 0, 4)`)
	require.NoError(t, err)
	trial, decision := &history.Trial{Panel: "bonnet", Step: "cut"}, &history.Decision{
		RuleSet: "h", Panels: []history.PanelDecided{{Panel: "bonnet"}},
		Sheets: []history.FactSheet{{Panel: "bonnet", Facts: map[string]any{"panel.clean": true}, Answers: []history.TableAnswer{{Table: "start", Rule: "a", Answer: "cut"}}}},
	}
	for i, body := range []history.Body{&history.Booked{Vehicle: "car"}, trial, &history.Plan{}, decision} {
		addPlainly(t, db, "b", int64(i)+1, body)
	}

	store, err := sqlite.Open(t.Context(), path)
	require.NoError(t, err)
	defer func() { require.NoError(t, store.Close()) }()
	plain := func(sequence int64, body history.Body) history.Traced {
		kind, version, data, err := history.Encode(body)
		require.NoError(t, err)
		return history.Traced{Job: "b", Sequence: sequence, Kind: kind, Version: version, Body: data}
	}
	assert.Equal(t, []history.Traced{plain(2, trial), plain(4, decision)}, traced(t, store))

	_, err = store.Append(t.Context(), history.Batch{
		Expected: 4, Events: []history.Event{{Job: "b", Sequence: 5, Body: trial}}, After: history.Summary{ID: "b", Vehicle: "car", Stage: history.StageTrial, Sequence: 5},
	})
	require.NoError(t, err)
	addPlainly(t, db, "b", 6, decision)
	read := storetest.Reading("a", 0)
	_, err = store.Append(t.Context(), read)
	require.NoError(t, err)
	reading := history.Traced{Job: "a", Sequence: 1, Trace: trace.Of(read.Events[0].Body)}
	fifth := history.Traced{Job: "b", Sequence: 5, Trace: trace.Of(trial)}
	assert.Equal(t, []history.Traced{reading, plain(2, trial), plain(4, decision), fifth, plain(6, decision)}, traced(t, store))
}

//go:build unix

package postgres_test

import (
	"testing"

	"github.com/jackc/pgx/v5"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/postgres"
	"github.com/glossladder/glossladder/service/history/storetest"
	"github.com/glossladder/glossladder/service/history/trace"
)

// A program that knows no traces may be at work on the same database.
func TestEventsOfEarlierProgramsAreLookedBackOn(t *testing.T) {
	where := freshURL(t)
	store, err := postgres.Open(t.Context(), where)
	require.NoError(t, err)
	defer func() { require.NoError(t, store.Close()) }()
	_, err = store.SaveVehicle(t.Context(), history.Vehicle{ID: "car", Revision: 1, Label: "car"}, 0, history.Request{})
	require.NoError(t, err)
	first := storetest.Reading("a", 0)
	_, err = store.Append(t.Context(), first)
	require.NoError(t, err)

	trial := &history.Trial{Panel: "bonnet", Step: "cut"}
	kind, version, body, err := history.Encode(trial)
	require.NoError(t, err)
	conn, err := pgx.Connect(t.Context(), where)
	require.NoError(t, err)
	defer func() { require.NoError(t, conn.Close(t.Context())) }()
	for sequence, kind := range map[int64]string{2: string(kind), 3: "plan"} {
		_, err = conn.Exec(t.Context(), `insert into events (job_id, sequence, kind, version, recorded_at, recorded_by, request_id, body)
			values ('a', $1, $2, $3, 0, '', '', $4)`, sequence, kind, version, string(body))
		require.NoError(t, err)
	}
	var got []history.Traced
	for one, err := range store.Traces(t.Context()) {
		require.NoError(t, err)
		got = append(got, one)
	}
	assert.Equal(t, []history.Traced{
		{Job: "a", Sequence: 1, Trace: trace.Of(first.Events[0].Body)},
		{Job: "a", Sequence: 2, Kind: kind, Version: version, Body: body},
	}, got)
}

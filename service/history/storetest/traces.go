package storetest

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/trace"
)

func tracesInOrder(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	bodies := everyBody()
	var want []history.Traced
	for _, job := range []string{"b", "a-1", "a", "Z"} { // byte by byte "Z" comes first
		mustAppend(t, store, batch(job, 0, bodies[:4]...))
		mustAppend(t, store, batch(job, 4, bodies[4:]...))
	}
	for _, job := range []string{"Z", "a", "a-1", "b"} {
		for i, body := range bodies {
			if slices.Contains(trace.Kinds(), body.Kind()) {
				want = append(want, history.Traced{Job: job, Sequence: int64(i) + 1, Trace: trace.Of(body)})
			}
		}
	}
	var got []history.Traced
	for one, err := range store.Traces(t.Context()) {
		require.NoError(t, err)
		got = append(got, one)
	}
	assert.Equal(t, want, got)

	late := batch("b", int64(len(bodies)), bodies[2])
	late.Events[0].Sequence = 1 // it is refused, and so is its trace
	_, err := store.Append(t.Context(), late)
	require.Error(t, err)
	n := 0
	for _, err := range store.Traces(t.Context()) {
		require.NoError(t, err)
		n++
	}
	assert.Len(t, want, n)
}

func tracesLeftEarly(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	for i := range 20 {
		mustAppend(t, store, batch(fmt.Sprintf("job-%02d", i), 0, everyBody()...))
	}
	// More loops than any pool has connections: each must give its own back.
	for range 100 {
		for one, err := range store.Traces(t.Context()) {
			require.NoError(t, err)
			require.Equal(t, "job-00", one.Job)
			break
		}
	}
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	n := 0
	var last error
	for _, err := range store.Traces(ctx) {
		if last = err; err != nil {
			break
		}
		n++
		cancel()
	}
	if n < 20*len(trace.Kinds()) { // rows that were under way already may still come
		require.ErrorIs(t, last, context.Canceled)
	}
	for one, err := range store.Traces(t.Context()) {
		require.NoError(t, err)
		require.Equal(t, int64(3), one.Sequence, "the connection is as good as new")
		break
	}
}

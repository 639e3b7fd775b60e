package storetest

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
)

// atOnce runs n calls at the same time and gives their errors.
func atOnce(n int, call func(i int) error) []error {
	errs := make([]error, n)
	var all sync.WaitGroup
	for i := range n {
		all.Go(func() { errs[i] = call(i) })
	}
	all.Wait()
	return errs
}

func fiftyWriters(t *testing.T, store history.Store) {
	const writers, each = 50, 4
	saveVehicle(t, store, "car")
	book := history.NewBook(store)
	_, err := book.Create(t.Context(), "job", history.Booked{Vehicle: "car"}, history.Entry{Now: noon()})
	require.NoError(t, err)
	errs := atOnce(writers, func(i int) error {
		for k := range each {
			entry := history.Entry{Now: noon(), RequestID: fmt.Sprintf("r-%d-%d", i, k)}
			if _, err := book.Record(t.Context(), "job", entry, only(history.Draft{Body: note(entry.RequestID)})); err != nil {
				return err
			}
		}
		return nil
	})
	require.NoError(t, errors.Join(errs...))
	events := allEvents(t, store)
	require.Len(t, events, 1+writers*each)
	seen := map[string]bool{}
	for i, e := range events {
		require.Equal(t, int64(i+1), e.Sequence)
		seen[e.RequestID] = true
	}
	assert.Len(t, seen, 1+writers*each, "each request once, and the first event without one")
}

func fiftyRepeats(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	book := history.NewBook(store)
	errs := atOnce(50, func(i int) error {
		entry := history.Entry{Now: noon(), RequestID: "made", Print: "p"}
		made, err := book.Create(t.Context(), fmt.Sprintf("job-%d", i), history.Booked{Vehicle: "car"}, entry)
		if err != nil {
			return err
		}
		entry = history.Entry{Now: noon(), RequestID: "noted", Print: "q"}
		_, err = book.Record(t.Context(), made.Job.ID, entry, only(history.Draft{Body: note("once")}))
		return err
	})
	require.NoError(t, errors.Join(errs...))
	jobs, err := store.ListJobs(t.Context(), history.JobQuery{Limit: 100})
	require.NoError(t, err)
	require.Len(t, jobs, 1)
	assert.Equal(t, int64(2), jobs[0].Sequence)
}

func readersSeeWholeBatches(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	mustAppend(t, store, batch("job", 0, booked()))
	done := make(chan struct{})
	go func() {
		defer close(done)
		for i := range int64(60) {
			if _, err := store.Append(t.Context(), batch("job", 1+3*i, note("a"), note("b"), note("c"))); err != nil {
				t.Error(err)
				return
			}
		}
	}()
	for open := true; open; {
		select {
		case <-done:
			open = false
		default:
		}
		events := allEvents(t, store)
		require.Equal(t, 1, len(events)%3, "a batch of three is there whole or not at all")
	}
	assert.Len(t, allEvents(t, store), 181)
}

func givenUp(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	_, err := store.Append(ctx, batch("job", 0, booked()))
	require.ErrorIs(t, err, context.Canceled)
	_, err = store.Job(t.Context(), "job")
	assert.Equal(t, &history.NotFoundError{What: "job", ID: "job"}, err)
	_, err = store.Events(ctx, "job", 0, 1)
	require.ErrorIs(t, err, context.Canceled)
}

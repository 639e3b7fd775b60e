package notify_test

import (
	"context"
	"encoding/json"
	"errors"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/sqlite"
	"github.com/glossladder/glossladder/service/notify"
	"github.com/glossladder/glossladder/service/webhook"
)

func noon() time.Time { return time.Date(2026, time.March, 29, 12, 0, 0, 0, time.UTC) }

// kept is a record with a vehicle and a listener, and the book over it.
func kept(t *testing.T) (history.Store, *history.Book) {
	t.Helper()
	store, err := sqlite.Open(t.Context(), filepath.Join(t.TempDir(), "jobs.db"))
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, store.Close()) })
	_, err = store.SaveVehicle(t.Context(), history.Vehicle{ID: "estate", Revision: 1, CreatedAt: noon(), UpdatedAt: noon(), Label: "estate"}, 0, history.Request{})
	require.NoError(t, err)
	l := history.Listener{ID: "desk", URL: "https://booking.example/", CreatedAt: noon()}
	notify.Rotate(&l)
	require.NoError(t, store.AddListener(t.Context(), l))
	return store, history.NewBook(store)
}

func queue(store notify.Record) *notify.Queue {
	return notify.NewQueue(func(context.Context) (notify.Record, error) { return store, nil }, "/shops/main")
}

func book(t *testing.T, b *history.Book, job string, details ...history.Details) {
	t.Helper()
	_, err := b.Create(t.Context(), job, history.Booked{Vehicle: "estate"}, history.Entry{Now: noon()})
	require.NoError(t, err)
	for _, d := range details {
		_, err := b.Record(t.Context(), job, history.Entry{Now: noon()}, func(*history.Job) ([]history.Draft, error) { return []history.Draft{{Body: &d}}, nil })
		require.NoError(t, err)
	}
}

func due(t *testing.T, q *notify.Queue) []webhook.Delivery {
	t.Helper()
	out, err := q.Due(t.Context(), noon().Add(time.Hour), noon().Add(2*time.Hour), 10)
	require.NoError(t, err)
	return out
}

// An event tells the job as it was after it, and says the same at every try whatever happened since.
func TestAnEventSaysTheSameAtEveryTry(t *testing.T) {
	store, b := kept(t)
	q := queue(store)
	book(t, b, "spring", history.Details{Label: "later"})
	first := due(t, q)
	require.Len(t, first, 1)
	assert.Equal(t, "desk_spring_1", first[0].ID)
	var e struct {
		ID, Source, Type, Subject, Time string
		Data                            map[string]any
	}
	require.NoError(t, json.Unmarshal(first[0].Body, &e))
	assert.Equal(t, "spring/1 /shops/main glossladder.job.booked jobs/spring 2026-03-29T12:00:00Z", e.ID+" "+e.Source+" "+e.Type+" "+e.Subject+" "+e.Time)
	assert.Equal(t, map[string]any{
		"job": "jobs/spring", "vehicle": "vehicles/estate", "stage": "JOB_STAGE_BOOKED", "label": "", "book_time": nil, "sequence": 1.0,
	}, e.Data)

	require.NoError(t, q.Postpone(t.Context(), first[0].ID, noon(), "answered 500"))
	book(t, b, "autumn")
	again := due(t, queue(store)) // as another process would
	require.Len(t, again, 2)
	assert.Equal(t, "desk_autumn_1", again[0].ID, "jobs do not wait for each other")
	assert.Equal(t, "desk_spring_1", again[1].ID)
	assert.Equal(t, 1, again[1].Tries)
	assert.Equal(t, string(first[0].Body), string(again[1].Body))
}

func TestWhatIsDeliveredMakesRoomForTheNext(t *testing.T) {
	store, b := kept(t)
	q := queue(store)
	book(t, b, "spring", history.Details{Label: "a"}, history.Details{Label: "b"})
	require.NoError(t, q.Delivered(t.Context(), due(t, q)[0].ID, noon()))
	require.NoError(t, q.Bury(t.Context(), due(t, q)[0].ID, "answered 500"))
	last := due(t, q)
	require.Equal(t, "desk_spring_3", last[0].ID)
	require.NoError(t, q.Disable(t.Context(), "desk", "the receiver answered 410 and wants no more"))
	assert.Empty(t, due(t, q))
	l, err := notify.Find(t.Context(), store, "desk")
	require.NoError(t, err)
	assert.Equal(t, "the receiver answered 410 and wants no more", l.Stopped)
	require.NoError(t, q.Disable(t.Context(), "gone", "410"), "it was removed meanwhile")
	require.ErrorContains(t, q.Delivered(t.Context(), "desk_spring_9", noon()), "was not lent")
}

// damaged is a record in which the events of one job cannot be read.
type damaged struct {
	history.Store
	job string
	err error
}

func (d damaged) Events(ctx context.Context, job string, after int64, limit int) ([]history.Event, error) {
	if job == d.job {
		return nil, d.err
	}
	return d.Store.Events(ctx, job, after, limit)
}

// What cannot be read is given up with its reason and holds up nobody; a store that is away loses nothing.
func TestAnEventThatCannotBeRead(t *testing.T) {
	store, b := kept(t)
	book(t, b, "bad")
	book(t, b, "good")
	sent := due(t, queue(damaged{store, "bad", &history.UnreadableError{Job: "bad", Sequence: 1, Says: "version 9"}}))
	require.Len(t, sent, 1)
	assert.Equal(t, "desk_good_1", sent[0].ID)
	owed, err := store.Owed(t.Context(), "desk", history.TellingKey{}, 10)
	require.NoError(t, err)
	require.Len(t, owed, 2)
	assert.True(t, owed[0].GivenUp)
	assert.Contains(t, owed[0].Why, "event 1 of job bad cannot be read: version 9")

	_, err = store.TellAgain(t.Context(), "desk", noon())
	require.NoError(t, err)
	away := &history.StoreError{Fault: history.Away, Where: "jobs.db"}
	_, err = queue(damaged{store, "bad", away}).Due(t.Context(), noon().Add(time.Hour), noon().Add(2*time.Hour), 10)
	require.ErrorIs(t, err, away)
	owed, err = store.Owed(t.Context(), "desk", history.TellingKey{}, 10)
	require.NoError(t, err)
	assert.False(t, owed[0].GivenUp)

	gone := notify.NewQueue(func(context.Context) (notify.Record, error) { return nil, away }, "/")
	_, err = gone.Due(t.Context(), noon(), noon(), 1)
	require.ErrorIs(t, err, away)
	require.ErrorIs(t, gone.Disable(t.Context(), "desk", "410"), away)
}

func TestEveryKindThatIsToldHasAName(t *testing.T) {
	seen := map[string]bool{}
	for _, kind := range history.ToldKinds() {
		name := notify.TypeOf(kind)
		assert.Regexp(t, `^glossladder\.job\.[a-z_]+$`, name)
		seen[name] = true
	}
	assert.Len(t, seen, len(history.ToldKinds()))
	assert.Empty(t, notify.TypeOf(history.KindReadings))
}

func TestSecretsChangeOver(t *testing.T) {
	var l history.Listener
	first, second := notify.Rotate(&l), notify.Rotate(&l)
	assert.Equal(t, []string{string(second), string(first)}, l.Secrets)
	third := notify.Rotate(&l)
	assert.Equal(t, []string{string(third), string(second)}, l.Secrets)
	notify.Retire(&l)
	assert.Equal(t, []string{string(third)}, l.Secrets)
	notify.Retire(&l)
	assert.Len(t, l.Secrets, 1)
}

func TestAChangeThatIsRefusedChangesNothing(t *testing.T) {
	store, _ := kept(t)
	no := errors.New("no")
	_, err := notify.Change(t.Context(), store, "desk", 0, func(l *history.Listener) error { l.URL = "https://elsewhere.example/"; return no })
	require.ErrorIs(t, err, no)
	l, err := notify.Find(t.Context(), store, "desk")
	require.NoError(t, err)
	assert.Equal(t, "https://booking.example/", l.URL)
}

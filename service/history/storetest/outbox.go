package storetest

import (
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
)

func aListener(id string) history.Listener {
	return history.Listener{
		ID: id, Revision: 1, URL: "https://" + id + ".example/hooks?shop=1", Secrets: []string{"whsec_new", "whsec_old"}, AllowPrivate: true, CreatedAt: minutes(0),
	}
}

func addListener(t *testing.T, store history.Store, id string) {
	t.Helper()
	require.NoError(t, store.AddListener(t.Context(), aListener(id)))
}

// lent lends what is due far in the future, so that every wait is over.
func lent(t *testing.T, store history.Store) []history.Telling {
	t.Helper()
	out, err := store.Due(t.Context(), minutes(10_000), minutes(20_000), 100)
	require.NoError(t, err)
	return out
}

func sequencesOf(tellings []history.Telling) []int64 {
	var out []int64
	for _, each := range tellings {
		out = append(out, each.Sequence)
	}
	return out
}

func listenerComesBack(t *testing.T, store history.Store) {
	addListener(t, store, "b")
	addListener(t, store, "a")
	var taken *history.ExistsError
	require.ErrorAs(t, store.AddListener(t.Context(), aListener("a")), &taken)
	all, err := store.Listeners(t.Context())
	require.NoError(t, err)
	assert.Equal(t, []history.Listener{aListener("a"), aListener("b")}, all)

	changed := aListener("a")
	changed.Revision = 2
	changed.URL, changed.Secrets, changed.AllowPrivate, changed.Stopped = "https://new.example/", []string{"whsec_x"}, false, "it wants no more"
	require.NoError(t, store.ChangeListener(t.Context(), changed, 1))
	require.NoError(t, store.RemoveListener(t.Context(), "b", 1))
	all, err = store.Listeners(t.Context())
	require.NoError(t, err)
	assert.Equal(t, []history.Listener{changed}, all)

	var missing *history.NotFoundError
	require.ErrorAs(t, store.RemoveListener(t.Context(), "b", 0), &missing)
	require.ErrorAs(t, store.RemoveListener(t.Context(), "b", 1), &missing)
	require.ErrorAs(t, store.ChangeListener(t.Context(), aListener("b"), 1), &missing)
}

// listenerIsNotOverwritten holds that who knows an earlier revision changes and removes nothing, and is told the one on record; and
// that of many who write at once over the same revision one does.
func listenerIsNotOverwritten(t *testing.T, store history.Store) {
	addListener(t, store, "a")
	second := aListener("a")
	second.Revision, second.URL = 2, "https://second.example/"
	require.NoError(t, store.ChangeListener(t.Context(), second, 1))
	late := aListener("a")
	late.Revision, late.URL = 2, "https://late.example/"
	for _, err := range []error{store.ChangeListener(t.Context(), late, 1), store.RemoveListener(t.Context(), "a", 1), store.RemoveListener(t.Context(), "a", 3)} {
		var stale *history.ConflictError
		require.ErrorAs(t, err, &stale)
		assert.Equal(t, "listener", stale.What)
		assert.EqualValues(t, 2, stale.Have)
	}
	all, err := store.Listeners(t.Context())
	require.NoError(t, err)
	assert.Equal(t, []history.Listener{second}, all)

	var won atomic.Int32
	var writers sync.WaitGroup
	for i := range 8 {
		writers.Go(func() {
			mine := aListener("a")
			mine.Revision, mine.URL = 3, "https://writer-"+string(rune('a'+i))+".example/"
			var stale *history.ConflictError
			if err := store.ChangeListener(t.Context(), mine, 2); err == nil {
				won.Add(1)
			} else {
				assert.ErrorAs(t, err, &stale)
			}
		})
	}
	writers.Wait()
	assert.EqualValues(t, 1, won.Load())
	require.NoError(t, store.RemoveListener(t.Context(), "a", 0), "whatever it is")
}

// owedComesInPages holds that pages follow each other without gap or overlap, also when something was told meanwhile.
func owedComesInPages(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	addListener(t, store, "a")
	addListener(t, store, "other")
	for _, id := range []string{"Cabin", "job-10", "job-9", "zoo"} {
		mustAppend(t, store, batch(id, 0, booked(), note("one"), note("two")))
	}
	all, err := store.Owed(t.Context(), "a", history.TellingKey{}, 100)
	require.NoError(t, err)
	require.Len(t, all, 12)
	for size := 1; size <= 13; size++ {
		var paged []history.Telling
		var after history.TellingKey
		for {
			page, err := store.Owed(t.Context(), "a", after, size)
			require.NoError(t, err)
			require.LessOrEqual(t, len(page), size)
			if len(page) == 0 {
				break
			}
			paged = append(paged, page...)
			last := page[len(page)-1]
			after = history.TellingKey{Job: last.Job, Sequence: last.Sequence}
		}
		require.Equal(t, all, paged, "pages of %d", size)
	}
	require.NoError(t, store.Told(t.Context(), all[4]))
	rest, err := store.Owed(t.Context(), "a", history.TellingKey{Job: all[4].Job, Sequence: all[4].Sequence}, 100)
	require.NoError(t, err)
	assert.Equal(t, all[5:], rest, "the place stays when what stood there is gone")
	last := all[len(all)-1]
	none, err := store.Owed(t.Context(), "a", history.TellingKey{Job: last.Job, Sequence: last.Sequence}, 100)
	require.NoError(t, err)
	assert.Empty(t, none)
}

// eventsAreOwed holds that every listener of the moment is owed every event of a told kind, and no other, also while it is
// stopped.
func eventsAreOwed(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	mustAppend(t, store, batch("job", 0, booked()))
	addListener(t, store, "a")
	stopped := aListener("s")
	stopped.Stopped = "paused"
	require.NoError(t, store.AddListener(t.Context(), stopped))
	next := int64(1)
	for _, body := range everyBody() {
		if body.Kind() == history.KindBooked {
			continue
		}
		mustAppend(t, store, batch("job", next, body))
		next++
	}
	owed, err := store.Owed(t.Context(), "a", history.TellingKey{}, 100)
	require.NoError(t, err)
	var kinds []history.Kind
	for _, each := range owed {
		kinds = append(kinds, each.Kind)
		assert.Equal(t, aListener("a"), each.Listener)
		assert.Equal(t, "job", each.Job)
	}
	assert.ElementsMatch(t, history.ToldKinds()[1:], kinds, "the first came before the listener")
	owed, err = store.Owed(t.Context(), "s", history.TellingKey{}, 100)
	require.NoError(t, err)
	assert.Len(t, owed, len(kinds), "who is stopped is owed it too, and told once it goes on")
	for _, each := range lent(t, store) {
		assert.Equal(t, "a", each.Listener.ID, "and meanwhile is told nothing")
	}
}

// toldInOrder holds that of one job only the first is due, that jobs do not wait for each other, and that what is lent is not
// lent twice.
func toldInOrder(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	addListener(t, store, "a")
	mustAppend(t, store, batch("job", 0, booked(), note("one"), note("two")))
	mustAppend(t, store, batch("other", 0, booked()))

	before, err := store.Due(t.Context(), minutes(-1), minutes(5), 100)
	require.NoError(t, err)
	assert.Empty(t, before, "before their time")

	first, err := store.Due(t.Context(), minutes(100), minutes(200), 100)
	require.NoError(t, err)
	require.Equal(t, []int64{1, 1}, sequencesOf(first))
	again, err := store.Due(t.Context(), minutes(100), minutes(200), 100)
	require.NoError(t, err)
	assert.Empty(t, again, "lent to somebody")
	back, err := store.Due(t.Context(), minutes(200), minutes(300), 100)
	require.NoError(t, err)
	assert.Len(t, back, 2, "whoever had them is gone")

	for _, each := range back {
		require.NoError(t, store.Told(t.Context(), each))
	}
	second := lent(t, store)
	require.Equal(t, []int64{2}, sequencesOf(second))
	require.NoError(t, store.TellLater(t.Context(), second[0], minutes(30_000), "answered 500"))
	assert.Empty(t, lent(t, store), "a try in vain holds up what is behind it")

	owed, err := store.Owed(t.Context(), "a", history.TellingKey{}, 100)
	require.NoError(t, err)
	require.Equal(t, []int64{2, 3}, sequencesOf(owed))
	assert.Equal(t, 1, owed[0].Tries)
	assert.Equal(t, "answered 500", owed[0].Why)
	assert.Equal(t, minutes(30_000), owed[0].DueAt)

	require.NoError(t, store.GiveUp(t.Context(), owed[0], "answered 500 too often"))
	third := lent(t, store)
	require.Equal(t, []int64{3}, sequencesOf(third), "what is given up holds up nothing")
	n, err := store.TellAgain(t.Context(), "a", minutes(0))
	require.NoError(t, err)
	assert.EqualValues(t, 1, n)
	assert.Equal(t, []int64{2}, sequencesOf(lent(t, store)))

	stopped := aListener("a")
	stopped.Stopped = "it wants no more"
	stopped.Revision = 2
	require.NoError(t, store.ChangeListener(t.Context(), stopped, 1))
	none, err := store.Due(t.Context(), minutes(90_000), minutes(90_001), 100)
	require.NoError(t, err)
	assert.Empty(t, none)
	require.NoError(t, store.RemoveListener(t.Context(), "a", 2))
	owed, err = store.Owed(t.Context(), "a", history.TellingKey{}, 100)
	require.NoError(t, err)
	assert.Empty(t, owed)
}

// lentOnce holds that several who ask at once get each telling once.
func lentOnce(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	addListener(t, store, "a")
	const jobs = 40
	for i := range jobs {
		mustAppend(t, store, batch("job-"+string(rune('a'+i%20))+string(rune('a'+i/20)), 0, booked()))
	}
	var mu sync.Mutex
	seen := map[string]int{}
	var all sync.WaitGroup
	for range 6 {
		all.Go(func() {
			for idle := 0; idle < 3; {
				got, err := store.Due(t.Context(), minutes(100), minutes(100).Add(time.Hour), 5)
				if !assert.NoError(t, err) {
					return
				}
				if len(got) == 0 {
					idle++
				}
				mu.Lock()
				for _, each := range got {
					seen[each.Job]++
				}
				mu.Unlock()
			}
		})
	}
	all.Wait()
	assert.Len(t, seen, jobs)
	for job, n := range seen {
		assert.Equal(t, 1, n, job)
	}
}

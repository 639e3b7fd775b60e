package storetest

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
)

func eventComesBack(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	b := batch("job", 0, booked(), note("a"), note("b"))
	b.Events[0].HappenedAt = minutes(-600)
	b.Events[1].Document = document()
	b.Events[2].RequestID = "r1"
	b.After.BookedFor, b.After.Notes = minutes(90), "b"
	mustAppend(t, store, b)
	assert.Equal(t, b.Events, allEvents(t, store))

	got, err := store.Job(t.Context(), "job")
	require.NoError(t, err)
	assert.Equal(t, b.After, got)

	_, err = store.Job(t.Context(), "other")
	assert.Equal(t, &history.NotFoundError{What: "job", ID: "other"}, err)
	_, err = store.Events(t.Context(), "other", 0, 10)
	assert.Equal(t, &history.NotFoundError{What: "job", ID: "other"}, err)
}

func everyBodyComesBack(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	bodies := everyBody()
	mustAppend(t, store, batch("job", 0, bodies...))
	events := allEvents(t, store)
	require.Len(t, events, len(bodies))
	for i, e := range events {
		assert.Equal(t, bodies[i], e.Body, "%s", bodies[i].Kind())
	}
}

func eventSequence(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	mustAppend(t, store, batch("job", 0, booked()))
	_, err := store.Append(t.Context(), batch("job", 0, booked()))
	assert.Equal(t, &history.ExistsError{What: "job", ID: "job"}, err)
	mustAppend(t, store, batch("job", 1, note("first")))
	_, err = store.Append(t.Context(), batch("job", 1, note("second")))
	assert.Equal(t, &history.ConflictError{What: "job", ID: "job", Expected: 1, Have: 2}, err)
	_, err = store.Append(t.Context(), batch("job", 7, note("far ahead")))
	assert.Equal(t, &history.ConflictError{What: "job", ID: "job", Expected: 7, Have: 2}, err)
	_, err = store.Append(t.Context(), batch("other", 1, note("nowhere")))
	assert.Equal(t, &history.NotFoundError{What: "job", ID: "other"}, err)

	events := allEvents(t, store)
	require.Len(t, events, 2)
	assert.Equal(t, note("first"), events[1].Body)
}

func batchIsWhole(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	mustAppend(t, store, batch("job", 0, booked()))
	b := batch("job", 1, note("a"), note("b"), note("c"))
	b.Events[2].Sequence = 2 // no store keeps two events in one place
	_, err := store.Append(t.Context(), b)
	require.Error(t, err)
	assert.Len(t, allEvents(t, store), 1, "nothing of a batch that failed is there")
	outside, err := store.Job(t.Context(), "job")
	require.NoError(t, err)
	assert.Equal(t, int64(1), outside.Sequence)
}

func jobNeedsVehicle(t *testing.T, store history.Store) {
	_, err := store.Append(t.Context(), batch("job", 0, booked()))
	assert.Equal(t, &history.NotFoundError{What: "vehicle", ID: "car"}, err)
	_, err = store.Job(t.Context(), "job")
	assert.Equal(t, &history.NotFoundError{What: "job", ID: "job"}, err)
}

func request(scope, id, print string) history.Request {
	return history.Request{Scope: scope, ID: id, Print: print}
}

func requestRepeated(t *testing.T, store history.Store) {
	v := aVehicle("car")
	made := request("vehicles", "r0", "p")
	_, err := store.SaveVehicle(t.Context(), v, 0, made)
	require.NoError(t, err)
	earlier, err := store.SaveVehicle(t.Context(), v, 0, made)
	require.NoError(t, err)
	assert.Equal(t, &history.Receipt{Request: made, Target: "car", First: 1, Last: 1}, earlier)

	b := batch("job", 0, booked())
	b.Request = request("jobs", "r1", "p")
	mustAppend(t, store, b)
	b = batch("job", 1, note("a"), note("b"))
	b.Request = request("jobs/job", "r1", "q")
	mustAppend(t, store, b)
	mustAppend(t, store, batch("job", 3, note("c")))

	want := &history.Receipt{Request: b.Request, Target: "job", First: 2, Last: 3}
	for _, expected := range []int64{1, 4} {
		again := batch("job", expected, note("a"), note("b"))
		again.Request = b.Request
		earlier, err = store.Append(t.Context(), again)
		require.NoError(t, err)
		assert.Equal(t, want, earlier, "sent again at %d", expected)
	}
	// A call that makes a job and is sent again may come with another id made up for it.
	again := batch("job-2", 0, booked())
	again.Request = request("jobs", "r1", "p")
	earlier, err = store.Append(t.Context(), again)
	require.NoError(t, err)
	assert.Equal(t, "job", earlier.Target)
	assert.Len(t, allEvents(t, store), 4)

	found, err := store.Receipt(t.Context(), "jobs/job", "r1")
	require.NoError(t, err)
	assert.Equal(t, want, found)
	found, err = store.Receipt(t.Context(), "jobs/job", "R1")
	require.NoError(t, err)
	assert.Nil(t, found)
}

func requestReused(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	b := batch("job", 0, booked())
	b.Request = request("jobs", "r1", "p")
	mustAppend(t, store, b)
	b = batch("job-2", 0, booked())
	b.Request = request("jobs", "r1", "another")
	_, err := store.Append(t.Context(), b)
	assert.Equal(t, &history.RequestReusedError{ID: "r1"}, err)
}

func requestAfterFailure(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	mustAppend(t, store, batch("job", 0, booked()))
	b := batch("job", 5, note("a"))
	b.Request = request("jobs/job", "r1", "p")
	_, err := store.Append(t.Context(), b)
	require.Error(t, err)
	b = batch("job", 1, note("a"))
	b.Request = request("jobs/job", "r1", "p")
	mustAppend(t, store, b)
}

func idsAreExact(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	for _, id := range []string{"car ", "Car", "cAr", " car", "cár"} {
		_, err := store.Vehicle(t.Context(), id)
		assert.Equal(t, &history.NotFoundError{What: "vehicle", ID: id}, err)
		saveVehicle(t, store, id)
	}
	all, err := store.ListVehicles(t.Context(), history.VehicleQuery{Limit: 100})
	require.NoError(t, err)
	assert.Len(t, all, 6)
}

func eventPages(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	mustAppend(t, store, batch("job", 0, booked(), note("2"), note("3"), note("4"), note("5")))
	for _, row := range []struct {
		after int64
		limit int
		want  []int64
	}{{0, 2, []int64{1, 2}}, {2, 2, []int64{3, 4}}, {4, 2, []int64{5}}, {5, 2, nil}, {9, 2, nil}} {
		events, err := store.Events(t.Context(), "job", row.after, row.limit)
		require.NoError(t, err)
		var got []int64
		for _, e := range events {
			got = append(got, e.Sequence)
		}
		assert.Equal(t, row.want, got, "after %d", row.after)
	}
}

// scan collects "job/sequence/kind" of a scan.
func scan(t *testing.T, store history.Store, query history.ScanQuery, most int) []string {
	t.Helper()
	var got []string
	for e, err := range store.Scan(t.Context(), query) {
		require.NoError(t, err)
		got = append(got, fmt.Sprintf("%s/%d/%s", e.Job, e.Sequence, e.Body.Kind()))
		if len(got) == most {
			break
		}
	}
	return got
}

func scanKinds(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	for _, job := range []string{"b", "a-1", "a"} {
		b := batch(job, 0, booked(), note("x"))
		b.Events[1].Document = document()
		mustAppend(t, store, b)
	}
	all := []string{"a/1/booked", "a/2/details", "a-1/1/booked", "a-1/2/details", "b/1/booked", "b/2/details"}
	assert.Equal(t, all, scan(t, store, history.ScanQuery{}, 0))
	assert.Equal(t, []string{"a/2/details", "a-1/2/details", "b/2/details"}, scan(t, store, history.ScanQuery{Kinds: []history.Kind{history.KindDetails, history.KindPlan}}, 0))
	for _, with := range []bool{true, false} {
		for e, err := range store.Scan(t.Context(), history.ScanQuery{Kinds: []history.Kind{history.KindDetails}, Documents: with}) {
			require.NoError(t, err)
			if with {
				assert.Equal(t, document(), e.Document)
			} else {
				assert.Nil(t, e.Document)
			}
		}
	}
}

func scanLean(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	bodies := everyBody()
	mustAppend(t, store, batch("a", 0, bodies...))
	i := 0
	for e, err := range store.Scan(t.Context(), history.ScanQuery{Lean: true}) {
		require.NoError(t, err)
		want := bodies[i]
		if d, ok := want.(*history.Decision); ok {
			require.NotEmpty(t, d.Sheets)
			lean := *d
			lean.Sheets = nil
			want = &lean
		}
		assert.Equal(t, want, e.Body)
		i++
	}
	assert.Equal(t, len(bodies), i)
}

func scanLeftEarly(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	mustAppend(t, store, batch("a", 0, booked(), note(strings.Repeat("x", 1000)), note("y")))
	mustAppend(t, store, batch("b", 0, booked()))
	// More loops than any pool has connections: each must give its own back.
	for range 200 {
		require.Equal(t, []string{"a/1/booked"}, scan(t, store, history.ScanQuery{}, 1))
	}
	assert.Equal(t, []string{"a/3/details", "b/1/booked"}, scan(t, store, history.ScanQuery{AfterJob: "a", AfterSequence: 2}, 0))
}

func ruleSetKept(t *testing.T, store history.Store) {
	require.NoError(t, store.KeepRuleSet(t.Context(), "h1", []byte("as it was \"first\"\n"), minutes(0)))
	require.NoError(t, store.KeepRuleSet(t.Context(), "h1", []byte(`other`), minutes(1)))
	files, err := store.RuleSet(t.Context(), "h1")
	require.NoError(t, err)
	assert.Equal(t, "as it was \"first\"\n", string(files), "letter by letter")
	_, err = store.RuleSet(t.Context(), "h2")
	assert.Equal(t, &history.NotFoundError{What: "rule set", ID: "h2"}, err)
}

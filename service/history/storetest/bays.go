package storetest

import (
	"context"
	"errors"
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
)

// bay is bay time from minute to minute.
func bay(id string, ends ...int) *history.Bay {
	out := &history.Bay{ID: id}
	for i := 0; i+1 < len(ends); i += 2 {
		out.Blocks = append(out.Blocks, history.BayBlock{Piece: "polish", Start: minutes(ends[i]), End: minutes(ends[i+1])})
	}
	return out
}

func claimed(b history.Batch, claim history.Claim) history.Batch {
	b.Claim = &claim
	return b
}

// heldIn is what a bay's diary has after a minute: "spring 60-90".
func heldIn(t *testing.T, store history.Store, id string, since int) []string {
	t.Helper()
	diary, err := store.Diary(t.Context(), id, minutes(since))
	require.NoError(t, err)
	require.Equal(t, id, diary.Bay)
	var out []string
	for _, h := range diary.Held {
		require.Equal(t, time.UTC, h.Start.Location())
		out = append(out, fmt.Sprintf("%s %g-%g", h.Job, h.Start.Sub(minutes(0)).Minutes(), h.End.Sub(minutes(0)).Minutes()))
	}
	return out
}

func diaryIsWhatJobsHold(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	assert.Empty(t, heldIn(t, store, "bay-1", 0))
	mustAppend(t, store, claimed(batch("spring", 0, booked()), history.Claim{Bay: bay("bay-1", 60, 90, 120, 180)}))
	mustAppend(t, store, claimed(batch("autumn", 0, booked()), history.Claim{Bay: bay("bay-1", 90, 120), Seen: 1}))
	mustAppend(t, store, claimed(batch("winter", 0, booked()), history.Claim{Bay: bay("bay-10", 60, 90)}))
	assert.Equal(t, []string{"spring 60-90", "autumn 90-120", "spring 120-180"}, heldIn(t, store, "bay-1", 0))
	assert.Equal(t, []string{"autumn 90-120", "spring 120-180"}, heldIn(t, store, "bay-1", 90), "what has ended is past")
	assert.Equal(t, []string{"winter 60-90"}, heldIn(t, store, "bay-10", 0))

	mustAppend(t, store, batch("spring", 1, note("called")))
	assert.Len(t, heldIn(t, store, "bay-1", 0), 3, "a batch without a claim leaves bay time alone")
	mustAppend(t, store, claimed(batch("spring", 2, note("moved")), history.Claim{Bay: bay("bay-10", 90, 100), Seen: 1}))
	assert.Equal(t, []string{"autumn 90-120"}, heldIn(t, store, "bay-1", 0))
	assert.Equal(t, []string{"winter 60-90", "spring 90-100"}, heldIn(t, store, "bay-10", 0))
	mustAppend(t, store, claimed(batch("spring", 3, note("off")), history.Claim{}))
	assert.Equal(t, []string{"winter 60-90"}, heldIn(t, store, "bay-10", 0))
}

func claimsNeedTheRevisionSeen(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	conflict := func(b history.Batch) *history.ConflictError {
		_, err := store.Append(t.Context(), b)
		var out *history.ConflictError
		require.ErrorAs(t, err, &out)
		return out
	}
	assert.Equal(t, &history.ConflictError{What: "bay", ID: "bay-1", Expected: 3},
		conflict(claimed(batch("spring", 0, booked()), history.Claim{Bay: bay("bay-1", 0, 60), Seen: 3})))
	_, err := store.Job(t.Context(), "spring")
	require.Equal(t, &history.NotFoundError{What: "job", ID: "spring"}, err, "what claims too late is not stored")

	first := claimed(batch("spring", 0, booked()), history.Claim{Bay: bay("bay-1", 0, 60)})
	first.Request = history.Request{Scope: "jobs", ID: "r", Print: "p"}
	mustAppend(t, store, first)
	for _, seen := range []int64{0, 2} {
		assert.Equal(t, &history.ConflictError{What: "bay", ID: "bay-1", Expected: seen, Have: 1},
			conflict(claimed(batch("autumn", 0, booked()), history.Claim{Bay: bay("bay-1", 60, 90), Seen: seen})))
	}
	assert.Equal(t, []string{"spring 0-60"}, heldIn(t, store, "bay-1", 0))
	mustAppend(t, store, claimed(batch("autumn", 0, booked()), history.Claim{Bay: bay("bay-1", 0, 90), Unseen: true}))
	assert.Equal(t, []string{"autumn 0-90", "spring 0-60"}, heldIn(t, store, "bay-1", 0))
	diary, err := store.Diary(t.Context(), "bay-1", minutes(0))
	require.NoError(t, err)
	assert.Equal(t, int64(2), diary.Revision, "what is booked unseen is seen by others")

	earlier, err := store.Append(t.Context(), first)
	require.NoError(t, err, "a repeated request is known, whatever came into the bay since")
	assert.Equal(t, "spring", earlier.Target)
	stale := claimed(batch("spring", 5, note("late")), history.Claim{Bay: bay("bay-1", 0, 60), Seen: 2})
	assert.Equal(t, "job", conflict(stale).What)
	assert.Equal(t, []string{"autumn 0-90", "spring 0-60"}, heldIn(t, store, "bay-1", 0))
}

func bookRefusesWhatIsTaken(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	book := history.NewBook(store)
	ask := func(overlap bool) history.Entry { return history.Entry{Now: noon(), Overlap: overlap} }
	create := func(job string, at *history.Bay, entry history.Entry) error {
		_, err := book.Create(t.Context(), job, history.Booked{Vehicle: "car", Details: history.Details{Label: job, Bay: at}}, entry)
		return err
	}
	record := func(job string, body history.Body, entry history.Entry) error {
		_, err := book.Record(t.Context(), job, entry, only(history.Draft{Body: body}))
		return err
	}
	require.NoError(t, create("spring", bay("bay-1", 60, 90, 90, 120, 150, 180), ask(false)))
	require.NoError(t, create("autumn", bay("bay-1", 120, 130), ask(false)), "between two is free")
	taken := &history.BayTakenError{Bay: "bay-1", Free: minutes(180), InTheWay: []history.Held{
		{Job: "spring", Start: minutes(90), End: minutes(120)}, {Job: "autumn", Start: minutes(120), End: minutes(130)},
	}}
	require.Equal(t, taken, create("winter", bay("bay-1", 100, 125), ask(false)))
	tried := ask(false)
	tried.TryOnly = true
	require.Equal(t, taken, create("winter", bay("bay-1", 100, 125), tried), "a try is told as well")
	require.NoError(t, create("winter", nil, ask(false)))
	require.Equal(t, taken, record("winter", &history.Details{Bay: bay("bay-1", 100, 125)}, ask(false)))
	require.NoError(t, record("winter", &history.Details{Bay: bay("bay-2", 100, 125)}, ask(false)), "another bay is free")
	require.NoError(t, record("spring", &history.Details{Bay: bay("bay-1", 65, 119)}, ask(false)), "a job is not in its own way")

	require.NoError(t, record("winter", &history.Details{Bay: bay("bay-1", 100, 125)}, ask(true)))
	require.NoError(t, record("winter", &history.Details{Label: "late", Bay: bay("bay-1", 100, 125)}, ask(false)), "what stays is not asked again")
	require.NoError(t, record("winter", &history.Details{}, ask(false)))
	assert.Equal(t, []string{"spring 65-119", "autumn 120-130"}, heldIn(t, store, "bay-1", 0))

	require.NoError(t, record("spring", &history.Cancelled{}, ask(false)))
	assert.Equal(t, []string{"autumn 120-130"}, heldIn(t, store, "bay-1", 0), "a job that is off frees its time")
	require.NoError(t, record("winter", &history.Details{Bay: bay("bay-1", 60, 70)}, ask(false)))
	back := &history.Correction{Sequence: 3, Why: "the wrong job"}
	var late *history.BayTakenError
	require.ErrorAs(t, record("spring", back, ask(false)), &late, "its time is somebody else's now")
	assert.Equal(t, "winter", late.InTheWay[0].Job)
	require.NoError(t, record("spring", back, ask(true)))
	assert.Equal(t, []string{"winter 60-70", "spring 65-119", "autumn 120-130"}, heldIn(t, store, "bay-1", 0))
}

func oneOfManyGetsTheTime(t *testing.T, store history.Store) { OneGetsTheTime(t, store, store) }

// OneGetsTheTime books the same hour many times at once through several stores of one database: one gets it, whether jobs are made
// with it or get it later.
func OneGetsTheTime(t *testing.T, stores ...history.Store) {
	t.Helper()
	const many = 24
	saveVehicle(t, stores[0], "car")
	for _, row := range []struct {
		bay  string
		book func(book *history.Book, job string) error
	}{
		{"made", func(book *history.Book, job string) error {
			_, err := book.Create(t.Context(), job, history.Booked{Vehicle: "car", Details: history.Details{Bay: bay("made", 0, 60)}}, history.Entry{Now: noon()})
			return err
		}},
		{"later", func(book *history.Book, job string) error {
			if _, err := book.Create(t.Context(), job, history.Booked{Vehicle: "car"}, history.Entry{Now: noon()}); err != nil {
				return err
			}
			_, err := book.Record(t.Context(), job, history.Entry{Now: noon(), RequestID: job}, only(history.Draft{Body: &history.Details{Bay: bay("later", 30, 90)}}))
			return err
		}},
	} {
		errs := atOnce(many, func(i int) error {
			return row.book(history.NewBook(stores[i%len(stores)]), fmt.Sprintf("%s-%d", row.bay, i))
		})
		won := 0
		for _, err := range errs {
			var taken *history.BayTakenError
			if err == nil {
				won++
				continue
			}
			require.ErrorAs(t, err, &taken)
			require.Len(t, taken.InTheWay, 1)
		}
		assert.Equal(t, 1, won, "%s", row.bay)
		assert.Len(t, heldIn(t, stores[0], row.bay, 0), 1)
	}
}

func manyAreLaidApart(t *testing.T, store history.Store) { LaidApart(t, store, store) }

// LaidApart lays the work of many jobs into one bay at once, each into the first time that it finds free: each gets a time of its
// own, without a gap.
func LaidApart(t *testing.T, stores ...history.Store) {
	t.Helper()
	const many = 20
	saveVehicle(t, stores[0], "car")
	for i := range many {
		bookJob(t, stores[0], fmt.Sprintf("job-%d", i), minutes(0), nil)
	}
	errs := atOnce(many, func(i int) error {
		store, job := stores[i%len(stores)], fmt.Sprintf("job-%d", i)
		_, err := history.NewBook(store).Record(t.Context(), job, history.Entry{Now: noon()}, func(*history.Job) ([]history.Draft, error) {
			diary, err := store.Diary(t.Context(), "bay-1", minutes(0))
			if err != nil {
				return nil, err
			}
			return []history.Draft{{Body: &history.Details{Bay: bay("bay-1", 10*len(diary.Held), 10*len(diary.Held)+10)}, Diary: diary}}, nil
		})
		return err
	})
	require.NoError(t, errors.Join(errs...))
	diary, err := stores[0].Diary(t.Context(), "bay-1", minutes(0))
	require.NoError(t, err)
	require.Len(t, diary.Held, many)
	for i, h := range diary.Held {
		require.Equal(t, minutes(10*i), h.Start)
	}
}

// BookedBefore holds a store of the shape before bays had diaries against what it becomes. Again closes the store, runs statements
// on its database and opens it.
func BookedBefore(t *testing.T, store history.Store, again func(statements ...string) history.Store) {
	t.Helper()
	saveVehicle(t, store, "car")
	book := history.NewBook(store)
	record := func(job string, bodies ...history.Body) {
		for _, body := range bodies {
			_, err := book.Record(t.Context(), job, history.Entry{Now: noon(), Overlap: true}, only(history.Draft{Body: body}))
			require.NoError(t, err)
		}
	}
	for _, job := range []string{"moved", "off", "none", "back", "fine"} {
		_, err := book.Create(t.Context(), job, history.Booked{Vehicle: "car", Details: history.Details{Bay: bay("bay-1", 0, 60, 70, 80)}},
			history.Entry{Now: noon(), Overlap: true})
		require.NoError(t, err)
	}
	record("moved", &history.Details{Bay: bay("bay-2", 5, 6)}, &history.Inspection{Panels: []history.PanelFound{{ID: "roof", Substrate: "steel"}}})
	record("off", &history.Cancelled{})
	record("none", &history.Details{Label: "no bay"})
	record("back", &history.Cancelled{}, &history.Correction{Sequence: 2, Why: "wrong job"})
	exact := &history.Bay{ID: "bay-2", Blocks: []history.BayBlock{{Piece: "polish", Start: minutes(0).Add(time.Microsecond), End: minutes(1).Truncate(time.Second)}}}
	record("fine", &history.Details{Bay: exact})
	diaries := func(from history.Store) (out []history.Held) {
		for _, id := range []string{"bay-1", "bay-2"} {
			diary, err := from.Diary(context.WithoutCancel(t.Context()), id, time.Time{}.AddDate(1, 0, 0))
			require.NoError(t, err)
			require.Positive(t, diary.Revision)
			out = append(out, diary.Held...)
		}
		return out
	}
	want := diaries(store)
	require.Len(t, want, 4)
	opened := again("drop table bay_holds", "drop table bays", "delete from goose_db_version where version_id >= 9")
	assert.Equal(t, want, diaries(opened))
}

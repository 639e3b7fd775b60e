package storetest

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
)

func jobIDs(jobs []history.Listed) []string {
	var out []string
	for _, j := range jobs {
		out = append(out, j.ID)
	}
	return out
}

func jobsNewestFirst(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	for id, at := range map[string]int{"a": 3, "b": 1, "c": 2, "d": 2, "e": 2} {
		bookJob(t, store, id, minutes(at), nil)
	}
	jobs, err := store.ListJobs(t.Context(), history.JobQuery{Limit: 100})
	require.NoError(t, err)
	assert.Equal(t, []string{"a", "e", "d", "c", "b"}, jobIDs(jobs))
	jobs, err = store.ListJobs(t.Context(), history.JobQuery{Limit: 2})
	require.NoError(t, err)
	assert.Equal(t, []string{"a", "e"}, jobIDs(jobs))
}

func jobsByVehicleLabel(t *testing.T, store history.Store) {
	car, van := saveVehicle(t, store, "car"), saveVehicle(t, store, "van")
	bookJob(t, store, "of-car", minutes(1), nil)
	bookJob(t, store, "of-van", minutes(2), func(s *history.Summary) { s.Vehicle = "van" })
	called := func() (out []string) {
		jobs, err := store.ListJobs(t.Context(), history.JobQuery{Limit: 100, Stages: []history.Stage{history.StageBooked}})
		require.NoError(t, err)
		for _, j := range jobs {
			out = append(out, j.ID+" "+j.VehicleLabel)
		}
		return out
	}
	assert.Equal(t, []string{"of-van " + van.Label, "of-car " + car.Label}, called())
	renamed := car
	renamed.Label, renamed.Revision = "Green estate car", car.Revision+1
	_, err := store.SaveVehicle(t.Context(), renamed, car.Revision, history.Request{})
	require.NoError(t, err)
	assert.Equal(t, []string{"of-van " + van.Label, "of-car Green estate car"}, called())
}

func jobPages(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	for i := range 25 {
		bookJob(t, store, fmt.Sprintf("j%02d", i), minutes(i/4), nil) // several at the same time
	}
	query := history.JobQuery{Limit: 4}
	var seen []string
	for n := 0; ; n++ {
		page, err := store.ListJobs(t.Context(), query)
		require.NoError(t, err)
		seen = append(seen, jobIDs(page)...)
		if len(page) < query.Limit {
			break
		}
		last := page[len(page)-1]
		query.After = &history.JobKey{CreatedAt: last.CreatedAt, ID: last.ID}
		bookJob(t, store, fmt.Sprintf("new-%d", n), minutes(100+n), nil) // newer than what was seen: not on later pages
	}
	require.Len(t, seen, 25)
	for i, id := range seen {
		assert.Equal(t, fmt.Sprintf("j%02d", 24-i), id)
	}
}

func jobFilters(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	saveVehicle(t, store, "van")
	stages := history.Stages()
	for i := range 16 {
		bookJob(t, store, fmt.Sprintf("j%02d", i), minutes(i), func(s *history.Summary) {
			s.Stage = stages[i%len(stages)]
			if i >= 8 {
				s.Vehicle = "van"
			}
		})
	}
	for name, row := range map[string]struct {
		query history.JobQuery
		want  []string
	}{
		"one vehicle":           {history.JobQuery{Vehicle: "car"}, []string{"j07", "j06", "j05", "j04", "j03", "j02", "j01", "j00"}},
		"one stage":             {history.JobQuery{Stages: []history.Stage{history.StageInWork}}, []string{"j12", "j04"}},
		"two stages, merged":    {history.JobQuery{Stages: []history.Stage{history.StageBooked, history.StageInWork}}, []string{"j12", "j08", "j04", "j00"}},
		"vehicle and stage":     {history.JobQuery{Vehicle: "van", Stages: []history.Stage{history.StageBooked, history.StageTrial}}, []string{"j10", "j08"}},
		"after a place":         {history.JobQuery{Stages: []history.Stage{history.StageBooked, history.StageInWork}, After: &history.JobKey{CreatedAt: minutes(8), ID: "j08"}}, []string{"j04", "j00"}},
		"a vehicle without any": {history.JobQuery{Vehicle: "other"}, nil},
	} {
		row.query.Limit = 100
		jobs, err := store.ListJobs(t.Context(), row.query)
		require.NoError(t, err)
		assert.Equal(t, row.want, jobIDs(jobs), name)
		row.query.Limit = 1
		jobs, err = store.ListJobs(t.Context(), row.query)
		require.NoError(t, err)
		assert.Equal(t, row.want[:min(1, len(row.want))], append([]string(nil), jobIDs(jobs)...), "%s, one only", name)
	}
}

func outsideFitsEvents(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	book := history.NewBook(store)
	_, err := book.Create(t.Context(), "job", history.Booked{Vehicle: "car", Details: history.Details{Label: "l", BookedFor: minutes(7)}}, history.Entry{Now: noon()})
	require.NoError(t, err)
	for i, draft := range visit() {
		_, err := book.Record(t.Context(), "job", history.Entry{Now: noon().Add(minute(i))}, only(draft))
		require.NoError(t, err)
		outside, err := store.Job(t.Context(), "job")
		require.NoError(t, err)
		job, err := book.Job(t.Context(), "job")
		require.NoError(t, err)
		require.Equal(t, job.Summary, outside, "after %s", draft.Body.Kind())
	}
}

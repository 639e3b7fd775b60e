package storetest

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/film"
	"github.com/glossladder/glossladder/service/history"
)

func minute(n int) time.Duration { return time.Duration(n) * time.Minute }

// only records one draft whatever the job.
func only(draft history.Draft) func(*history.Job) ([]history.Draft, error) {
	return func(*history.Job) ([]history.Draft, error) { return []history.Draft{draft}, nil }
}

// visit is what is recorded in one visit after its booking: bonnet and roof are inspected, finish is tried on the bonnet and
// accepted, both are worked. Finish is expected to take 0 to 0.5 µm.
func visit() []history.Draft {
	expected := []history.StepExpected{{Step: "finish", Removal: history.Removal{LikelyUm: 0.2, HighUm: 0.5}}}
	return []history.Draft{
		{Body: &history.Inspection{Panels: []history.PanelFound{{ID: "bonnet", Substrate: "steel"}, {ID: "roof", Substrate: "steel"}}}, Document: document()},
		{Body: &history.Decision{RuleSet: "h1", Panels: []history.PanelDecided{
			{Panel: "bonnet", Ladder: "finish", Steps: expected}, {Panel: "roof", Ladder: "finish", Steps: expected},
		}}},
		{Body: &history.Trial{Panel: "bonnet", Step: "finish"}},
		{Body: &history.Decision{RuleSet: "h1", Trial: 4, Panels: []history.PanelDecided{{
			Panel: "bonnet", Ladder: "finish", Proven: true, Verdict: "accept", Taken: &history.Taken{Removal: history.Removal{LikelyUm: 0.2, HighUm: 0.5}},
		}}}},
		{Body: &history.Plan{Panels: []history.PlannedPanel{{Panel: "bonnet", Ladder: "finish"}, {Panel: "roof", Ladder: "finish"}}}},
		{Body: &history.Progress{Panel: "bonnet", Step: "finish", State: history.Done, TestSectionSpared: true}},
		{Body: &history.Progress{Panel: "roof", Step: "finish", State: history.UnderWay}},
		{Body: &history.Progress{Panel: "roof", Step: "finish", State: history.Done}},
		{Body: &history.Finished{}},
		{Body: &history.HandedOver{}},
	}
}

// recordVisit books a job and records a whole visit in it.
func recordVisit(t *testing.T, book *history.Book, id string, from time.Time) {
	t.Helper()
	_, err := book.Create(t.Context(), id, history.Booked{Vehicle: "car"}, history.Entry{Now: from})
	require.NoError(t, err)
	for i, draft := range visit() {
		_, err := book.Record(t.Context(), id, history.Entry{Now: from.Add(minute(i + 1))}, only(draft))
		require.NoError(t, err, "%s", draft.Body.Kind())
	}
}

func bookOnStore(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	book := history.NewBook(store)
	recordVisit(t, book, "first", noon())
	job, err := book.Job(t.Context(), "first")
	require.NoError(t, err)
	assert.Equal(t, history.StageHandedOver, job.Stage)
	assert.Equal(t, document(), job.Panel("roof").FoundDocument)
	assert.Equal(t, "accept", job.Panel("bonnet").Verdict.Verdict)
	_, err = book.Record(t.Context(), "first", history.Entry{Now: noon()}, only(history.Draft{Body: &history.Trial{Panel: "roof", Step: "finish"}}))
	var stage *history.StageError
	require.ErrorAs(t, err, &stage)
	assert.Equal(t, "job first is handed over: nothing more is recorded in it, except corrections; book a new job for the vehicle", err.Error())
}

func clockSetBack(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	book := history.NewBook(store)
	_, err := book.Create(t.Context(), "job", history.Booked{Vehicle: "car"}, history.Entry{Now: noon()})
	require.NoError(t, err)
	for _, clock := range []time.Duration{time.Hour, -24 * time.Hour, 2 * time.Minute, 2 * time.Hour} {
		_, err := book.Record(t.Context(), "job", history.Entry{Now: noon().Add(clock)}, only(history.Draft{Body: note(clock.String())}))
		require.NoError(t, err)
	}
	events := allEvents(t, store)
	require.Len(t, events, 5, "nothing is lost")
	var notes []string
	for i, e := range events[1:] {
		assert.False(t, e.RecordedAt.Before(events[i].RecordedAt), "event %d", e.Sequence)
		details, ok := e.Body.(*history.Details)
		require.True(t, ok)
		notes = append(notes, details.Notes)
	}
	assert.Equal(t, []string{"1h0m0s", "-24h0m0s", "2m0s", "2h0m0s"}, notes, "in the order in which they were recorded")
	assert.Equal(t, minutes(60), events[2].RecordedAt, "time stands still until the clock has caught up")
	assert.Equal(t, minutes(120), events[4].RecordedAt)
}

func lifeOnStore(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	book := history.NewBook(store)
	recordVisit(t, book, "first", noon())
	recordVisit(t, book, "second", noon().AddDate(1, 0, 0))
	lives, err := book.Life(t.Context(), "car", "")
	require.NoError(t, err)
	require.Len(t, lives, 2)
	// The bonnet's test section was spared, so no place of it lost more than one finish a visit.
	assert.InDelta(t, 1.0, float64(lives[0].Taken.HighUm), 1e-9)
	assert.InDelta(t, 0.4, float64(lives[1].Taken.LikelyUm), 1e-9)
	assert.False(t, lives[0].Incomplete)
	require.Len(t, lives[0].Visits, 2)
	assert.Equal(t, "first", lives[0].Visits[0].Job)

	before, err := book.Life(t.Context(), "car", "second")
	require.NoError(t, err)
	assert.InDelta(t, 0.5, float64(before[0].Taken.HighUm), 1e-9)
	assert.IsType(t, film.Removal{}, before[0].Taken)
}

func bookTriesAndRepeats(t *testing.T, store history.Store) {
	saveVehicle(t, store, "car")
	book := history.NewBook(store)
	made, err := book.Create(t.Context(), "job", history.Booked{Vehicle: "car"}, history.Entry{Now: noon(), TryOnly: true})
	require.NoError(t, err)
	assert.Equal(t, history.StageBooked, made.Job.Stage, "as if recorded")
	_, err = book.Job(t.Context(), "job")
	assert.Equal(t, &history.NotFoundError{What: "job", ID: "job"}, err)
	_, err = book.Create(t.Context(), "job", history.Booked{Vehicle: "van"}, history.Entry{Now: noon()})
	assert.Equal(t, &history.NotFoundError{What: "vehicle", ID: "van"}, err)

	recordVisit(t, book, "job", noon())
	again := history.Entry{Now: noon().Add(time.Hour), RequestID: "r", Print: "p"}
	withdraw := only(history.Draft{Body: &history.Correction{Sequence: 11, Why: "the owner came back"}})
	first, err := book.Record(t.Context(), "job", again, withdraw)
	require.NoError(t, err)
	assert.Equal(t, history.StageFinished, first.Job.Stage)
	_, err = book.Record(t.Context(), "job", history.Entry{Now: noon().Add(time.Hour)}, only(history.Draft{Body: &history.HandedOver{}}))
	require.NoError(t, err)

	// What came of it is asked before what is allowed: the job has moved on, and the answer is still that of the first time.
	second, err := book.Record(t.Context(), "job", again, func(*history.Job) ([]history.Draft, error) {
		t.Error("a request that was done is not decided again")
		return nil, nil
	})
	require.NoError(t, err)
	assert.True(t, second.Before)
	assert.Equal(t, first.Events, second.Events)
	assert.Equal(t, history.StageHandedOver, second.Job.Stage, "with the job as it stands now")

	again.Print = "another"
	_, err = book.Record(t.Context(), "job", again, withdraw)
	assert.Equal(t, &history.RequestReusedError{ID: "r"}, err)
	_, err = book.Record(t.Context(), "job", history.Entry{Now: noon(), Expected: 11}, withdraw)
	assert.Equal(t, &history.ConflictError{What: "job", ID: "job", Expected: 11, Have: 13}, err)
	_, err = book.Record(t.Context(), "other", history.Entry{Now: noon()}, withdraw)
	assert.Equal(t, &history.NotFoundError{What: "job", ID: "other"}, err)
}

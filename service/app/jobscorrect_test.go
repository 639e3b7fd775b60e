package app_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	v1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

func corrected(t *testing.T, jobs v1.JobServiceClient, c *v1.Correction) *v1.RecordResponse {
	t.Helper()
	done, err := jobs.CorrectEvent(t.Context(), &v1.CorrectEventRequest{Name: "jobs/spring", Correction: c})
	require.NoError(t, err)
	return done
}

func TestACorrectedTrialIsJudgedAgain(t *testing.T) {
	jobs := keeper(t)
	estate(t, jobs, "spring")
	inspected(t, jobs, nil)
	done, err := jobs.RecordTrial(t.Context(), &v1.RecordTrialRequest{Name: "jobs/spring", Trial: tried("bonnet", 2)})
	require.NoError(t, err)
	assert.NotEqual(t, v1.VerdictKind_VERDICT_KIND_ACCEPT, done.GetJob().GetPanels()[0].GetVerdict().GetKind())
	_, err = jobs.RecordPlan(t.Context(), &v1.RecordPlanRequest{Name: "jobs/spring"})
	assert.Equal(t, codes.FailedPrecondition, status.Code(err))
	assert.ErrorContains(t, err, "the trials on panel bonnet have proven no ladder yet")

	done = corrected(t, jobs, &v1.Correction{Sequence: 4, Why: "2 was before the trial", Instead: &v1.Correction_Trial{Trial: tried("bonnet", 0)}})
	require.Len(t, done.GetEvents(), 3)
	assert.Equal(t, "2 was before the trial", done.GetEvents()[0].GetCorrection().GetWhy())
	assert.NotNil(t, done.GetEvents()[1].GetDecision().GetRecommendation())
	verdict := done.GetEvents()[2].GetDecision()
	assert.Equal(t, int64(4), verdict.GetTrial(), "it speaks of the trial, not of its correction")
	assert.True(t, done.GetJob().GetPanels()[0].GetVerdict().GetProven())
	events := eventsOf(t, jobs, "jobs/spring")
	assert.Equal(t, int64(6), events[3].GetCorrectedBy())
	assert.InDelta(t, 2, events[3].GetTrial().GetTrial().GetLeft()[0].GetSeverity(), 1e-9, "what was recorded first stays")
}

func TestACorrectedInspectionIsAdvisedOnAgain(t *testing.T) {
	jobs := keeper(t)
	estate(t, jobs, "spring")
	first := inspected(t, jobs, nil)
	before := first.GetJob().GetPanels()[0].GetAdvice().GetFilm().GetUsableUm()
	thin := found("bonnet", "roof")
	thin.Panels[0].Film = around(96)
	done := corrected(t, jobs, &v1.Correction{Sequence: 2, Why: "another car's", Instead: &v1.Correction_Inspection{Inspection: thin}})
	require.Len(t, done.GetEvents(), 2)
	assert.Less(t, done.GetJob().GetPanels()[0].GetAdvice().GetFilm().GetUsableUm(), before)

	withdrawn := corrected(t, jobs, &v1.Correction{Sequence: 2, Why: "another car"})
	assert.Len(t, withdrawn.GetEvents(), 1, "nothing is left to advise on")
	assert.Empty(t, withdrawn.GetJob().GetPanels())
	assert.Equal(t, v1.JobStage_JOB_STAGE_BOOKED, withdrawn.GetJob().GetStage())
}

func TestAJobThatIsDoneIsCorrectedWithoutNewAdvice(t *testing.T) {
	jobs := keeper(t)
	estate(t, jobs, "spring")
	visited(t, jobs, "jobs/spring")
	done := corrected(t, jobs, &v1.Correction{Sequence: 4, Why: "8 minutes", Instead: &v1.Correction_Trial{Trial: tried("bonnet", 0)}})
	assert.Len(t, done.GetEvents(), 1)
	back := corrected(t, jobs, &v1.Correction{Sequence: 12, Why: "the owner came back"})
	assert.Equal(t, v1.JobStage_JOB_STAGE_FINISHED, back.GetJob().GetStage())
	_, err := jobs.CorrectEvent(t.Context(), &v1.CorrectEventRequest{Name: "jobs/spring", Correction: &v1.Correction{Sequence: 6, Why: "no plan"}})
	assert.Equal(t, codes.FailedPrecondition, status.Code(err))
	assert.ErrorContains(t, err, "rests on what would be corrected")
}

func TestReadingsFromBeforeTheWorkAskForAdviceAgain(t *testing.T) {
	jobs := keeper(t)
	estate(t, jobs, "spring")
	first := inspected(t, jobs, nil)
	rough := &v1.RecordReadingsRequest{Name: "jobs/spring", Readings: []*v1.Readings{
		{PanelId: "bonnet", Time: v1.ReadingsTime_READINGS_TIME_BEFORE, Film: []*v1.FilmSpot{{Spot: "centre", TotalUm: []float64{101, 101.2, 101.1}}}},
	}}
	done, err := jobs.RecordReadings(t.Context(), rough)
	require.NoError(t, err)
	assert.Nil(t, done.GetJob().GetPanels()[0].GetAdvice(), "it rests on other readings")
	assert.NotNil(t, done.GetJob().GetPanels()[1].GetAdvice())
	_, err = jobs.RecordPlan(t.Context(), &v1.RecordPlanRequest{Name: "jobs/spring"})
	assert.ErrorContains(t, err, "no advice that still holds is on record for panel bonnet; ask for advice")

	done, err = jobs.Advise(t.Context(), &v1.AdviseRequest{Name: "jobs/spring"})
	require.NoError(t, err)
	advice := done.GetJob().GetPanels()[0].GetAdvice()
	require.NotNil(t, advice)
	assert.Less(t, advice.GetFilm().GetUsableUm(), first.GetJob().GetPanels()[0].GetAdvice().GetFilm().GetUsableUm())
	assert.Len(t, advice.GetFilm().GetSpots(), 2, "the other spot counts as it was")
}

func TestPanelsReadWithOtherInstrumentsAreAdvisedOnApart(t *testing.T) {
	jobs := keeper(t)
	estate(t, jobs, "spring")
	inspected(t, jobs, nil)
	coarse := found("wing")
	coarse.Goal = nil
	coarse.Instruments = &v1.Instruments{FilmGauge: &v1.FilmGauge{AccuracyUm: with(5.0)}}
	done, err := jobs.RecordInspection(t.Context(), &v1.RecordInspectionRequest{Name: "jobs/spring", Inspection: coarse})
	require.NoError(t, err)
	require.Len(t, done.GetEvents(), 3, "the inspection, and advice for either gauge")
	panels := done.GetJob().GetPanels()
	require.Len(t, panels, 3)
	assert.Less(t, panels[2].GetAdvice().GetFilm().GetUsableUm(), panels[0].GetAdvice().GetFilm().GetUsableUm(), "a gauge that may be further off allows less")
	assert.InDelta(t, panels[0].GetAdvice().GetAllowedSeverity(), panels[2].GetAdvice().GetAllowedSeverity(), 1e-9, "the owner's goal holds for all of it")
}

func TestAJobThatEndsEarlyTakesNothingMore(t *testing.T) {
	jobs := keeper(t)
	estate(t, jobs, "spring")
	inspected(t, jobs, nil)
	done, err := jobs.CancelJob(t.Context(), &v1.CancelJobRequest{Name: "jobs/spring", Closing: &v1.Closing{Note: "sold"}})
	require.NoError(t, err)
	assert.Equal(t, v1.JobStage_JOB_STAGE_CANCELLED, done.GetJob().GetStage())
	assert.Equal(t, "sold", done.GetEvents()[0].GetCancelled().GetNote())
	_, err = jobs.RecordReadings(t.Context(), readings(nil, 20))
	assert.Equal(t, codes.FailedPrecondition, status.Code(err))
	assert.ErrorContains(t, err, "book a new job for the vehicle")
}

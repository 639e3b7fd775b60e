package app_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/types/known/timestamppb"

	v1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/app"
)

func TestMeasuredAreasOnRecordAreReckonedWith(t *testing.T) { measuredAreas(t, app.Options{}) }

func TestMeasuredAreasOnRecordInPostgreSQL(t *testing.T) {
	measuredAreas(t, app.Options{Data: databaseURL(t)})
}

// areas gives panels and their areas as a plan brings them.
func areas(m2 map[string]float64) *v1.MeasuredAreas {
	out := &v1.MeasuredAreas{}
	for _, id := range []string{"bonnet", "roof", "wing"} {
		if m2[id] > 0 {
			out.Areas = append(out.Areas, &v1.PanelArea{PanelId: id, AreaM2: m2[id]})
		}
	}
	return out
}

func measuredAreas(t *testing.T, opts app.Options) {
	conn, _ := served(t, opts)
	jobs, planner, bookings := v1.NewJobServiceClient(conn), v1.NewPlanServiceClient(conn), v1.NewBookingServiceClient(conn)
	ctx := t.Context()
	estate(t, jobs, "spring")
	_, err := jobs.RecordInspection(ctx, &v1.RecordInspectionRequest{Name: "jobs/spring", Inspection: found("bonnet", "roof")})
	require.NoError(t, err)
	settle := func(plan *v1.Plan) (*v1.Job, error) {
		done, err := jobs.RecordPlan(ctx, &v1.RecordPlanRequest{Name: "jobs/spring", Plan: plan})
		return done.GetJob(), err
	}
	planned := func(ask *v1.PlanJobRequest) *v1.WorkPlan {
		ask.Job = "jobs/spring"
		got, err := planner.PlanJob(ctx, ask)
		require.NoError(t, err)
		return got.GetPlan()
	}
	areaOf := func(plan *v1.WorkPlan, id string) (float64, string) {
		for _, p := range plan.GetPanels() {
			if p.GetPanelId() == id {
				return p.GetAreaM2().GetHigh(), p.GetAreaSource()
			}
		}
		return 0, "no such panel"
	}
	holds := func(plan *v1.WorkPlan, id string, m2 float64, source string) {
		t.Helper()
		got, from := areaOf(plan, id)
		assert.InDelta(t, m2, got, 0, id)
		assert.Equal(t, source, from, id)
	}
	byRules := planned(&v1.PlanJobRequest{})
	ofRules, source := areaOf(byRules, "roof")

	job, err := settle(&v1.Plan{Measured: areas(map[string]float64{"bonnet": 2.6}), Crew: &v1.Crew{People: with(int32(2)), DayHours: with(6.0)}})
	require.NoError(t, err)
	assert.Equal(t, v1.Ladder_LADDER_FINISH, job.GetPanels()[0].GetLadder(), "a plan without panels takes what is advised")
	assert.InDelta(t, 2.6, job.GetPanels()[0].GetAreaM2(), 0)
	assert.Nil(t, job.GetPanels()[1].AreaM2)
	read, err := jobs.GetJob(ctx, &v1.GetJobRequest{Name: "jobs/spring"})
	require.NoError(t, err)
	assert.True(t, proto.Equal(job, read), "it is read as it was answered")
	assert.Equal(t, int32(2), read.GetCrew().GetPeople())
	events, err := jobs.ListJobEvents(ctx, &v1.ListJobEventsRequest{Parent: "jobs/spring"})
	require.NoError(t, err)
	last := events.GetEvents()[len(events.GetEvents())-1].GetPlan()
	assert.True(t, proto.Equal(areas(map[string]float64{"bonnet": 2.6}), last.GetMeasured()))
	assert.InDelta(t, 6, last.GetCrew().GetDayHours(), 0)

	plan := planned(&v1.PlanJobRequest{})
	holds(plan, "bonnet", 2.6, "measured")
	holds(plan, "roof", ofRules, source)
	holds(planned(&v1.PlanJobRequest{Areas: areas(map[string]float64{"roof": 1.7}).GetAreas()}), "bonnet", 2.6, "measured")
	holds(planned(&v1.PlanJobRequest{Areas: areas(map[string]float64{"bonnet": 2}).GetAreas()}), "bonnet", 2, "measured")
	alone := planned(&v1.PlanJobRequest{Crew: &v1.Crew{People: with(int32(1))}})
	assert.Greater(t, alone.GetExposure().GetHandsMin(), plan.GetExposure().GetHandsMin(), "the request's people, the record's day")
	fit, err := planner.FitHours(ctx, &v1.FitHoursRequest{Job: "jobs/spring", Fixed: &v1.FitHoursRequest_Hours{Hours: 50}})
	require.NoError(t, err)
	holds(fit.GetPlan(), "bonnet", 2.6, "measured")
	estimate := func() *v1.Estimate {
		got, err := planner.EstimateJob(ctx, &v1.EstimateJobRequest{Job: "jobs/spring"})
		require.NoError(t, err)
		return got.GetEstimate()
	}
	booked := func() time.Duration {
		done, err := bookings.BookBay(ctx, &v1.BookBayRequest{Name: "jobs/spring", Bay: "bay-1", What: &v1.BookBayRequest_Work{Work: &v1.BayWork{
			StartTime: timestamppb.New(time.Date(2026, 3, 30, 8, 0, 0, 0, berlin(t))),
		}}})
		require.NoError(t, err)
		var sum time.Duration
		for _, b := range done.GetJob().GetBay().GetBlocks() {
			sum += b.GetEndTime().AsTime().Sub(b.GetStartTime().AsTime())
		}
		return sum
	}
	large, long := estimate(), booked()

	job, err = settle(nil)
	require.NoError(t, err)
	assert.InDelta(t, 2.6, job.GetPanels()[0].GetAreaM2(), 0, "a plan that says no areas leaves those on record")
	job, err = settle(&v1.Plan{Measured: areas(map[string]float64{"bonnet": 1}), Crew: &v1.Crew{}})
	require.NoError(t, err)
	assert.Equal(t, int32(0), job.GetCrew().GetPeople(), "a crew that says nothing is one person again")
	assert.Greater(t, large.GetWorkMin().GetLikely(), estimate().GetWorkMin().GetLikely())
	one := booked()
	assert.NotEqual(t, long, one)
	_, err = settle(&v1.Plan{Measured: &v1.MeasuredAreas{}})
	require.NoError(t, err)
	plan = planned(&v1.PlanJobRequest{})
	holds(plan, "roof", ofRules, source)
	assert.True(t, proto.Equal(byRules.GetWorkMin(), plan.GetWorkMin()), "without areas it is what it was")

	_, err = settle(&v1.Plan{Measured: areas(map[string]float64{"wing": 1})})
	require.Equal(t, codes.FailedPrecondition, status.Code(err))
	require.ErrorContains(t, err, "wing")
	_, err = settle(&v1.Plan{Measured: areas(map[string]float64{"bonnet": 61}), Crew: &v1.Crew{People: with(int32(21))}})
	assert.ElementsMatch(t, []string{"plan.measured.areas[0].area_m2", "plan.crew.people"}, fieldsOf(t, err))
}

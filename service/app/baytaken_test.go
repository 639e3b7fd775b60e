package app_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/types/known/fieldmaskpb"

	v1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/app"
)

// takenBy is what a program is told of time that is taken.
func takenBy(t *testing.T, err error) map[string]string {
	t.Helper()
	st := status.Convert(err)
	require.Equal(t, codes.FailedPrecondition, st.Code(), "%v", err)
	require.Len(t, st.Details(), 1)
	info, ok := st.Details()[0].(*errdetails.ErrorInfo)
	require.True(t, ok)
	require.Equal(t, "BAY_TAKEN", info.GetReason())
	return info.GetMetadata()
}

// Every call that gives a job bay time refuses what another job holds, unless it says that this is meant.
func TestNoCallBooksABayTwice(t *testing.T) {
	conn, _ := served(t, app.Options{})
	jobs, bookings := v1.NewJobServiceClient(conn), v1.NewBookingServiceClient(conn)
	estate(t, jobs, "spring")
	booked(t, bookings, "bay-1", 27)
	zone := berlin(t)
	in := &v1.BayBooking{Bay: "bay-1", Blocks: []*v1.BayBlock{
		stretch("polish", time.Date(2026, 3, 30, 7, 30, 0, 0, zone), time.Date(2026, 3, 30, 9, 0, 0, 0, zone)),
	}}
	want := map[string]string{
		"bay": "bays/bay-1", "job": "jobs/spring", "start_time": "2026-03-30T06:00:00Z", "end_time": "2026-03-30T08:00:00Z",
		"free_time": "2026-03-30T08:00:00Z", "in_the_way": "1",
	}
	create := func(overlap bool) error {
		id := "created"
		_, err := jobs.CreateJob(t.Context(), &v1.CreateJobRequest{JobId: id, Job: &v1.Job{Vehicle: "vehicles/estate", Bay: in}, AllowOverlap: overlap})
		return err
	}
	_, err := jobs.CreateJob(t.Context(), &v1.CreateJobRequest{JobId: "summer", Job: &v1.Job{Vehicle: "vehicles/estate"}})
	require.NoError(t, err)
	update := func(overlap bool) error {
		_, err := jobs.UpdateJob(t.Context(), &v1.UpdateJobRequest{
			Job: &v1.Job{Name: "jobs/summer", Bay: in}, UpdateMask: &fieldmaskpb.FieldMask{Paths: []string{"bay"}}, AllowOverlap: overlap,
		})
		return err
	}
	book := func(overlap bool) error {
		_, err := bookings.BookBay(t.Context(), &v1.BookBayRequest{
			Name: "jobs/summer", Bay: in.GetBay(), AllowOverlap: overlap, What: &v1.BookBayRequest_Blocks{Blocks: &v1.BayBlocks{Blocks: in.GetBlocks()}},
		})
		return err
	}
	for name, call := range map[string]func(bool) error{"CreateJob": create, "UpdateJob": update, "BookBay": book} {
		assert.Equal(t, want, takenBy(t, call(false)), name)
	}
	_, err = jobs.GetJob(t.Context(), &v1.GetJobRequest{Name: "jobs/created"})
	assert.Equal(t, codes.NotFound, status.Code(err), "what was refused left nothing")
	for name, call := range map[string]func(bool) error{"CreateJob": create, "UpdateJob": update} {
		require.NoError(t, call(true), name)
	}

	// Other changes of a job that stands in a taken bay are nobody's concern.
	_, err = jobs.UpdateJob(t.Context(), &v1.UpdateJobRequest{Job: &v1.Job{Name: "jobs/summer", Label: "late"}})
	require.NoError(t, err)
	_, err = jobs.CancelJob(t.Context(), &v1.CancelJobRequest{Name: "jobs/spring"})
	require.NoError(t, err)
	assert.Equal(t, "jobs/created", takenBy(t, func() error {
		_, err := jobs.UpdateJob(t.Context(), &v1.UpdateJobRequest{
			Job: &v1.Job{Name: "jobs/summer", Bay: &v1.BayBooking{Bay: "bay-1", Blocks: []*v1.BayBlock{stretch("polish", time.Date(2026, 3, 30, 8, 0, 0, 0, zone), time.Date(2026, 3, 30, 8, 30, 0, 0, zone))}}},
		})
		return err
	}())["job"], "the cancelled job is in nobody's way")
}

// A job is planned by its record over the wire as well, and what is wrong with the record is told by the panel.
func TestAJobIsPlannedByItsRecord(t *testing.T) {
	conn, _ := served(t, app.Options{})
	jobs, planner := v1.NewJobServiceClient(conn), v1.NewPlanServiceClient(conn)
	estate(t, jobs, "spring")
	_, err := planner.PlanJob(t.Context(), &v1.PlanJobRequest{Job: "jobs/spring"})
	require.Equal(t, codes.FailedPrecondition, status.Code(err))
	require.ErrorContains(t, err, "inspect the vehicle first")
	_, err = planner.PlanJob(t.Context(), &v1.PlanJobRequest{Job: "jobs/summer"})
	require.Equal(t, codes.NotFound, status.Code(err))

	door := &v1.Panel{
		Id: "door", Part: v1.PanelPart_PANEL_PART_DOOR, Substrate: v1.Substrate_SUBSTRATE_STEEL, Clean: new(true), Paint: &v1.Paint{System: v1.PaintSystem_PAINT_SYSTEM_CLEAR_COAT},
		Defects: []*v1.Defect{{Kind: v1.DefectKind_DEFECT_KIND_WASH_MARKS}},
	}
	_, err = jobs.RecordInspection(t.Context(), &v1.RecordInspectionRequest{Name: "jobs/spring", Inspection: &v1.Inspection{Panels: []*v1.Panel{door}}})
	require.NoError(t, err)
	_, err = planner.FitHours(t.Context(), &v1.FitHoursRequest{Job: "jobs/spring", Fixed: &v1.FitHoursRequest_Hours{Hours: 5}})
	require.Equal(t, codes.FailedPrecondition, status.Code(err))
	require.ErrorContains(t, err, "what is on record of it cannot be planned: panel door, defects[0].severity: the marks are not graded")

	plan := func(areas ...*v1.PanelArea) *v1.WorkPlan {
		got, err := planner.PlanJob(t.Context(), &v1.PlanJobRequest{
			Job: "jobs/spring", Areas: areas, Ladders: []*v1.ChosenLadder{{PanelId: "door", Ladder: v1.Ladder_LADDER_FINISH}},
		})
		require.NoError(t, err)
		return got.GetPlan()
	}
	assert.Equal(t, v1.Ladder_LADDER_FINISH, plan().GetPanels()[0].GetLadder(), "the request's ladder goes first")
	assert.InDelta(t, 2.5, plan(&v1.PanelArea{PanelId: "door", AreaM2: 2.5}).GetPanels()[0].GetAreaM2().GetHigh(), 0)
	_, err = planner.PlanJob(t.Context(), &v1.PlanJobRequest{Job: "jobs/spring", Ladders: []*v1.ChosenLadder{{PanelId: "roof", Ladder: v1.Ladder_LADDER_FINISH}}})
	require.Equal(t, codes.InvalidArgument, status.Code(err), fmt.Sprint(err))
	require.ErrorContains(t, err, `ladders[0].panel_id: "roof" is not a panel`)
}

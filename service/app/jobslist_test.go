package app_test

import (
	"fmt"
	"io"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/proto"

	v1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

func TestListsComePageByPage(t *testing.T) {
	jobs, ctx := keeper(t), t.Context()
	for n := range 5 {
		_, err := jobs.CreateVehicle(ctx, &v1.CreateVehicleRequest{
			VehicleId: fmt.Sprint("car-", n), Vehicle: &v1.VehicleRecord{Label: fmt.Sprint([]string{"Blue", "blue", "White"}[n%3], " car ", n, " (invented)")},
		})
		require.NoError(t, err)
		_, err = jobs.CreateJob(ctx, &v1.CreateJobRequest{JobId: fmt.Sprint("job-", n), Job: &v1.Job{Vehicle: fmt.Sprint("vehicles/car-", n%2)}})
		require.NoError(t, err)
	}
	var vehicles []string
	ask := &v1.ListVehiclesRequest{PageSize: 2, LabelPrefix: "BLUE"}
	for {
		page, err := jobs.ListVehicles(ctx, ask)
		require.NoError(t, err)
		for _, v := range page.GetVehicles() {
			vehicles = append(vehicles, v.GetName())
		}
		if page.GetNextPageToken() == "" {
			break
		}
		assert.Len(t, page.GetVehicles(), 2)
		ask.PageToken = page.GetNextPageToken()
	}
	assert.Equal(t, []string{"vehicles/car-0", "vehicles/car-1", "vehicles/car-3", "vehicles/car-4"}, vehicles, "by label, capitals or not; the last page is full and the last")

	first, err := jobs.ListJobs(ctx, &v1.ListJobsRequest{PageSize: 2, Vehicle: "vehicles/car-0"})
	require.NoError(t, err)
	require.Len(t, first.GetJobs(), 2)
	assert.Equal(t, "jobs/job-4", first.GetJobs()[0].GetName(), "the newest first")
	assert.Equal(t, "Blue car 0 (invented)", first.GetJobs()[0].GetVehicleLabel())
	for _, view := range []v1.JobView{v1.JobView_JOB_VIEW_BASIC, v1.JobView_JOB_VIEW_FULL} {
		job, err := jobs.GetJob(ctx, &v1.GetJobRequest{Name: "jobs/job-4", View: view})
		require.NoError(t, err)
		assert.Equal(t, "Blue car 0 (invented)", job.GetVehicleLabel(), view)
	}
	rest, err := jobs.ListJobs(ctx, &v1.ListJobsRequest{PageSize: 2, Vehicle: "vehicles/car-0", PageToken: first.GetNextPageToken()})
	require.NoError(t, err)
	require.Len(t, rest.GetJobs(), 1)
	assert.Empty(t, rest.GetNextPageToken())
	_, err = jobs.ListJobs(ctx, &v1.ListJobsRequest{PageToken: first.GetNextPageToken()})
	assert.Equal(t, codes.InvalidArgument, status.Code(err))
	assert.ErrorContains(t, err, "was given for another question")
	none, err := jobs.ListJobs(ctx, &v1.ListJobsRequest{Stages: []v1.JobStage{v1.JobStage_JOB_STAGE_IN_WORK}})
	require.NoError(t, err)
	assert.Empty(t, none.GetJobs())
}

func TestEventsComePageByPage(t *testing.T) {
	jobs := keeper(t)
	estate(t, jobs, "spring")
	visited(t, jobs, "jobs/spring")
	var seen []*v1.JobEvent
	ask := &v1.ListJobEventsRequest{Parent: "jobs/spring", PageSize: 5}
	for {
		page, err := jobs.ListJobEvents(t.Context(), ask)
		require.NoError(t, err)
		seen = append(seen, page.GetEvents()...)
		if page.GetNextPageToken() == "" {
			break
		}
		ask.PageToken = page.GetNextPageToken()
	}
	require.Len(t, seen, 12)
	for i, e := range eventsOf(t, jobs, "jobs/spring") {
		assert.True(t, proto.Equal(e, seen[i]), "event %d", i+1)
	}
}

// exported is every line of a job.
func exported(t *testing.T, jobs v1.JobServiceClient, job string) (lines []string) {
	t.Helper()
	stream, err := jobs.ExportJob(t.Context(), &v1.ExportJobRequest{Name: job})
	require.NoError(t, err)
	for {
		m, err := stream.Recv()
		if err == io.EOF { //nolint:errorlint // as the stream's contract says
			return lines
		}
		require.NoError(t, err)
		lines = append(lines, m.GetLine())
	}
}

func imported(t *testing.T, jobs v1.JobServiceClient, lines []string) (*v1.ImportJobResponse, error) {
	t.Helper()
	stream, err := jobs.ImportJob(t.Context())
	require.NoError(t, err)
	for _, line := range lines {
		if stream.Send(&v1.ImportJobRequest{Line: line}) != nil {
			break // the answer says why
		}
	}
	return stream.CloseAndRecv()
}

func TestAnExportedJobIsTheSameElsewhere(t *testing.T) {
	here, there := keeper(t), keeper(t)
	estate(t, here, "spring")
	visited(t, here, "jobs/spring")
	lines := exported(t, here, "jobs/spring")
	took, err := imported(t, there, lines)
	require.NoError(t, err)
	assert.Equal(t, int64(12), took.GetAddedEvents())
	assert.True(t, took.GetVehicleMade())
	assert.Equal(t, lines, exported(t, there, "jobs/spring"))
	same, err := there.GetJob(t.Context(), &v1.GetJobRequest{Name: "jobs/spring"})
	require.NoError(t, err)
	original, err := here.GetJob(t.Context(), &v1.GetJobRequest{Name: "jobs/spring"})
	require.NoError(t, err)
	assert.True(t, proto.Equal(original, same))
	again, err := imported(t, there, lines)
	require.NoError(t, err)
	assert.Zero(t, again.GetAddedEvents())

	_, err = imported(t, keeper(t), lines[:len(lines)-1])
	assert.Equal(t, codes.InvalidArgument, status.Code(err))
	assert.ErrorContains(t, err, "breaks off here")
	forged := append([]string{}, lines...)
	forged[2] = `{"rule_set":{"hash":"` + took.GetJob().GetPanels()[0].GetVerdict().GetRuleSet() + `","files":"{\"text\":{\"start.yaml\":\"other rules\"}}"}}`
	_, err = imported(t, keeper(t), forged)
	assert.Equal(t, codes.InvalidArgument, status.Code(err))
	assert.ErrorContains(t, err, "has other files than it had")
}

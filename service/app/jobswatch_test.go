package app_test

import (
	"io"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	v1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/app"
)

// watching follows a job.
func watching(t *testing.T, jobs v1.JobServiceClient, job string, after int64) v1.JobService_WatchJobClient {
	t.Helper()
	stream, err := jobs.WatchJob(t.Context(), &v1.WatchJobRequest{Name: job, AfterSequence: after})
	require.NoError(t, err)
	return stream
}

// hears takes events until the watch has caught up, and gives their sequence numbers and the stage.
func hears(t *testing.T, stream v1.JobService_WatchJobClient) (seen []int64, stage v1.JobStage) {
	t.Helper()
	for {
		m, err := stream.Recv()
		require.NoError(t, err)
		if m.GetEvent() == nil {
			return seen, m.GetStage()
		}
		seen = append(seen, m.GetEvent().GetSequence())
	}
}

func TestAWatchTellsWhatHappenedAndWhatHappens(t *testing.T) {
	jobs := keeper(t)
	estate(t, jobs, "spring")
	stream := watching(t, jobs, "jobs/spring", 0)
	seen, stage := hears(t, stream)
	assert.Equal(t, []int64{1}, seen)
	assert.Equal(t, v1.JobStage_JOB_STAGE_BOOKED, stage)
	inspected(t, jobs, nil)
	seen, stage = hears(t, stream)
	assert.Equal(t, []int64{2, 3}, seen)
	assert.Equal(t, v1.JobStage_JOB_STAGE_INSPECTED, stage)
	_, err := jobs.RecordReadings(t.Context(), readings(nil, 21))
	require.NoError(t, err)
	seen, _ = hears(t, stream)
	assert.Equal(t, []int64{4}, seen)
}

func TestAWatchResumesFromTheLastNumberSeenAndEndsWithTheJob(t *testing.T) {
	jobs := keeper(t)
	estate(t, jobs, "spring")
	done := visited(t, jobs, "jobs/spring")
	stream := watching(t, jobs, "jobs/spring", 9)
	for _, want := range []v1.JobStage{v1.JobStage_JOB_STAGE_IN_WORK, v1.JobStage_JOB_STAGE_FINISHED, v1.JobStage_JOB_STAGE_HANDED_OVER} {
		m, err := stream.Recv()
		require.NoError(t, err)
		assert.Equal(t, want, m.GetStage(), "the stage after each event")
	}
	_, err := stream.Recv()
	assert.ErrorIs(t, err, io.EOF, "the job is handed over")

	_, err = watching(t, jobs, "jobs/spring", done.GetLastSequence()+1).Recv()
	assert.Equal(t, codes.InvalidArgument, status.Code(err))
	_, err = watching(t, jobs, "jobs/summer", 0).Recv()
	assert.Equal(t, codes.NotFound, status.Code(err))
	_, err = watching(t, jobs, "spring", 0).Recv()
	assert.Equal(t, codes.InvalidArgument, status.Code(err))
	_, err = watching(t, jobs, "jobs/spring", -1).Recv()
	assert.Equal(t, codes.InvalidArgument, status.Code(err), "the contract's bounds hold for streams too")
}

func TestAWatchHearsWhatAnotherProgramRecords(t *testing.T) {
	opts := app.Options{Data: filepath.Join(t.TempDir(), "jobs.db")}
	here, there := v1.NewJobServiceClient(dial(t, opts)), v1.NewJobServiceClient(dial(t, opts))
	estate(t, here, "spring")
	stream := watching(t, here, "jobs/spring", 1)
	hears(t, stream)
	inspected(t, there, nil)
	seen, _ := hears(t, stream)
	assert.Equal(t, []int64{2, 3}, seen)
}

func TestAServiceThatStopsEndsItsWatches(t *testing.T) {
	a, err := app.New(app.Options{Data: filepath.Join(t.TempDir(), "jobs.db")})
	require.NoError(t, err)
	conn, err := a.Dial()
	require.NoError(t, err)
	defer func() { assert.NoError(t, conn.Close()) }()
	jobs := v1.NewJobServiceClient(conn)
	estate(t, jobs, "spring")
	stream := watching(t, jobs, "jobs/spring", 0)
	hears(t, stream)
	require.NoError(t, a.Close())
	_, err = stream.Recv()
	assert.Equal(t, codes.Unavailable, status.Code(err))
	assert.ErrorContains(t, err, "watch again from the last sequence number")
}

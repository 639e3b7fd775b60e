package app_test

import (
	"fmt"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/types/known/fieldmaskpb"

	v1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

func inspected(t *testing.T, jobs v1.JobServiceClient, entry *v1.Entry) *v1.RecordResponse {
	t.Helper()
	done, err := jobs.RecordInspection(t.Context(), &v1.RecordInspectionRequest{Name: "jobs/spring", Entry: entry, Inspection: found("bonnet", "roof")})
	require.NoError(t, err)
	return done
}

func eventsOf(t *testing.T, jobs v1.JobServiceClient, job string) []*v1.JobEvent {
	t.Helper()
	page, err := jobs.ListJobEvents(t.Context(), &v1.ListJobEventsRequest{Parent: job, PageSize: 1000})
	require.NoError(t, err)
	return page.GetEvents()
}

func readings(entry *v1.Entry, panelC float64) *v1.RecordReadingsRequest {
	return &v1.RecordReadingsRequest{Name: "jobs/spring", Entry: entry, Readings: []*v1.Readings{
		{PanelId: "bonnet", Time: v1.ReadingsTime_READINGS_TIME_BEFORE, PanelC: &panelC},
	}}
}

func TestACallThatIsSentAgainDoublesNothing(t *testing.T) {
	jobs := keeper(t)
	estate(t, jobs, "spring")
	inspected(t, jobs, &v1.Entry{RequestId: "one"})
	first, err := jobs.RecordReadings(t.Context(), readings(&v1.Entry{RequestId: "two"}, 21))
	require.NoError(t, err)
	assert.Equal(t, "two", first.GetEvents()[0].GetRequestId())

	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			again, err := jobs.RecordReadings(t.Context(), readings(&v1.Entry{RequestId: "two", Etag: first.GetJob().GetEtag()}, 21))
			if assert.NoError(t, err) {
				assert.True(t, proto.Equal(first.GetEvents()[0], again.GetEvents()[0]), "the events of the first time")
			}
		})
	}
	all.Wait()
	assert.Len(t, eventsOf(t, jobs, "jobs/spring"), 4)

	_, err = jobs.RecordReadings(t.Context(), readings(&v1.Entry{RequestId: "two"}, 22))
	assert.Equal(t, codes.AlreadyExists, status.Code(err))
	assert.ErrorContains(t, err, "a new request needs an id of its own")
	_, err = jobs.Advise(t.Context(), &v1.AdviseRequest{Name: "jobs/spring", Entry: &v1.Entry{RequestId: "two"}})
	assert.Equal(t, codes.AlreadyExists, status.Code(err), "another method is another request")
}

func TestAVehicleAndAJobAreMadeOnce(t *testing.T) {
	jobs := keeper(t)
	make := &v1.CreateVehicleRequest{RequestId: "v", Vehicle: &v1.VehicleRecord{Label: "white van (invented)"}}
	first, err := jobs.CreateVehicle(t.Context(), make)
	require.NoError(t, err)
	assert.Regexp(t, "^vehicles/[a-z2-7]{10}$", first.GetName(), "an id is made up")
	again, err := jobs.CreateVehicle(t.Context(), make)
	require.NoError(t, err)
	assert.True(t, proto.Equal(first, again))
	other, err := jobs.CreateVehicle(t.Context(), &v1.CreateVehicleRequest{Vehicle: make.GetVehicle()})
	require.NoError(t, err)
	assert.NotEqual(t, first.GetName(), other.GetName(), "without a request id it is a second one")

	book := &v1.CreateJobRequest{RequestId: "j", Job: &v1.Job{Vehicle: first.GetName()}}
	one, err := jobs.CreateJob(t.Context(), book)
	require.NoError(t, err)
	two, err := jobs.CreateJob(t.Context(), book)
	require.NoError(t, err)
	assert.True(t, proto.Equal(one, two))

	change := &v1.UpdateVehicleRequest{RequestId: "u", Vehicle: &v1.VehicleRecord{Name: first.GetName(), Etag: first.GetEtag(), Notes: "alloy bonnet"}}
	changed, err := jobs.UpdateVehicle(t.Context(), change)
	require.NoError(t, err)
	same, err := jobs.UpdateVehicle(t.Context(), change)
	require.NoError(t, err, "its etag is stale by itself")
	assert.True(t, proto.Equal(changed, same))
	change.Vehicle.Notes = "steel bonnet"
	_, err = jobs.UpdateVehicle(t.Context(), change)
	assert.Equal(t, codes.AlreadyExists, status.Code(err))
}

func TestAnEtagThatIsOutOfDateIsRefused(t *testing.T) {
	jobs := keeper(t)
	booked := estate(t, jobs, "spring")
	inspected(t, jobs, &v1.Entry{Etag: booked.GetEtag()})
	_, err := jobs.RecordReadings(t.Context(), readings(&v1.Entry{Etag: booked.GetEtag()}, 21))
	refused := status.Convert(err)
	assert.Equal(t, codes.Aborted, refused.Code())
	assert.Contains(t, refused.Message(), "read it again and decide again")
	require.Len(t, refused.Details(), 1)
	info, ok := refused.Details()[0].(*errdetails.ErrorInfo)
	require.True(t, ok)
	assert.Equal(t, map[string]string{"name": "jobs/spring", "etag": "3"}, info.GetMetadata())

	_, err = jobs.UpdateJob(t.Context(), &v1.UpdateJobRequest{Job: &v1.Job{Name: "jobs/spring", Etag: booked.GetEtag(), Label: "summer"}})
	assert.Equal(t, codes.Aborted, status.Code(err))
	vehicle, err := jobs.GetVehicle(t.Context(), &v1.GetVehicleRequest{Name: "vehicles/estate"})
	require.NoError(t, err)
	vehicle.Notes = "alloy bonnet"
	_, err = jobs.UpdateVehicle(t.Context(), &v1.UpdateVehicleRequest{Vehicle: vehicle})
	require.NoError(t, err)
	_, err = jobs.UpdateVehicle(t.Context(), &v1.UpdateVehicleRequest{Vehicle: vehicle})
	assert.Equal(t, codes.Aborted, status.Code(err))
	_, err = jobs.DeleteVehicle(t.Context(), &v1.DeleteVehicleRequest{Name: "vehicles/estate", Etag: vehicle.GetEtag()})
	assert.Contains(t, []codes.Code{codes.Aborted, codes.FailedPrecondition}, status.Code(err))
}

func TestTwoAtOneJobLoseNothing(t *testing.T) {
	jobs := keeper(t)
	estate(t, jobs, "spring")
	inspected(t, jobs, nil)
	const each = 15
	var both sync.WaitGroup
	for _, who := range []string{"bay 1", "bay 2"} {
		both.Go(func() {
			for n := range each {
				_, err := jobs.RecordReadings(t.Context(), readings(&v1.Entry{RecordedBy: who, RequestId: fmt.Sprint(who, n)}, float64(n)))
				assert.NoError(t, err)
			}
		})
	}
	both.Wait()
	by := map[string]float64{"bay 1": 0, "bay 2": 0}
	for i, e := range eventsOf(t, jobs, "jobs/spring") {
		assert.Equal(t, int64(i+1), e.GetSequence())
		if r := e.GetReadings(); r != nil {
			assert.InDelta(t, by[e.GetRecordedBy()], r.GetPanelC(), 1e-9, "each in the order in which it was sent")
			by[e.GetRecordedBy()]++
		}
	}
	assert.Equal(t, map[string]float64{"bay 1": each, "bay 2": each}, by)
}

func TestOnlyWhatTheMaskNamesIsChanged(t *testing.T) {
	jobs := keeper(t)
	estate(t, jobs, "spring")
	update := func(v *v1.VehicleRecord, paths ...string) *v1.VehicleRecord {
		v.Name = "vehicles/estate"
		req := &v1.UpdateVehicleRequest{Vehicle: v}
		if paths != nil {
			req.UpdateMask = &fieldmaskpb.FieldMask{Paths: paths}
		}
		out, err := jobs.UpdateVehicle(t.Context(), req)
		require.NoError(t, err)
		return out
	}
	notes := update(&v1.VehicleRecord{Notes: "alloy bonnet"})
	assert.Equal(t, "dark blue estate (invented)", notes.GetLabel(), "without a mask what is set is changed")
	assert.Equal(t, int32(2019), notes.GetBuiltYear())
	cleared := update(&v1.VehicleRecord{Label: "not looked at"}, "notes", "built_year")
	assert.Empty(t, cleared.GetNotes())
	assert.Nil(t, cleared.BuiltYear)
	assert.Equal(t, "dark blue estate (invented)", cleared.GetLabel())
	assert.Equal(t, v1.Softness_SOFTNESS_SOFT, cleared.GetPaint().GetSoftness())
	all := update(&v1.VehicleRecord{Label: "blue estate"}, "*")
	assert.Equal(t, "blue estate", all.GetLabel())
	assert.Nil(t, all.GetPaint())

	job, err := jobs.UpdateJob(t.Context(), &v1.UpdateJobRequest{Job: &v1.Job{Name: "jobs/spring", Notes: "bring the key"}})
	require.NoError(t, err)
	assert.Equal(t, "spring visit", job.GetLabel())
	assert.Equal(t, int64(2), job.GetLastSequence())
	same, err := jobs.UpdateJob(t.Context(), &v1.UpdateJobRequest{Job: &v1.Job{Name: "jobs/spring", Notes: "bring the key"}})
	require.NoError(t, err)
	assert.Equal(t, int64(2), same.GetLastSequence(), "nothing changed, so nothing is recorded")
}

func TestATryRecordsNothing(t *testing.T) {
	jobs := keeper(t)
	estate(t, jobs, "spring")
	tried := inspected(t, jobs, &v1.Entry{ValidateOnly: true, RequestId: "one"})
	assert.Equal(t, v1.JobStage_JOB_STAGE_INSPECTED, tried.GetJob().GetStage(), "as if recorded")
	assert.Len(t, tried.GetEvents(), 2)
	assert.Len(t, eventsOf(t, jobs, "jobs/spring"), 1)
	done := inspected(t, jobs, &v1.Entry{RequestId: "one"})
	assert.Equal(t, int64(3), done.GetJob().GetLastSequence(), "the request may be done after it was tried")
}

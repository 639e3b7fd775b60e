package app_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/types/known/fieldmaskpb"
	"google.golang.org/protobuf/types/known/timestamppb"

	v1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

func TestEveryFaultOfARequestAboutJobsIsToldByItsField(t *testing.T) {
	jobs := keeper(t)
	estate(t, jobs, "spring")
	inspected(t, jobs, nil)
	ctx := t.Context()
	few := found("bonnet", "wing")
	few.Panels[1].Film = []*v1.FilmSpot{{Spot: "centre", TotalUm: []float64{118, 119}}}
	bare := &v1.Readings{PanelId: "bonnet", Time: v1.ReadingsTime_READINGS_TIME_BEFORE}
	noNote := &v1.Progress{PanelId: "bonnet", Step: v1.Step_STEP_FINISH, State: v1.StepState_STEP_STATE_LEFT_OUT}
	elsewhere := tried("bonnet", 0)
	elsewhere.Trial.After = []*v1.GlossSpot{{Spot: "z", At20Gu: []float64{88, 88.1, 88.2}}}
	for name, row := range map[string]struct {
		call func() error
		want map[string]string
	}{
		"a vehicle without a label": {
			func() error {
				_, err := jobs.CreateVehicle(ctx, &v1.CreateVehicleRequest{Vehicle: &v1.VehicleRecord{Label: " "}})
				return err
			}, map[string]string{"vehicle.label": "say what the shop calls it"},
		},
		"a name, a mask and an etag that are none": {
			func() error {
				_, err := jobs.UpdateVehicle(ctx, &v1.UpdateVehicleRequest{
					Vehicle:    &v1.VehicleRecord{Name: "cars/estate", Etag: "new", Label: "x"},
					UpdateMask: &fieldmaskpb.FieldMask{Paths: []string{"label", "owner"}},
				})
				return err
			}, map[string]string{
				"vehicle.name": "it is vehicles/ and an id", "vehicle.etag": "was not given by this service",
				"update_mask.paths[1]": `"owner" cannot be changed; what can is built_year, label, notes, paint, size`,
			},
		},
		"a job without a vehicle": {
			func() error {
				_, err := jobs.CreateJob(ctx, &v1.CreateJobRequest{Job: &v1.Job{BookTime: &timestamppb.Timestamp{Nanos: -1}}})
				return err
			}, map[string]string{"job.vehicle": "it is vehicles/ and an id", "job.book_time": "is no time"},
		},
		"an id of another kind": {
			func() error {
				_, err := jobs.CreateJob(ctx, &v1.CreateJobRequest{JobId: "Spring 2026", Job: &v1.Job{Vehicle: "vehicles/estate"}})
				return err
			}, map[string]string{"job_id": "small letters, digits and single hyphens"},
		},
		"a text with a NUL in it": {
			func() error {
				_, err := jobs.CreateJob(ctx, &v1.CreateJobRequest{RecordedBy: "a\x00", Job: &v1.Job{Vehicle: "vehicles/estate", Label: "a\x00b"}})
				return err
			}, map[string]string{"recorded_by": "NUL"},
		},
		"an entry": {
			func() error {
				_, err := jobs.Advise(ctx, &v1.AdviseRequest{Name: "jobs/Spring", Entry: &v1.Entry{Etag: "x", HappenTime: &timestamppb.Timestamp{Seconds: 1 << 60}}})
				return err
			}, map[string]string{"name": "it is jobs/ and an id", "entry.etag": "was not given", "entry.happen_time": "is no time"},
		},
		"too few film readings on a panel": {
			func() error {
				_, err := jobs.RecordInspection(ctx, &v1.RecordInspectionRequest{Name: "jobs/spring", Inspection: few})
				return err
			}, map[string]string{"inspection.panels[1].film[0].total_um": "too few readings, 2"},
		},
		"readings without a reading, and film that cannot be reckoned with": {
			func() error {
				_, err := jobs.RecordReadings(ctx, &v1.RecordReadingsRequest{Name: "jobs/spring", Readings: []*v1.Readings{bare, bare}})
				return err
			}, map[string]string{"readings[0]": "hold no reading", "readings[1]": "hold no reading"},
		},
		"film from before the work with too few readings": {
			func() error {
				few := &v1.Readings{PanelId: "roof", Time: v1.ReadingsTime_READINGS_TIME_BEFORE, Film: []*v1.FilmSpot{{Spot: "rear", TotalUm: []float64{99}}}}
				_, err := jobs.RecordReadings(ctx, &v1.RecordReadingsRequest{Name: "jobs/spring", Readings: []*v1.Readings{
					{PanelId: "bonnet", Time: v1.ReadingsTime_READINGS_TIME_BEFORE, PanelC: with(20.0)}, few,
				}})
				return err
			}, map[string]string{"readings[1].film": "too few readings, 1"},
		},
		"a trial at other spots": {
			func() error {
				_, err := jobs.RecordTrial(ctx, &v1.RecordTrialRequest{Name: "jobs/spring", Trial: elsewhere})
				return err
			}, map[string]string{"trial.trial.after": "read the same taped spots again"},
		},
		"work left out without a reason, twice": {
			func() error {
				_, err := jobs.RecordProgress(ctx, &v1.RecordProgressRequest{Name: "jobs/spring", Progress: []*v1.Progress{noNote, noNote}})
				return err
			}, map[string]string{"progress[0].note": "say why the step is left out", "progress[1].note": "say why the step is left out"},
		},
		"more sections than there are": {
			func() error {
				_, err := jobs.RecordProgress(ctx, &v1.RecordProgressRequest{Name: "jobs/spring", Progress: []*v1.Progress{{
					PanelId: "bonnet", Step: v1.Step_STEP_FINISH, State: v1.StepState_STEP_STATE_DONE, SectionsDone: with(int32(7)), SectionsTotal: with(int32(6)),
				}}})
				return err
			}, map[string]string{"progress[0].sections_done": "is 7 of 6 in all"},
		},
		"a plan with a ladder that is none": {
			func() error {
				_, err := jobs.RecordPlan(ctx, &v1.RecordPlanRequest{Name: "jobs/spring", Plan: &v1.Plan{Panels: []*v1.PlannedPanel{{PanelId: "bonnet"}}}})
				return err
			}, map[string]string{"plan.panels[0].ladder": "is not allowed"},
		},
		"a correction that brings what cannot be reckoned with": {
			func() error {
				_, err := jobs.CorrectEvent(ctx, &v1.CorrectEventRequest{Name: "jobs/spring", Correction: &v1.Correction{
					Sequence: 2, Why: "another car's", Instead: &v1.Correction_Inspection{Inspection: few},
				}})
				return err
			}, map[string]string{"correction.inspection.panels[1].film[0].total_um": "too few readings, 2"},
		},
		"a correction of another kind": {
			func() error {
				_, err := jobs.CorrectEvent(ctx, &v1.CorrectEventRequest{Name: "jobs/spring", Correction: &v1.Correction{
					Sequence: 2, Why: "no", Instead: &v1.Correction_Progress{Progress: noNote},
				}})
				return err
			}, map[string]string{"correction.progress.note": "say why the step is left out"},
		},
		"a page token of nobody": {
			func() error {
				_, err := jobs.ListJobs(ctx, &v1.ListJobsRequest{PageToken: "9"})
				return err
			}, map[string]string{"page_token": "leave it out to begin with the first page"},
		},
	} {
		t.Run(name, func(t *testing.T) {
			err := row.call()
			assert.Equal(t, codes.InvalidArgument, status.Code(err), "%v", err)
			got := violations(t, err)
			for field, says := range row.want {
				assert.Contains(t, got[field], says, "%s of %v", field, got)
			}
			assert.Len(t, got, len(row.want), "%v", got)
		})
	}
	assert.Len(t, eventsOf(t, jobs, "jobs/spring"), 3, "nothing of all this was recorded")
}

func TestWhatIsNotThereOrMayNotComeYetIsSaid(t *testing.T) {
	jobs, ctx := keeper(t), context.Background()
	estate(t, jobs, "spring")
	for name, row := range map[string]struct {
		call func() error
		code codes.Code
		says string
	}{
		"a trial before the inspection": {func() error {
			_, err := jobs.RecordTrial(ctx, &v1.RecordTrialRequest{Name: "jobs/spring", Trial: tried("bonnet", 0)})
			return err
		}, codes.FailedPrecondition, "job spring is booked: the vehicle has to be inspected first"},
		"advice before the inspection": {func() error {
			_, err := jobs.Advise(ctx, &v1.AdviseRequest{Name: "jobs/spring"})
			return err
		}, codes.FailedPrecondition, "the vehicle has to be inspected first"},
		"a plan of nothing": {func() error {
			_, err := jobs.RecordPlan(ctx, &v1.RecordPlanRequest{Name: "jobs/spring"})
			return err
		}, codes.FailedPrecondition, "the vehicle has to be inspected first"},
		"a job that is not there": {func() error {
			_, err := jobs.GetJob(ctx, &v1.GetJobRequest{Name: "jobs/summer"})
			return err
		}, codes.NotFound, "there is no job summer"},
		"the outside of a job that is not there": {func() error {
			_, err := jobs.GetJob(ctx, &v1.GetJobRequest{Name: "jobs/summer", View: v1.JobView_JOB_VIEW_BASIC})
			return err
		}, codes.NotFound, "there is no job summer"},
		"readings in a job that is not there": {func() error {
			req := readings(nil, 20)
			req.Name = "jobs/summer"
			_, err := jobs.RecordReadings(ctx, req)
			return err
		}, codes.NotFound, "there is no job summer"},
		"a job of a vehicle that is not there": {func() error {
			_, err := jobs.CreateJob(ctx, &v1.CreateJobRequest{Job: &v1.Job{Vehicle: "vehicles/van"}})
			return err
		}, codes.NotFound, "there is no vehicle van"},
		"the film of a vehicle that is not there": {func() error {
			_, err := jobs.GetVehicleFilm(ctx, &v1.GetVehicleFilmRequest{Name: "vehicles/van"})
			return err
		}, codes.NotFound, "there is no vehicle van"},
		"an id that is taken": {func() error {
			_, err := jobs.CreateJob(ctx, &v1.CreateJobRequest{JobId: "spring", Job: &v1.Job{Vehicle: "vehicles/estate"}})
			return err
		}, codes.AlreadyExists, "choose another id"},
		"a vehicle with jobs": {func() error {
			_, err := jobs.DeleteVehicle(ctx, &v1.DeleteVehicleRequest{Name: "vehicles/estate"})
			return err
		}, codes.FailedPrecondition, "vehicle estate has jobs"},
		"an event that is not there": {func() error {
			_, err := jobs.CorrectEvent(ctx, &v1.CorrectEventRequest{Name: "jobs/spring", Correction: &v1.Correction{Sequence: 9, Why: "no"}})
			return err
		}, codes.NotFound, "there is no event 9"},
		"finished before it was begun": {func() error {
			_, err := jobs.FinishJob(ctx, &v1.FinishJobRequest{Name: "jobs/spring"})
			return err
		}, codes.FailedPrecondition, "the vehicle has to be inspected first"},
	} {
		t.Run(name, func(t *testing.T) {
			err := row.call()
			assert.Equal(t, row.code, status.Code(err))
			assert.ErrorContains(t, err, row.says)
		})
	}
}

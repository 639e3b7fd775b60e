package app_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/types/known/fieldmaskpb"
	"google.golang.org/protobuf/types/known/structpb"

	v1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

func wholeOf(t *testing.T, jobs v1.JobServiceClient) *v1.WholeVehicle {
	t.Helper()
	job, err := jobs.GetJob(t.Context(), &v1.GetJobRequest{Name: "jobs/spring"})
	require.NoError(t, err)
	return job.GetWhole()
}

func TestAJobSaysOfTheWholeVehicleWhatItsRecordKnowsUntilItIsInspected(t *testing.T) {
	jobs := keeper(t)
	made := estate(t, jobs, "spring")
	assert.Equal(t, "dark blue estate (invented)", made.GetWhole().GetVehicle().GetLabel())
	whole := wholeOf(t, jobs)
	assert.Equal(t, v1.VehicleSize_VEHICLE_SIZE_MEDIUM, whole.GetVehicle().GetSize())
	assert.Equal(t, v1.Softness_SOFTNESS_SOFT, whole.GetVehicle().GetPaint().GetSoftness())
	assert.Nil(t, whole.GetGoal())

	basic, err := jobs.GetJob(t.Context(), &v1.GetJobRequest{Name: "jobs/spring", View: v1.JobView_JOB_VIEW_BASIC})
	require.NoError(t, err)
	assert.Nil(t, basic.GetWhole())
}

func TestAJobSaysOfTheWholeVehicleWhatTheLaterInspectionFound(t *testing.T) {
	jobs := keeper(t)
	estate(t, jobs, "spring")
	inspected(t, jobs, nil)
	later := found("boot-lid")
	later.Goal = &v1.Goal{Level: v1.GoalLevel_GOAL_LEVEL_ENHANCE}
	later.Climate = nil
	later.Vehicle = &v1.Vehicle{Label: "as somebody typed it", Kept: v1.VehicleKept_VEHICLE_KEPT_GARAGE}
	done, err := jobs.RecordInspection(t.Context(), &v1.RecordInspectionRequest{Name: "jobs/spring", Inspection: later})
	require.NoError(t, err)
	whole := done.GetJob().GetWhole()
	assert.Equal(t, v1.GoalLevel_GOAL_LEVEL_ENHANCE, whole.GetGoal().GetLevel(), "the later goes before the earlier")
	assert.Equal(t, v1.Protection_PROTECTION_WAX, whole.GetGoal().GetProtection(), "what it leaves open stays")
	assert.InDelta(t, 21, whole.GetClimate().GetAirC(), 1e-9)
	assert.Equal(t, v1.VehicleKept_VEHICLE_KEPT_GARAGE, whole.GetVehicle().GetKept())
	assert.Equal(t, "dark blue estate (invented)", whole.GetVehicle().GetLabel(), "the record names the vehicle")

	_, err = jobs.UpdateVehicle(t.Context(), &v1.UpdateVehicleRequest{
		Vehicle: &v1.VehicleRecord{Name: "vehicles/estate", Label: "estate, bay 2"}, UpdateMask: &fieldmaskpb.FieldMask{Paths: []string{"label"}},
	})
	require.NoError(t, err)
	assert.Equal(t, "estate, bay 2", wholeOf(t, jobs).GetVehicle().GetLabel())

	first := found("bonnet", "roof")
	first.Climate.AirC = with(14.0)
	corrected(t, jobs, &v1.Correction{Sequence: 2, Why: "the door stood open", Instead: &v1.Correction_Inspection{Inspection: first}})
	assert.InDelta(t, 14, wholeOf(t, jobs).GetClimate().GetAirC(), 1e-9, "a correction counts where it corrects")
	assert.Equal(t, v1.GoalLevel_GOAL_LEVEL_ENHANCE, wholeOf(t, jobs).GetGoal().GetLevel())
}

// What was sent back as it came is not complained about: the service says what whole is.
func TestAJobThatIsSentBackWholeIsTaken(t *testing.T) {
	jobs := keeper(t)
	estate(t, jobs, "spring")
	job := inspected(t, jobs, nil).GetJob()
	job.Label = "spring, second day"
	job.Whole.Shop = map[string]*structpb.Value{"bay": structpb.NewStringValue("2")}
	job.Whole.Goal = nil
	kept, err := jobs.UpdateJob(t.Context(), &v1.UpdateJobRequest{Job: job, UpdateMask: &fieldmaskpb.FieldMask{Paths: []string{"label"}}})
	require.NoError(t, err)
	assert.Equal(t, "spring, second day", kept.GetLabel())
	assert.Equal(t, v1.GoalLevel_GOAL_LEVEL_CORRECT, kept.GetWhole().GetGoal().GetLevel())
	assert.Empty(t, kept.GetWhole().GetShop())
}

package app_test

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/proto"

	v1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/app"
)

func jobOf(t *testing.T, jobs v1.JobServiceClient, with *v1.GetJobRequest) *v1.Job {
	t.Helper()
	with.Name = "jobs/spring"
	job, err := jobs.GetJob(t.Context(), with)
	require.NoError(t, err)
	return job
}

func same(t *testing.T, want, got proto.Message) {
	t.Helper()
	assert.True(t, proto.Equal(want, got), "want %v\n got %v", want, got)
}

// What a job says of all its panels is what the advice on record says, without going through its events.
func TestAJobSaysWhatItsAdviceSaysBeyondThePanels(t *testing.T) {
	jobs := keeper(t)
	assert.Nil(t, estate(t, jobs, "spring").GetAdvice(), "nobody has looked at it")
	seen := found("bonnet", "roof")
	seen.Panels[1].Film = nil
	seen.Climate, seen.Panels[0].Gloss, seen.Panels[1].Substrate, seen.Panels[1].SensorBehind = nil, nil, 0, nil
	done, err := jobs.RecordInspection(t.Context(), &v1.RecordInspectionRequest{Name: "jobs/spring", Inspection: seen})
	require.NoError(t, err)
	events := eventsOf(t, jobs, "jobs/spring")
	said := events[len(events)-1].GetDecision().GetRecommendation()
	require.NotEmpty(t, said.GetGroups())
	require.NotEmpty(t, said.GetCautions())
	require.Greater(t, len(said.GetMeasureNext()), 1, "so that their order tells")
	same(t, &v1.StandingAdvice{Groups: said.GetGroups(), Cautions: said.GetCautions(), MeasureNext: said.GetMeasureNext()}, done.GetJob().GetAdvice())
	same(t, done.GetJob().GetAdvice(), jobOf(t, jobs, &v1.GetJobRequest{}).GetAdvice())
	assert.Nil(t, jobOf(t, jobs, &v1.GetJobRequest{View: v1.JobView_JOB_VIEW_BASIC}).GetAdvice())
}

// Panels read with other instruments are advised apart, and none of them is forgotten.
func TestAJobKeepsTheAdviceOnPanelsThatOtherInstrumentsRead(t *testing.T) {
	jobs := keeper(t)
	estate(t, jobs, "spring")
	inspected(t, jobs, nil)
	other := found("boot-lid")
	other.Instruments = &v1.Instruments{FilmGauge: &v1.FilmGauge{AccuracyUm: with(3.0)}}
	done, err := jobs.RecordInspection(t.Context(), &v1.RecordInspectionRequest{Name: "jobs/spring", Inspection: other})
	require.NoError(t, err)
	var first, panels []string
	for _, group := range done.GetJob().GetAdvice().GetGroups() {
		first = append(first, group.GetTestFirst())
		panels = append(panels, group.GetPanelIds()...)
	}
	assert.ElementsMatch(t, []string{"bonnet", "roof", "boot-lid"}, panels)
	assert.Contains(t, first, "boot-lid")
	cautions := done.GetJob().GetAdvice().GetCautions()
	require.NotEmpty(t, cautions)
	for i, caution := range cautions {
		for _, more := range cautions[i+1:] {
			assert.False(t, proto.Equal(caution, more), "said twice: %v", caution)
			assert.GreaterOrEqual(t, caution.GetLevel(), more.GetLevel(), "the gravest first")
		}
	}
}

func TestAJobComesWithItsPlanWhereItIsAskedFor(t *testing.T) {
	conn := dial(t, app.Options{Data: filepath.Join(t.TempDir(), "jobs.db")})
	jobs, plans := v1.NewJobServiceClient(conn), v1.NewPlanServiceClient(conn)
	estate(t, jobs, "spring")
	assert.Nil(t, jobOf(t, jobs, &v1.GetJobRequest{WithWorkPlan: true}).GetWorkPlan(), "nothing is inspected that could be planned")
	inspected(t, jobs, nil)
	_, err := jobs.RecordPlan(t.Context(), &v1.RecordPlanRequest{Name: "jobs/spring", Plan: &v1.Plan{
		Measured: &v1.MeasuredAreas{Areas: []*v1.PanelArea{{PanelId: "bonnet", AreaM2: 1.7}}}, Crew: &v1.Crew{People: with(int32(2))},
	}})
	require.NoError(t, err)
	asked, err := plans.PlanJob(t.Context(), &v1.PlanJobRequest{Job: "jobs/spring"})
	require.NoError(t, err)
	require.NotEmpty(t, asked.GetPlan().GetPanels())
	same(t, asked.GetPlan(), jobOf(t, jobs, &v1.GetJobRequest{WithWorkPlan: true}).GetWorkPlan())
	assert.Nil(t, jobOf(t, jobs, &v1.GetJobRequest{}).GetWorkPlan(), "nobody asked for it")
}

func TestTheBasicViewHasNoPlan(t *testing.T) {
	jobs := keeper(t)
	estate(t, jobs, "spring")
	_, err := jobs.GetJob(t.Context(), &v1.GetJobRequest{Name: "jobs/spring", View: v1.JobView_JOB_VIEW_BASIC, WithWorkPlan: true})
	assert.Equal(t, codes.InvalidArgument, status.Code(err))
	assert.ErrorContains(t, err, "with_work_plan")
}

package app_test

import (
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc"
	"google.golang.org/protobuf/types/known/timestamppb"

	v1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/app"
)

// What is still to do falls with every step that goes on record, and is told alike by the plan and with the job.
func TestAPlanTellsWhatIsStillToDo(t *testing.T) {
	conn := dial(t, app.Options{Data: filepath.Join(t.TempDir(), "jobs.db")})
	jobs, plans := v1.NewJobServiceClient(conn), v1.NewPlanServiceClient(conn)
	estate(t, jobs, "spring")
	inspected(t, jobs, nil)
	planned := func() *v1.WorkPlan {
		asked, err := plans.PlanJob(t.Context(), &v1.PlanJobRequest{Job: "jobs/spring"})
		require.NoError(t, err)
		same(t, asked.GetPlan(), jobOf(t, jobs, &v1.GetJobRequest{WithWorkPlan: true}).GetWorkPlan())
		return asked.GetPlan()
	}
	record := func(entry *v1.Progress) {
		_, err := jobs.RecordProgress(t.Context(), &v1.RecordProgressRequest{Name: "jobs/spring", Progress: []*v1.Progress{entry}})
		require.NoError(t, err)
	}
	_, err := jobs.RecordPlan(t.Context(), &v1.RecordPlanRequest{Name: "jobs/spring", Plan: &v1.Plan{Panels: []*v1.PlannedPanel{
		{PanelId: "bonnet", Ladder: v1.Ladder_LADDER_FINISH}, {PanelId: "roof", Ladder: v1.Ladder_LADDER_FINISH},
	}}})
	require.NoError(t, err)
	assert.Nil(t, planned().GetStillMin(), "no step has begun")

	step := v1.Step_STEP_FINISH
	record(&v1.Progress{PanelId: "bonnet", Step: step, State: v1.StepState_STEP_STATE_UNDER_WAY})
	begun := planned()
	assert.Less(t, begun.GetStillMin().GetLikely(), begun.GetWorkMin().GetLikely())
	record(&v1.Progress{PanelId: "bonnet", Step: step, State: v1.StepState_STEP_STATE_UNDER_WAY, SectionsDone: with(int32(5)), SectionsTotal: with(int32(10))})
	half := planned()
	bonnet := half.GetPanels()[0].GetSteps()[0]
	if half.GetPanels()[0].GetPanelId() != "bonnet" {
		bonnet = half.GetPanels()[1].GetSteps()[0]
	}
	onPanel := bonnet.GetMachineMin().GetLikely() + bonnet.GetWipeMin().GetLikely() + bonnet.GetCleanMin().GetLikely()
	assert.GreaterOrEqual(t, begun.GetStillMin().GetLikely()-half.GetStillMin().GetLikely(), onPanel/2, "half of the panel, and of the pads")
	laysWhatIsLeft(t, conn, half.GetStillMin().GetLikely())
	record(&v1.Progress{PanelId: "bonnet", Step: step, State: v1.StepState_STEP_STATE_DONE})
	assert.Less(t, planned().GetStillMin().GetLikely(), half.GetStillMin().GetLikely())

	record(&v1.Progress{PanelId: "bonnet", Step: step, State: v1.StepState_STEP_STATE_UNDER_WAY})
	again := planned().GetStillMin()
	assert.InDelta(t, begun.GetStillMin().GetLikely(), again.GetLikely(), 1e-9, "what was counted was of the pass before")

	record(&v1.Progress{PanelId: "bonnet", Step: step, State: v1.StepState_STEP_STATE_DONE})
	record(&v1.Progress{PanelId: "roof", Step: step, State: v1.StepState_STEP_STATE_LEFT_OUT, Note: "the gloss was there"})
	over := planned()
	lines := over.GetLines()
	same(t, lines[len(lines)-1].GetMinutes(), over.GetStillMin())
	assert.Equal(t, "last wipe and hand over", lines[len(lines)-1].GetWhat())

	_, err = jobs.FinishJob(t.Context(), &v1.FinishJobRequest{Name: "jobs/spring"})
	require.NoError(t, err)
	assert.Nil(t, planned().GetStillMin(), "the job is over")
}

// laysWhatIsLeft holds that bay time, asked for or booked, is what is still to do.
func laysWhatIsLeft(t *testing.T, conn *grpc.ClientConn, minutes float64) {
	t.Helper()
	start := timestamppb.New(time.Date(2027, 3, 1, 8, 0, 0, 0, time.UTC))
	asked, err := v1.NewPlanServiceClient(conn).PlanJob(t.Context(), &v1.PlanJobRequest{Job: "jobs/spring", Bay: &v1.BayRequest{StartTime: start}})
	require.NoError(t, err)
	booked, err := v1.NewBookingServiceClient(conn).BookBay(t.Context(), &v1.BookBayRequest{
		Name: "jobs/spring", Bay: "bay-1", What: &v1.BookBayRequest_Work{Work: &v1.BayWork{StartTime: start}},
	})
	require.NoError(t, err)
	for _, blocks := range [][]*v1.BayBlock{asked.GetBay().GetBlocks(), booked.GetJob().GetBay().GetBlocks()} {
		sum := 0.0
		for _, b := range blocks {
			sum += b.GetEndTime().AsTime().Sub(b.GetStartTime().AsTime()).Minutes()
		}
		assert.InDelta(t, minutes, sum, 1)
		assert.Equal(t, "tape", blocks[0].GetWhat(), "the roof")
	}
}

package app_test

import (
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/proto"

	v1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/app"
	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/sqlite"
)

// keeper starts a service that keeps jobs in a new file, and connects to it.
func keeper(t *testing.T) v1.JobServiceClient {
	t.Helper()
	return v1.NewJobServiceClient(dial(t, app.Options{Data: filepath.Join(t.TempDir(), "jobs.db")}))
}

// with is a pointer to a value.
func with[T any](v T) *T { return &v }

// estate makes the record of a vehicle and books a job for it.
func estate(t *testing.T, jobs v1.JobServiceClient, job string) *v1.Job {
	t.Helper()
	_, err := jobs.CreateVehicle(t.Context(), &v1.CreateVehicleRequest{VehicleId: "estate", Vehicle: &v1.VehicleRecord{
		Label: "dark blue estate (invented)", Size: v1.VehicleSize_VEHICLE_SIZE_MEDIUM, BuiltYear: with(int32(2019)),
		Paint: &v1.Paint{System: v1.PaintSystem_PAINT_SYSTEM_CLEAR_COAT, Softness: v1.Softness_SOFTNESS_SOFT, Shade: v1.Shade_SHADE_DARK},
	}})
	if status.Code(err) != codes.AlreadyExists {
		require.NoError(t, err)
	}
	made, err := jobs.CreateJob(t.Context(), &v1.CreateJobRequest{JobId: job, Job: &v1.Job{Vehicle: "vehicles/estate", Label: "spring visit"}})
	require.NoError(t, err)
	return made
}

func marksAt(severity float64) []*v1.Defect {
	return []*v1.Defect{{Kind: v1.DefectKind_DEFECT_KIND_WASH_MARKS, Severity: &severity}}
}

func around(um float64) []*v1.FilmSpot {
	return []*v1.FilmSpot{{Spot: "centre", TotalUm: []float64{um, um + 0.4, um - 0.2}}, {Spot: "left", TotalUm: []float64{um + 1, um + 0.8, um + 1.1}}}
}

func glossAt(gu float64) []*v1.GlossSpot {
	return []*v1.GlossSpot{
		{Spot: "a", At20Gu: []float64{gu, gu + 0.3, gu - 0.2}},
		{Spot: "b", At20Gu: []float64{gu + 0.5, gu + 0.7, gu + 0.4}},
		{Spot: "c", At20Gu: []float64{gu - 0.4, gu - 0.3, gu - 0.6}},
	}
}

// found is an inspection of panels that a step mends.
func found(panels ...string) *v1.Inspection {
	out := &v1.Inspection{
		Goal:    &v1.Goal{Level: v1.GoalLevel_GOAL_LEVEL_CORRECT, Protection: v1.Protection_PROTECTION_WAX},
		Climate: &v1.Climate{AirC: with(21.0), HumidityPct: with(45.0), PanelC: with(20.0)},
	}
	for _, id := range panels {
		out.Panels = append(out.Panels, &v1.Panel{
			Id: id, Substrate: v1.Substrate_SUBSTRATE_STEEL, Clean: with(true), InSun: with(false), RepaintKnown: with(false), EdgeOrLine: with(false),
			SensorBehind: with(false), Film: around(118), Gloss: glossAt(70), Defects: marksAt(2),
		})
	}
	return out
}

func tried(panel string, left float64) *v1.TrialRecord {
	return &v1.TrialRecord{PanelId: panel, Trial: &v1.Trial{
		Step: v1.Step_STEP_FINISH, After: glossAt(88), Left: marksAt(left), TrailsLeft: with(0.0), WipeOff: v1.WipeOff_WIPE_OFF_CLEAN,
		PanelC: with(28.0), Minutes: with(7.0), PadLoaded: with(false), ColorTransfer: with(false), PanelWiped: with(true),
	}}
}

// carried carries a finish over a panel.
func carried(t *testing.T, jobs v1.JobServiceClient, job string, panels ...string) {
	t.Helper()
	for _, panel := range panels {
		for _, state := range []v1.StepState{v1.StepState_STEP_STATE_UNDER_WAY, v1.StepState_STEP_STATE_DONE} {
			_, err := jobs.RecordProgress(t.Context(), &v1.RecordProgressRequest{Name: job, Progress: []*v1.Progress{{
				PanelId: panel, Step: v1.Step_STEP_FINISH, State: state, Minutes: with(12.0), TestSectionSpared: true,
			}}})
			require.NoError(t, err)
		}
	}
}

// visited records a whole visit: two panels inspected, finish proven on the bonnet and carried over both.
func visited(t *testing.T, jobs v1.JobServiceClient, job string) *v1.Job {
	t.Helper()
	ctx := t.Context()
	_, err := jobs.RecordInspection(ctx, &v1.RecordInspectionRequest{Name: job, Inspection: found("bonnet", "roof")})
	require.NoError(t, err)
	_, err = jobs.RecordTrial(ctx, &v1.RecordTrialRequest{Name: job, Trial: tried("bonnet", 0)})
	require.NoError(t, err)
	_, err = jobs.RecordPlan(ctx, &v1.RecordPlanRequest{Name: job})
	require.NoError(t, err)
	carried(t, jobs, job, "bonnet", "roof")
	_, err = jobs.FinishJob(ctx, &v1.FinishJobRequest{Name: job, Closing: &v1.Closing{Note: "wash by hand"}})
	require.NoError(t, err)
	done, err := jobs.HandOverJob(ctx, &v1.HandOverJobRequest{Name: job})
	require.NoError(t, err)
	return done.GetJob()
}

func TestAWholeJobIsRecordedOverTheWire(t *testing.T) { wholeJob(t, keeper(t)) }

func TestAWholeJobIsRecordedInPostgreSQL(t *testing.T) {
	jobs := v1.NewJobServiceClient(dial(t, app.Options{Data: databaseURL(t)}))
	wholeJob(t, jobs)
	again, err := jobs.CreateJob(t.Context(), &v1.CreateJobRequest{RequestId: "r", Job: &v1.Job{Vehicle: "vehicles/estate"}})
	require.NoError(t, err)
	same, err := jobs.CreateJob(t.Context(), &v1.CreateJobRequest{RequestId: "r", Job: &v1.Job{Vehicle: "vehicles/estate"}})
	require.NoError(t, err)
	assert.True(t, proto.Equal(again, same))
}

func wholeJob(t *testing.T, jobs v1.JobServiceClient) {
	booked := estate(t, jobs, "spring")
	assert.Equal(t, v1.JobStage_JOB_STAGE_BOOKED, booked.GetStage())
	assert.Equal(t, "vehicles/estate", booked.GetVehicle())

	job := visited(t, jobs, "jobs/spring")
	assert.Equal(t, v1.JobStage_JOB_STAGE_HANDED_OVER, job.GetStage())
	assert.Equal(t, int64(12), job.GetLastSequence())
	require.Len(t, job.GetPanels(), 2)
	bonnet := job.GetPanels()[0]
	assert.True(t, proto.Equal(found("bonnet").GetPanels()[0], bonnet.GetFound()), "as it was sent, nothing filled in")
	assert.Equal(t, v1.Ladder_LADDER_FINISH, bonnet.GetAdvice().GetLadder())
	assert.True(t, bonnet.GetVerdict().GetProven())
	assert.True(t, proto.Equal(tried("bonnet", 0).GetTrial(), bonnet.GetTrials()[0]))
	assert.Equal(t, v1.Ladder_LADDER_FINISH, bonnet.GetLadder())
	require.Len(t, bonnet.GetSteps(), 1)
	assert.Equal(t, v1.StepState_STEP_STATE_DONE, bonnet.GetSteps()[0].GetState())
	assert.InDelta(t, 24, bonnet.GetSteps()[0].GetMinutes(), 1e-9, "both entries")
	assert.Positive(t, bonnet.GetFilm().GetTaken().GetHighUm())
	assert.Empty(t, bonnet.GetFilm().GetUnaccounted())
	assert.Equal(t, v1.Ladder_LADDER_FINISH, job.GetPanels()[1].GetLadder(), "the roof was not tried and gets what was advised")

	basic, err := jobs.GetJob(t.Context(), &v1.GetJobRequest{Name: "jobs/spring", View: v1.JobView_JOB_VIEW_BASIC})
	require.NoError(t, err)
	assert.Empty(t, basic.GetPanels())
	assert.Equal(t, job.GetEtag(), basic.GetEtag())
	events, err := jobs.ListJobEvents(t.Context(), &v1.ListJobEventsRequest{Parent: "jobs/spring"})
	require.NoError(t, err)
	require.Len(t, events.GetEvents(), 12)
	assert.Equal(t, "jobs/spring/events/11", events.GetEvents()[10].GetName())
	assert.Equal(t, "wash by hand", events.GetEvents()[10].GetFinished().GetNote())
	for _, e := range events.GetEvents() {
		assert.Empty(t, e.GetRequestId(), "nobody gave one")
	}
}

func TestADecisionKeepsTheFactsThatEveryTableSaw(t *testing.T) {
	jobs := keeper(t)
	estate(t, jobs, "spring")
	done, err := jobs.RecordInspection(t.Context(), &v1.RecordInspectionRequest{Name: "jobs/spring", Inspection: found("bonnet")})
	require.NoError(t, err)
	decision := done.GetEvents()[1].GetDecision()
	assert.Len(t, decision.GetRuleSet(), 64, "a SHA-256 in hexadecimal")
	asked := map[string]map[string]*v1.SeenFact{}
	answers := map[string]string{}
	for _, sheet := range decision.GetSheets() {
		assert.Equal(t, "bonnet", sheet.GetPanelId())
		for _, answer := range sheet.GetAnswers() {
			key := strings.TrimSpace(answer.GetTable() + " " + sheet.GetAbout())
			answers[key] = answer.GetAnswer()
			asked[key] = map[string]*v1.SeenFact{}
			for _, fact := range sheet.GetFacts() {
				asked[key][fact.GetFact()] = fact
			}
		}
	}
	assert.Equal(t, "finish", answers["start wash-marks 2"])
	assert.Equal(t, "finish", answers["ladder"])
	assert.Equal(t, "cut", answers["limit"])
	for _, table := range []string{"policy", "removal finish", "removal polish", "removal cut", "readiness", "settings finish", "cautions"} {
		assert.Contains(t, asked, table)
	}
	start := asked["start wash-marks 2"]
	assert.InDelta(t, 2, start["defect.severity"].GetNumber(), 1e-9)
	assert.Equal(t, "soft", start["paint.softness"].GetWord(), "from the vehicle's record")
	assert.InDelta(t, float64(time.Now().Year()-2019), start["paint.age_years"].GetNumber(), 1e-9, "by the year it was built")
	assert.True(t, start["panel.clean"].GetFlag())
	assert.NotContains(t, start, "film.taken_um", "nobody has taken anything that is known")
	assert.NotContains(t, start, "step.start", "it was not decided yet")
	assert.Equal(t, "finish", asked["limit"]["step.start"].GetWord())
	assert.NotContains(t, asked["policy"], "film.usable_um", "it hangs on the policy")
}

func TestTheSecondVisitKnowsWhatTheFirstTook(t *testing.T) {
	jobs := keeper(t)
	estate(t, jobs, "spring")
	estate(t, jobs, "autumn")
	visited(t, jobs, "jobs/spring")
	life, err := jobs.GetVehicleFilm(t.Context(), &v1.GetVehicleFilmRequest{Name: "vehicles/estate"})
	require.NoError(t, err)
	require.Len(t, life.GetPanels(), 2)
	took := life.GetPanels()[0].GetLife().GetHighUm()
	assert.Positive(t, took)
	require.Len(t, life.GetPanels()[0].GetVisits(), 1)
	assert.Equal(t, "jobs/spring", life.GetPanels()[0].GetVisits()[0].GetJob())

	usable := func(job string, in *v1.Inspection) float64 {
		done, err := jobs.RecordInspection(t.Context(), &v1.RecordInspectionRequest{Name: job, Inspection: in})
		require.NoError(t, err)
		assert.Equal(t, in.GetPanels()[0].FilmTakenUm, done.GetJob().GetPanels()[0].GetFound().FilmTakenUm, "what was filled in is not kept as found")
		return done.GetJob().GetPanels()[0].GetAdvice().GetFilm().GetUsableUm()
	}
	estate(t, jobs, "never-worked")
	_, err = jobs.CreateVehicle(t.Context(), &v1.CreateVehicleRequest{VehicleId: "twin", Vehicle: &v1.VehicleRecord{Label: "its twin (invented)"}})
	require.NoError(t, err)
	_, err = jobs.CreateJob(t.Context(), &v1.CreateJobRequest{JobId: "twins", Job: &v1.Job{Vehicle: "vehicles/twin"}})
	require.NoError(t, err)
	untouched, second := usable("jobs/twins", found("bonnet")), usable("jobs/autumn", found("bonnet"))
	assert.Less(t, second, untouched, "the same readings allow less")

	said := found("bonnet")
	said.Panels[0].FilmTakenUm = with(took + 3)
	assert.Less(t, usable("jobs/never-worked", said), second, "what was said is more than what is on record")
}

func TestAServiceGoesOnWhereItStopped(t *testing.T) {
	opts := app.Options{Data: filepath.Join(t.TempDir(), "jobs.db")}
	t.Run("until it stops", func(t *testing.T) {
		jobs := v1.NewJobServiceClient(dial(t, opts))
		estate(t, jobs, "spring")
		_, err := jobs.RecordInspection(t.Context(), &v1.RecordInspectionRequest{Name: "jobs/spring", Inspection: found("bonnet", "roof")})
		require.NoError(t, err)
		_, err = jobs.RecordTrial(t.Context(), &v1.RecordTrialRequest{Name: "jobs/spring", Trial: tried("bonnet", 0)})
		require.NoError(t, err)
	})
	t.Run("after it starts again", func(t *testing.T) {
		jobs := v1.NewJobServiceClient(dial(t, opts))
		done, err := jobs.RecordPlan(t.Context(), &v1.RecordPlanRequest{Name: "jobs/spring"})
		require.NoError(t, err)
		assert.Equal(t, int64(6), done.GetEvents()[0].GetSequence())
		assert.True(t, done.GetJob().GetPanels()[0].GetVerdict().GetProven())
		carried(t, jobs, "jobs/spring", "bonnet", "roof")
		_, err = jobs.FinishJob(t.Context(), &v1.FinishJobRequest{Name: "jobs/spring"})
		require.NoError(t, err)
	})
}

func TestTheRulesOfADecisionAreKeptWithIt(t *testing.T) {
	file := filepath.Join(t.TempDir(), "jobs.db")
	jobs := v1.NewJobServiceClient(dial(t, app.Options{Data: file}))
	estate(t, jobs, "spring")
	tryOnly := &v1.RecordInspectionRequest{Name: "jobs/spring", Inspection: found("bonnet"), Entry: &v1.Entry{ValidateOnly: true}}
	tried, err := jobs.RecordInspection(t.Context(), tryOnly)
	require.NoError(t, err)
	hash := tried.GetEvents()[1].GetDecision().GetRuleSet()
	store, err := sqlite.Open(t.Context(), file)
	require.NoError(t, err)
	defer func() { assert.NoError(t, store.Close()) }()
	_, err = store.RuleSet(t.Context(), hash)
	assert.Error(t, err, "a try leaves nothing behind")

	_, err = jobs.RecordInspection(t.Context(), &v1.RecordInspectionRequest{Name: "jobs/spring", Inspection: found("bonnet")})
	require.NoError(t, err)
	kept, err := store.RuleSet(t.Context(), hash)
	require.NoError(t, err)
	files, err := history.UnpackRuleSet(kept)
	require.NoError(t, err)
	assert.Equal(t, hash, rules.HashOf(files), "the very files, so the decision can be explained again")
}

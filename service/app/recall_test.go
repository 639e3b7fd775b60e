package app_test

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	v1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules/shipped"
	"github.com/glossladder/glossladder/service/app"
	"github.com/glossladder/glossladder/service/rulefolder"
)

// mediumMarks is a bonnet in medium paint with marks of grade 1.5, which the shipped rules start with a finish, or grade 2, with a
// polish (invented).
func mediumMarks(severity float64) *v1.Inspection {
	in := found("bonnet")
	in.Panels[0].Defects = marksAt(severity)
	in.Panels[0].Film = around(150)
	in.Vehicle = &v1.Vehicle{Paint: &v1.Paint{
		System: v1.PaintSystem_PAINT_SYSTEM_CLEAR_COAT, Softness: v1.Softness_SOFTNESS_MEDIUM, Shade: v1.Shade_SHADE_DARK,
	}}
	return in
}

// tryStep records a trial; left is the severity that it leaves.
func tryStep(t *testing.T, jobs v1.JobServiceClient, job string, step v1.Step, left float64) v1.VerdictKind {
	t.Helper()
	record := tried("bonnet", left)
	record.Trial.Step, record.Trial.FreshSection = step, true
	said, err := jobs.RecordTrial(t.Context(), &v1.RecordTrialRequest{Name: "jobs/" + job, Trial: record})
	require.NoError(t, err)
	for _, e := range said.GetEvents() {
		if v := e.GetDecision().GetVerdict(); v != nil {
			return v.GetKind()
		}
	}
	return v1.VerdictKind_VERDICT_KIND_UNSPECIFIED
}

// bookAndInspect makes a job for a vehicle of its own, whose paint was never taken off, and gives its advice on the bonnet.
func bookAndInspect(t *testing.T, jobs v1.JobServiceClient, job string, in *v1.Inspection) *v1.PanelAdvice {
	t.Helper()
	_, err := jobs.CreateVehicle(t.Context(), &v1.CreateVehicleRequest{VehicleId: job, Vehicle: &v1.VehicleRecord{Label: "saloon (invented)"}})
	require.NoError(t, err)
	_, err = jobs.CreateJob(t.Context(), &v1.CreateJobRequest{JobId: job, Job: &v1.Job{Vehicle: "vehicles/" + job}})
	require.NoError(t, err)
	said, err := jobs.RecordInspection(t.Context(), &v1.RecordInspectionRequest{Name: "jobs/" + job, Inspection: in})
	require.NoError(t, err)
	return said.GetJob().GetPanels()[0].GetAdvice()
}

// A shop whose finish is accepted on moderate marks time after time is advised to start with one; before that it is advised as any
// other, and without a record too.
func TestAShopLearnsToStartMilder(t *testing.T) {
	conn := dial(t, app.Options{Data: filepath.Join(t.TempDir(), "jobs.db")})
	jobs, history := v1.NewJobServiceClient(conn), v1.NewHistoryServiceClient(conn)
	start := v1.Step_STEP_POLISH
	n := 0
	for ; n < 60 && start == v1.Step_STEP_POLISH; n++ {
		job := fmt.Sprintf("visit-%d", n)
		start = bookAndInspect(t, jobs, job, mediumMarks(2)).GetStart()
		require.Equal(t, v1.VerdictKind_VERDICT_KIND_ACCEPT, tryStep(t, jobs, job, v1.Step_STEP_FINISH, 0.5))
	}
	assert.Equal(t, v1.Step_STEP_FINISH, start, "after %d panels", n)
	assert.Greater(t, n, 12, "twelve panels are the least that the shipped rules believe")
	t.Logf("the start became milder with job %d", n)

	said, err := history.GetLessons(t.Context(), &v1.GetLessonsRequest{Softness: v1.Softness_SOFTNESS_MEDIUM, Severity: with(2.0)})
	require.NoError(t, err)
	require.Len(t, said.GetLessons(), 3)
	finish := said.GetLessons()[0]
	assert.Equal(t, v1.Step_STEP_FINISH, finish.GetStep())
	assert.Equal(t, int32(n), finish.GetSuccessPct().GetRecords())
	assert.InDelta(t, 100, finish.GetSuccessPct().GetOwn(), 1e-9)
	assert.Greater(t, finish.GetSuccessPct().GetLow(), 70.0)
	assert.InDelta(t, 35, finish.GetSuccessPct().GetUsual(), 1e-9)
	assert.Equal(t, "finish-moderate-marks", finish.GetUsual().GetRuleId())
	assert.Equal(t, "2 to 2.5", finish.GetSeverities())
	require.Len(t, finish.GetGains(), 1)
	assert.InDelta(t, 18, finish.GetGains()[0].GetGainGu().GetOwn(), 0.5)
	assert.Equal(t, int32(n), said.GetProven()[0].GetPanels())
	assert.Zero(t, said.GetLessons()[1].GetSuccessPct().GetRecords(), "nobody tried a polish")

	every, err := history.GetLessons(t.Context(), &v1.GetLessonsRequest{EveryClass: true})
	require.NoError(t, err)
	require.Len(t, every.GetLessons(), 1)
	assert.Equal(t, v1.DefectKind_DEFECT_KIND_WASH_MARKS, every.GetLessons()[0].GetDefect())

	advice, err := v1.NewAdvisorServiceClient(conn).Recommend(t.Context(), &v1.RecommendRequest{Inspection: mediumMarks(2)})
	require.NoError(t, err)
	assert.Equal(t, v1.Step_STEP_FINISH, advice.GetRecommendation().GetPanels()[0].GetStart(), "whoever asks, the record speaks")
	elsewhere, err := v1.NewAdvisorServiceClient(dial(t, app.Options{})).Recommend(t.Context(), &v1.RecommendRequest{Inspection: mediumMarks(2)})
	require.NoError(t, err)
	assert.Equal(t, v1.Step_STEP_POLISH, elsewhere.GetRecommendation().GetPanels()[0].GetStart())
}

// Marks of grade 1.5 start with a finish by the shipped rules. Here it falls short every time.
func TestTheRecordSpeaksAgainstARule(t *testing.T) {
	conn := dial(t, app.Options{Data: filepath.Join(t.TempDir(), "jobs.db")})
	jobs, history := v1.NewJobServiceClient(conn), v1.NewHistoryServiceClient(conn)
	for n := range 12 {
		job := fmt.Sprintf("visit-%d", n)
		in := mediumMarks(1.5)
		in.Goal.Level = v1.GoalLevel_GOAL_LEVEL_SHOW
		require.Equal(t, v1.Step_STEP_FINISH, bookAndInspect(t, jobs, job, in).GetStart())
		require.Equal(t, v1.VerdictKind_VERDICT_KIND_STEP_UP, tryStep(t, jobs, job, v1.Step_STEP_FINISH, 1.5))
		require.Equal(t, v1.VerdictKind_VERDICT_KIND_ACCEPT, tryStep(t, jobs, job, v1.Step_STEP_POLISH, 0.5))
	}
	hints, err := history.ListRuleHints(t.Context(), &v1.ListRuleHintsRequest{})
	require.NoError(t, err)
	require.NotEmpty(t, hints.GetHints())
	hint := hints.GetHints()[0]
	assert.Equal(t, "moderate-wash-marks", hint.GetRuleId())
	assert.Equal(t, "defect.severity >= 1.5", hint.GetAfter())
	assert.Equal(t, int32(12), hint.GetForChange())
	assert.Equal(t, int32(12), hint.GetTrialsSaved())
	assert.InDelta(t, 84, hint.GetMinutesSaved(), 1e-9)
	assert.NotEmpty(t, hint.GetEffects())

	files, err := rulefolder.Read(shipped.Files())
	require.NoError(t, err)
	edited := map[string]string{}
	for name, text := range files {
		edited[name] = string(text)
	}
	report, err := replay(t, history, edited)
	require.NoError(t, err)
	assert.Equal(t, int32(36), report.GetDecisions())
	assert.Zero(t, report.GetAll().GetStarts(), "the set in force answers as it did")
	assert.Zero(t, report.GetUnknownSets(), "the set that decided is kept")

	edited["start.yaml"] = replaced(t, edited["start.yaml"], "let.must_go && defect.severity >= 2\n", "let.must_go && defect.severity >= 1.5\n")
	delete(edited, "cases/start.yaml")
	report, err = replay(t, history, edited)
	require.NoError(t, err)
	assert.Equal(t, int32(12), report.GetAll().GetForNew())
	assert.Equal(t, int32(12), report.GetAll().GetTrialsSaved())
	assert.Equal(t, "jobs/visit-0/events/3", report.GetMoves()[0].GetExamples()[0].GetDecision())
	assert.NotEmpty(t, report.GetLimits())

	edited["limit.yaml"] = "table: limit\n"
	delete(edited, "cases/limit.yaml")
	_, err = replay(t, history, edited)
	assert.Equal(t, codes.InvalidArgument, status.Code(err))
	assert.ErrorContains(t, err, "the rules that were sent do not load: limit.yaml")
}

func replaced(t *testing.T, text, from, to string) string {
	t.Helper()
	out := strings.ReplaceAll(text, from, to)
	require.NotEqual(t, text, out)
	return out
}

// replay follows a replay to its report.
func replay(t *testing.T, history v1.HistoryServiceClient, files map[string]string) (*v1.ReplayReport, error) {
	t.Helper()
	stream, err := history.ReplayRules(t.Context(), &v1.ReplayRulesRequest{Files: files})
	require.NoError(t, err)
	var report *v1.ReplayReport
	for {
		said, err := stream.Recv()
		if errors.Is(err, io.EOF) {
			return report, nil
		}
		if err != nil {
			return nil, err
		}
		report = said.GetReport()
	}
}

func TestADecisionIsToldAgain(t *testing.T) {
	conn := dial(t, app.Options{Data: filepath.Join(t.TempDir(), "jobs.db")})
	jobs, history := v1.NewJobServiceClient(conn), v1.NewHistoryServiceClient(conn)
	bookAndInspect(t, jobs, "visit", mediumMarks(2))
	said, err := history.ExplainDecision(t.Context(), &v1.ExplainDecisionRequest{Job: "jobs/visit", Sequence: 3})
	require.NoError(t, err)
	require.NotEmpty(t, said.GetQuestions())
	for _, q := range said.GetQuestions() {
		assert.True(t, q.GetAgrees(), q.GetTable())
	}
	one, err := history.ExplainDecision(t.Context(), &v1.ExplainDecisionRequest{Job: "jobs/visit", Sequence: 3, Table: "start"})
	require.NoError(t, err)
	require.Len(t, one.GetQuestions(), 1)
	assert.Equal(t, "moderate-wash-marks", one.GetQuestions()[0].GetReasons()[0].GetRuleId())
	assert.Contains(t, one.GetQuestions()[0].GetReasons()[0].GetSentence(), "severity is 2")

	for _, c := range []struct {
		name string
		ask  *v1.ExplainDecisionRequest
		code codes.Code
		says string
	}{
		{"no such job", &v1.ExplainDecisionRequest{Job: "jobs/none", Sequence: 1}, codes.NotFound, "there is no job none on record"},
		{"no such event", &v1.ExplainDecisionRequest{Job: "jobs/visit", Sequence: 9}, codes.NotFound, "there is no event 9 of job visit on record"},
		{"no decision", &v1.ExplainDecisionRequest{Job: "jobs/visit", Sequence: 2}, codes.InvalidArgument, "is 2, which is of kind inspection"},
		{"no name", &v1.ExplainDecisionRequest{Job: "visit", Sequence: 3}, codes.InvalidArgument, "is no name"},
	} {
		_, err := history.ExplainDecision(t.Context(), c.ask)
		assert.Equal(t, c.code, status.Code(err), c.name)
		assert.ErrorContains(t, err, c.says, c.name)
	}
}

func TestWithoutARecordHistorySaysSo(t *testing.T) {
	history := v1.NewHistoryServiceClient(dial(t, app.Options{}))
	for name, call := range map[string]func() error{
		"lessons": func() error { _, err := history.GetLessons(t.Context(), &v1.GetLessonsRequest{}); return err },
		"hints":   func() error { _, err := history.ListRuleHints(t.Context(), &v1.ListRuleHintsRequest{}); return err },
		"explain": func() error {
			_, err := history.ExplainDecision(t.Context(), &v1.ExplainDecisionRequest{Job: "jobs/a", Sequence: 1})
			return err
		},
	} {
		err := call()
		assert.Equal(t, codes.FailedPrecondition, status.Code(err), name)
		assert.ErrorContains(t, err, "--data", name)
	}
}

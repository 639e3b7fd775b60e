package app_test

import (
	"bytes"
	"context"
	"io/fs"
	"log/slog"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/credentials/insecure"
	healthpb "google.golang.org/grpc/health/grpc_health_v1"
	reflectionpb "google.golang.org/grpc/reflection/grpc_reflection_v1"
	"google.golang.org/grpc/status"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules/shipped"
	"github.com/glossladder/glossladder/service/app"
)

// dial starts the service on a port of its own and connects to it as any gRPC client would.
func dial(t *testing.T, opts app.Options) *grpc.ClientConn {
	t.Helper()
	opts.Listen = "127.0.0.1:0"
	a, err := app.New(opts)
	require.NoError(t, err)
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- a.Run(ctx) }()
	conn, err := grpc.NewClient(a.Addr(), grpc.WithTransportCredentials(insecure.NewCredentials()))
	require.NoError(t, err)
	t.Cleanup(func() {
		assert.NoError(t, conn.Close())
		cancel()
		assert.NoError(t, <-ended, "an orderly end is no error")
	})
	return conn
}

func marked() *glossladderv1.Inspection {
	severity := 2.0
	return &glossladderv1.Inspection{Panels: []*glossladderv1.Panel{{
		Id: "bonnet", Substrate: glossladderv1.Substrate_SUBSTRATE_STEEL,
		Paint:   &glossladderv1.Paint{System: glossladderv1.PaintSystem_PAINT_SYSTEM_CLEAR_COAT, Softness: glossladderv1.Softness_SOFTNESS_SOFT},
		Defects: []*glossladderv1.Defect{{Kind: glossladderv1.DefectKind_DEFECT_KIND_WASH_MARKS, Severity: &severity}},
	}}}
}

func TestAClientGetsARecommendationWithReasonsAndPlaces(t *testing.T) {
	client := glossladderv1.NewAdvisorServiceClient(dial(t, app.Options{}))
	resp, err := client.Recommend(context.Background(), &glossladderv1.RecommendRequest{Inspection: marked()})
	require.NoError(t, err)
	panel := resp.GetRecommendation().GetPanels()[0]
	assert.Equal(t, glossladderv1.Step_STEP_FINISH, panel.GetStart())
	reason := panel.GetDefects()[0].GetReason()
	assert.Equal(t, "start.yaml", reason.GetFile())
	assert.Positive(t, reason.GetLine())
	assert.NotEmpty(t, reason.GetRuleId())
	assert.NotEmpty(t, reason.GetBecause())
	assert.Len(t, resp.GetRecommendation().GetRuleSet(), 64, "a SHA-256 in hexadecimal")
}

func TestEveryViolationOfARequestComesAtOnceByFieldPath(t *testing.T) {
	client := glossladderv1.NewAdvisorServiceClient(dial(t, app.Options{}))
	bad := marked()
	hot, wild := 300.0, 9.0
	bad.Panels[0].PanelC = &hot
	bad.Panels[0].Defects[0].Severity = &wild
	bad.Panels = append(bad.Panels, &glossladderv1.Panel{Id: "Front Door", Film: []*glossladderv1.FilmSpot{{Spot: "a", TotalUm: []float64{118, -4}}}})

	_, err := client.Recommend(context.Background(), &glossladderv1.RecommendRequest{Inspection: bad})
	assert.Equal(t, codes.InvalidArgument, status.Code(err))
	got := violations(t, err)
	assert.Equal(t, "300 is not allowed: from -40 to 120 °C", got["inspection.panels[0].panel_c"])
	assert.Equal(t, "9 is not allowed: from 0 to 5", got["inspection.panels[0].defects[0].severity"])
	assert.Contains(t, got["inspection.panels[1].id"], `"Front Door" is not allowed`)
	assert.Equal(t, "-4 is not allowed: from 0 to 3000 µm", got["inspection.panels[1].film[0].total_um[1]"])
	assert.Len(t, got, 4)
}

func TestReadingsThatCannotBeReckonedWithAreRefusedByFieldPath(t *testing.T) {
	client := glossladderv1.NewAdvisorServiceClient(dial(t, app.Options{}))
	bad := marked()
	bad.Panels[0].Film = []*glossladderv1.FilmSpot{{Spot: "centre", TotalUm: []float64{118, 119}}}
	plastic := &glossladderv1.Panel{Id: "bumper", Substrate: glossladderv1.Substrate_SUBSTRATE_PLASTIC, Film: []*glossladderv1.FilmSpot{{Spot: "centre", TotalUm: []float64{90, 91, 92}}}}
	bad.Panels = append(bad.Panels, plastic)

	_, err := client.Recommend(context.Background(), &glossladderv1.RecommendRequest{Inspection: bad})
	assert.Equal(t, codes.InvalidArgument, status.Code(err))
	got := violations(t, err)
	assert.Contains(t, got["inspection.panels[0].film[0].total_um"], "too few readings, 2")
	assert.Contains(t, got["inspection.panels[1].film"], "plastic")
	assert.Len(t, got, 2)
}

func violations(t *testing.T, err error) map[string]string {
	t.Helper()
	found := map[string]string{}
	for _, detail := range status.Convert(err).Details() {
		bad, ok := detail.(*errdetails.BadRequest)
		require.True(t, ok, "%T", detail)
		for _, v := range bad.GetFieldViolations() {
			found[v.GetField()] = v.GetDescription()
		}
	}
	return found
}

func TestHealthAndReflectionSayWhatIsServed(t *testing.T) {
	conn := dial(t, app.Options{})
	for _, service := range []string{"", "glossladder.v1.AdvisorService"} {
		resp, err := healthpb.NewHealthClient(conn).Check(context.Background(), &healthpb.HealthCheckRequest{Service: service})
		require.NoError(t, err)
		assert.Equal(t, healthpb.HealthCheckResponse_SERVING, resp.GetStatus(), service)
	}
	stream, err := reflectionpb.NewServerReflectionClient(conn).ServerReflectionInfo(context.Background())
	require.NoError(t, err)
	require.NoError(t, stream.Send(&reflectionpb.ServerReflectionRequest{MessageRequest: &reflectionpb.ServerReflectionRequest_ListServices{}}))
	resp, err := stream.Recv()
	require.NoError(t, err)
	var names []string
	for _, s := range resp.GetListServicesResponse().GetService() {
		names = append(names, s.GetName())
	}
	assert.Contains(t, names, "glossladder.v1.AdvisorService")
	require.NoError(t, stream.CloseSend())
}

func TestAMessageBeyondTheLimitIsRefused(t *testing.T) {
	client := glossladderv1.NewAdvisorServiceClient(dial(t, app.Options{}))
	_, err := client.ListFacts(context.Background(), &glossladderv1.ListFactsRequest{Prefix: strings.Repeat("x", 5<<20)})
	assert.Equal(t, codes.ResourceExhausted, status.Code(err))
}

func TestADeadlineThatPassedIsToldAsOne(t *testing.T) {
	client := glossladderv1.NewAdvisorServiceClient(dial(t, app.Options{}))
	ctx, cancel := context.WithDeadline(context.Background(), time.Unix(0, 0))
	defer cancel()
	_, err := client.ListFacts(ctx, &glossladderv1.ListFactsRequest{})
	assert.Equal(t, codes.DeadlineExceeded, status.Code(err))
}

func TestManyCallersGetTheSameAnswer(t *testing.T) {
	client := glossladderv1.NewAdvisorServiceClient(dial(t, app.Options{}))
	first, err := client.Recommend(context.Background(), &glossladderv1.RecommendRequest{Inspection: marked()})
	require.NoError(t, err)
	var wait sync.WaitGroup
	for range 16 {
		wait.Go(func() {
			again, err := client.Recommend(context.Background(), &glossladderv1.RecommendRequest{Inspection: marked()})
			assert.NoError(t, err)
			assert.Equal(t, first.String(), again.String())
		})
	}
	wait.Wait()
}

func TestEveryCallIsLoggedOnceAndWhatWasSentIsNot(t *testing.T) {
	var log bytes.Buffer
	client := glossladderv1.NewAdvisorServiceClient(dial(t, app.Options{Log: slog.New(slog.NewTextHandler(&log, nil))}))
	_, err := client.ListFacts(context.Background(), &glossladderv1.ListFactsRequest{Prefix: "film."})
	require.NoError(t, err)
	assert.Equal(t, 1, strings.Count(log.String(), "msg=call"))
	assert.Contains(t, log.String(), "code=OK")
	assert.NotContains(t, log.String(), "film.")
}

func TestListFactsGivesTheVocabularyAndTheTables(t *testing.T) {
	client := glossladderv1.NewAdvisorServiceClient(dial(t, app.Options{}))
	resp, err := client.ListFacts(context.Background(), &glossladderv1.ListFactsRequest{Prefix: "film.usable"})
	require.NoError(t, err)
	require.Len(t, resp.GetFacts(), 1)
	fact := resp.GetFacts()[0]
	assert.Equal(t, "µm", fact.GetUnit())
	assert.Equal(t, 0.1, fact.GetStep())
	assert.Len(t, resp.GetTables(), 15)
	for _, table := range resp.GetTables() {
		assert.Positive(t, table.GetRules(), table.GetName())
		assert.NotEmpty(t, table.GetFields(), table.GetName())
	}
}

func TestInProcessNeedsNoAddress(t *testing.T) {
	a, err := app.New(app.Options{})
	require.NoError(t, err)
	assert.Empty(t, a.Addr())
	conn, err := a.Dial()
	require.NoError(t, err)
	_, err = glossladderv1.NewAdvisorServiceClient(conn).ListFacts(context.Background(), &glossladderv1.ListFactsRequest{})
	require.NoError(t, err)
	require.NoError(t, conn.Close())
	require.NoError(t, a.Close())
	require.NoError(t, a.Close(), "closing twice is harmless")
}

func TestOptionsReportEveryComplaint(t *testing.T) {
	err := app.Options{Listen: "0.0.0.0:7070", RulesDir: "no/such/folder"}.Validate()
	require.Error(t, err)
	assert.Contains(t, err.Error(), "reaches beyond this machine")
	assert.Contains(t, err.Error(), "no/such/folder")
	assert.Error(t, app.Options{Listen: "7070"}.Validate())
	assert.ErrorContains(t, app.Options{Listen: "127.0.0.1:0", Metrics: "0.0.0.0:9090"}.Validate(), "metrics address \"0.0.0.0:9090\" reaches beyond this machine")
	assert.ErrorContains(t, app.Options{Metrics: "127.0.0.1:0"}.Validate(), "set Options.Listen")
	assert.ErrorContains(t, app.Options{StateDir: "app_test.go"}.Validate(), "app_test.go is a file")
	assert.NoError(t, app.Options{Listen: "[::1]:0"}.Validate())
	assert.NoError(t, app.Options{Listen: "localhost:0"}.Validate())
}

func TestTheStatusAndTheCheckOfRulesAreServed(t *testing.T) {
	client := glossladderv1.NewRulesServiceClient(dial(t, app.Options{}))
	inForce, err := client.GetRulesStatus(context.Background(), &glossladderv1.GetRulesStatusRequest{})
	require.NoError(t, err)
	assert.Len(t, inForce.GetRuleSet(), 64)
	assert.Empty(t, inForce.GetFolder(), "the rules as shipped")
	assert.NotNil(t, inForce.GetInForceSince())
	assert.Empty(t, inForce.GetProblems())

	files := map[string]string{}
	require.NoError(t, fs.WalkDir(shipped.Files(), ".", func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		text, err := fs.ReadFile(shipped.Files(), path)
		files[path] = string(text)
		return err
	}))
	checked, err := client.CheckRules(context.Background(), &glossladderv1.CheckRulesRequest{Files: files})
	require.NoError(t, err)
	assert.Empty(t, checked.GetProblems())
	assert.Equal(t, inForce.GetRuleSet(), checked.GetRuleSet(), "the same files have the same hash")

	files["start.yaml"] = strings.Replace(files["start.yaml"], "paint.softness", "paint.sofness", 1)
	checked, err = client.CheckRules(context.Background(), &glossladderv1.CheckRulesRequest{Files: files})
	require.NoError(t, err)
	require.NotEmpty(t, checked.GetProblems())
	assert.Equal(t, "start.yaml", checked.GetProblems()[0].GetFile())
	assert.Positive(t, checked.GetProblems()[0].GetColumn())
	assert.Empty(t, checked.GetRuleSet())

	_, err = client.CheckRules(context.Background(), &glossladderv1.CheckRulesRequest{})
	assert.Equal(t, codes.InvalidArgument, status.Code(err))
}

package app_test

import (
	"context"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	healthpb "google.golang.org/grpc/health/grpc_health_v1"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/shipped"
	"github.com/glossladder/glossladder/service/app"
)

func TestHealthAndStatusSayThatTheLastGoodSetDecides(t *testing.T) {
	dir, state := t.TempDir(), t.TempDir()
	require.NoError(t, os.CopyFS(dir, shipped.Files()))
	first, err := app.New(app.Options{Listen: "127.0.0.1:0", RulesDir: dir, StateDir: state})
	require.NoError(t, err)
	_, yes := first.OnLastGood()
	assert.False(t, yes)
	require.NoError(t, first.Close())
	require.NoError(t, os.Remove(filepath.Join(dir, "limit.yaml")))

	// In process only there is nobody to go on serving.
	_, err = app.New(app.Options{RulesDir: dir, StateDir: state})
	var problems rules.Problems
	require.ErrorAs(t, err, &problems)

	conn := dial(t, app.Options{RulesDir: dir, StateDir: state})
	for service, want := range map[string]healthpb.HealthCheckResponse_ServingStatus{
		"": healthpb.HealthCheckResponse_SERVING, "glossladder.v1.AdvisorService": healthpb.HealthCheckResponse_SERVING,
		"glossladder.rules": healthpb.HealthCheckResponse_NOT_SERVING,
	} {
		resp, err := healthpb.NewHealthClient(conn).Check(context.Background(), &healthpb.HealthCheckRequest{Service: service})
		require.NoError(t, err)
		assert.Equal(t, want, resp.GetStatus(), service)
	}
	status := inForce(t, glossladderv1.NewRulesServiceClient(conn))
	assert.Equal(t, glossladderv1.RuleSetWay_RULE_SET_WAY_LAST_GOOD, status.GetWay())
	assert.NotEmpty(t, status.GetProblems())
	assert.NotNil(t, status.GetWrongSince())
	resp, err := glossladderv1.NewAdvisorServiceClient(conn).Recommend(context.Background(), &glossladderv1.RecommendRequest{Inspection: marked()})
	require.NoError(t, err)
	assert.Equal(t, status.GetRuleSet(), resp.GetRecommendation().GetRuleSet())
}

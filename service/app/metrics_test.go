package app_test

import (
	"context"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials/insecure"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules/shipped"
	"github.com/glossladder/glossladder/service/app"
)

// scrape reads the metrics as a monitoring system does.
func scrape(t *testing.T, address string) string {
	t.Helper()
	resp, err := http.Get("http://" + address + "/metrics")
	require.NoError(t, err)
	text, err := io.ReadAll(resp.Body)
	require.NoError(t, err)
	require.NoError(t, resp.Body.Close())
	require.Equal(t, http.StatusOK, resp.StatusCode)
	return string(text)
}

// value is the number of one sample; "" when it is not there.
func value(text, sample string) string {
	found := regexp.MustCompile(`(?m)^` + regexp.QuoteMeta(sample) + ` (\S+)$`).FindStringSubmatch(text)
	if found == nil {
		return ""
	}
	return found[1]
}

func TestMetricsTellOfTheRulesAndTheCalls(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.CopyFS(dir, shipped.Files()))
	a, err := app.New(app.Options{Listen: "127.0.0.1:0", Metrics: "127.0.0.1:0", RulesDir: dir, StateDir: t.TempDir()})
	require.NoError(t, err)
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- a.Run(ctx) }()
	conn, err := grpc.NewClient(a.Addr(), grpc.WithTransportCredentials(insecure.NewCredentials()))
	require.NoError(t, err)
	client := glossladderv1.NewRulesServiceClient(conn)

	set := inForce(t, client).GetRuleSet()
	text := scrape(t, a.MetricsAddr())
	assert.Equal(t, "1", value(text, `glossladder_rules_info{rule_set="`+set+`"}`))
	assert.Equal(t, "1", value(text, "glossladder_rules_files_in_force"))
	assert.NotEmpty(t, value(text, "glossladder_rules_last_success_timestamp_seconds"))
	assert.NotEmpty(t, value(text, "glossladder_rules_in_force_age_seconds"))
	assert.Empty(t, value(text, "glossladder_rules_last_failure_timestamp_seconds"), "what has not happened is not there")
	assert.Equal(t, "1", value(text, `grpc_server_handled_total{grpc_code="OK",grpc_method="GetRulesStatus",grpc_service="glossladder.v1.RulesService",grpc_type="unary"}`))

	good := get(t, client, "start.yaml")
	require.NoError(t, os.WriteFile(filepath.Join(dir, "start.yaml"), []byte("table: start\n"), 0o600))
	_, err = client.ReloadRules(ctx, &glossladderv1.ReloadRulesRequest{})
	require.NoError(t, err)
	text = scrape(t, a.MetricsAddr())
	assert.Equal(t, "0", value(text, "glossladder_rules_files_in_force"))
	assert.Equal(t, "1", value(text, `glossladder_rules_reloads_total{outcome="refused"}`))
	assert.NotEmpty(t, value(text, "glossladder_rules_last_failure_timestamp_seconds"))
	assert.NotEmpty(t, value(text, "glossladder_rules_wrong_since_timestamp_seconds"))
	assert.Equal(t, "1", value(text, `glossladder_rules_info{rule_set="`+set+`"}`), "the last good set decides")

	require.NoError(t, os.WriteFile(filepath.Join(dir, "start.yaml"), []byte(good.GetText()+"# mended\n"), 0o600))
	_, err = client.ReloadRules(ctx, &glossladderv1.ReloadRulesRequest{})
	require.NoError(t, err)
	text = scrape(t, a.MetricsAddr())
	assert.Equal(t, "1", value(text, `glossladder_rules_reloads_total{outcome="taken_up"}`))
	assert.Empty(t, value(text, "glossladder_rules_wrong_since_timestamp_seconds"))
	assert.Equal(t, "1", value(text, `glossladder_rules_info{rule_set="`+inForce(t, client).GetRuleSet()+`"}`))
	assert.Equal(t, "0", value(text, "glossladder_rules_edits_total"))

	require.NoError(t, conn.Close())
	cancel()
	require.NoError(t, <-ended)
	_, err = http.Get("http://" + a.MetricsAddr() + "/metrics")
	require.Error(t, err, "nobody listens any more")
}

func TestAnAddressThatIsTakenStopsAStartBeforeRulesComeIntoForce(t *testing.T) {
	state := t.TempDir()
	first, err := app.New(app.Options{Listen: "127.0.0.1:0", Metrics: "127.0.0.1:0"})
	require.NoError(t, err)
	_, err = app.New(app.Options{Listen: "127.0.0.1:0", Metrics: first.MetricsAddr(), StateDir: state})
	require.ErrorContains(t, err, "listen for metrics")
	_, err = app.New(app.Options{Listen: first.Addr(), StateDir: state})
	require.ErrorContains(t, err, "listen")
	left, err := os.ReadDir(state)
	require.NoError(t, err)
	assert.Empty(t, left)
	require.NoError(t, first.Close())
}

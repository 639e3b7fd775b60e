package httpapi_test

import (
	"context"
	"encoding/json"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules/shipped"
	"github.com/glossladder/glossladder/service/app"
)

// serve starts the whole service on a port of its own, with a rules folder and a record of jobs, and returns its address.
func serve(t *testing.T) string {
	t.Helper()
	dir, state := t.TempDir(), t.TempDir()
	require.NoError(t, os.CopyFS(dir, shipped.Files()))
	a, err := app.New(app.Options{Listen: "127.0.0.1:0", RulesDir: dir, StateDir: state, Data: filepath.Join(state, "jobs.db")})
	require.NoError(t, err)
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- a.Run(ctx) }()
	t.Cleanup(func() {
		cancel()
		require.NoError(t, <-ended)
	})
	return a.Addr()
}

// answer is what came back over HTTP.
type answer struct {
	status int
	header http.Header
	text   []byte
}

// json reads the answer as JSON.
func (a answer) json(t *testing.T) map[string]any {
	t.Helper()
	require.Equal(t, "application/json", a.header.Get("Content-Type"), string(a.text))
	var out map[string]any
	require.NoError(t, json.Unmarshal(a.text, &out), string(a.text))
	return out
}

// call sends one request; headers are pairs of name and value, and "Host" is the host it is for.
func call(t *testing.T, method, url, body string, headers ...string) answer {
	t.Helper()
	request, err := http.NewRequest(method, url, strings.NewReader(body))
	require.NoError(t, err)
	if body != "" {
		request.Header.Set("Content-Type", "application/json")
	}
	for i := 0; i < len(headers); i += 2 {
		if headers[i] == "Host" {
			request.Host = headers[i+1]
		}
		request.Header.Set(headers[i], headers[i+1])
	}
	resp, err := http.DefaultClient.Do(request)
	require.NoError(t, err)
	text, err := io.ReadAll(resp.Body)
	require.NoError(t, err)
	require.NoError(t, resp.Body.Close())
	return answer{status: resp.StatusCode, header: resp.Header, text: text}
}

// inspection is an invented vehicle with marks on soft paint.
const inspection = `{
  "vehicle": {"label": "invented", "size": "VEHICLE_SIZE_MEDIUM", "paint": {"system": "PAINT_SYSTEM_CLEAR_COAT", "softness": "SOFTNESS_SOFT", "shade": "SHADE_DARK"}},
  "goal": {"level": "GOAL_LEVEL_ENHANCE", "protection": "PROTECTION_SEALANT"},
  "climate": {"air_c": 21, "humidity_pct": 48, "panel_c": 22},
  "panels": [{
    "id": "bonnet", "part": "PANEL_PART_BONNET", "substrate": "SUBSTRATE_STEEL", "clean": true, "taped": true, "in_sun": false,
    "film": [{"spot": "centre", "total_um": [118, 117, 119]}, {"spot": "front", "total_um": [114, 115, 114]}],
    "gloss": [
      {"spot": "a", "at60_gu": [84.1, 84.6, 84.3], "at20_gu": [71.8, 72.4, 72.1]},
      {"spot": "b", "at60_gu": [85.0, 84.7, 85.2], "at20_gu": [73.0, 72.6, 73.3]},
      {"spot": "c", "at60_gu": [83.6, 84.0, 83.8], "at20_gu": [71.1, 71.6, 71.2]}
    ],
    "defects": [{"kind": "DEFECT_KIND_WASH_MARKS", "severity": 2}]
  }]
}`

// trial is a test spot on its bonnet that went well.
const trial = `{
  "step": "STEP_FINISH", "panel_wiped": true, "wipe_off": "WIPE_OFF_CLEAN", "panel_c": 29, "minutes": 6, "trails_left": 0,
  "after": [
    {"spot": "a", "at60_gu": [91.9, 92.3, 92.0], "at20_gu": [83.2, 83.8, 83.5]},
    {"spot": "b", "at60_gu": [92.4, 92.1, 92.6], "at20_gu": [84.1, 83.7, 84.4]},
    {"spot": "c", "at60_gu": [91.5, 91.9, 91.7], "at20_gu": [82.6, 83.1, 82.9]}
  ],
  "left": [{"kind": "DEFECT_KIND_WASH_MARKS", "severity": 0}]
}`

package app_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules/shipped"
	"github.com/glossladder/glossladder/service/app"
)

// edited is a folder with the shipped rules and one edit. The text must occur; every place of it is edited.
func edited(t *testing.T, file, from, to string) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "rules")
	require.NoError(t, os.CopyFS(dir, shipped.Files()))
	src, err := fs.ReadFile(shipped.Files(), file)
	require.NoError(t, err)
	text := strings.ReplaceAll(string(src), from, to)
	require.NotEqual(t, string(src), text, "%s does not hold %q", file, from)
	require.NoError(t, os.WriteFile(filepath.Join(dir, file), []byte(text), 0o600))
	return dir
}

// A set that breaks a shipped safety promise does not load. Every promise is tried beside the rules.
func TestSetThatBreaksASafetyPromiseDoesNotLoad(t *testing.T) {
	for _, c := range []struct{ promise, file, from, to, example string }{
		{"unmeasured-film-is-never-cut", "limit.yaml", "when: not let.measured\n", "when: not let.measured && paint.age_years >= 5\n", "paint system clear-coat, nothing else known: limit answers step: cut"},
		{"every-panel-has-a-limit", "limit.yaml", "when: true\n", "when: known(paint.age_years)\n", "limit has no answer"},
		{"worse-marks-never-start-milder", "start.yaml", "when: let.marks && defect.severity >= 4\n", "when: let.marks && defect.severity >= 4 && defect.severity < 5\n", "severity 4: start answers step: polish"},
		{"hotter-panels-keep-the-heat-caution", "cautions.yaml", "climate.panel_c >= ", "climate.panel_c < 60 && climate.panel_c >= ", "and at 60 °C no rule of cautions"},
		{"trial-loop-ends", "verdict.yaml", "trial.number_left <= 0", "trial.number_left <= -20", "trials left on this panel 0"},
	} {
		t.Run(c.promise, func(t *testing.T) {
			_, err := app.LoadRules(edited(t, c.file, c.from, c.to))
			require.Error(t, err)
			assert.Contains(t, err.Error(), "safety promise "+c.promise+" is broken: ")
			assert.Contains(t, err.Error(), c.example)
		})
	}
}

func TestShopCannotTakeASafetyPromiseAway(t *testing.T) {
	dir := edited(t, "limit.yaml", "when: film.after_cut_um < 0", "when: film.after_cut_um < -1")
	require.NoError(t, os.Remove(filepath.Join(dir, "promises.yaml")))
	_, err := app.LoadRules(dir)
	require.ErrorContains(t, err, "safety promise film-too-thin-for-a-cut is broken")
}

func TestShopsOwnSafetyPromiseBinds(t *testing.T) {
	dir := edited(t, "promises.yaml", "promises:\n", "promises:\n  - {id: only-finish, safety: true, never: limit.step > \"finish\", because: This shop only finishes.}\n")
	_, err := app.LoadRules(dir)
	require.ErrorContains(t, err, "promises.yaml:6:5: safety promise only-finish is broken")
}

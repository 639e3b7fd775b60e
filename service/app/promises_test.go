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
	require.Contains(t, string(src), from)
	text := strings.ReplaceAll(string(src), from, to)
	require.NoError(t, os.WriteFile(filepath.Join(dir, file), []byte(text), 0o600))
	return dir
}

// Each shipped safety promise refuses a set that was edited to break it, and says for which input.
func TestSetThatBreaksASafetyPromiseDoesNotLoad(t *testing.T) {
	for _, c := range []struct{ promise, file, from, to, example string }{
		{"unmeasured-film-is-never-cut", "limit.yaml", "when: not let.measured\n", "when: not let.measured && paint.age_years >= 5\n", "film"},
		{"film-too-thin-for-a-cut", "limit.yaml", "when: film.after_cut_um < 0", "when: film.after_cut_um < -1", "cut"},
		{"film-too-thin-for-a-polish", "limit.yaml", "when: film.after_polish_um < 0", "when: film.after_polish_um < -1", "polish"},
		{"film-too-thin-for-any-step", "limit.yaml", "when: film.after_finish_um < 0", "when: film.after_finish_um < -1", "finish"},
		{"matte-and-films-get-no-step", "limit.yaml", `when: paint.system == "wrap"`, `when: paint.system == "wrap" && paint.age_years > 1`, "wrap"},
		{"every-panel-has-a-limit", "limit.yaml", "when: true\n", "when: known(paint.age_years)\n", "no answer"},
		{"no-ladder-ends-on-a-cut", "ladder.yaml", "then: {ladder: cut-polish}", "then: {ladder: polish-finish}", "polish-finish"},
		{"worse-marks-never-start-milder", "start.yaml", "when: let.marks && defect.severity >= 4\n", "when: let.marks && defect.severity >= 4 && defect.severity < 5\n", "start answers"},
		{"hotter-panels-keep-the-heat-caution", "cautions.yaml", "climate.panel_c >= ", "climate.panel_c < 60 && climate.panel_c >= ", "any more"},
		{"hotter-panels-keep-the-heat-danger", "cautions.yaml", "climate.panel_c >= 50", "climate.panel_c >= 50 && climate.panel_c < 60", "any more"},
		{"trial-loop-ends", "verdict.yaml", "trial.number >= 8", "trial.number >= 30", "trials on this panel 8"},
		{"never-up-past-the-limit", "verdict.yaml", "can_step_up: step.now < step.limit", "can_step_up: step.now <= step.limit", "step-up"},
	} {
		t.Run(c.promise, func(t *testing.T) {
			_, err := app.LoadRules(edited(t, c.file, c.from, c.to))
			require.Error(t, err)
			assert.Contains(t, err.Error(), "safety promise "+c.promise+" is broken: ")
			assert.Contains(t, err.Error(), c.example)
			t.Log(err)
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

package shipped_test

import (
	"io/fs"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/promise"
	"github.com/glossladder/glossladder/rules/shipped"
	"github.com/glossladder/glossladder/service/catalogue"
)

func promisesOf(t testing.TB, set *rules.Set) []promise.Promise {
	t.Helper()
	src, ok := set.Source(promise.File)
	require.True(t, ok)
	promises, err := promise.Parse(promise.File, src)
	require.NoError(t, err)
	require.NotEmpty(t, promises)
	return promises
}

func TestEveryPromiseIsKept(t *testing.T) {
	set := load(t)
	verdicts, err := promise.Verify(set, promisesOf(t, set), 0)
	require.NoError(t, err)
	for _, v := range verdicts {
		assert.Equal(t, promise.Kept, v.Outcome, "%s after %d steps: %s", v.Promise.ID, v.Steps, v.Example)
	}
}

// edit is one slip of a rule author: a text of a file, everywhere in it, becomes another.
type edit struct{ file, from, to string }

// edited is the shipped set with an edit, without its worked cases: they would notice many edits before a promise does.
func edited(t testing.TB, e edit) *rules.Set {
	t.Helper()
	files := fstest.MapFS{}
	names, err := fs.Glob(shipped.Files(), "*.yaml")
	require.NoError(t, err)
	for _, name := range names {
		text, err := fs.ReadFile(shipped.Files(), name)
		require.NoError(t, err)
		files[name] = &fstest.MapFile{Data: text}
	}
	text := strings.ReplaceAll(string(files[e.file].Data), e.from, e.to)
	require.NotEqual(t, string(files[e.file].Data), text, "%s does not hold %q", e.file, e.from)
	files[e.file] = &fstest.MapFile{Data: []byte(text)}
	set, err := rules.Load(files, load(t).Schema(), rules.Document{Name: "catalogue.yaml", Read: catalogue.Read})
	require.NoError(t, err)
	return set
}

// withoutLines leaves the lines of places out: they change with every edit of a comment.
func withoutLines(example string) string {
	return regexp.MustCompile(`(\.yaml):[0-9]+\)`).ReplaceAllString(example, "$1)")
}

// Every shipped promise refuses a set that was edited to break it, with an input in words that breaks it: only the facts
// that matter are named, and the rules that answer.
func TestEveryPromiseRefusesASetEditedToBreakIt(t *testing.T) {
	if testing.Short() {
		t.Skip("takes long, and nothing in it runs at once")
	}
	rows := []struct {
		name, promise string
		edit          edit
		example       string
	}{
		{
			"cut allowed on old paint nobody measured", "unmeasured-film-is-never-cut",
			edit{"limit.yaml", "when: not let.measured\n", "when: not let.measured && paint.age_years < 20\n"},
			"paint system clear-coat, nothing else known: limit answers step: cut by nothing-forbids-a-cut (limit.yaml)",
		},
		{
			"a micrometre of debt allowed under a cut", "film-too-thin-for-a-cut",
			edit{"limit.yaml", "when: film.after_cut_um < 0", "when: film.after_cut_um < -1"},
			"paint system clear-coat, usable film 0 µm, usable film after a cut ladder -0.1 µm, nothing else known: limit answers step: cut by nothing-forbids-a-cut (limit.yaml)",
		},
		{
			"a micrometre of debt allowed under a polish", "film-too-thin-for-a-polish",
			edit{"limit.yaml", "when: film.after_polish_um < 0", "when: film.after_polish_um < -1"},
			"paint system clear-coat, usable film after a polish ladder -0.1 µm, nothing else known: limit answers step: polish by no-cut-without-reading (limit.yaml)",
		},
		{
			"a micrometre of debt allowed under a finish", "film-too-thin-for-any-step",
			edit{"limit.yaml", "when: film.after_finish_um < 0", "when: film.after_finish_um < -1"},
			"usable film after a finish -0.1 µm, nothing else known: limit answers step: finish by finish-while-system-not-known (limit.yaml)",
		},
		{
			"thin film polished", "film-too-thin-for-any-step",
			edit{"limit.yaml", "when: film.thin\n    then: {step: none}", "when: film.thin\n    then: {step: finish}"},
			"thin film yes, nothing else known: limit answers step: finish by no-step-on-thin-film (limit.yaml)",
		},
		{
			"matte paint polished", "matte-and-films-get-no-step",
			edit{"limit.yaml", `when: paint.system == "matte"`, `when: paint.system == "matte" && paint.age_years > 1`},
			"paint system matte, nothing else known: limit answers step: polish by no-cut-without-reading (limit.yaml)",
		},
		{
			"wrap polished", "matte-and-films-get-no-step",
			edit{"limit.yaml", `when: paint.system == "wrap"`, `when: paint.system == "wrap" && paint.shade == "light"`},
			"paint system wrap, nothing else known: limit answers step: polish by no-cut-without-reading (limit.yaml)",
		},
		{
			"no limit for paint of unknown age", "every-panel-has-a-limit",
			edit{"limit.yaml", "when: true\n", "when: known(paint.age_years)\n"},
			"paint system clear-coat, usable film 0 µm, nothing else known: limit has no answer (no rule)",
		},
		{
			"a ladder without the cut it begins with", "no-ladder-ends-on-a-cut",
			edit{"ladder.yaml", "then: {ladder: cut-polish}", "then: {ladder: finish}"},
			"softness hard, shade medium, goal freshen, first step of the ladder cut, haze-prone paint not known: ladder answers ladder: finish by cut-then-polish (ladder.yaml)",
		},
		{
			"the worst grade forgotten", "worse-marks-never-start-milder",
			edit{"start.yaml", "when: let.marks && defect.severity >= 4\n", "when: let.marks && defect.severity >= 4 && defect.severity < 5\n"},
			"softness very-soft, defect wash-marks, severity 4: start answers step: polish by heavy-wash-marks-polish (start.yaml), and at 5: start answers step: finish by soft-paint-starts-mild (start.yaml)",
		},
		{
			"no word of heat above 60 °C", "hotter-panels-keep-the-heat-caution",
			edit{"cautions.yaml", "climate.panel_c >= ", "climate.panel_c < 60 && climate.panel_c >= "},
			`panel temperature 40 °C, first step of the ladder none, defect not known, step not known, and at 60 °C no rule of cautions gives cautions.topic == "heat" any more`,
		},
		{
			"danger of heat up to 60 °C only", "hotter-panels-keep-the-heat-danger",
			edit{"cautions.yaml", "climate.panel_c >= 50", "climate.panel_c >= 50 && climate.panel_c < 60"},
			`panel temperature 50 °C, first step of the ladder none, defect not known, step not known, and at 60 °C no rule of cautions gives cautions.topic == "heat" && cautions.level == "danger" any more`,
		},
		{
			"nothing said where nothing speaks for more", "every-trial-has-a-verdict",
			edit{"verdict.yaml", "when: true\n", "when: known(trial.headroom_left_gu)\n"},
			"gloss gain too-small, nothing else known: verdict has no answer (no rule)",
		},
		{
			"two more trials than the policy allows", "trial-loop-ends",
			edit{"verdict.yaml", "trial.number_left <= 0", "trial.number_left <= -2"},
			"step limit finish, step none, trials left on this panel 0, nothing else known: verdict answers verdict: repeat by no-readings (verdict.yaml)",
		},
		{
			"step up in the last trial", "trial-loop-ends",
			edit{"verdict.yaml", "when: trial.number_left <= 0 && (", "when: trial.number_left <= 0 && not let.can_step_up && ("},
			"step limit finish, step none, trials left on this panel 0, nothing else known: verdict answers verdict: repeat by no-readings (verdict.yaml)",
		},
		{
			"one step past the limit", "never-up-past-the-limit",
			edit{"verdict.yaml", "can_step_up: step.now < step.limit", "can_step_up: step.now <= step.limit"},
			"step limit finish, step finish, same change twice yes, nothing else known: verdict answers verdict: step-up by same-change-twice-step-up (verdict.yaml)",
		},
		{
			"a step up where no limit is known", "never-up-past-the-limit",
			edit{"verdict.yaml", "can_step_up: step.now < step.limit", "can_step_up: (not known(step.limit) || step.now < step.limit)"},
			"same change twice yes, usable film after stepping up 0 µm, nothing else known: verdict answers verdict: step-up by same-change-twice-step-up (verdict.yaml)",
		},
		{
			"a cut on film that is not measured", "never-up-without-the-film",
			edit{"verdict.yaml", `not known(trial.after_step_up_um) && step.now <= "finish"`, "not known(trial.after_step_up_um)"},
			"step limit cut, step polish, same change twice yes, nothing else known: verdict answers verdict: step-up by same-change-twice-step-up (verdict.yaml)",
		},
		{
			"a step up on film that is short", "never-up-without-the-film",
			edit{"verdict.yaml", "trial.after_step_up_um >= 0", "trial.after_step_up_um >= -1"},
			"step limit finish, step none, same change twice yes, usable film after stepping up -0.1 µm, nothing else known: verdict answers verdict: step-up by same-change-twice-step-up (verdict.yaml)",
		},
		{
			"another try on overdrawn film", "stop-where-the-film-is-gone",
			edit{"verdict.yaml", "when: trial.film_left_um < 0\n", "when: trial.film_left_um < -1\n"},
			"step limit finish, step none, usable film left -0.1 µm, nothing else known: verdict answers verdict: repeat by no-readings (verdict.yaml)",
		},
		{
			"a step stronger than allowed goes on", "stop-where-the-film-is-gone",
			edit{"verdict.yaml", "when: step.now > step.limit\n", "when: step.now > step.limit && trial.number > 1\n"},
			"step limit finish, step polish, nothing else known: verdict answers verdict: repeat by no-readings (verdict.yaml)",
		},
		{
			"something milder than a finish", "nothing-below-the-finish",
			edit{"verdict.yaml", `when: let.hazed && step.now > "finish"`, "when: let.hazed"},
			"step none, haze worse, nothing else known: verdict answers verdict: step-down by haze-without-gain (verdict.yaml)",
		},
		{
			"some marks without a start", "every-mark-has-a-start",
			edit{"start.yaml", "when: not known(defect.kind)", "when: not known(defect.kind) && known(paint.softness)"},
			"nothing known: start has no answer (no rule)",
		},
		{
			"no cut anywhere", "a-cut-can-be-had",
			edit{"limit.yaml", "then: {step: cut}", "then: {step: polish}"},
			`no input makes limit.step == "cut" && start.step == "cut" true`,
		},
		{
			"very hard paint cut where hard paint is finished", "one-notch-of-softness-moves-one-step",
			edit{"start.yaml", `paint.softness >= "very-hard" && let.must_go && defect.severity >= 3`, `paint.softness >= "very-hard" && let.must_go`},
			"softness hard, defect wash-marks, severity not known, goal not known: start answers step: finish by severity-not-graded (start.yaml), and at very-hard: start answers step: cut by heavy-wash-marks-in-very-hard-paint (start.yaml)",
		},
		{
			"the faintest sanding marks cut", "half-a-grade-never-leads-to-a-cut-at-once",
			edit{"start.yaml", `let.medium_or_harder && defect.severity >= 1.5
    then: {step: cut}`, `let.medium_or_harder && defect.severity > 0
    then: {step: cut}`},
			"defect sanding-marks, severity 0, softness not known: start answers step: none by no-mark (start.yaml), and at 0.5: start answers step: cut by sanding-marks-need-cut (start.yaml)",
		},
		{
			"a limit that a good record lifts", "the-record-moves-no-limit",
			edit{"limit.yaml", "when: film.edge_drop_um >= 15", "when: film.edge_drop_um >= 15 && not (known(history.success_low_pct) && history.success_low_pct >= 90)"},
			"no-cut-with-falling-film of limit (limit.yaml) asks for history.success_low_pct",
		},
		{
			"a good record of finishes asks for a polish", "a-better-record-never-starts-stronger",
			edit{"start.yaml", "when: let.marks && not let.finish_will_do && let.medium_or_harder", "when: let.marks && let.finish_will_do && let.medium_or_harder"},
			"defect wash-marks, severity 2, panels on record for a finish 12, chance of a finish, low end 0 %, softness not known, goal not known: start answers step: finish by light-marks-finish-first (start.yaml), and at 70 %: start answers step: polish by moderate-wash-marks (start.yaml)",
		},
		{
			"a good record of polishes asks for a cut", "a-better-record-of-polishes-never-starts-stronger",
			edit{"start.yaml", "when: let.marks && not let.polish_will_do && let.medium_or_harder", "when: let.marks && let.polish_will_do && let.medium_or_harder"},
			"defect wash-marks, severity 4, panels on record for a polish 12, chance of a polish, low end 0 %, softness not known: start answers step: polish by moderate-wash-marks (start.yaml), and at 70 %: start answers step: cut by heavy-wash-marks-cut (start.yaml)",
		},
	}
	promises := promisesOf(t, load(t))
	seen := map[string]bool{}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			verdicts, err := promise.Verify(edited(t, row.edit), promises, 0)
			require.NoError(t, err)
			for _, v := range verdicts {
				if v.Promise.ID != row.promise {
					continue
				}
				seen[row.promise] = true
				require.Equal(t, promise.Broken, v.Outcome)
				assert.Equal(t, row.example, withoutLines(v.Example))
				assert.Contains(t, v.Problem().Error(), "promise "+row.promise+" is broken: ")
			}
		})
	}
	for _, p := range promises {
		assert.True(t, seen[p.ID], "no edit breaks promise %s", p.ID)
	}
}

// Results with the same words in the same order compare across tables.
func TestPromiseComparesWhatTwoTablesAnswer(t *testing.T) {
	promises, err := promise.Parse(promise.File, []byte(`promises:
  - {id: wish-above-what-is-allowed, because: Seen., reachable: start.step > limit.step}
  - {id: never-above, because: Seen., never: 'start.step > limit.step && defect.severity <= 1'}
  - {id: policy-in-bounds, because: Seen., never: policy.most_trials > 8}
  - {id: policy-below, because: Seen., never: 'policy.most_trials > 7 && paint.system == "single-stage"'}
`))
	require.NoError(t, err)
	verdicts, err := promise.Verify(load(t), promises, 0)
	require.NoError(t, err)
	assert.Equal(t, promise.Kept, verdicts[0].Outcome)
	assert.Equal(t, promise.Broken, verdicts[1].Outcome)
	assert.Equal(t, "defect wash-marks, severity 0.5, usable film after a finish -0.1 µm: start answers step: finish by light-marks-finish-first (start.yaml); limit answers step: none by no-film-for-finish (limit.yaml)", withoutLines(verdicts[1].Example))
	assert.Equal(t, promise.Kept, verdicts[2].Outcome, verdicts[2].Example)
	assert.Equal(t, promise.Broken, verdicts[3].Outcome)
	assert.Equal(t, "paint system single-stage: policy answers most_trials: 8 by single-stage-enhance (policy.yaml)", withoutLines(verdicts[3].Example), "of what a table answers only what the promise is about is told")
}

func BenchmarkVerifyShipped(b *testing.B) {
	set := load(b)
	promises := promisesOf(b, set)
	for b.Loop() {
		verdicts, err := promise.Verify(set, promises, 0)
		require.NoError(b, err)
		require.Empty(b, promise.Refusals(verdicts))
	}
}

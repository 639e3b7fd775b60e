package cli_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/encoding/protojson"

	"github.com/glossladder/glossladder/clients/cli"
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

const stories = "../../testdata/stories/"

// run runs a command line in this process and returns what it printed. It must succeed.
func run(t *testing.T, stdin string, args ...string) string {
	t.Helper()
	var out, failure strings.Builder
	code := cli.Run(args, strings.NewReader(stdin), &out, &failure)
	require.Zero(t, code, "%v: %s", args, failure.String())
	require.Empty(t, failure.String(), "%v", args)
	return out.String()
}

func recommended(t *testing.T, story string) *glossladderv1.PanelAdvice {
	t.Helper()
	var answer glossladderv1.RecommendResponse
	require.NoError(t, protojson.Unmarshal([]byte(run(t, "", "recommend", stories+story+".yaml", "-o", "json")), &answer))
	require.Len(t, answer.GetRecommendation().GetPanels(), 1)
	return answer.GetRecommendation().GetPanels()[0]
}

func judged(t *testing.T, trial, inspection string) *glossladderv1.Verdict {
	t.Helper()
	var answer glossladderv1.JudgeTrialResponse
	text := run(t, "", "judge", stories+trial+".yaml", "--inspection", stories+inspection+".yaml", "-o", "json")
	require.NoError(t, protojson.Unmarshal([]byte(text), &answer))
	return answer.GetVerdict()
}

// What a good technician decides: common practice, no source.
func TestInspectionsAreAnsweredAsATechnicianExpects(t *testing.T) {
	for story, row := range map[string]struct {
		state  glossladderv1.PanelState
		ladder glossladderv1.Ladder
		limit  glossladderv1.Step
	}{
		"soft-dark-light-marks":    {glossladderv1.PanelState_PANEL_STATE_READY, glossladderv1.Ladder_LADDER_FINISH, glossladderv1.Step_STEP_CUT},
		"very-hard-same-marks":     {glossladderv1.PanelState_PANEL_STATE_READY, glossladderv1.Ladder_LADDER_POLISH_FINISH, glossladderv1.Step_STEP_CUT},
		"heavy-marks-sound-film":   {glossladderv1.PanelState_PANEL_STATE_READY, glossladderv1.Ladder_LADDER_CUT_FINISH, glossladderv1.Step_STEP_CUT},
		"heavy-marks-film-unknown": {glossladderv1.PanelState_PANEL_STATE_READY, glossladderv1.Ladder_LADDER_POLISH, glossladderv1.Step_STEP_POLISH},
		"matte":                    {glossladderv1.PanelState_PANEL_STATE_STOP, glossladderv1.Ladder_LADDER_NONE, glossladderv1.Step_STEP_NONE},
		"wrap":                     {glossladderv1.PanelState_PANEL_STATE_STOP, glossladderv1.Ladder_LADDER_NONE, glossladderv1.Step_STEP_NONE},
		"thin-film":                {glossladderv1.PanelState_PANEL_STATE_STOP, glossladderv1.Ladder_LADDER_NONE, glossladderv1.Step_STEP_NONE},
		"medium-marks":             {glossladderv1.PanelState_PANEL_STATE_READY, glossladderv1.Ladder_LADDER_POLISH, glossladderv1.Step_STEP_CUT},
		"very-hard-heavy-marks":    {glossladderv1.PanelState_PANEL_STATE_READY, glossladderv1.Ladder_LADDER_CUT_POLISH_FINISH, glossladderv1.Step_STEP_CUT},
		"hot-panel":                {glossladderv1.PanelState_PANEL_STATE_WAIT, glossladderv1.Ladder_LADDER_POLISH, glossladderv1.Step_STEP_CUT},
		"single-stage":             {glossladderv1.PanelState_PANEL_STATE_READY, glossladderv1.Ladder_LADDER_POLISH_FINISH, glossladderv1.Step_STEP_POLISH},
		"repaint-suspected":        {glossladderv1.PanelState_PANEL_STATE_READY, glossladderv1.Ladder_LADDER_POLISH, glossladderv1.Step_STEP_POLISH},
		"little-film":              {glossladderv1.PanelState_PANEL_STATE_READY, glossladderv1.Ladder_LADDER_POLISH, glossladderv1.Step_STEP_POLISH},
	} {
		t.Run(story, func(t *testing.T) {
			advice := recommended(t, story)
			assert.Equal(t, row.state, advice.GetState())
			assert.Equal(t, row.ladder, advice.GetLadder())
			assert.Equal(t, row.limit, advice.GetLimit())
			for _, reason := range []*glossladderv1.Reason{advice.GetLimitReason(), advice.GetLadderReason()} {
				assert.NotEmpty(t, reason.GetBecause())
				assert.Regexp(t, `^[a-z-]+\.yaml$`, reason.GetFile())
				assert.Positive(t, reason.GetLine())
				assert.NotEmpty(t, reason.GetRuleId())
			}
		})
	}
}

func TestFilmIsTheFirstThingToMeasureWhereItIsNotKnown(t *testing.T) {
	wanted := recommended(t, "heavy-marks-film-unknown").GetMeasureNext()
	require.NotEmpty(t, wanted)
	assert.Contains(t, wanted[0].GetLearn(), "film")
}

func TestNothingIsAskedForThatCannotMatter(t *testing.T) {
	whole, err := os.ReadFile(stories + "soft-dark-light-marks.yaml")
	require.NoError(t, err)
	require.Empty(t, recommended(t, "soft-dark-light-marks").GetMeasureNext(), "everything that matters is known")
	without := regexp.MustCompile(`, age_years: \d+`).ReplaceAll(whole, nil)
	require.NotEqual(t, whole, without)
	var answer glossladderv1.RecommendResponse
	require.NoError(t, protojson.Unmarshal([]byte(run(t, string(without), "recommend", "-", "-o", "json")), &answer))
	assert.Empty(t, answer.GetRecommendation().GetMeasureNext(), "with the film measured the age of the paint settles nothing")
}

func TestTrialsAreJudgedAsATechnicianExpects(t *testing.T) {
	for trial, row := range map[string]struct {
		inspection string
		kind       glossladderv1.VerdictKind
		next       glossladderv1.Step
	}{
		"trial-inside-the-noise":  {"medium-marks", glossladderv1.VerdictKind_VERDICT_KIND_REPEAT, glossladderv1.Step_STEP_POLISH},
		"trial-rising-haze":       {"medium-marks", glossladderv1.VerdictKind_VERDICT_KIND_REFINE, glossladderv1.Step_STEP_FINISH},
		"trial-short-of-the-goal": {"heavy-marks-sound-film", glossladderv1.VerdictKind_VERDICT_KIND_STEP_UP, glossladderv1.Step_STEP_CUT},
		"trial-over-the-budget":   {"little-film", glossladderv1.VerdictKind_VERDICT_KIND_STOP, glossladderv1.Step_STEP_UNSPECIFIED},
	} {
		t.Run(trial, func(t *testing.T) {
			verdict := judged(t, trial, row.inspection)
			assert.Equal(t, row.kind, verdict.GetKind(), verdict.GetHeadline())
			assert.Equal(t, row.next, verdict.GetNext().GetStep())
		})
	}
	noisy := judged(t, "trial-inside-the-noise", "medium-marks").GetGloss()
	assert.Positive(t, noisy.GetReadingsNeeded()+noisy.GetSpotsNeeded(), "how many readings or spots would settle it")
}

func TestEveryStoryIsTold(t *testing.T) {
	files, err := filepath.Glob(stories + "*.yaml")
	require.NoError(t, err)
	source, err := os.ReadFile("stories_test.go")
	require.NoError(t, err)
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".yaml")
		assert.Contains(t, string(source), `"`+name+`":`, "a story without an expectation")
	}
}

// Whoever takes the # away from a line of a template must get a file that is still read.
func TestTemplatesAreValidWithEveryLineInUse(t *testing.T) {
	commented := regexp.MustCompile(`(?m)^( *)# ((?:  )?(?:- \{)?[a-z_0-9]+:.*)$`)
	for command, least := range map[string]int{"recommend": 10, "judge": 5} {
		template := run(t, "", command, "--template")
		assert.NotEmpty(t, run(t, template, command, "-"), "as it is printed")
		require.GreaterOrEqual(t, len(commented.FindAllString(template, -1)), least)
		assert.NotEmpty(t, run(t, commented.ReplaceAllString(template, "$1$2"), command, "-"), "with every line in use")
	}
}

func TestJSONIsTheSameBytesEveryTime(t *testing.T) {
	first := run(t, "", "recommend", stories+"medium-marks.yaml", "-o", "json")
	assert.Equal(t, first, run(t, "", "recommend", stories+"medium-marks.yaml", "-o", "json"))
	assert.True(t, strings.HasPrefix(first, "{\n  \"recommendation\": {\n    \"rule_set\": \""), first[:60])
}

package app_test

import (
	"io/fs"
	"maps"
	"path"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules/shipped"
	"github.com/glossladder/glossladder/service/app"
)

// shippedTexts are the shipped files, to be edited and sent.
func shippedTexts(t *testing.T) map[string]string {
	t.Helper()
	out := map[string]string{}
	require.NoError(t, fs.WalkDir(shipped.Files(), ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		text, err := fs.ReadFile(shipped.Files(), name)
		out[name] = string(text)
		return err
	}))
	return out
}

// mildStep is where the rule for soft paint says its step.
const (
	softCase   = "id: soft-paint-starts-mild"
	stepFinish = "then: {step: finish}"
	stepPolish = "then: {step: polish}"
)

// withStronger are the shipped files with a stronger start on soft paint.
func withStronger(t *testing.T) map[string]string {
	t.Helper()
	files := shippedTexts(t)
	before, after, found := strings.Cut(files["start.yaml"], softCase)
	require.True(t, found)
	require.Contains(t, after, stepFinish)
	files["start.yaml"] = before + softCase + strings.Replace(after, stepFinish, stepPolish, 1)
	return files
}

func TestCasesOfTheSetInForceAreRunWhereNoFilesAreSent(t *testing.T) {
	client := glossladderv1.NewRulesServiceClient(dial(t, app.Options{}))
	told, err := client.TestRules(t.Context(), &glossladderv1.TestRulesRequest{})
	require.NoError(t, err)
	assert.NotEmpty(t, told.GetRuleSet())
	assert.Zero(t, told.GetFailed())
	assert.Len(t, told.GetCases(), int(told.GetPassed()))
	in := int32(0)
	for _, c := range told.GetCoverage() {
		in += c.GetCases()
		assert.Empty(t, c.GetNoCaseWins(), "%s: the shipped rules each have a case", c.GetTable())
		assert.Zero(t, c.GetBounds(), "bounds were not asked for")
	}
	assert.Equal(t, told.GetPassed(), in, "a case counts for one table")

	// The same as a count of what the files hold: a case is an item of a list at its margin.
	written := 0
	for name, text := range shippedTexts(t) {
		if path.Dir(name) == "cases" {
			written += strings.Count(text, "\n  - name:")
		}
	}
	assert.Equal(t, written, int(told.GetPassed()))
}

func TestBoundsAreCountedWhenAskedFor(t *testing.T) {
	client := glossladderv1.NewRulesServiceClient(dial(t, app.Options{}))
	told, err := client.TestRules(t.Context(), &glossladderv1.TestRulesRequest{FailuresOnly: true, WithBounds: true})
	require.NoError(t, err)
	assert.Empty(t, told.GetCases(), "none failed")
	bounds, tested := int32(0), int32(0)
	for _, c := range told.GetCoverage() {
		bounds, tested = bounds+c.GetBounds(), tested+c.GetBoundsTested()
	}
	assert.Positive(t, tested)
	assert.Greater(t, bounds, tested)
}

func TestACaseThatFailsSaysWhatWasExpectedWhatCameAndWhere(t *testing.T) {
	client := glossladderv1.NewRulesServiceClient(dial(t, app.Options{}))
	files := withStronger(t)
	told, err := client.TestRules(t.Context(), &glossladderv1.TestRulesRequest{Files: files, FailuresOnly: true})
	require.NoError(t, err)
	require.Empty(t, told.GetProblems())
	require.Len(t, told.GetCases(), int(told.GetFailed()))
	require.NotEmpty(t, told.GetCases())
	var steps []string
	for _, c := range told.GetCases() {
		assert.False(t, c.GetPassed())
		assert.Equal(t, "start", c.GetTable())
		assert.Contains(t, strings.Split(files[c.GetFile()], "\n")[c.GetLine()-1], c.GetName(), "the line is that of the case")
		require.NotEmpty(t, c.GetDifferences(), c.GetName())
		assert.Contains(t, c.GetGot(), "soft-paint-starts-mild", "the one rule that was edited is in every wrong answer")
		assert.NotEmpty(t, c.GetWhy())
		for _, d := range c.GetDifferences() {
			if d.GetWhat() == "step" {
				steps = append(steps, d.GetExpected()+" → "+d.GetGot())
			}
		}
	}
	require.NotEmpty(t, steps)
	assert.Equal(t, "finish → polish", steps[0])
	// A rule whose only cases fail has none that speaks of it any more.
	for _, c := range told.GetCoverage() {
		if c.GetTable() == "start" {
			require.NotEmpty(t, c.GetNoCaseWins())
			assert.Equal(t, "soft-paint-starts-mild", c.GetNoCaseWins()[0].GetRuleId())
			assert.Positive(t, c.GetNoCaseWins()[0].GetLine())
		}
	}
}

func TestNoCaseIsRunOfASetThatDoesNotLoad(t *testing.T) {
	client := glossladderv1.NewRulesServiceClient(dial(t, app.Options{}))
	files := shippedTexts(t)
	files["start.yaml"] = strings.Replace(files["start.yaml"], "paint.softness", "paint.sofness", 1)
	told, err := client.TestRules(t.Context(), &glossladderv1.TestRulesRequest{Files: files})
	require.NoError(t, err)
	require.NotEmpty(t, told.GetProblems())
	assert.Equal(t, "start.yaml", told.GetProblems()[0].GetFile())
	assert.Positive(t, told.GetProblems()[0].GetColumn())
	assert.Empty(t, told.GetRuleSet())
	assert.Zero(t, told.GetPassed()+told.GetFailed())

	big := maps.Clone(files)
	big["start.yaml"] = strings.Repeat("# long\n", 160_000)
	_, err = client.TestRules(t.Context(), &glossladderv1.TestRulesRequest{Files: big})
	assert.Equal(t, codes.InvalidArgument, status.Code(err), "a file of more than 1 MiB")
}

func TestACheckTellsEffectsOfShippedRulesToo(t *testing.T) {
	client := glossladderv1.NewRulesServiceClient(dial(t, app.Options{}))
	files := withStronger(t)
	plain, err := client.CheckRules(t.Context(), &glossladderv1.CheckRulesRequest{Files: files})
	require.NoError(t, err)
	assert.Nil(t, plain.GetEffects(), "not asked for")

	told, err := client.CheckRules(t.Context(), &glossladderv1.CheckRulesRequest{Files: files, WithEffects: true})
	require.NoError(t, err)
	require.NotEmpty(t, told.GetEffects().GetEffects())
	assert.NotEmpty(t, told.GetEffects().GetAcceptStronger())
	for _, e := range told.GetEffects().GetEffects() {
		assert.Equal(t, "start", e.GetTable())
		assert.Equal(t, glossladderv1.RuleEffectDirection_RULE_EFFECT_DIRECTION_STRONGER, e.GetDirection())
		assert.Equal(t, []string{"step: finish", "step: polish"}, []string{e.GetBefore(), e.GetAfter()})
		assert.NotEmpty(t, e.GetWhere())
	}

	same, err := client.CheckRules(t.Context(), &glossladderv1.CheckRulesRequest{Files: shippedTexts(t), WithEffects: true})
	require.NoError(t, err)
	assert.Nil(t, same.GetEffects(), "no answer changes")
}

package history_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
)

func TestAJobWithOneEventMoreLeavesTheJobAsItIs(t *testing.T) {
	job := jobOf(booked(), inspected("bonnet"))
	more := job.With(history.Draft{Body: tried("bonnet", "finish")})
	assert.Equal(t, history.StageTrial, more.Stage)
	assert.Equal(t, int64(3), more.Sequence)
	assert.Equal(t, int64(3), more.Panel("bonnet").Trials[0].Sequence)
	other := job.With(history.Draft{Body: planned("bonnet", "finish")})
	assert.Equal(t, history.StagePlanned, other.Stage)
	assert.Equal(t, history.StageTrial, more.Stage, "the two share nothing that is written to")
	assert.Equal(t, history.StageInspected, job.Stage)
}

func TestAStepBesideTheLadderIsAccountedForToo(t *testing.T) {
	beside := &history.Decision{RuleSet: "set", Panels: []history.PanelDecided{{
		Panel: "bonnet", Ladder: "finish", Steps: []history.StepExpected{{Step: "finish", Removal: history.Removal{LikelyUm: 0.2, HighUm: 0.5}}},
		Beside: []history.StepExpected{{Step: "polish", Removal: history.Removal{LowUm: 0.5, LikelyUm: 1, HighUm: 1.5}}},
	}}}
	job := record(t, booked(), inspected("bonnet"), beside, planned("bonnet", "polish-finish"), worked("bonnet", "polish", history.Done))
	taken := job.Panel("bonnet").Taken()
	assert.InDelta(t, 1.5, float64(taken.HighUm), 1e-9)
	assert.Empty(t, taken.Unaccounted)
}

func TestARuleSetComesOutOfTheArchiveAsItWentIn(t *testing.T) {
	files := map[string][]byte{"start.yaml": []byte("table: start\n# µ \"quoted\"\n"), "cases/start.yaml": {}, "photo.md": {0xff, 0x00, 0xfe}}
	document, err := history.PackRuleSet(files)
	require.NoError(t, err)
	got, err := history.UnpackRuleSet(document)
	require.NoError(t, err)
	require.Len(t, got, len(files))
	for name, text := range files {
		assert.Equal(t, string(text), string(got[name]), name)
	}
	none, err := history.PackRuleSet(nil)
	require.NoError(t, err)
	got, err = history.UnpackRuleSet(none)
	require.NoError(t, err)
	assert.Empty(t, got)
	_, err = history.UnpackRuleSet([]byte("no rules"))
	assert.ErrorContains(t, err, "unpack rule set")
}

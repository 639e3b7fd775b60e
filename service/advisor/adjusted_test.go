package advisor_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/advisor"
)

func judged(t *testing.T, trials ...advisor.Trial) *advisor.NextMove {
	t.Helper()
	v, err := shop(t).JudgeTrial(inspection(), "bonnet", trials)
	require.NoError(t, err)
	require.NotNil(t, v.Next, v.Headline)
	return v.Next
}

func TestTheNextTrialShowsTheOneChangeInItsSettings(t *testing.T) {
	plain := recommend(t, shop(t), inspection()).Steps[0]
	dusty := trial("finish", 5, 0, 2, func(t *advisor.Trial) { t.WipeOff = "dusting" })
	next := judged(t, dusty)
	require.Equal(t, "more-liquid", next.Change)
	assert.Equal(t, plain.Settings.Drops+1, next.Advice.Settings.Drops)
	assert.Equal(t, plain.Settings.Passes, next.Advice.Settings.Passes, "one change a trial")
	assert.Equal(t, plain.Combination, next.Advice.Combination)
}

func TestChangesOfTrialsInARowAddUp(t *testing.T) {
	plain := recommend(t, shop(t), inspection()).Steps[0]
	dusty := trial("finish", 5, 0, 2, func(t *advisor.Trial) { t.WipeOff = "dusting" })
	hot := trial("finish", 5, 0, 2, func(t *advisor.Trial) { t.Changed, t.PanelC = []string{"more-liquid"}, ptr(55.0) })
	next := judged(t, dusty, hot)
	require.Equal(t, "cool-panel", next.Change)
	assert.Equal(t, plain.Settings.Drops+1, next.Advice.Settings.Drops, "what was changed before stays changed")
}

func TestWhatTheTechnicianSaysWasUsedGoesBeforeTheAdvice(t *testing.T) {
	own := trial("finish", 5, 0, 2, func(t *advisor.Trial) {
		t.WipeOff = "dusting"
		t.Settings = advisor.UsedSettings{Speed: "high", Passes: ptr(9.0), Drops: ptr(12.0)}
		t.Combination = advisor.Combination{Machine: "short-orbital"}
	})
	next := judged(t, own)
	assert.Equal(t, "high", next.Advice.Settings.Speed)
	assert.Equal(t, 9.0, next.Advice.Settings.Passes)
	assert.Equal(t, 12.0, next.Advice.Settings.Drops, "never more than the contract allows")
	assert.Equal(t, "short-orbital", next.Advice.Combination.Machine)
	assert.Empty(t, next.Advice.Combination.MachineID, "the catalogue's long orbital was not it")
}

func TestAnotherPadIsTheNextInOrderAndTheShopsOwn(t *testing.T) {
	next := judged(t, trial("finish", 5, 4, 1, func(t *advisor.Trial) {
		t.Combination = advisor.Combination{Pad: "polishing-foam"}
	}))
	require.Equal(t, "milder-pad", next.Change)
	assert.Equal(t, "finishing-foam", next.Advice.Combination.Pad)
	assert.NotEmpty(t, next.Advice.Combination.PadID)
}

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

// The policy of a shop that changes much at once.
const bold = `table: policy
hit: first
rules:
  - id: all
    when: true
    then:
      {clear_share_pct: 32, clear_floor_um: 30, take_share_pct: 25, take_most_um: 12.7, thin_um: 85, repaint_um: 190, filler_um: 500,
       neighbour_um: 40, severity_left: 1, gain_worth_gu: 2, haze_worth_index_hu: 2, haze_worth_meter_hu: 10, confidence_pct: 95,
       refractive_index: 1.5, most_trials: 8, more_passes: 4, slower_arm_cm_s: 1.5, other_drops: 0.5}
    because: Invented for this test.
`

func TestThePolicySaysHowFarOneChangeGoes(t *testing.T) {
	a := shopWith(t, map[string]string{"policy.yaml": bold})
	plain := recommend(t, a, inspection()).Steps[0]
	for changed, want := range map[string]func(*advisor.Settings){
		"more-passes": func(s *advisor.Settings) { s.Passes += 4 },
		"slower-arm":  func(s *advisor.Settings) { s.ArmCmS -= 1.5 },
		"less-liquid": func(s *advisor.Settings) { s.Drops -= 0.5 },
		"more-liquid": func(s *advisor.Settings) { s.Drops += 0.5 },
	} {
		t.Run(changed, func(t *testing.T) {
			first := trial("finish", 5, 0, 2, func(t *advisor.Trial) { t.WipeOff = "dusting" })
			second := trial("finish", 5, 0, 2, func(t *advisor.Trial) { t.Changed, t.PanelC = []string{changed}, ptr(55.0) })
			v, err := a.JudgeTrial(inspection(), "bonnet", []advisor.Trial{first, second})
			require.NoError(t, err)
			require.NotNil(t, v.Next, v.Headline)
			expected := plain.Settings
			want(&expected)
			assert.Equal(t, expected, v.Next.Advice.Settings)
		})
	}
}

func TestAnotherPadIsTheNextInOrderAndTheShopsOwn(t *testing.T) {
	next := judged(t, trial("finish", 5, 4, 1, func(t *advisor.Trial) {
		t.Combination = advisor.Combination{Pad: "polishing-foam"}
	}))
	require.Equal(t, "milder-pad", next.Change)
	assert.Equal(t, "finishing-foam", next.Advice.Combination.Pad)
	assert.NotEmpty(t, next.Advice.Combination.PadID)
}

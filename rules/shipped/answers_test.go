package shipped_test

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestLadderBeginsWithItsFirstStepFallsAndNeverEndsOnACut(t *testing.T) {
	ladders := map[string][]string{
		"none": {"none"}, "finish": {"finish"}, "polish": {"polish"}, "polish-finish": {"polish", "finish"},
		"cut-polish": {"cut", "polish"}, "cut-finish": {"cut", "finish"}, "cut-polish-finish": {"cut", "polish", "finish"},
	}
	d := newDesk(t, "ladder")
	for _, first := range d.words("step.first") {
		for _, softness := range d.words("paint.softness") {
			for _, shade := range d.words("paint.shade") {
				for _, haze := range []any{true, false, unknown} {
					for _, goal := range d.words("goal.level") {
						d.clear()
						d.put("step.first", first)
						d.put("paint.softness", softness)
						d.put("paint.shade", shade)
						d.put("paint.haze_prone", haze)
						d.put("goal.level", goal)
						word, _ := d.answer().Word("ladder")
						ladder, ok := ladders[word]
						require.True(t, ok, word)
						if first != unknown {
							require.Equal(t, first, ladder[0], d)
						}
						require.NotEqual(t, "cut", ladder[len(ladder)-1], d)
						if first == "cut" && (softness == "soft" || softness == "very-soft" || shade == "dark") {
							require.Equal(t, "cut-polish-finish", word, d)
						}
					}
				}
			}
		}
	}
}

func TestSettingsAlwaysAnswerAndFitTheStep(t *testing.T) {
	liquid := map[string]string{"finish": "finishing-liquid", "polish": "polishing-liquid", "cut": "cutting-liquid"}
	d := newDesk(t, "settings")
	for step, want := range liquid {
		for _, softness := range d.words("paint.softness") {
			for _, shade := range []string{"dark", unknown} {
				for _, substrate := range d.words("panel.substrate") {
					for _, part := range d.words("panel.part") {
						for _, system := range d.words("paint.system") {
							for _, heat := range []any{44.0, unknown} {
								d.clear()
								d.put("step.now", step)
								d.put("paint.softness", softness)
								d.put("paint.shade", shade)
								d.put("panel.substrate", substrate)
								d.put("panel.part", part)
								d.put("paint.system", system)
								d.put("climate.panel_c", heat)
								got, _ := d.answer().Word("liquid")
								require.Equal(t, want, got, d)
							}
						}
					}
				}
			}
		}
	}
}

func TestPolicyAlwaysAnswersAndLeavesLessForAHigherGoal(t *testing.T) {
	d := newDesk(t, "policy")
	for _, system := range d.words("paint.system") {
		for _, age := range []any{0.0, 19.0, 20.0, 120.0, unknown} {
			left := 5.0
			for _, goal := range []string{"freshen", "enhance", "correct", "show"} {
				d.clear()
				d.put("paint.system", system)
				d.put("paint.age_years", age)
				d.put("goal.level", goal)
				now, ok := d.answer().Number("severity_left")
				require.True(t, ok)
				require.Less(t, now, left, d)
				left = now
			}
			d.put("goal.level", unknown)
			assumed, _ := d.answer().Number("severity_left")
			d.put("goal.level", "enhance")
			enhance, _ := d.answer().Number("severity_left")
			require.Equal(t, enhance, assumed, d)
		}
	}
}

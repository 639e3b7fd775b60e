package shipped_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// trialFacts are the facts that a verdict could turn on, each with values on both sides of every threshold.
func trialFacts(d *desk) map[string][]any {
	facts := map[string][]any{
		"trial.number": {1.0, 2.0, 3.0, 5.0}, "trial.number_left": {-4.0, 0.0, 1.0, 6.0}, "trial.on_step": {1.0, 2.0, 3.0, 4.0, 9.0},
		"trial.headroom_left_gu": {1.0, 8.0}, "trial.short_by": {-2.0, -0.5, 0.0, 0.5, 1.5, 3.0},
		"trial.improved_by": {-0.5, 0.0, 0.5, 3.0}, "trial.trails_left": {0.0, 0.5, 1.0, 3.0},
		"trial.panel_c": {25.0, 49.9, 50.0}, "trial.things_changed": {0.0, 1.0, 2.0},
		"trial.film_left_um": {-0.1, 0.0, 0.4, 3.0, 8.0}, "trial.after_repeat_um": {-0.1, 0.0, 4.0},
		"trial.after_step_up_um": {-0.1, 0.0, 4.0}, "panel.worst_severity": {3.0},
	}
	for _, flag := range []string{
		"trial.panel_wiped", "trial.pad_loaded", "trial.color_transfer", "trial.same_change_again",
		"trial.stronger_failed", "trial.milder_failed",
	} {
		facts[flag] = []any{true, false}
	}
	for _, word := range []string{"trial.gain", "trial.haze", "trial.wipe_off", "trial.changed", "paint.system", "step.limit"} {
		for _, w := range d.words(word) {
			facts[word] = append(facts[word], w)
		}
	}
	for fact := range facts {
		facts[fact] = append(facts[fact], unknown)
	}
	facts["step.now"] = []any{"finish", "polish", "cut"}
	return facts
}

// someTrials asks about n trials drawn at random, the same ones every time. Most of what can be fatal is left out of most of
// them, or nearly every trial would stop at it.
func someTrials(d *desk, n int, ask func()) {
	facts := trialFacts(d)
	var names []string
	for name := range facts {
		names = append(names, name)
	}
	slices.Sort(names)
	fatal := []string{"trial.color_transfer", "trial.same_change_again", "trial.number_left", "trial.film_left_um", "trial.after_repeat_um", "trial.panel_c"}
	random := rand.New(rand.NewPCG(4628, 2813))
	for range n {
		d.clear()
		for _, name := range names {
			if slices.Contains(fatal, name) && random.IntN(4) > 0 {
				continue
			}
			d.put(name, facts[name][random.IntN(len(facts[name]))])
		}
		ask()
	}
}

// number is a fact's value, or what stands in for it when it is not known.
func (d *desk) number(fact string, otherwise float64) float64 {
	if v, ok := d.in.Number(d.id(fact)); ok {
		return v
	}
	return otherwise
}

func TestVerdictAlwaysAnswersAndNeverSpendsFilmThatIsNotThere(t *testing.T) {
	if testing.Short() {
		t.Skip("takes long, and nothing in it runs at once")
	}
	d := newDesk(t, "verdict")
	final := []string{"accept", "stop"}
	seen := map[string]bool{}
	someTrials(d, 60_000, func() {
		rule := d.winner()
		verdict, _ := rule.Result.Word("verdict")
		seen[rule.ID] = true
		now, _ := d.in.Word(d.id("step.now"))
		limit, limited := d.in.Word(d.id("step.limit"))

		if d.number("trial.film_left_um", 0) < 0 {
			require.Equal(t, "stop", verdict, "%s: %s", rule.ID, d)
		}
		if d.number("trial.after_repeat_um", 0) < 0 {
			change, _ := rule.Result.Word("change")
			require.True(t, slices.Contains(final, verdict) || change == "panel-wipe" || verdict == "refine" || verdict == "step-down", "%s: %s", rule.ID, d)
		}
		if d.number("trial.number_left", 1) <= 0 {
			require.Contains(t, final, verdict, "%s: %s", rule.ID, d)
		}
		if verdict == "step-up" {
			require.True(t, limited && strength(now) < strength(limit), "%s: %s", rule.ID, d)
			require.GreaterOrEqual(t, d.number("trial.after_step_up_um", 0), 0.0, "%s: %s", rule.ID, d)
			if _, known := d.in.Number(d.id("trial.after_step_up_um")); !known {
				require.Equal(t, "finish", now, "%s: %s", rule.ID, d)
			}
		}
		if verdict == "step-down" || verdict == "refine" {
			require.NotEqual(t, "finish", now, "%s: %s", rule.ID, d)
		}
		if colour, _ := d.in.Flag(d.id("trial.color_transfer")); colour {
			if system, _ := d.in.Word(d.id("paint.system")); system != "single-stage" {
				require.Equal(t, "stop", verdict, "%s: %s", rule.ID, d)
			}
		}
		if verdict == "adjust" {
			assert.True(t, rule.Result.Has("change"), "%s does not say what to change", rule.ID)
		}
	})
	for _, rule := range d.table.Rules() {
		assert.True(t, seen[rule.ID], "no trial drawn came to %s", rule.ID)
	}
}

func TestEveryVerdictAndEveryTryIsGivenSomewhere(t *testing.T) {
	d := newDesk(t, "verdict")
	used := map[string]map[string]bool{"verdict": {}, "change": {}}
	for _, rule := range d.table.Rules() {
		for field := range used {
			if word, ok := rule.Result.Word(field); ok {
				used[field][word] = true
			}
		}
	}
	for _, field := range d.table.Result().Fields {
		for _, word := range field.Words {
			if word == "nothing" {
				continue // a verdict without a change leaves the field out
			}
			assert.True(t, used[field.Name][word], "no rule gives %s %s", field.Name, word)
		}
	}
}

func TestTheSameAnswerIsNotGivenForEver(t *testing.T) {
	// A technician who does as told, on paint that never changes: whatever the spot shows, the panel comes to an end.
	d := newDesk(t, "verdict")
	final := []string{"accept", "stop"}
	someTrials(d, 1_500, func() {
		start := d.String()
		asked := map[string]bool{}
		d.put("trial.number", 1.0)
		d.put("trial.number_left", 7.0)
		d.put("trial.on_step", 1.0)
		for trial := 1; ; trial++ {
			rule := d.winner()
			verdict, _ := rule.Result.Word("verdict")
			if slices.Contains(final, verdict) {
				return
			}
			require.Less(t, trial, 9, "still %s after %d trials: %s", verdict, trial, start)
			change, changed := rule.Result.Word("change")
			d.put("trial.number", float64(trial+1))
			d.put("trial.number_left", float64(7-trial))
			d.put("trial.on_step", d.number("trial.on_step", 1)+1)
			now, _ := d.in.Word(d.id("step.now"))
			switch verdict {
			case "step-up":
				d.put("step.now", steps[strength(now)+1])
				d.put("trial.milder_failed", true)
				d.put("trial.on_step", 1.0)
			case "step-down", "refine":
				d.put("step.now", steps[strength(now)-1])
				d.put("trial.stronger_failed", true)
				d.put("trial.on_step", 1.0)
			}
			now, _ = d.in.Word(d.id("step.now"))
			d.put("trial.changed", change)
			if !changed {
				d.put("trial.changed", unknown)
			}
			d.put("trial.same_change_again", changed && asked[now+change])
			asked[now+change] = true
		}
	})
}

package shipped_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestNoCutWithoutAFilmReading(t *testing.T) {
	d := newDesk(t, "limit")
	for _, system := range d.words("paint.system") {
		for _, substrate := range d.words("panel.substrate") {
			for _, goal := range d.words("goal.level") {
				for _, readable := range []any{true, false, unknown} {
					for _, age := range []any{0.0, 20.0, unknown} {
						d.clear()
						d.put("paint.system", system)
						d.put("panel.substrate", substrate)
						d.put("goal.level", goal)
						d.put("film.readable", readable)
						d.put("paint.age_years", age)
						require.NotEqual(t, "cut", d.step(), d)
					}
				}
			}
		}
	}
}

func TestLimitKeepsTheFilmBudgetAndNeverRisesAsFilmFalls(t *testing.T) {
	// What is left after a ladder that starts with each step, at the high end of removal.yaml.
	const finish, polish, cut = 0.5, 1.5, 4.0
	d := newDesk(t, "limit")
	d.put("paint.system", "clear-coat")
	before := 0
	for tenths := range 100 {
		usable := float64(tenths) / 10
		d.put("film.usable_um", usable)
		d.put("film.after_finish_um", float64(tenths-5)/10)
		d.put("film.after_polish_um", float64(tenths-20)/10)
		d.put("film.after_cut_um", float64(tenths-60)/10)
		now := strength(d.step())
		require.GreaterOrEqual(t, now, before, d)
		affordable := 0
		for i, need := range []float64{finish, finish + polish, finish + polish + cut} {
			if usable >= need {
				affordable = i + 1
			}
		}
		require.Equal(t, affordable, now, d)
		before = now
	}
}

func TestPanelsThatAreNeverPolished(t *testing.T) {
	limit, readiness := newDesk(t, "limit"), newDesk(t, "readiness")
	for _, system := range []string{"matte", "satin", "wrap", "protection-film"} {
		limit.put("paint.system", system)
		limit.put("film.usable_um", 12.7)
		assert.Equal(t, "none", limit.step(), system)
		readiness.put("paint.system", system)
		assert.Contains(t, effects(readiness), "stop", system)
	}
	limit.clear()
	limit.put("paint.system", "clear-coat")
	limit.put("film.thin", true)
	assert.Equal(t, "none", limit.step())
	readiness.clear()
	readiness.put("film.thin", true)
	assert.Contains(t, effects(readiness), "stop")
}

func effects(d *desk) (out []string) {
	for _, rule := range d.all() {
		effect, _ := rule.Result.Word("effect")
		out = append(out, effect)
	}
	return out
}

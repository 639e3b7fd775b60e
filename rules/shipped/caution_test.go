package shipped_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// heat is the heat cautions that hold, and the gravest level among them.
func heat(d *desk) (ids []string, gravest int) {
	levels := []string{"note", "care", "danger"}
	gravest = -1
	for _, rule := range d.all() {
		if topic, _ := rule.Result.Word("topic"); topic == "heat" {
			level, _ := rule.Result.Word("level")
			ids = append(ids, rule.ID)
			gravest = max(gravest, slices.Index(levels, level))
		}
	}
	return ids, gravest
}

func TestAHotterPanelNeverLosesAHeatCaution(t *testing.T) {
	d := newDesk(t, "cautions")
	d.put("step.first", "polish")
	var before []string
	worst := -1
	for tenths := -400; tenths <= 1200; tenths++ {
		d.put("climate.panel_c", float64(tenths)/10)
		ids, gravest := heat(d)
		require.Subset(t, ids, before, d)
		require.GreaterOrEqual(t, gravest, worst, d)
		before, worst = ids, gravest
	}
	assert.Equal(t, 2, worst, "the hottest panel is a danger")
}

func TestACautionSpeaksInOneRoundOnly(t *testing.T) {
	d := newDesk(t, "cautions")
	rounds := map[string]map[string]bool{"panel": {}, "defect": {}, "step": {}}
	note := func(round string) {
		for _, rule := range d.all() {
			rounds[round][rule.ID] = true
		}
	}
	panels := func(ask func()) {
		for _, system := range d.words("paint.system") {
			for _, softness := range d.words("paint.softness") {
				for _, substrate := range d.words("panel.substrate") {
					d.clear()
					d.put("paint.system", system)
					d.put("paint.softness", softness)
					d.put("paint.shade", "dark")
					d.put("paint.haze_prone", true)
					d.put("paint.age_years", 40.0)
					d.put("paint.cured_days", 20.0)
					d.put("panel.substrate", substrate)
					d.put("panel.part", "pillar")
					d.put("panel.edge_or_line", true)
					d.put("panel.sensor_behind", true)
					d.put("panel.repaint_known", true)
					d.put("film.filler_signs", true)
					d.put("film.highest_um", 540.0)
					d.put("film.edge_drop_um", 20.0)
					d.put("film.usable_um", 2.0)
					d.put("climate.air_c", 5.0)
					d.put("climate.panel_c", 55.0)
					d.put("climate.dew_margin_c", 1.0)
					d.put("history.panels", 40.0)
					d.put("history.success_pct", 10.0)
					d.put("history.removals", 40.0)
					d.put("history.takes_more_um", 1.0)
					ask()
				}
			}
		}
	}
	panels(func() {
		for _, first := range []string{"none", "finish", "polish", "cut"} {
			d.put("step.first", first)
			note("panel")
		}
		d.put("climate.panel_c", 5.0)
		d.put("panel.edge_or_line", unknown)
		d.put("film.usable_um", unknown)
		note("panel")
	})
	panels(func() {
		for _, kind := range d.words("defect.kind")[:14] {
			d.put("defect.kind", kind)
			d.put("defect.severity", 5.0)
			for _, nail := range []any{true, unknown} {
				d.put("defect.catches_nail", nail)
				note("defect")
			}
		}
	})
	panels(func() {
		for _, step := range []string{"finish", "polish", "cut"} {
			d.put("step.first", "cut")
			d.put("step.now", step)
			d.put("step.place", 1.0)
			d.put("step.last", true)
			note("step")
		}
	})
	for _, rule := range d.table.Rules() {
		var in []string
		for round, ids := range rounds {
			if ids[rule.ID] {
				in = append(in, round)
			}
		}
		assert.Len(t, in, 1, "%s speaks in %v", rule.ID, in)
	}
}

func TestEveryHazardOfTheJobIsNamedBeforeAnyStep(t *testing.T) {
	d := newDesk(t, "cautions")
	hazards := []string{"dust", "splashes", "solvent", "noise", "vibration", "rotating", "electric", "vehicle"}
	for _, first := range []string{"finish", "polish", "cut"} {
		d.put("step.first", first)
		var topics []string
		for _, rule := range d.all() {
			topic, _ := rule.Result.Word("topic")
			topics = append(topics, topic)
		}
		assert.Subset(t, topics, hazards, first)
	}
	d.put("step.first", "none")
	assert.Empty(t, d.all(), "a panel that is left alone needs no warning about machines")
}

func TestEveryCautionTopicIsUsed(t *testing.T) {
	d := newDesk(t, "cautions")
	var used []string
	for _, rule := range d.table.Rules() {
		topic, _ := rule.Result.Word("topic")
		used = append(used, topic)
	}
	result := d.table.Result()
	for _, field := range result.Fields {
		if field.Name == "topic" {
			assert.Subset(t, used, field.Words)
		}
	}
}

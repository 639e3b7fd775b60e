package shipped_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// soundPanel is a soft, dark, lightly marked bonnet about which everything is known.
var soundPanel = map[string]any{
	"paint.system": "clear-coat", "paint.softness": "soft", "paint.shade": "dark", "paint.haze_prone": false, "paint.age_years": 6.0,
	"panel.substrate": "steel", "panel.part": "bonnet", "panel.clean": true, "panel.in_sun": false, "panel.repaint_known": false,
	"panel.edge_or_line": true, "panel.taped": true, "panel.sensor_behind": false,
	"climate.air_c": 21.0, "climate.panel_c": 22.0, "climate.humidity_pct": 50.0, "climate.dew_margin_c": 11.8,
	"gloss.at20_gu": 79.0, "gloss.at60_gu": 87.0, "goal.level": "correct", "goal.protection": "wax", "film.readable": true,
	"film.lowest_um": 118.0, "film.highest_um": 124.0, "film.edge_drop_um": 2.0, "film.thin": false, "film.repaint_signs": false,
	"film.filler_signs": false, "film.usable_um": 6.8, "film.after_finish_um": 6.3, "film.after_polish_um": 4.8, "film.after_cut_um": 0.8,
	"history.finish_panels": 0.0, "history.finish_low_pct": 20.0, "history.polish_panels": 0.0, "history.polish_low_pct": 60.0,
}

// asked is what each table is asked about beside the panel.
var asked = map[string]map[string]any{
	"policy":    {},
	"removal":   {"step.now": "finish"},
	"readiness": {},
	"start":     {"defect.kind": "wash-marks", "defect.severity": 2.0},
	"limit":     {},
	"ladder":    {"step.first": "finish"},
	"settings":  {"step.now": "finish", "step.place": 1.0, "step.last": true},
}

// wantedFacts are the missing facts that could change a table's answer about the sound panel without some groups of facts.
func wantedFacts(t *testing.T, table string, without ...string) (names []string) {
	d := newDesk(t, table)
	for _, facts := range []map[string]any{soundPanel, asked[table]} {
		for fact, value := range facts {
			d.put(fact, value)
		}
	}
	for fact := range soundPanel {
		for _, prefix := range without {
			if strings.HasPrefix(fact, prefix) {
				d.put(fact, unknown)
			}
		}
	}
	possible := d.table.Possible(d.in, 0)
	require.True(t, possible.Exact, "%s is not told exactly", table)
	for _, wanted := range possible.Facts {
		names = append(names, d.set.Schema().Fact(wanted.Fact).Name)
	}
	return names
}

func TestNothingIsWantedAboutAPanelOfWhichAllIsKnown(t *testing.T) {
	for table := range asked {
		assert.Empty(t, wantedFacts(t, table), table)
	}
}

func TestFilmIsWantedWhereItWasNotRead(t *testing.T) {
	film := []string{"film.lowest_um", "film.highest_um", "film.edge_drop_um", "film.thin", "film.repaint_signs", "film.filler_signs", "film.usable_um", "film.after_"}
	for _, fact := range wantedFacts(t, "limit", film...) {
		assert.True(t, strings.HasPrefix(fact, "film."), fact)
	}
	assert.Contains(t, wantedFacts(t, "limit", film...), "film.usable_um")
	assert.Contains(t, wantedFacts(t, "readiness", film...), "film.thin")
	for _, table := range []string{"policy", "removal", "start", "ladder", "settings"} {
		assert.Empty(t, wantedFacts(t, table, film...), table)
	}
}

func TestSoftnessIsWantedWhereItMatters(t *testing.T) {
	assert.Equal(t, []string{"paint.softness"}, wantedFacts(t, "start", "paint.softness"))
	assert.Empty(t, wantedFacts(t, "limit", "paint.softness"))
	assert.Equal(t, []string{"climate.panel_c"}, wantedFacts(t, "settings", "climate."))
}

func TestEveryConditionIsABoundOnSingleFacts(t *testing.T) {
	// What may still change can be told exactly even about a panel of which nothing is known: no condition is beyond reach.
	for _, table := range []string{"policy", "removal", "start", "limit", "ladder", "settings"} {
		d := newDesk(t, table)
		assert.True(t, d.table.Possible(d.in, 1_000_000).Exact, table)
	}
}

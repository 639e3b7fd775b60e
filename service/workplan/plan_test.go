package workplan_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/workplan"
)

// A vehicle of medium size takes about 4 to 7 hours with one step and about 12 to 20 with three (from memory, common practice).
func TestHoursOfTheShippedTablesAreThoseThatATechnicianKnows(t *testing.T) {
	in := midSize("wash-marks", 3)
	for _, row := range []struct {
		ladder      string
		least, most float64
	}{
		{"finish", 4, 7}, {"polish", 4, 7}, {"polish-finish", 7, 13}, {"cut-polish-finish", 12, 20},
	} {
		made, err := workplan.Make(job(t, in, everyPanel(in, row.ladder)))
		require.NoError(t, err)
		hours := made.WorkMin.Likely / 60
		t.Logf("%s: %.1f h (%.1f to %.1f), %s", row.ladder, hours, made.WorkMin.Low/60, made.WorkMin.High/60, made.Cost.Currency.Format(made.Cost.Total.Likely))
		assert.GreaterOrEqual(t, hours, row.least, row.ladder)
		assert.LessOrEqual(t, hours, row.most, row.ladder)
	}
}

func TestEveryFigureOfAPlanNamesARuleOrTheCatalogue(t *testing.T) {
	in := midSize("wash-marks", 3)
	j := job(t, in, nil)
	j.AreasM2 = map[string]float64{"bonnet": 1.62}
	made, err := workplan.Make(j)
	require.NoError(t, err)
	known := map[string]bool{}
	for _, s := range made.Sources {
		known[string(s.Text)] = true
		if rest, ok := strings.CutPrefix(string(s.Text), "rule "); ok {
			require.NotNil(t, s.Reason, s.Text)
			assert.True(t, strings.HasPrefix(rest, s.Reason.Table+"/"+s.Reason.Rule), s.Text)
			assert.NotEmpty(t, s.Reason.Because)
			assert.Positive(t, s.Reason.Line)
		}
	}
	for _, line := range made.Lines {
		assert.NotEmpty(t, line.From, line.What)
		for _, from := range line.From {
			assert.True(t, known[string(from)], "%s: %s", line.What, from)
		}
	}
	for _, p := range made.Panels {
		assert.True(t, known[string(p.Panel.AreaFrom)], p.Panel.ID)
		for i, s := range p.Steps {
			assert.NotEmpty(t, s.From)
			assert.True(t, known[string(p.Panel.Steps[i].RemovalFrom)], p.Panel.ID)
		}
	}
	for _, m := range made.Materials {
		assert.True(t, known[string(m.From)], m.ID)
	}
	assert.True(t, known["measured"])
}

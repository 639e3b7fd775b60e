package workplan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/shipped"
	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/catalogue"
	"github.com/glossladder/glossladder/service/film"
	"github.com/glossladder/glossladder/service/plan"
	"github.com/glossladder/glossladder/service/vocabulary"
	"github.com/glossladder/glossladder/service/workplan"
)

// shop is the adviser and the catalogue that a shop starts from.
func shop(t testing.TB) (*advisor.Advisor, *catalogue.Catalogue) {
	t.Helper()
	schema, err := vocabulary.Schema()
	require.NoError(t, err)
	set, err := rules.Load(shipped.Files(), schema, rules.Document{Name: "catalogue.yaml", Read: catalogue.Read})
	require.NoError(t, err)
	found, ok := set.Document("catalogue.yaml")
	require.True(t, ok)
	things, ok := found.(*catalogue.Catalogue)
	require.True(t, ok)
	a, err := advisor.New(set, things)
	require.NoError(t, err)
	return a, things
}

func ptr[T any](v T) *T { return &v }

// midSize is an invented vehicle of thirteen panels with one kind of mark all round and film to spare.
func midSize(kind string, severity float64) advisor.Inspection {
	in := advisor.Inspection{
		Vehicle: advisor.Vehicle{Size: "medium", Kept: "garage"}, Goal: advisor.Goal{Level: "correct", Protection: "sealant"},
		Climate:    advisor.Climate{AirC: ptr(21.0), HumidityPct: ptr(45.0)},
		GlossMeter: advisor.GlossMeter{AccuracyGU: 1, ResolutionGU: 0.1, ResolutionHU: 0.1},
		FilmGauge:  film.Gauge{Kind: film.Combined, Accuracy: film.Accuracy{FixedUm: 1, Percent: 1}, StepUm: 0.1},
	}
	for _, row := range [][2]string{
		{"bonnet", "bonnet"},
		{"roof", "roof"},
		{"boot-lid", "boot-lid"},
		{"door-front-left", "door"},
		{"door-front-right", "door"},
		{"door-rear-left", "door"},
		{"door-rear-right", "door"},
		{"wing-front-left", "front-wing"},
		{"wing-front-right", "front-wing"},
		{"wing-rear-left", "rear-wing"},
		{"wing-rear-right", "rear-wing"},
		{"bumper-front", "bumper"},
		{"bumper-rear", "bumper"},
	} {
		in.Panels = append(in.Panels, advisor.Panel{
			ID: row[0], Part: row[1], Substrate: "steel", PanelC: ptr(22.0), Clean: ptr(false), Taped: ptr(false), EdgeOrLine: ptr(false),
			Paint:   advisor.Paint{System: "clear-coat", Softness: "medium", Shade: "medium", AgeYears: ptr(6.0)},
			Film:    []advisor.FilmSpot{{Spot: "centre", TotalUm: []float64{132, 133, 131}}, {Spot: "left", TotalUm: []float64{130, 131, 132}}},
			Defects: []advisor.Defect{{Kind: kind, Severity: &severity}},
		})
	}
	return in
}

func job(t testing.TB, in advisor.Inspection, settled map[string]string) *workplan.Job {
	t.Helper()
	a, things := shop(t)
	work, err := a.Work(in, settled)
	require.NoError(t, err)
	return &workplan.Job{Work: work, Shop: things, Crew: plan.Crew{People: 1, DayHours: 8}, Settled: settled}
}

// everyPanel settles one ladder for all panels.
func everyPanel(in advisor.Inspection, ladder string) map[string]string {
	out := map[string]string{}
	for _, p := range in.Panels {
		out[p.ID] = ladder
	}
	return out
}

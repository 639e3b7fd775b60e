package advisor_test

import (
	"io/fs"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/shipped"
	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/catalogue"
	"github.com/glossladder/glossladder/service/film"
	"github.com/glossladder/glossladder/service/vocabulary"
)

// shop is an adviser with the shipped rules.
func shop(t testing.TB) *advisor.Advisor { return shopWith(t, nil) }

// shopWith is an adviser whose rule files are the shipped ones with some replaced.
func shopWith(t testing.TB, replaced map[string]string) *advisor.Advisor {
	t.Helper()
	files := fstest.MapFS{}
	require.NoError(t, fs.WalkDir(shipped.Files(), ".", func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		text, err := fs.ReadFile(shipped.Files(), path)
		files[path] = &fstest.MapFile{Data: text}
		return err
	}))
	for path, text := range replaced {
		files[path] = &fstest.MapFile{Data: []byte(text)}
		delete(files, "cases/"+path) // the shipped cases speak of the shipped rules
	}
	schema, err := vocabulary.Schema()
	require.NoError(t, err)
	set, err := rules.Load(files, schema, rules.Document{Name: "catalogue.yaml", Read: catalogue.Read})
	require.NoError(t, err)
	document, _ := set.Document("catalogue.yaml")
	a, err := advisor.New(set, document.(*catalogue.Catalogue))
	require.NoError(t, err)
	return a
}

// inspection is one soft, dark, lightly marked bonnet with sound film, ready to be worked. Invented.
func inspection(change ...func(*advisor.Inspection)) advisor.Inspection {
	in := advisor.Inspection{
		Goal:       advisor.Goal{Level: "correct", Protection: "wax"},
		Climate:    advisor.Climate{AirC: ptr(21.0), HumidityPct: ptr(50.0)},
		GlossMeter: advisor.GlossMeter{AccuracyGU: 1, ResolutionGU: 0.1, ResolutionHU: 0.1},
		FilmGauge:  film.Gauge{Kind: film.Combined, Accuracy: film.Accuracy{FixedUm: 1, Percent: 1}, StepUm: 0.1},
		Panels: []advisor.Panel{{
			ID: "bonnet", Part: "bonnet", Substrate: "steel",
			Paint:   advisor.Paint{System: "clear-coat", Softness: "soft", Shade: "dark", HazeProne: ptr(false), AgeYears: ptr(6.0)},
			Film:    []advisor.FilmSpot{{Spot: "centre", TotalUm: []float64{124, 125, 123}}, {Spot: "left", TotalUm: []float64{127, 126, 128}}},
			Gloss:   baseline(),
			Defects: []advisor.Defect{{Kind: "wash-marks", Severity: ptr(2.0)}},
			PanelC:  ptr(22.0), Clean: ptr(true), InSun: ptr(false), RepaintKnown: ptr(false), SensorBehind: ptr(false),
			EdgeOrLine: ptr(false), Taped: ptr(true),
		}},
	}
	for _, c := range change {
		c(&in)
	}
	return in
}

// baseline is three spots at 60° and 20° with the spread of a hand-held meter.
func baseline() []advisor.GlossSpot {
	return []advisor.GlossSpot{
		{Spot: "a", At60GU: []float64{84.0, 84.2, 84.1}, At20GU: []float64{74.0, 74.2, 74.1}},
		{Spot: "b", At60GU: []float64{84.6, 84.4, 84.5}, At20GU: []float64{74.6, 74.4, 74.5}},
		{Spot: "c", At60GU: []float64{83.7, 83.9, 83.8}, At20GU: []float64{73.7, 73.9, 73.8}},
	}
}

// shifted is the baseline with every reading moved: by gloss at 20°, and by haze more at 60° than at 20°.
func shifted(at20, haze float64) []advisor.GlossSpot {
	out := baseline()
	for i := range out {
		for k := range out[i].At20GU {
			out[i].At20GU[k] += at20
			out[i].At60GU[k] += at20 + haze
		}
	}
	return out
}

func ptr[T any](value T) *T { return &value }

func panel(change func(*advisor.Panel)) func(*advisor.Inspection) {
	return func(in *advisor.Inspection) { change(&in.Panels[0]) }
}

func recommend(t testing.TB, a *advisor.Advisor, in advisor.Inspection) advisor.PanelAdvice {
	t.Helper()
	out, err := a.Recommend(in)
	require.NoError(t, err)
	return out.Panels[0]
}

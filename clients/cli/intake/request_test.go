package intake_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/proto"

	"github.com/glossladder/glossladder/clients/cli/intake"
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

func source(text string) intake.Source { return intake.Source{Name: "job.yaml", Text: []byte(text)} }

func recommend(t *testing.T, text string) *glossladderv1.RecommendRequest {
	t.Helper()
	request, _, problems := intake.Recommend(source(text), intake.Bare{})
	require.Empty(t, problems)
	return request
}

const oneSpot = `
vehicle: {label: invented car, paint: {system: clear coat, softness: Very-Soft, haze_prone: true}}
panels:
  - id: bonnet
    substrate: SUBSTRATE_STEEL
    film:
      - spot: centre
        total_um: [118, 4.6 mil, "119.5 µm"]
    panel_c: 95 °F
`

func TestRecommendReadsWordsAndUnitsAsPeopleWriteThem(t *testing.T) {
	request := recommend(t, oneSpot)
	want := &glossladderv1.RecommendRequest{Inspection: &glossladderv1.Inspection{
		Vehicle: &glossladderv1.Vehicle{Label: "invented car", Paint: &glossladderv1.Paint{
			System:    glossladderv1.PaintSystem_PAINT_SYSTEM_CLEAR_COAT,
			Softness:  glossladderv1.Softness_SOFTNESS_VERY_SOFT,
			HazeProne: proto.Bool(true),
		}},
		Panels: []*glossladderv1.Panel{{
			Id: "bonnet", Substrate: glossladderv1.Substrate_SUBSTRATE_STEEL, PanelC: proto.Float64(35),
			Film: []*glossladderv1.FilmSpot{{Spot: "centre", TotalUm: []float64{118, 116.84, 119.5}}},
		}},
	}}
	assert.True(t, proto.Equal(want, request), "%v", request)
}

func TestTheContractsOwnJSONIsReadBack(t *testing.T) {
	want := recommend(t, oneSpot)
	for name, options := range map[string]protojson.MarshalOptions{
		"names of the contract":                      {UseProtoNames: true, Multiline: true},
		"names of JSON, indented with tabs":          {Multiline: true, Indent: "\t"},
		"one line":                                   {},
		"everything that is not set, where possible": {EmitDefaultValues: true, UseProtoNames: true},
	} {
		for kind, message := range map[string]proto.Message{"request": want, "inspection": want.GetInspection()} {
			text, err := options.Marshal(message)
			require.NoError(t, err)
			got, _, problems := intake.Recommend(intake.Source{Name: "job.json", Text: text}, intake.Bare{})
			require.Empty(t, problems, "%s of %s: %s", name, kind, text)
			assert.True(t, proto.Equal(want, got), "%s of %s: %v", name, kind, got)
		}
	}
}

func TestRecommendReportsEveryMistakeWithItsPlace(t *testing.T) {
	for name, row := range map[string]struct{ text, want string }{
		"a wrong field": {
			"panels: [{id: a, sofness: soft}]",
			`job.yaml:1:18: one of panels has no field "sofness"; its fields are id, part, substrate, paint, film, gloss, defects, panel_c, clean, in_sun, repaint_known, cured_days, sensor_behind, edge_or_line, taped, film_taken_um, shop`,
		},
		"a field nearly right":    {"panls: []", `job.yaml:1:1: an inspection has no field "panls"; did you mean panels?`},
		"a word nearly right":     {"goal: {level: enhanse}", `job.yaml:1:15: level: "enhanse" is not one of its words; did you mean enhance? the words are freshen, enhance, correct, show`},
		"a number for a word":     {"goal: {level: 2}", `job.yaml:1:15: level: "2" is not one of its words; the words are freshen, enhance, correct, show`},
		"a foreign unit":          {"climate: {air_c: 20 GU}", `job.yaml:1:18: air_c: "GU" is the wrong unit; write °C or °F`},
		"a unit where none is":    {"panels: [{id: a, defects: [{severity: 2 %}]}]", `job.yaml:1:39: severity: "%" is the wrong unit; write the number alone`},
		"a word for a number":     {"climate: {air_c: warm}", `job.yaml:1:18: air_c: "warm" is not a number; write it in decimal digits, as 12 or -3.5`},
		"a decimal comma":         {`climate: {air_c: "20,5"}`, `job.yaml:1:18: air_c: "20,5" is not a number; write a point: 20.5`},
		"an exponent":             {"climate: {air_c: 2e1}", `job.yaml:1:18: air_c: "e1" is the wrong unit; write °C or °F`},
		"not a number at all":     {"climate: {air_c: .nan}", `job.yaml:1:18: air_c: ".nan" is not a number; write it in decimal digits, as 12 or -3.5`},
		"yes for true":            {"panels: [{id: a, clean: yes}]", `job.yaml:1:25: clean: "yes" is not true or false; write true`},
		"a value for a list":      {"panels: [{id: a, film: [{spot: b, total_um: 118}]}]", `job.yaml:1:45: total_um is a list, not a single value; put a dash before each, or brackets around them`},
		"a list for a value":      {"climate: {air_c: [20]}", `job.yaml:1:18: air_c is a single value, not a list`},
		"a value for a map":       {"climate: 20", `job.yaml:1:10: climate is a map, not a single value; its fields are air_c, humidity_pct, panel_c`},
		"a list at the top":       {"- a", `job.yaml:1:1: an inspection is a map, not a list; its fields are vehicle, goal, climate, instruments, panels, shop`},
		"both spellings of a key": {"panels: [{id: a, panel_c: 1, panelC: 2}]", `job.yaml:1:30: panel_c is given twice; the first is on line 1`},
		"null":                    {"climate: {air_c: null}", `job.yaml:1:18: null is not a value here; leave the key out, or put the text in quotes`},
		"several at once": {
			"climate:\n  air_c: warm\n  humidty_pct: 40\npanels:\n  - id: a\n    defects:\n      - {kind: swirl, severity: 2}\n      - {kind: holograms, severity: two}\n",
			"job.yaml:2:10: air_c: \"warm\" is not a number; write it in decimal digits, as 12 or -3.5\n" +
				"job.yaml:3:3: climate has no field \"humidty_pct\"; did you mean humidity_pct?\n" +
				"job.yaml:7:16: kind: \"swirl\" is not one of its words; the words are wash-marks, deep-scratches, holograms, haze, oxidation, water-spot-etching, organic-etching, sanding-marks, bonded-contamination, orange-peel, chips, cracks, peeling, clear-coat-failure\n" +
				"job.yaml:8:37: severity: \"two\" is not a number; write it in decimal digits, as 12 or -3.5",
		},
	} {
		t.Run(name, func(t *testing.T) {
			_, _, problems := intake.Recommend(source(row.text), intake.Bare{})
			assert.Equal(t, row.want, problems.Error())
		})
	}
}

func TestBareNumbersFollowTheWishOfTheFile(t *testing.T) {
	text := "climate: {air_c: 68, humidity_pct: 50}\npanels: [{id: a, film: [{spot: b, total_um: [5, 118 um]}]}]"
	request, _, problems := intake.Recommend(source(text), intake.Bare{FilmMil: true, HeatF: true})
	require.Empty(t, problems)
	assert.Equal(t, 20.0, request.GetInspection().GetClimate().GetAirC())
	assert.Equal(t, 50.0, request.GetInspection().GetClimate().GetHumidityPct())
	assert.Equal(t, []float64{127, 118}, request.GetInspection().GetPanels()[0].GetFilm()[0].GetTotalUm(), "a number with a unit keeps it")
}

func TestPlacesFollowTheServicesPaths(t *testing.T) {
	_, places, problems := intake.Recommend(source(oneSpot), intake.Bare{})
	require.Empty(t, problems)
	for name, row := range map[string]struct {
		path, place string
		exact       bool
	}{
		"a reading":                 {"inspection.panels[0].film[0].total_um[1]", "8:25", true},
		"a field that is not there": {"inspection.panels[0].film[0].clear_um[1]", "7:9", false},
		"nothing of it is there":    {"inspection.goal.level", "2:1", false},
		"a path from elsewhere":     {"trials[0].step", "", false},
	} {
		at, exact, ok := places.Of(row.path)
		if assert.Equal(t, row.place != "", ok, name) && ok {
			assert.Equal(t, row.place, at.String(), name)
			assert.Equal(t, row.exact, exact, name)
			assert.Equal(t, "job.yaml", at.File, name)
		}
	}
}

func TestJudgeTakesTheInspectionFromAFileOfItsOwn(t *testing.T) {
	inspection := intake.Source{Name: "inspection.yaml", Text: []byte("panels: [{id: bonnet}]")}
	trials := source("panel_id: bonnet\ntrials: [{step: finish, changed: [more-passes]}]")
	request, places, problems := intake.Judge(trials, &inspection, intake.Bare{})
	require.Empty(t, problems)
	assert.Equal(t, "bonnet", request.GetInspection().GetPanels()[0].GetId())
	assert.Equal(t, glossladderv1.Change_CHANGE_MORE_PASSES, request.GetTrials()[0].GetChanged()[0])
	for path, want := range map[string]string{"inspection.panels[0].id": "inspection.yaml", "trials[0].step": "job.yaml"} {
		at, exact, _ := places.Of(path)
		assert.True(t, exact, path)
		assert.Equal(t, want, at.File, path)
	}

	twice := source("inspection: {panels: []}\npanel_id: bonnet")
	_, _, problems = intake.Judge(twice, &inspection, intake.Bare{})
	assert.Equal(t, "job.yaml:1:13: the inspection is given twice; take it out here; inspection.yaml has it", problems.Error())
}

func FuzzRecommend(f *testing.F) {
	for _, seed := range []string{oneSpot, `{"panels":[{"id":"a"}]}`, "inspection: {panels: []}", "panels: [{id: a, panel_c: -4.5 °F}]", "a: [", "\t{\n\t}"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		request, places, problems := intake.Recommend(source(text), intake.Bare{})
		for _, p := range problems {
			require.Positive(t, p.Line, "%v", p)
			require.LessOrEqual(t, p.Line, 1+strings.Count(text, "\n"), "%v", p)
		}
		if len(problems) > 0 {
			return
		}
		if _, _, ok := places.Of("inspection"); !ok {
			require.Nil(t, request.GetInspection())
		}
		// What was read, written as JSON by the contract's own library, reads the same.
		written, err := protojson.Marshal(request)
		if err != nil {
			t.Skip("text that is no UTF-8 after its escapes")
		}
		again, _, problems := intake.Recommend(intake.Source{Name: "again.json", Text: written}, intake.Bare{})
		if len(problems) > 0 {
			t.Skipf("the contract's library writes what is not plain: %s", written)
		}
		require.True(t, proto.Equal(request, again), "%s", written)
	})
}

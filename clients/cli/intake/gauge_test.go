package intake_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/proto"

	"github.com/glossladder/glossladder/clients/cli/intake"
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

const before = glossladderv1.ReadingsTime_READINGS_TIME_BEFORE

// wanted is what each of the files below holds.
func wanted() []*glossladderv1.Readings {
	return []*glossladderv1.Readings{
		{PanelId: "bonnet", Time: before, Film: []*glossladderv1.FilmSpot{{Spot: "a", TotalUm: []float64{118.5, 119}}, {Spot: "b", TotalUm: []float64{127}}}},
		{PanelId: "door-left", Time: before, Film: []*glossladderv1.FilmSpot{{Spot: "a", TotalUm: []float64{101}}}},
	}
}

func TestAGaugesFileBecomesReadings(t *testing.T) {
	every := intake.Mapping{Every: map[string]string{"when": "before"}}
	german := every.With(intake.Mapping{
		Columns: map[string]string{"panel": "Bauteil", "spot": "Messpunkt", "film_um": "Schichtdicke"}, Panels: map[string]string{"haube": "bonnet", "TÜR L": "door-left"},
	})
	mils := every.With(intake.Mapping{Columns: map[string]string{"film_mil": "Thickness (mil)"}})
	for name, row := range map[string]struct {
		text    string
		mapping intake.Mapping
	}{
		"our own names":                    {"panel,spot,film_um\nbonnet,a,118.5\nbonnet,a,119\nbonnet,b,127\ndoor-left,a,101\n", every},
		"names nearly our own":             {"Panel;Spot;Film (µm)\nBonnet;a;118,5\nBonnet;a;119,0\nbonnet;b;127\nDoor left;a;101\n", every},
		"other names and decimal commas":   {"Nr\tBauteil\tMesspunkt\tSchichtdicke\n1\tHaube\ta\t118,5\n2\tHaube\ta\t119\n3\tHaube\tb\t127 µm\n4\tTür L\ta\t101\n", german},
		"the gauge speaks of itself first": {"Gauge;invented\nSerial no;0001\n\nBauteil;Messpunkt;Schichtdicke;Akku\nHaube;a;118,5;80\nHaube;a;119;80\nHaube;b;127;80\nTür L;a;101;79\n;;;\n", german},
		"mil":                              {"panel,spot,Thickness (mil)\nbonnet,a,118.5 µm\nbonnet,a,119um\nbonnet,b,5\ndoor-left,a,101 micron\n", mils},
		"decimal commas in quotes":         {"panel,spot,film_um\nbonnet,a,\"118,5\"\nbonnet,a,\"119,0\"\nbonnet,b,127\ndoor-left,a,101\n", every.With(intake.Mapping{Decimal: "comma"})},
		"a list of objects":                {`[{"panel":"bonnet","spot":"a","film_um":118.5},{"panel":"bonnet","spot":"a","film_um":"119 um","battery":null},{"panel":"bonnet","spot":"b","film_um":127},{"panel":"door-left","spot":"a","film_um":"101,0"}]`, every},
		"one object a line":                {"{\"panel\":\"bonnet\",\"spot\":\"a\",\"film_um\":118.5}\n{\"panel\":\"bonnet\",\"spot\":\"a\",\"film_um\":119}\n{\"panel\":\"bonnet\",\"spot\":\"b\",\"film_um\":127}\n{\"panel\":\"door-left\",\"spot\":\"a\",\"film_um\":101}\n", every},
		"several readings at once":         {`{"gauge":{"serial":"0001"},"panels":[{"panel":"bonnet","spots":[{"spot":"a","film_um":[118.5,119]},{"spot":"b","film_um":[127]}]},{"panel":"door-left","spots":[{"spot":"a","film_um":101}]}]}`, every},
		"fields inside fields":             {`[{"at":{"panel":"bonnet","spot":"a"},"film_um":[118.5,119]},{"at":{"panel":"bonnet","spot":"b"},"film_um":127},{"at":{"panel":"door-left","spot":"a"},"film_um":101}]`, every.With(intake.Mapping{Columns: map[string]string{"panel": "at.panel", "spot": "at.spot"}})},
	} {
		t.Run(name, func(t *testing.T) {
			gauge, problems := intake.ReadGauge(table(row.text), row.mapping)
			require.Empty(t, problems)
			require.Len(t, gauge.Readings, 2)
			for i, want := range wanted() {
				assert.True(t, proto.Equal(want, gauge.Readings[i]), "%v", gauge.Readings[i])
			}
		})
	}
}

func TestRowsSayWhenAndAtWhichStepTheyWereRead(t *testing.T) {
	gauge, problems := intake.ReadGauge(table("panel,spot,when,step,gloss60_gu,haze_hu,panel_f\nbonnet,a,during,polish,88.1,,\nbonnet,b,during,polish,87.9,12,104\nbonnet,a,After,,90,,95\n"), intake.Mapping{})
	require.Empty(t, problems)
	want := []*glossladderv1.Readings{
		{
			PanelId: "bonnet", Time: glossladderv1.ReadingsTime_READINGS_TIME_DURING, Step: glossladderv1.Step_STEP_POLISH, PanelC: new(40.0),
			Gloss: []*glossladderv1.GlossSpot{{Spot: "a", At60Gu: []float64{88.1}}, {Spot: "b", At60Gu: []float64{87.9}, HazeHu: []float64{12}}},
		},
		{PanelId: "bonnet", Time: glossladderv1.ReadingsTime_READINGS_TIME_AFTER, PanelC: new(35.0), Gloss: []*glossladderv1.GlossSpot{{Spot: "a", At60Gu: []float64{90}}}},
	}
	require.Len(t, gauge.Readings, 2)
	for i := range want {
		assert.True(t, proto.Equal(want[i], gauge.Readings[i]), "%v", gauge.Readings[i])
	}
	at, exact, ok := gauge.Places.Of("readings[0].gloss[1].haze_hu[0]")
	require.True(t, ok && exact)
	assert.Equal(t, 3, at.Line)
}

func TestEveryMistakeOfAGaugesFileIsToldWithItsLine(t *testing.T) {
	every := intake.Mapping{Every: map[string]string{"when": "before"}}
	for name, row := range map[string]struct {
		text    string
		mapping intake.Mapping
		want    string
	}{
		"rows": {
			"panel,spot,film_um\nbonnet,a,thick\n,a,118\nbonnet,,118\nbonnet,a,\nbonnet,a,1,2,3\n", every,
			"readings.csv:2:10: film_um: \"thick\" is not a number; write it in decimal digits, as 12 or -3.5\n" +
				"readings.csv:3:1: the row has no panel; every reading needs its panel and its spot\n" +
				"readings.csv:4:1: the row has no spot; every reading needs its panel and its spot\n" +
				"readings.csv:5:1: the row has no reading; leave it out, or write a number in a column of readings\n" +
				"readings.csv:6:12: the row has more fields than there are columns; a decimal comma needs ; between the fields, or quotes around the number",
		},
		"names": {
			"part,place,value\nbonnet,a,118\n", every,
			"readings.csv:1:1: there is no column panel; the file has \"part\", \"place\", \"value\"; say which it is, or what every row has\n" +
				"readings.csv:1:1: there is no column spot; the file has \"part\", \"place\", \"value\"; say which it is, or what every row has\n" +
				"readings.csv:1:1: there is no column with readings; the file has \"part\", \"place\", \"value\"; say which of film_um, film_mil, clear_um, clear_mil, gloss20_gu, gloss60_gu, gloss85_gu, haze_hu, panel_c, panel_f they are",
		},
		"a mapping for another file": {
			"panel,spot,film_um\nbonnet,a,118\n", every.With(intake.Mapping{Columns: map[string]string{"film_um": "Thickness"}}),
			"readings.csv:1:1: there is no column \"Thickness\" for film_um; the file has \"panel\", \"spot\", \"film_um\"",
		},
		"another unit than the column says": {
			"panel,spot,Thickness (mil)\nbonnet,a,4.6\n", every.With(intake.Mapping{Columns: map[string]string{"film_um": "Thickness (mil)"}}),
			"readings.csv:1:12: the column \"Thickness (mil)\" says mil, and is mapped to film_um; map it to the column of its own unit",
		},
		"the moment": {
			"panel,spot,when,film_um\nbonnet,a,,118\nbonnet,a,later,118\n",
			intake.Mapping{},
			"readings.csv:2:1: the row does not say when it was read; it is before, during or after the work: a column when, or the same for every row\n" +
				"readings.csv:3:10: when: \"later\" is no moment of a job; write before, during or after",
		},
		"JSON that breaks off": {"[{\"panel\":\"bonnet\",\n\"spot\":", every, "readings.csv:2:8: this is no JSON: unexpected EOF"},
		"a field twice":        {`[{"panel":"bonnet","panel":"boot","spot":"a","film_um":1}]`, every, "readings.csv:1:34: the field \"panel\" is given twice; keep one"},
		"JSON without rows":    {`{"readings":[]}`, every, "readings.csv:1:16: the file holds no rows; a row is an object such as {\"panel\": \"bonnet\", \"spot\": \"a\", \"film_um\": 118}"},
		"nothing":              {"\n# nothing\n", every, "readings.csv:1:1: the file is empty; its first line names the columns: panel, spot, when, film_um, film_mil, clear_um, clear_mil, gloss20_gu, gloss60_gu, gloss85_gu, haze_hu, near_edge, step, panel_c, panel_f"},
	} {
		t.Run(name, func(t *testing.T) {
			_, problems := intake.ReadGauge(table(row.text), row.mapping)
			require.NotEmpty(t, problems)
			assert.Equal(t, row.want, problems.Error())
		})
	}
}

func TestAFileThatIsNoGaugesWorkIsRefused(t *testing.T) {
	numbered := "panel,spot,film_um\n"
	for i := range 200 {
		numbered += fmt.Sprintf("bonnet,%d,118\n", i)
	}
	for name, row := range map[string]struct{ text, want string }{
		"rows":    {"panel,spot,film_um\n" + strings.Repeat("bonnet,a,118\n", 10_000), "the file has 10001 rows, at most 10000 are read; split it"},
		"objects": {"[" + strings.Repeat("{\"panel\":\"b\"}\n", 10_001), "the file has more than 10000 rows; split it"},
		"columns": {strings.Repeat("film_um,", 300), "the file has 301 columns, at most 200 are read"},
		"depth":   {strings.Repeat("[", 100_000), "the rows are nested too deep"},
		"spots":   {numbered, "panel bonnet has more than 100 spots; readings at one place share the name of their spot"},
	} {
		t.Run(name, func(t *testing.T) {
			_, problems := intake.ReadGauge(table(strings.ReplaceAll(row.text, "}\n{", "},\n{")), intake.Mapping{Every: map[string]string{"when": "before"}})
			require.NotEmpty(t, problems)
			assert.Contains(t, problems.Error(), row.want)
		})
	}
}

func TestWhatIsOnRecordIsLeftOut(t *testing.T) {
	read := func(text string) *intake.Gauge {
		gauge, problems := intake.ReadGauge(table("panel,spot,when,film_um\n"+text), intake.Mapping{})
		require.Empty(t, problems)
		for _, r := range gauge.Readings {
			r.Source = "gauge 1"
		}
		return gauge
	}
	event := func(sequence int64, text string) *glossladderv1.JobEvent {
		return &glossladderv1.JobEvent{Sequence: sequence, What: &glossladderv1.JobEvent_Readings{Readings: read(text).Readings[0]}}
	}
	const first = "bonnet,a,before,118\nbonnet,a,before,119\nbonnet,b,before,121\n"
	withdrawn := &glossladderv1.JobEvent{Sequence: 9, What: &glossladderv1.JobEvent_Correction{Correction: &glossladderv1.Correction{Sequence: 4, Why: "wrong car"}}}
	for name, row := range map[string]struct {
		text   string
		events []*glossladderv1.JobEvent
		fresh  []*glossladderv1.FilmSpot
		known  []int64
	}{
		"nothing is on record":                 {first, nil, []*glossladderv1.FilmSpot{{Spot: "a", TotalUm: []float64{118, 119}}, {Spot: "b", TotalUm: []float64{121}}}, nil},
		"the same again":                       {first, []*glossladderv1.JobEvent{event(4, first)}, nil, []int64{4}},
		"a gauge that goes on":                 {first + "bonnet,b,before,122\nbonnet,c,before,130\n", []*glossladderv1.JobEvent{event(4, first)}, []*glossladderv1.FilmSpot{{Spot: "b", TotalUm: []float64{121, 122}}, {Spot: "c", TotalUm: []float64{130}}}, []int64{4}},
		"a spot that was recorded whole again": {first + "bonnet,b,before,122\n", []*glossladderv1.JobEvent{event(4, first), event(6, "bonnet,b,before,121\nbonnet,b,before,122\n")}, nil, []int64{4, 6}},
		"everything that came in parts":        {first + "bonnet,b,before,122\n", []*glossladderv1.JobEvent{event(4, first), event(5, "bonnet,b,before,122\n")}, nil, []int64{4, 5}},
		"an older file after a newer one":      {first, []*glossladderv1.JobEvent{event(4, first+"bonnet,b,before,122\n")}, nil, []int64{4}},
		"one reading that agrees is not enough": {
			"bonnet,a,before,118\nbonnet,a,before,117\n",
			[]*glossladderv1.JobEvent{event(4, "bonnet,a,before,118\n")},
			[]*glossladderv1.FilmSpot{{Spot: "a", TotalUm: []float64{118, 117}}},
			nil,
		},
		"another panel":      {first, []*glossladderv1.JobEvent{event(4, "boot,a,before,118\nboot,a,before,119\nboot,b,before,121\n")}, []*glossladderv1.FilmSpot{{Spot: "a", TotalUm: []float64{118, 119}}, {Spot: "b", TotalUm: []float64{121}}}, nil},
		"what was withdrawn": {first, []*glossladderv1.JobEvent{event(4, first), withdrawn}, []*glossladderv1.FilmSpot{{Spot: "a", TotalUm: []float64{118, 119}}, {Spot: "b", TotalUm: []float64{121}}}, nil},
	} {
		t.Run(name, func(t *testing.T) {
			gauge := read(row.text)
			known := gauge.LeaveOut(row.events)
			var sequences []int64
			for _, k := range known {
				sequences = append(sequences, k.Sequences...)
			}
			assert.Equal(t, row.known, sequences)
			if row.fresh == nil {
				assert.Empty(t, gauge.Readings)
				return
			}
			require.Len(t, gauge.Readings, 1)
			assert.True(t, proto.Equal(&glossladderv1.Readings{PanelId: "bonnet", Time: before, Source: "gauge 1", Film: row.fresh}, gauge.Readings[0]), "%v", gauge.Readings[0])
		})
	}
	during := read(strings.ReplaceAll(first+"bonnet,b,before,122\nbonnet,c,before,130\n", "before", "during"))
	during.LeaveOut([]*glossladderv1.JobEvent{event(4, strings.ReplaceAll(first, "before", "during"))})
	require.Len(t, during.Readings, 1)
	assert.Equal(t, []float64{122}, during.Readings[0].GetFilm()[0].GetTotalUm(), "during the work each reading is a moment of its own")
	gauge := read(first + "bonnet,b,before,122\nbonnet,c,before,130\n")
	gauge.LeaveOut([]*glossladderv1.JobEvent{event(4, first)})
	at, exact, ok := gauge.Places.Of("readings[0].film[1].total_um[0]")
	require.True(t, ok && exact, "places move with what is left")
	assert.Equal(t, 6, at.Line)
}

func TestMappingsAreChecked(t *testing.T) {
	require.ErrorContains(t, intake.Mapping{Columns: map[string]string{"thickness": "x"}}.Check(), "there is no column \"thickness\"")
	require.ErrorContains(t, intake.Mapping{Every: map[string]string{"film_um": "118"}}.Check(), "film_um cannot be the same for every row")
	require.NoError(t, intake.Mapping{Columns: map[string]string{"film_um": "x"}, Every: map[string]string{"panel": "bonnet"}}.Check())
	under := intake.Mapping{Columns: map[string]string{"film_um": "Thickness", "spot": "Point"}}
	over := under.With(intake.Mapping{Columns: map[string]string{"film_mil": "Thickness"}, Decimal: "comma"})
	assert.Equal(t, intake.Mapping{Columns: map[string]string{"film_mil": "Thickness", "spot": "Point"}, Decimal: "comma"}, over)
	assert.Equal(t, "Thickness", under.Columns["film_um"], "what is remembered is not touched")
}

func FuzzReadGauge(f *testing.F) {
	f.Add("panel,spot,film_um\nbonnet,a,118.5\n", "", "")
	f.Add("x;y;z\n1;2;3,5\n", "z", "comma")
	f.Add(`{"panels":[{"panel":"bonnet","spots":[{"spot":"a","film_um":[118.5,null,"119"]}]}]}`, "panels.spot", "point")
	f.Add("[[[{\"a\":{\"b\":[{}]}}]]]", "a.b", "")
	f.Add("\ufeffpanel\tspot\twhen\tfilm_mil\n\"b\"\t\"a\"\tafter\t4,6 mil\n", "", "")
	f.Fuzz(func(t *testing.T, text, theirs, decimal string) {
		m := intake.Mapping{Every: map[string]string{"when": "during", "spot": "a"}, Decimal: decimal}
		if theirs != "" {
			m.Columns = map[string]string{"film_um": theirs}
		}
		gauge, problems := intake.ReadGauge(table(text), m)
		if len(problems) > 0 {
			for _, p := range problems {
				require.Positive(t, p.Pos.Line)
			}
			return
		}
		require.NotEmpty(t, gauge.Readings)
		// What was read is on record once it is recorded: a second time leaves nothing.
		values := 0
		var events []*glossladderv1.JobEvent
		for i, r := range gauge.Readings {
			r.Source = "fuzz"
			events = append(events, &glossladderv1.JobEvent{Sequence: int64(i + 1), What: &glossladderv1.JobEvent_Readings{Readings: proto.CloneOf(r)}})
			for _, s := range r.GetFilm() {
				values += len(s.GetTotalUm()) + len(s.GetClearUm())
			}
			for _, s := range r.GetGloss() {
				values += len(s.GetAt20Gu()) + len(s.GetAt60Gu()) + len(s.GetAt85Gu()) + len(s.GetHazeHu())
			}
		}
		rows := 0
		for _, row := range gauge.Rows {
			for _, v := range row.Values {
				if v.Column != "panel_c" && v.Column != "panel_f" {
					rows++
				}
			}
		}
		require.Equal(t, rows, values, "every reading of a row is recorded once")
		gauge.LeaveOut(events)
		require.Empty(t, gauge.Readings)
	})
}

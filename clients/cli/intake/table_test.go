package intake_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/proto"

	"github.com/glossladder/glossladder/clients/cli/intake"
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

func table(text string) intake.Source { return intake.Source{Name: "readings.csv", Text: []byte(text)} }

func TestReadingsGoToTheirSpots(t *testing.T) {
	for name, text := range map[string]string{
		"commas":                            "panel,spot,film_um,gloss60_gu,near_edge\nbonnet,a,118.5,82.5,\nbonnet,a,118,,\nbonnet,edge,101,,true\n",
		"semicolons and decimal commas":     "panel;spot;film_um;gloss60_gu;near_edge\r\nbonnet;a;118,5;82,5;\r\nbonnet;a;118;;\r\nbonnet;edge;101;;yes\r\n;;;;\r\n",
		"tabs, in another order":            "gloss60_gu\tSpot\tPanel\tnear edge\tfilm_um\n82.5\ta\tbonnet\tno\t118.5\n\ta\tbonnet\t\t118\n\tedge\tbonnet\ttrue\t101\n",
		"comments, blanks, a byte mark":     "\ufeff# invented\npanel, spot, when, film_um, gloss60_gu, near_edge\n\nbonnet, a, inspection, 118.5, 82.5 GU,\nbonnet, a, , 118,,\n\"bonnet\",edge,Inspection,101 µm,,TRUE\n",
		"trials are somebody else's":        "panel,spot,when,film_um,gloss60_gu,near_edge\nbonnet,a,,118.5,82.5,\nbonnet,a,,118,,\nbonnet,edge,,101,,true\nbonnet,a,after,,90,\n",
		"every row its own, short of cells": "panel,spot,film_um,gloss60_gu,near_edge\nbonnet,a,118.5\nbonnet,a,118\nbonnet,a,,82.5\nbonnet,edge,101,,true\n",
	} {
		t.Run(name, func(t *testing.T) {
			readings, problems := intake.ReadTable(table(text))
			require.Empty(t, problems)
			request, places, problems := intake.Recommend(source("panels: [{id: bonnet}]"), intake.Bare{})
			require.Empty(t, problems)
			leftOut, problems := readings.ToInspection(request, places)
			require.Empty(t, problems)
			assert.Equal(t, strings.Count(text, "after"), leftOut)
			want := &glossladderv1.Panel{
				Id: "bonnet",
				Film: []*glossladderv1.FilmSpot{
					{Spot: "a", TotalUm: []float64{118.5, 118}},
					{Spot: "edge", TotalUm: []float64{101}, NearEdge: true},
				},
				Gloss: []*glossladderv1.GlossSpot{{Spot: "a", At60Gu: []float64{82.5}}},
			}
			assert.True(t, proto.Equal(want, request.GetInspection().GetPanels()[0]), "%v", request)
		})
	}
}

func TestMilReadingsAreConverted(t *testing.T) {
	readings, problems := intake.ReadTable(table("panel,spot,film_mil,clear_mil\nbonnet,a,5,1.5\n"))
	require.Empty(t, problems)
	request, places, _ := intake.Recommend(source("panels: [{id: bonnet, film: [{spot: a, total_um: [120]}]}]"), intake.Bare{})
	_, problems = readings.ToInspection(request, places)
	require.Empty(t, problems)
	spot := request.GetInspection().GetPanels()[0].GetFilm()[0]
	assert.Equal(t, []float64{120, 127}, spot.GetTotalUm(), "the file's own reading comes first")
	assert.Equal(t, []float64{38.1}, spot.GetClearUm())
	at, exact, ok := places.Of("inspection.panels[0].film[0].total_um[1]")
	require.True(t, ok)
	assert.True(t, exact)
	assert.Equal(t, "readings.csv 2:10", at.File+" "+at.String())
}

func TestReadingsGoToTheirTrials(t *testing.T) {
	readings, problems := intake.ReadTable(table("panel,spot,when,gloss60_gu,film_um\nbonnet,a,,80,120\nbonnet,a,after 1,84,\nbonnet,a,before-2,84,119\nbonnet,a,after,88,118\n"))
	require.Empty(t, problems)
	request, places, problems := intake.Judge(source("inspection: {panels: [{id: bonnet}, {id: roof}]}\npanel_id: bonnet\ntrials: [{step: finish}, {step: polish}]"), nil, intake.Bare{})
	require.Empty(t, problems)
	require.Empty(t, readings.ToTrials(request, places))
	assert.Equal(t, []float64{80}, request.GetInspection().GetPanels()[0].GetGloss()[0].GetAt60Gu())
	assert.Equal(t, []float64{84}, request.GetTrials()[0].GetAfter()[0].GetAt60Gu())
	assert.Equal(t, []float64{84}, request.GetTrials()[1].GetBefore()[0].GetAt60Gu())
	assert.Equal(t, []float64{119}, request.GetTrials()[1].GetFilmBefore()[0].GetTotalUm())
	assert.Equal(t, []float64{88}, request.GetTrials()[1].GetAfter()[0].GetAt60Gu())
	assert.Equal(t, []float64{118}, request.GetTrials()[1].GetFilmAfter()[0].GetTotalUm())

	stray, problems := intake.ReadTable(table("panel,spot,when,gloss60_gu\nroof,a,after,80\nbonet,a,after,80\nbonnet,a,after 3,80\n"))
	require.Empty(t, problems)
	assert.Equal(t, "readings.csv:2:1: the trials are about bonnet, not roof; leave the row out\n"+
		"readings.csv:3:1: \"bonet\" is not a panel of the inspection; did you mean bonnet?\n"+
		"readings.csv:4:10: there are 2 trials, and none is number 3", stray.ToTrials(request, places).Error())
}

func TestReadTableReportsEveryMistakeWithItsLine(t *testing.T) {
	for name, row := range map[string]struct{ text, want string }{
		"nothing": {"", "readings.csv:1:1: the table is empty; the first line names the columns: panel, spot, when, film_um, film_mil, clear_um, clear_mil, gloss20_gu, gloss60_gu, gloss85_gu, haze_hu, near_edge"},
		"a wrong column, a missing one and two alike": {
			"panel,flim_um,film_um,film_um\nbonnet,1,2,3\n",
			"readings.csv:1:1: there is no column spot; every reading needs its panel and its spot\n" +
				"readings.csv:1:7: there is no column \"flim_um\"; did you mean film_um?\n" +
				"readings.csv:1:23: there are two columns film_um; keep one",
		},
		"no column of readings": {"panel,spot\nbonnet,a\n", "readings.csv:1:1: there is no column with readings; the columns are panel, spot, when, film_um, film_mil, clear_um, clear_mil, gloss20_gu, gloss60_gu, gloss85_gu, haze_hu, near_edge"},
		"rows of every kind": {
			"panel,spot,when,film_um,near_edge\nbonnet,,,118,\nbonnet,a,,thick,\nbonnet,a,,118 GU,\nbonnet,a,later,118,maybe\nbonnet,a,,,\nbonnet,ä,,118,5,\n",
			"readings.csv:2:1: the row has no spot; every reading needs its panel and its spot\n" +
				"readings.csv:3:11: film_um: \"thick\" is not a number; write it in decimal digits, as 12 or -3.5\n" +
				"readings.csv:4:11: film_um: \"GU\" is the wrong unit; write µm or mil\n" +
				"readings.csv:5:10: when: \"later\" is no moment; write inspection, before or after, or before 2 for the second trial\n" +
				"readings.csv:5:20: near_edge: \"maybe\" is not true or false\n" +
				"readings.csv:6:1: the row has no reading; leave it out, or write a number in a column of readings\n" +
				"readings.csv:7:17: the row has more fields than there are columns; a decimal comma needs ; between the fields",
		},
		"quotes":           {"panel,spot,film_um\nbon\"net,a,118\n\"bonnet\"x,a,118\n", "readings.csv:2:4: a quote is out of place; put the whole field in quotes, and double each quote inside it\nreadings.csv:3:8: a quote is out of place; put the whole field in quotes, and double each quote inside it"},
		"another encoding": {"panel,spot,film_um\nbonnet,\xe4,118\n", "readings.csv:2:1: the text is not UTF-8 here; save the file as UTF-8"},
	} {
		t.Run(name, func(t *testing.T) {
			_, problems := intake.ReadTable(table(row.text))
			assert.Equal(t, row.want, problems.Error())
		})
	}
}

func FuzzReadTable(f *testing.F) {
	for _, seed := range []string{"panel,spot,film_um\nbonnet,a,118\n", "panel;spot;when;haze_hu\na;b;after 2;1,5\n", "panel,\"spot\n", "#\n;"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		readings, problems := intake.ReadTable(table(text))
		for _, p := range problems {
			require.Positive(t, p.Line, "%v", p)
			require.Positive(t, p.Col, "%v", p)
			require.LessOrEqual(t, p.Line, 1+strings.Count(text, "\n"), "%v", p)
		}
		request, places, _ := intake.Recommend(source("panels: [{id: a}]"), intake.Bare{})
		leftOut, problems := readings.ToInspection(request, places)
		require.GreaterOrEqual(t, strings.Count(text, "\n")+1, leftOut+len(problems))
	})
}

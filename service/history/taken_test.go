package history_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/film"
	"github.com/glossladder/glossladder/service/history"
)

func um(low, likely, high float64) film.Removal {
	return film.Removal{LowUm: film.Microns(low), LikelyUm: film.Microns(likely), HighUm: film.Microns(high)}
}

func requireTaken(t *testing.T, want film.Removal, got film.Removal) {
	t.Helper()
	assert.InDelta(t, float64(want.LowUm), float64(got.LowUm), 1e-9, "low end")
	assert.InDelta(t, float64(want.LikelyUm), float64(got.LikelyUm), 1e-9, "likely")
	assert.InDelta(t, float64(want.HighUm), float64(got.HighUm), 1e-9, "high end")
}

// start is a job up to the plan of polish and finish on the bonnet.
func start(more ...history.Body) []history.Body {
	return append([]history.Body{booked(), inspected("bonnet"), advised("bonnet"), planned("bonnet", "polish-finish")}, more...)
}

func done(step string, spared bool) history.Body {
	return &history.Progress{Panel: "bonnet", Step: step, State: history.Done, TestSectionSpared: spared}
}

func TestFilmTaken(t *testing.T) {
	measured := &history.Taken{Removal: history.Removal{LowUm: 1, LikelyUm: 1.2, HighUm: 1.4}, Measured: true}
	for name, row := range map[string]struct {
		bodies []history.Body
		want   film.Removal
	}{
		"two steps add up":                    {start(done("polish", false), done("finish", false)), um(0.5, 1.2, 2)},
		"a step under way counts whole":       {start(worked("bonnet", "polish", history.UnderWay)), um(0.5, 1, 1.5)},
		"begun and done is one pass":          {start(worked("bonnet", "polish", history.UnderWay), done("polish", false)), um(0.5, 1, 1.5)},
		"done and begun again is two":         {start(done("polish", false), worked("bonnet", "polish", history.UnderWay)), um(1, 2, 3)},
		"left out takes nothing":              {start(worked("bonnet", "polish", history.LeftOut), done("finish", false)), um(0, 0.2, 0.5)},
		"a trial alone":                       {[]history.Body{booked(), inspected("bonnet"), advised("bonnet"), tried("bonnet", "cut")}, um(1.5, 2.5, 4)},
		"a trial by its verdict":              {[]history.Body{booked(), inspected("bonnet"), advised("bonnet"), tried("bonnet", "polish"), judged(4, "bonnet", measured)}, um(1, 1.2, 1.4)},
		"trials on one section add up":        {[]history.Body{booked(), inspected("bonnet"), advised("bonnet"), tried("bonnet", "finish"), tried("bonnet", "polish")}, um(0.5, 1.2, 2)},
		"of two sections the worse counts":    {[]history.Body{booked(), inspected("bonnet"), advised("bonnet"), tried("bonnet", "finish"), &history.Trial{Panel: "bonnet", Step: "cut", FreshSection: true}}, um(1.5, 2.5, 4)},
		"the test section may be worked over": {append([]history.Body{booked(), inspected("bonnet"), advised("bonnet"), tried("bonnet", "polish"), planned("bonnet", "polish-finish")}, done("polish", false), done("finish", false)), um(0.5, 1.2, 3.5)},
		"unless it was spared":                {append([]history.Body{booked(), inspected("bonnet"), advised("bonnet"), tried("bonnet", "polish"), planned("bonnet", "polish-finish")}, done("polish", true), done("finish", true)), um(0.5, 1.2, 2)},
		"a withdrawn trial took nothing":      {start(done("polish", false), corrected(5, nil), done("polish", true)), um(0.5, 1, 1.5)},
	} {
		t.Run(name, func(t *testing.T) {
			taken := jobOf(row.bodies...).Panel("bonnet").Taken()
			require.NotNil(t, taken)
			requireTaken(t, row.want, taken.Removal)
			require.NoError(t, taken.Check(), "low, likely and high rise")
			assert.False(t, taken.Measured)
			assert.Empty(t, taken.Unaccounted)
		})
	}
	assert.Nil(t, jobOf(start()...).Panel("bonnet").Taken(), "nothing was worked")
}

func TestFilmTakenThatNobodyCanTell(t *testing.T) {
	job := jobOf(booked(), inspected("bonnet"), tried("bonnet", "cut"), planned("bonnet", "polish"), done("polish", true))
	taken := job.Panel("bonnet").Taken()
	assert.Equal(t, []string{"polish", "cut"}, taken.Unaccounted, "not known is not zero")
}

func filmed(values ...float64) []history.FilmSpot {
	var spots []history.FilmSpot
	for i, v := range values {
		spots = append(spots, history.FilmSpot{Spot: string(rune('a' + i)), TotalUm: []float64{v, v, v}})
	}
	return spots
}

func TestFilmTakenAsMeasured(t *testing.T) {
	found := func(spots []history.FilmSpot) history.Body {
		return &history.Inspection{
			Gauge:  &history.Gauge{Kind: string(film.Combined), AccuracyUm: 1, AccuracyPct: 1, ResolutionUm: 0.1},
			Panels: []history.PanelFound{{ID: "bonnet", Substrate: "steel", Film: spots}},
		}
	}
	after := func(leftAsSet bool, spots []history.FilmSpot) history.Body {
		return &history.Readings{Panel: "bonnet", When: history.After, Film: spots, LeftAsSet: leftAsSet}
	}
	job := func(more ...history.Body) *history.FilmTaken {
		bodies := append([]history.Body{
			booked(), found(filmed(104, 106, 105)), advised("bonnet"), planned("bonnet", "cut-polish-finish"),
			done("cut", false), done("polish", false), done("finish", false),
		}, more...)
		return record(t, bodies...).Panel("bonnet").Taken()
	}
	requireTaken(t, um(2, 3.7, 6), job().Removal)

	taken := job(after(true, filmed(100, 102, 101)))
	assert.True(t, taken.Measured)
	// Each spot lost 4 µm exactly; what is left of doubt is rounding, ±1.96·√2·0.1/√12 µm (normal quantile, GUM F.2.2.1).
	requireTaken(t, um(4-0.0800, 4, 4+0.0800), roundTaken(taken.Removal))

	taken = job(after(false, filmed(103, 105, 104)))
	assert.False(t, taken.Measured, "a gauge set anew cannot resolve one micron")
	requireTaken(t, um(2, 3.7, 6), taken.Removal)

	taken = job(after(true, filmed(105, 107, 106)))
	assert.False(t, taken.Measured, "paint does not grow")

	taken = job(after(true, filmed(90)), after(true, filmed(100, 102, 101)))
	requireTaken(t, um(4-0.0800, 4, 4+0.0800), roundTaken(taken.Removal)) // a spot read again takes the place of its first reading
}

func roundTaken(r film.Removal) film.Removal {
	round := func(m film.Microns) float64 { return float64(int(float64(m)*10000+0.5)) / 10000 }
	return um(round(r.LowUm), round(r.LikelyUm), round(r.HighUm))
}

func visitOf(id string, minute int, bodies ...history.Body) *history.Job {
	all := events(bodies...)
	for i := range all {
		all[i].Job, all[i].RecordedAt = id, at(minute+i)
	}
	return history.Replay(all)
}

func TestLifeAddsUpVisits(t *testing.T) {
	first := visitOf("first", 0, start(done("polish", false), done("finish", false))...)
	second := visitOf("second", 30, append(start(done("polish", false)), read("bonnet", history.After))...)
	lives := history.Life([]*history.Job{second, first})
	require.Len(t, lives, 1)
	requireTaken(t, um(1, 2.2, 3.5), lives[0].Taken)
	require.Len(t, lives[0].Visits, 2)
	assert.Equal(t, "first", lives[0].Visits[0].Job, "in order of time, however they come")
	assert.False(t, lives[0].Incomplete)
	sum, err := film.Ladder(lives[0].Visits[0].Removal, lives[0].Visits[1].Removal)
	require.NoError(t, err)
	requireTaken(t, sum, lives[0].Taken) // as the film room adds the steps of a ladder
}

func TestLifeCountsWhatOthersTook(t *testing.T) {
	said := func(um float64) history.Body {
		return &history.Inspection{Panels: []history.PanelFound{{ID: "bonnet", TakenUm: &um}}}
	}
	first := visitOf("first", 0, booked(), said(5), advised("bonnet"), planned("bonnet", "polish"), done("polish", false))
	less := visitOf("less", 30, booked(), said(2))
	more := visitOf("more", 30, booked(), said(8))
	requireTaken(t, um(5.5, 6, 6.5), history.Life([]*history.Job{first})[0].Taken)
	requireTaken(t, um(5.5, 6, 6.5), history.Life([]*history.Job{first, less})[0].Taken)
	requireTaken(t, um(8, 8, 8), history.Life([]*history.Job{first, more})[0].Taken)
}

func TestLifeSaysWhenItIsIncomplete(t *testing.T) {
	job := visitOf("first", 0, booked(), inspected("bonnet"), planned("bonnet", "cut"), worked("bonnet", "cut", history.Done))
	assert.True(t, history.Life([]*history.Job{job})[0].Incomplete)
}

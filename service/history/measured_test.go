package history_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
)

// withAreas gives a plan a crew, nil for none, and areas that take the place of all before.
func withAreas(plan history.Body, crew *history.Crew, areas ...history.MeasuredArea) history.Body {
	out, _ := plan.(*history.Plan)
	out.Measured, out.Crew = &history.Measured{Areas: areas}, crew
	return out
}

func area(panel string, m2 float64) history.MeasuredArea {
	return history.MeasuredArea{Panel: panel, M2: m2}
}

func TestAreasAndCrewOfAPlanStayUntilALaterPlanSaysOthers(t *testing.T) {
	two := &history.Crew{People: ptr(2)}
	begin := []history.Body{booked(), inspected("bonnet", "roof"), advised("bonnet", "roof"), withAreas(planned("bonnet", "finish"), two, area("bonnet", 1.8), area("roof", 1.6))}
	for name, row := range map[string]struct {
		then         []history.Body
		bonnet, roof *float64
		crew         *history.Crew
	}{
		"as planned":                           {nil, ptr(1.8), ptr(1.6), two},
		"a plan that says none keeps them":     {[]history.Body{planned("roof", "finish")}, ptr(1.8), ptr(1.6), two},
		"a later plan's take the place of all": {[]history.Body{withAreas(planned("roof", "finish"), &history.Crew{DayHours: ptr(6.0)}, area("roof", 1.7))}, nil, ptr(1.7), &history.Crew{DayHours: ptr(6.0)}},
		"none is measured any more":            {[]history.Body{withAreas(planned("roof", "finish"), nil)}, nil, nil, two},
		"inspected again they are as large":    {[]history.Body{inspected("bonnet")}, ptr(1.8), ptr(1.6), two},
		"the plan was withdrawn":               {[]history.Body{corrected(4, nil)}, nil, nil, nil},
		"back to the plan before":              {[]history.Body{withAreas(planned("roof", "finish"), nil), corrected(5, nil)}, ptr(1.8), ptr(1.6), two},
	} {
		t.Run(name, func(t *testing.T) {
			job := record(t, append(begin[:len(begin):len(begin)], row.then...)...)
			assert.Equal(t, row.bonnet, job.Panel("bonnet").AreaM2)
			assert.Equal(t, row.roof, job.Panel("roof").AreaM2)
			assert.Equal(t, row.crew, job.Crew)
		})
	}
}

func TestAreasAndCrewsThatCannotBe(t *testing.T) {
	job := record(t, booked(), inspected("bonnet", "roof"))
	for name, row := range map[string]struct {
		body history.Body
		says []string
	}{
		"a panel that nobody looked at": {withAreas(planned("bonnet", "finish"), nil, area("wing", 1)), []string{"wing"}},
		"two areas of one panel": {
			withAreas(planned("bonnet", "finish"), nil, area("roof", 1), area("roof", 2)), []string{`plan.measured.areas[1].panel_id "roof" has an area already`},
		},
		"out of bounds, all at once": {
			withAreas(planned("bonnet", "finish"), &history.Crew{People: ptr(21), DayHours: ptr(math.NaN())}, area("bonnet", 0), area("roof", math.NaN())),
			[]string{"plan.measured.areas[0].area_m2 is 0 m²; an area is 0.01 to 60 m²", "plan.measured.areas[1].area_m2 is NaN", "plan.crew.people is 21", "plan.crew.day_hours is NaN"},
		},
	} {
		t.Run(name, func(t *testing.T) {
			err := job.Allows(row.body)
			require.Error(t, err)
			for _, says := range row.says {
				assert.ErrorContains(t, err, says)
			}
		})
	}
}

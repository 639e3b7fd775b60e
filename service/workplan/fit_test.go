package workplan_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/plan"
	"github.com/glossladder/glossladder/service/workplan"
)

// random is an invented vehicle of a few panels whose marks differ.
func random(r *rand.Rand, panels int) advisor.Inspection {
	in := midSize("wash-marks", 3)
	r.Shuffle(len(in.Panels), func(i, k int) { in.Panels[i], in.Panels[k] = in.Panels[k], in.Panels[i] })
	in.Panels = in.Panels[:panels]
	for i := range in.Panels {
		in.Panels[i].Defects = []advisor.Defect{
			{Kind: "wash-marks", Severity: ptr(float64(r.IntN(9)) / 2)}, {Kind: "holograms", Severity: ptr(float64(r.IntN(7)) / 2)},
		}
	}
	return in
}

func TestShortHoursNameWhatIsLeftOut(t *testing.T) {
	in := midSize("wash-marks", 3)
	j := job(t, in, nil)
	full, err := workplan.Make(j)
	require.NoError(t, err)
	fit, err := workplan.InHours(j, full.WorkMin.Likely*0.7)
	require.NoError(t, err)
	assert.Less(t, fit.ResultPct, 100.0)
	less := 0
	for _, p := range fit.Panels {
		if p.Ladder == p.Full {
			assert.Empty(t, p.Leaves, p.Panel)
			continue
		}
		less++
		assert.Less(t, p.Grades, p.FullGrades, p.Panel)
		assert.Positive(t, p.SavesMin, p.Panel)
		assert.Contains(t, p.Leaves, "wash marks 3 stay near ", p.Panel)
	}
	assert.Positive(t, less)
	var last workplan.FitPoint
	for i, point := range fit.Curve {
		if i > 0 {
			assert.Greater(t, point.WorkMin, last.WorkMin)
			assert.Greater(t, point.ResultPct, last.ResultPct)
		}
		last = point
	}
	assert.InDelta(t, 100, last.ResultPct, 1e-9)
}

func TestEnoughHoursLeaveNothingOut(t *testing.T) {
	j := job(t, midSize("wash-marks", 3), nil)
	fit, err := workplan.InHours(j, 100*60)
	require.NoError(t, err)
	assert.InDelta(t, 100, fit.ResultPct, 1e-9)
	assert.Equal(t, fit.Full.Cost, fit.Plan.Cost)
	for _, p := range fit.Panels {
		assert.Equal(t, p.Full, p.Ladder, p.Panel)
	}
}

func TestTooFewHoursSayHowManyAreNeeded(t *testing.T) {
	_, err := workplan.InHours(job(t, midSize("wash-marks", 3), nil), 20)
	var room *plan.NoRoomError
	require.ErrorAs(t, err, &room)
	assert.Greater(t, room.Least, 60)
}

func TestAPriceBuysTheBestThatItPaysFor(t *testing.T) {
	j := job(t, midSize("wash-marks", 3), nil)
	full, err := workplan.Make(j)
	require.NoError(t, err)
	half := full.Cost.Total.Likely / 2
	fit, err := workplan.ForPrice(j, half)
	require.NoError(t, err)
	assert.LessOrEqual(t, fit.Plan.Cost.Total.Likely, half)
	assert.Positive(t, fit.ResultPct)
	again, err := workplan.ForPrice(j, full.Cost.Total.Likely)
	require.NoError(t, err)
	assert.InDelta(t, 100, again.ResultPct, 1e-9)
	_, err = workplan.ForPrice(j, 100)
	var dear *workplan.DearError
	require.ErrorAs(t, err, &dear)
	assert.Equal(t, "1.00 EUR", dear.Price)
}

func TestASettledLadderStaysUnderAnyLimitOfHours(t *testing.T) {
	in := midSize("wash-marks", 3)
	settled := map[string]string{"bumper-rear": "finish", "roof": "none"}
	j := job(t, in, settled)
	fit, err := workplan.InHours(j, 5*60)
	require.NoError(t, err)
	assert.Equal(t, "finish", fit.Plan.Ladders["bumper-rear"])
	assert.Equal(t, "none", fit.Plan.Ladders["roof"])
}

// What was decided before hours were short is kept where there is time, whatever the rules say of its worth, and is never exceeded.
func TestWhatWasDecidedIsTheMostThatAPanelGets(t *testing.T) {
	in := midSize("wash-marks", 2)
	in.Goal.Level = "freshen" // marks of two may stay
	j := job(t, in, nil)
	j.Settled, j.AtMost = map[string]string{}, map[string]bool{}
	for i := range j.Work.Panels {
		id := j.Work.Panels[i].Panel.ID
		j.Settled[id], j.AtMost[id] = "finish", true
	}
	full, err := workplan.InHours(j, 100*60)
	require.NoError(t, err)
	for _, p := range full.Panels {
		assert.Equal(t, "finish", p.Ladder, "%s", p.Panel)
	}
	assert.InDelta(t, 100, full.ResultPct, 1e-9)
	short, err := workplan.InHours(j, full.Plan.WorkMin.Likely*0.7)
	require.NoError(t, err)
	worked := 0
	for _, p := range short.Panels {
		assert.Contains(t, []string{"finish", "none"}, p.Ladder, "%s", p.Panel)
		if p.Ladder == "finish" {
			worked++
		}
	}
	assert.Positive(t, worked)
	assert.Less(t, worked, len(short.Panels))
	first := j.Work.Panels[0].Panel.ID
	j.AtMost[first] = false
	fixed, err := workplan.InHours(j, full.Plan.WorkMin.Likely*0.7)
	require.NoError(t, err)
	assert.Equal(t, "finish", fixed.Plan.Ladders[first], "what has begun stays")
}

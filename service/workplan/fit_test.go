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

// result is what a choice of ladders brings: grades that go, each panel weighted by what an owner sees of it.
func result(j *workplan.Job, ladders map[string]string) (sum float64) {
	for i := range j.Work.Panels {
		p := &j.Work.Panels[i]
		ladder, _ := p.Ladder(ladders[p.Panel.ID])
		sum += float64(p.Area.Seen) * ladder.Grades()
	}
	return sum
}

// everyChoice tries all ladders of all panels and gives the best result of the plans that fit the minutes, each planned in earnest.
func everyChoice(t *testing.T, j *workplan.Job, minutes float64) (best float64) {
	t.Helper()
	picks := map[string]string{}
	var try func(at int)
	try = func(at int) {
		if at < len(j.Work.Panels) {
			for _, ladder := range j.Work.Panels[at].Ladders {
				picks[j.Work.Panels[at].Panel.ID] = ladder.Ladder
				try(at + 1)
			}
			return
		}
		each := *j
		each.Settled = picks
		made, err := workplan.Make(&each)
		require.NoError(t, err)
		if made.WorkMin.Likely <= minutes {
			best = max(best, result(j, picks))
		}
	}
	try(0)
	return best
}

// The best use of hours is what trying everything finds. Pads are counted a little too high on the way, so the answer has to be as
// good as the best for a few minutes less, and never better than the best.
func TestInHoursIsAsGoodAsTryingEverything(t *testing.T) {
	const padsMin = 4
	r := rand.New(rand.NewPCG(11, 4))
	for n := range 12 {
		in := random(r, 3)
		j := job(t, in, nil)
		full, err := workplan.Make(j)
		require.NoError(t, err)
		minutes := full.WorkMin.Likely * (0.75 + 0.25*r.Float64())
		fit, err := workplan.InHours(j, minutes)
		require.NoError(t, err)
		assert.LessOrEqual(t, fit.Plan.WorkMin.Likely, minutes+1e-6)
		got := result(j, fit.Plan.Ladders)
		assert.LessOrEqual(t, got, everyChoice(t, j, minutes)+1e-9, "vehicle %d", n)
		assert.GreaterOrEqual(t, got, everyChoice(t, j, minutes-padsMin)-1e-9, "vehicle %d", n)
	}
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

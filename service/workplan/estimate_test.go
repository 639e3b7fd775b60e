package workplan_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/plan"
	"github.com/glossladder/glossladder/service/workplan"
)

func ask(t *testing.T, in advisor.Inspection, j *workplan.Job) workplan.Estimate {
	t.Helper()
	a, things := shop(t)
	vehicle := in.Vehicle
	vehicle.Paint = advisor.Paint{System: "clear-coat", Softness: "medium", Shade: "medium", AgeYears: ptr(6.0)}
	unseen, err := a.Unseen(vehicle, in.Goal)
	require.NoError(t, err)
	q := workplan.Question{Unseen: unseen, Vehicle: vehicle, Goal: in.Goal}
	if j == nil {
		q.Job = workplan.Job{Shop: things, Crew: plan.Crew{People: 1, DayHours: 8}}
	} else {
		q.Job = *j
	}
	out, err := workplan.Guess(q)
	require.NoError(t, err)
	assert.LessOrEqual(t, out.WorkMin.Low, out.WorkMin.Likely)
	assert.LessOrEqual(t, out.WorkMin.Likely, out.WorkMin.High)
	assert.LessOrEqual(t, out.Total.Low, out.Total.Likely)
	assert.LessOrEqual(t, out.Total.Likely, out.Total.High)
	return out
}

// whole is the vehicle with sills and mirrors, so that no part of it is unseen.
func whole() advisor.Inspection {
	in := midSize("wash-marks", 3)
	for _, row := range [][2]string{{"sill-left", "sill"}, {"sill-right", "sill"}, {"mirror-left", "mirror-cap"}, {"mirror-right", "mirror-cap"}} {
		p := in.Panels[0]
		p.ID, p.Part = row[0], row[1]
		in.Panels = append(in.Panels, p)
	}
	return in
}

func TestTheRangeNarrowsAtInspectionAndAgainAtTheTrial(t *testing.T) {
	in := whole()
	unseen := ask(t, in, nil)
	assert.Equal(t, workplan.UnseenStage, unseen.Stage)

	part := in
	part.Panels = in.Panels[:5]
	partly := ask(t, in, job(t, part, nil))
	assert.Equal(t, workplan.PartlySeen, partly.Stage)

	inspected := ask(t, in, job(t, in, nil))
	assert.Equal(t, workplan.Inspected, inspected.Stage)

	advised := map[string]string{}
	j := job(t, in, nil)
	for i := range j.Work.Panels {
		advised[j.Work.Panels[i].Panel.ID] = j.Work.Panels[i].Advice.Ladder
	}
	j = job(t, in, advised)
	j.Proven = map[string]bool{}
	for _, group := range j.Work.Groups {
		j.Proven[group.TestFirst] = true
	}
	proven := ask(t, in, j)
	assert.Equal(t, workplan.ProvenStage, proven.Stage)
	assert.Zero(t, proven.LadderDoubtMin)

	width := func(e workplan.Estimate) float64 { return e.WorkMin.High - e.WorkMin.Low }
	for _, e := range []workplan.Estimate{unseen, partly, inspected, proven} {
		t.Logf("%s: %.1f h (%.1f to %.1f)", e.Stage, e.WorkMin.Likely/60, e.WorkMin.Low/60, e.WorkMin.High/60)
	}
	assert.Greater(t, width(unseen), width(inspected))
	assert.Greater(t, width(inspected), width(proven))
}

// The outer polishable area of a vehicle: small 8 to 9 m², medium 9 to 11, large and very large 11 to 15 (common practice, no source).
func TestAVehicleOfEachSizeHasTheAreaThatTheTradeKnows(t *testing.T) {
	a, _ := shop(t)
	for size, want := range map[string][2]float64{"small": {8, 9.5}, "medium": {9, 11.2}, "large": {11, 15}, "very-large": {11, 15.5}} {
		unseen, err := a.Unseen(advisor.Vehicle{Size: size}, advisor.Goal{})
		require.NoError(t, err)
		sum := 0.0
		ids := map[string]bool{}
		for _, p := range unseen.Panels {
			sum += p.Area.LikelyM2
			assert.False(t, ids[p.Panel.ID], "%s twice", p.Panel.ID)
			ids[p.Panel.ID] = true
		}
		assert.GreaterOrEqual(t, sum, want[0], size)
		assert.LessOrEqual(t, sum, want[1], size)
	}
}

func TestAMatteVehicleIsEstimatedWithoutASingleStep(t *testing.T) {
	a, things := shop(t)
	vehicle := advisor.Vehicle{Size: "medium", Paint: advisor.Paint{System: "matte"}}
	unseen, err := a.Unseen(vehicle, advisor.Goal{Level: "show"})
	require.NoError(t, err)
	out, err := workplan.Guess(workplan.Question{
		Job: workplan.Job{Shop: things, Crew: plan.Crew{People: 1, DayHours: 8}}, Unseen: unseen, Vehicle: vehicle,
	})
	require.NoError(t, err)
	for _, p := range out.Panels {
		assert.Equal(t, "none", p.High, p.Part)
	}
	assert.Zero(t, out.Materials)
}

func TestNothingKnownIsAskedFor(t *testing.T) {
	a, things := shop(t)
	unseen, err := a.Unseen(advisor.Vehicle{}, advisor.Goal{})
	require.NoError(t, err)
	out, err := workplan.Guess(workplan.Question{Job: workplan.Job{Shop: things, Crew: plan.Crew{People: 1, DayHours: 8}}, Unseen: unseen})
	require.NoError(t, err)
	assert.Equal(t, "ask the owner what is wanted", out.Narrows[0])
	assert.Contains(t, out.Narrows, "note how large the vehicle is")
	assert.Contains(t, out.Narrows, "inspect the vehicle")
}

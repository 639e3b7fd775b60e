package workplan_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/plan"
	"github.com/glossladder/glossladder/service/workplan"
)

func office() plan.Opening {
	out := plan.Opening{Zone: time.UTC}
	for day := time.Monday; day <= time.Friday; day++ {
		out.Week[day] = []plan.Hours{{FromMin: 8 * 60, ToMin: 12 * 60}, {FromMin: 13 * 60, ToMin: 17 * 60}}
	}
	return out
}

func TestBayTimeIsTheLikelyMinutesSharedByTheCrew(t *testing.T) {
	monday := time.Date(2026, 11, 30, 8, 0, 0, 0, time.UTC)
	for people := 1; people <= 3; people++ {
		j := job(t, midSize("wash-marks", 3), nil)
		j.Crew.People = people
		made, err := workplan.Make(j)
		require.NoError(t, err)
		laid, err := workplan.Bay(&made, monday, office(), plan.Taken{})
		require.NoError(t, err)
		sum := 0.0
		for _, b := range laid.Blocks {
			sum += b.End.Sub(b.Start).Minutes()
		}
		assert.InDelta(t, made.WorkMin.Likely/float64(people), sum, 1)
		assert.Equal(t, "prepare, inspect, try and tape", laid.Blocks[0].Piece)
		assert.Equal(t, laid.Blocks[len(laid.Blocks)-1].End, laid.Ready)
	}
}

func TestBayTimeOfWhatIsLeft(t *testing.T) {
	made, err := workplan.Make(job(t, midSize("wash-marks", 3), nil))
	require.NoError(t, err)
	last := made.Steps[len(made.Steps)-1].Step
	left := made.Still(func(_, step string) plan.Progress { return plan.Progress{Begun: true, Over: step != last} })
	made.Left = &left
	laid, err := workplan.Bay(&made, time.Date(2026, 11, 30, 8, 0, 0, 0, time.UTC), office(), plan.Taken{})
	require.NoError(t, err)
	sum := 0.0
	for _, b := range laid.Blocks {
		sum += b.End.Sub(b.Start).Minutes()
	}
	assert.InDelta(t, left.Min().Likely, sum, 1)
	assert.Equal(t, last, laid.Blocks[0].Piece, "what comes before is over")
	assert.Equal(t, "read again, last wipe", laid.Blocks[len(laid.Blocks)-1].Piece)
}

func TestACoatingStandsBeforeTheVehicleIsHandedOver(t *testing.T) {
	in := midSize("wash-marks", 3)
	in.Goal.Protection = "coating"
	made, err := workplan.Make(job(t, in, nil))
	require.NoError(t, err)
	laid, err := workplan.Bay(&made, time.Date(2026, 11, 30, 8, 0, 0, 0, time.UTC), office(), plan.Taken{})
	require.NoError(t, err)
	assert.Equal(t, 12*time.Hour, laid.Ready.Sub(laid.Blocks[len(laid.Blocks)-1].End))
}

package plan_test

import (
	"testing"
	"time"
	_ "time/tzdata" // the zone of the test, on machines without a database of zones

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/plan"
)

// weekdays is a bay that opens from eight to twelve and from one to five, Monday to Friday.
func weekdays(t *testing.T) plan.Opening {
	t.Helper()
	zone, err := time.LoadLocation("Europe/Berlin")
	require.NoError(t, err)
	out := plan.Opening{Zone: zone}
	for day := time.Monday; day <= time.Friday; day++ {
		out.Week[day] = []plan.Hours{{FromMin: 8 * 60, ToMin: 12 * 60}, {FromMin: 13 * 60, ToMin: 17 * 60}}
	}
	return out
}

func stretches(blocks []plan.Block) []string {
	var out []string
	for _, b := range blocks {
		out = append(out, b.Piece+" "+b.Start.Format("Mon 2 Jan 15:04")+" to "+b.End.Format("Mon 2 Jan 15:04 MST"))
	}
	return out
}

func TestBlocksKeepToTheOpeningHours(t *testing.T) {
	bay := weekdays(t)
	friday := time.Date(2026, 3, 27, 11, 0, 0, 0, bay.Zone)
	blocks, err := plan.Blocks(friday, bay, []plan.Piece{{Name: "work", WorkMin: 7 * 60}})
	require.NoError(t, err)
	assert.Equal(t, []string{
		"work Fri 27 Mar 11:00 to Fri 27 Mar 12:00 CET",
		"work Fri 27 Mar 13:00 to Fri 27 Mar 17:00 CET",
		"work Mon 30 Mar 08:00 to Mon 30 Mar 10:00 CEST", // summer time began on the Sunday between
	}, stretches(blocks))
}

// What cures overnight stands on the clock: ten hours from four in the afternoon end at two, so work goes on at eight.
func TestStandingGoesOnWhenTheBayIsShut(t *testing.T) {
	bay := weekdays(t)
	start := time.Date(2026, 6, 1, 15, 0, 0, 0, bay.Zone)
	blocks, err := plan.Blocks(start, bay, []plan.Piece{{Name: "polish", WorkMin: 60, WaitMin: 10 * 60}, {Name: "protect", WorkMin: 30}})
	require.NoError(t, err)
	assert.Equal(t, []string{
		"polish Mon 1 Jun 15:00 to Mon 1 Jun 16:00 CEST",
		"protect Tue 2 Jun 08:00 to Tue 2 Jun 08:30 CEST",
	}, stretches(blocks))
}

func TestClosedDaysAreLeftOut(t *testing.T) {
	bay := weekdays(t)
	bay.Closed = []time.Time{time.Date(2026, 5, 1, 0, 0, 0, 0, bay.Zone)}
	blocks, err := plan.Blocks(time.Date(2026, 4, 30, 18, 0, 0, 0, bay.Zone), bay, []plan.Piece{{Name: "work", WorkMin: 60}})
	require.NoError(t, err)
	assert.Equal(t, []string{"work Mon 4 May 08:00 to Mon 4 May 09:00 CEST"}, stretches(blocks))
}

// A night shift that spans the change to summer time has an hour less, and gets its minutes all the same.
func TestAnHourThatDoesNotExistIsNotWorked(t *testing.T) {
	bay := weekdays(t)
	bay.Week[time.Sunday] = []plan.Hours{{FromMin: 60, ToMin: 5 * 60}}
	start := time.Date(2026, 3, 29, 0, 30, 0, 0, bay.Zone)
	blocks, err := plan.Blocks(start, bay, []plan.Piece{{Name: "work", WorkMin: 4 * 60}})
	require.NoError(t, err)
	var worked time.Duration
	for _, b := range blocks {
		worked += b.End.Sub(b.Start)
	}
	assert.Equal(t, 4*time.Hour, worked)
	assert.Equal(t, 3*time.Hour, blocks[0].End.Sub(blocks[0].Start), "one to five by the wall clock are three hours")
}

func TestHoursThatCannotBe(t *testing.T) {
	bay := weekdays(t)
	_, err := plan.Blocks(time.Now(), plan.Opening{}, nil)
	require.ErrorContains(t, err, "time zone")

	never := plan.Opening{Zone: bay.Zone}
	_, err = plan.Blocks(time.Now(), never, []plan.Piece{{Name: "work", WorkMin: 1}})
	require.ErrorIs(t, err, plan.ErrClosed)

	_, err = plan.Blocks(time.Now(), bay, []plan.Piece{{Name: "work", WorkMin: -1}})
	require.EqualError(t, err, "work: work of -1 min and 0 min of waiting; allowed is 0 to 6000 and 0 to 44640")

	bay.Week[time.Monday] = []plan.Hours{{FromMin: 600, ToMin: 500}}
	_, err = plan.Blocks(time.Now(), bay, nil)
	require.EqualError(t, err, "hours of Monday are 10:00 to 08:20; give them in order, apart, and within a day")
}

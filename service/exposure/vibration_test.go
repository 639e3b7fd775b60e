package exposure_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/exposure"
)

func vibrate(t *testing.T, day ...exposure.Hold) exposure.VibrationDay {
	t.Helper()
	out, err := exposure.Vibrate(day, exposure.EuropeanVibration())
	require.NoError(t, err)
	return out
}

// Published: the ready reckoner of the Health and Safety Executive gives 150 points for 5 m/s² over 3 h, over the action
// value; 2.5 m/s² for 8 h, 3.5 for 4 h, 5 for 2 h, 7 for 1 h and 10 for half an hour are listed as about the same day by a
// Danish guide to vibrating tools (rounded: 3.5 m/s² gives 98 points in 4 h).
func TestPublishedDaysOfVibration(t *testing.T) {
	for _, row := range []struct {
		ms2, hours, points float64
		band               exposure.Band
	}{
		{5, 3, 150, exposure.Action},
		{2.5, 8, 100, exposure.Action},
		{3.5, 4, 98, exposure.Below},
		{5, 2, 100, exposure.Action},
		{7, 1, 98, exposure.Below},
		{10, 0.5, 100, exposure.Action},
		{5, 8, 400, exposure.Action},
		{5, 8.1, 405, exposure.OverLimit},
	} {
		t.Run(fmt.Sprintf("%v m/s² for %v h", row.ms2, row.hours), func(t *testing.T) {
			day := vibrate(t, exposure.Hold{Ms2: row.ms2, Minutes: 60 * row.hours})
			assert.InDelta(t, row.points, day.Points, 1e-9)
			assert.Equal(t, row.band, day.Band)
			assert.InDelta(t, 2.5*math.Sqrt(day.Points/100), day.A8Ms2, 1e-9, "A(8) and points are one scale")
		})
	}
}

// Derived from A(8) = a·√(T/8) of Directive 2002/44/EC, annex A, by hand.
func TestDaysOfSeveralMachines(t *testing.T) {
	day := vibrate(t, exposure.Hold{Ms2: 3.5, Minutes: 120}, exposure.Hold{Ms2: 5, Minutes: 60})
	assert.InDelta(t, 99, day.Points, 1e-9)
	assert.InDelta(t, 2.4875, day.A8Ms2, 5e-5)
	assert.Equal(t, exposure.Below, day.Band)
	assert.InDelta(t, 180, day.Minutes, 0)

	day = vibrate(t, exposure.Hold{Ms2: 7, Minutes: 90})
	assert.InDelta(t, 147, day.Points, 1e-9)
	assert.InDelta(t, 3.0311, day.A8Ms2, 5e-5)
	assert.Equal(t, 2, day.Shares, "two people stay below 100 points each")
}

func TestMinutesToADailyValue(t *testing.T) {
	for _, row := range []struct{ ms2, minutes float64 }{
		{2.5, 480}, {3.5, 244.9}, {5, 120}, {7, 61.2}, {8, 46.9}, {10, 30}, {15, 13.3},
	} {
		minutes, err := exposure.MinutesTo(2.5, row.ms2)
		require.NoError(t, err)
		assert.InDelta(t, row.minutes, minutes, 0.05, "%v m/s²", row.ms2)
	}
	still, err := exposure.MinutesTo(2.5, 0)
	require.NoError(t, err)
	assert.True(t, math.IsInf(still, 1))
	_, err = exposure.MinutesTo(0, 5)
	assert.EqualError(t, err, "daily_ms2 is 0, allowed is over 0 m/s²")
}

// Axes of 3, 4 and 5 m/s² give 7.0711, the root of 50.
func TestTotalOfAxes(t *testing.T) {
	assert.InDelta(t, 7.0711, exposure.TotalOfAxes(3, 4, 5), 5e-5)
}

// However a day is cut into stretches, it is the same day; and its shares are the least that stay below the action value.
func TestAnyDay(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 500 {
		ms2, minutes, cut := 0.5+14*r.Float64(), 600*r.Float64(), r.Float64()
		whole := vibrate(t, exposure.Hold{Ms2: ms2, Minutes: minutes})
		parts := vibrate(t, exposure.Hold{Ms2: ms2, Minutes: minutes * cut}, exposure.Hold{Ms2: ms2, Minutes: minutes * (1 - cut)})
		require.InDelta(t, whole.A8Ms2, parts.A8Ms2, 1e-9)

		share := vibrate(t, exposure.Hold{Ms2: ms2, Minutes: minutes / float64(whole.Shares)})
		require.Equal(t, exposure.Below, share.Band)
		if whole.Shares > 1 {
			fewer := vibrate(t, exposure.Hold{Ms2: ms2, Minutes: minutes / float64(whole.Shares-1)})
			require.NotEqual(t, exposure.Below, fewer.Band)
		}
	}
}

func TestVibrationThatCannotBe(t *testing.T) {
	for _, row := range []struct {
		day    []exposure.Hold
		limits exposure.VibrationLimits
		says   string
	}{
		{[]exposure.Hold{{Ms2: -1, Minutes: 5}}, exposure.EuropeanVibration(), "vibration_ms2 is -1, allowed is 0 to 100 m/s²"},
		{[]exposure.Hold{{Ms2: math.NaN(), Minutes: 5}}, exposure.EuropeanVibration(), "vibration_ms2 is NaN, allowed is 0 to 100 m/s²"},
		{[]exposure.Hold{{Ms2: 5, Minutes: -5}}, exposure.EuropeanVibration(), "minutes is -5, allowed is 0 to 1440 min"},
		{
			[]exposure.Hold{{Ms2: 5, Minutes: 1000}, {Ms2: 5, Minutes: 1000}},
			exposure.EuropeanVibration(),
			"minutes of all work together is 2000, allowed is 0 to 1440 min",
		},
		{nil, exposure.VibrationLimits{}, "action_ms2 is 0, allowed is over 0 m/s²"},
		{nil, exposure.VibrationLimits{ActionMs2: 5, LimitMs2: 2.5}, "limit_ms2 is 2.5, allowed is 5 to 100 m/s²"},
	} {
		_, err := exposure.Vibrate(row.day, row.limits)
		require.EqualError(t, err, row.says)
		var out *exposure.RangeError
		require.ErrorAs(t, err, &out)
	}
}

func TestBandsInWords(t *testing.T) {
	assert.Equal(t, "below the action value", exposure.Below.String())
	assert.Equal(t, "at or over the action value", exposure.Action.String())
	assert.Equal(t, "over the limit", exposure.OverLimit.String())
}

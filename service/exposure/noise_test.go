package exposure_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/exposure"
)

// NIOSH publication 98-126, table of levels and times. The table's 99 dB row prints 18 min 59 s where its formula gives
// 18 min 54 s, so six seconds are allowed.
func TestTimesOfTheEqualEnergyTable(t *testing.T) {
	for _, row := range []struct{ dba, minutes float64 }{
		{80, 25*60 + 24},
		{82, 16 * 60},
		{85, 8 * 60},
		{86, 6*60 + 21},
		{88, 4 * 60},
		{89, 3*60 + 10},
		{91, 2 * 60},
		{94, 60},
		{95, 47 + 37.0/60},
		{96, 37 + 48.0/60},
		{97, 30},
		{99, 18 + 59.0/60},
		{100, 15},
		{103, 7.5},
		{106, 3.75},
	} {
		allowed := exposure.EqualEnergy(85).MinutesAt(row.dba)
		slack := 0.1
		if row.minutes >= 180 {
			slack = 1 // printed to the minute
		}
		assert.InDelta(t, row.minutes, allowed, slack, "%v dB", row.dba)
	}
}

// 29 CFR 1910.95, appendix A, table G-16a, printed to three figures.
func TestTimesOfTheFiveDecibelTable(t *testing.T) {
	for _, row := range []struct{ dba, hours float64 }{
		{80, 32},
		{82, 24.3},
		{84, 18.4},
		{85, 16},
		{87, 12.1},
		{90, 8},
		{92, 6.1},
		{95, 4},
		{97, 3},
		{100, 2},
		{102, 1.5},
		{105, 1},
		{110, 0.5},
		{115, 0.25},
	} {
		assert.InDelta(t, row.hours, exposure.FiveDecibel().MinutesAt(row.dba)/60, 0.05, "%v dB", row.dba)
	}
	assert.True(t, math.IsInf(exposure.FiveDecibel().MinutesAt(79.9), 1), "levels below the threshold do not count")
}

func hours(pairs ...float64) []exposure.Hearing {
	var out []exposure.Hearing
	for i := 0; i < len(pairs); i += 2 {
		out = append(out, exposure.Hearing{Dba: pairs[i], Minutes: 60 * pairs[i+1]})
	}
	return out
}

// The mixed day of 81 dB for 5 h, 82 for 2 h and 95 for 1 h comes to 51.2 % and 85.2 dB by the formula of 29 CFR 1910.95,
// appendix A, and to 163.3 % and 87.1 dB by that of NIOSH 98-126; both reckoned by hand. A day of 95 dB for 2 h and 90 dB for 4 h
// fills the one dose exactly and the other four times over.
func TestDosesOfMixedDays(t *testing.T) {
	for _, row := range []struct {
		name            string
		rule            exposure.NoiseRule
		day             []exposure.Hearing
		dosePct, avgDba float64
	}{
		{"five decibels", exposure.FiveDecibel(), hours(81, 5, 82, 2, 95, 1), 51.20, 85.17},
		{"equal energy", exposure.EqualEnergy(85), hours(81, 5, 82, 2, 95, 1), 163.30, 87.13},
		{"full by one rule", exposure.FiveDecibel(), hours(95, 2, 90, 4), 100, 90},
		{"four times over by the other", exposure.EqualEnergy(85), hours(95, 2, 90, 4), 410.72, 91.14},
		{"eight hours at 92 dB", exposure.FiveDecibel(), hours(92, 8), 131.95, 92},
	} {
		t.Run(row.name, func(t *testing.T) {
			dose, err := row.rule.DosePct(row.day)
			require.NoError(t, err)
			assert.InDelta(t, row.dosePct, dose, 0.005)
			// NIOSH prints 10·log10 for 3·log2, which is 9.97: half a thousandth of the level.
			assert.InDelta(t, row.avgDba, row.rule.AverageDba(dose), 0.03)
		})
	}
}

// 84 dB for 3 h, 78 dB for 4 h and 90 dB for 1 h are 83.99 dB over eight hours, by the formula of ISO 9612 by hand.
func TestDailyLevel(t *testing.T) {
	day, err := exposure.Hear(hours(84, 3, 78, 4, 90, 1), exposure.EuropeanNoise())
	require.NoError(t, err)
	assert.InDelta(t, 83.99, day.LepdDba, 0.005)
	assert.True(t, day.LowerAction)
	assert.False(t, day.UpperAction)
}

func TestLevelsReachedAndPassed(t *testing.T) {
	for _, row := range []struct {
		dba                 float64
		lower, upper, limit bool
	}{
		{79.9, false, false, false},
		{80, true, false, false},
		{85, true, true, false},
		{87, true, true, false},
		{87.1, true, true, true},
	} {
		t.Run(fmt.Sprintf("%v dB all day", row.dba), func(t *testing.T) {
			day, err := exposure.Hear(hours(row.dba, 8), exposure.EuropeanNoise())
			require.NoError(t, err)
			assert.Equal(t, []bool{row.lower, row.upper, row.limit}, []bool{day.LowerAction, day.UpperAction, day.OverLimit})
		})
	}
}

func TestNoiseThatCannotBe(t *testing.T) {
	_, err := exposure.Hear(hours(200, 1), exposure.EuropeanNoise())
	require.EqualError(t, err, "noise_dba is 200, allowed is 20 to 140 dB")
	_, err = exposure.Hear(hours(80, 25), exposure.EuropeanNoise())
	require.EqualError(t, err, "minutes is 1500, allowed is 0 to 1440 min")
	_, err = exposure.Hear(nil, exposure.NoiseLimits{LowerActionDba: 80, UpperActionDba: 70, LimitDba: 87})
	require.EqualError(t, err, "upper_action_dba is 70, allowed is 80 to 140 dB")
	_, err = exposure.NoiseRule{}.DosePct(nil)
	require.EqualError(t, err, "criterion_dba is 0, allowed is 20 to 140 dB")

	silent, err := exposure.Hear(nil, exposure.EuropeanNoise())
	require.NoError(t, err)
	assert.True(t, math.IsInf(silent.LepdDba, -1))
}

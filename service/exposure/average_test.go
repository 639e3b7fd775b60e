package exposure_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/exposure"
)

// fiveDecibelLimits are those of 29 CFR 1910.95: protection offered from 85 dB(A) on, worn from 90 dB(A), which is the limit as well.
var fiveDecibelLimits = exposure.NoiseLimits{LowerActionDba: 85, UpperActionDba: 90, LimitDba: 90, ExchangeDB: 5, ThresholdDba: 80}

// 29 CFR 1910.95, appendix A, table A-1: the average level of a dose, printed to a tenth (from memory; each row is also
// 16.61·log10(dose/100) + 90). The dose is made of time at two levels by table G-16a: 8 h at 90 dB, 4 h at 95 dB.
func TestAverageLevelsOfTheFiveDecibelTable(t *testing.T) {
	for _, row := range []struct{ dosePct, dba float64 }{
		{10, 73.4},
		{15, 76.3},
		{20, 78.4},
		{25, 80},
		{30, 81.3},
		{40, 83.4},
		{50, 85},
		{75, 87.9},
		{80, 88.4},
		{90, 89.2},
		{100, 90},
		{110, 90.7},
		{120, 91.3},
		{150, 92.9},
		{175, 94},
		{200, 95},
		{300, 97.9},
	} {
		full := row.dosePct / 100
		for _, heard := range [][]exposure.Hearing{hours(90, 8*full/2, 95, 4*full/2), hours(95, 4*full), hours(90, 8*full/2, 95, 4*full/2, 79, 2)} {
			day, err := exposure.Hear(heard, fiveDecibelLimits)
			require.NoError(t, err)
			assert.InDelta(t, row.dba, day.LepdDba, 0.05, "dose %v %%", row.dosePct)
			assert.Equal(t, []bool{row.dosePct >= 50, row.dosePct >= 100, row.dosePct > 100}, []bool{day.LowerAction, day.UpperAction, day.OverLimit}, "dose %v %%", row.dosePct)
		}
	}
}

// NIOSH publication 98-126: 85 dB for 8 h, 88 for 4 h and 91 for 2 h are one dose by equal energy.
func TestEqualEnergyMayHaveOtherLimits(t *testing.T) {
	limits := exposure.NoiseLimits{LowerActionDba: 82, UpperActionDba: 85, LimitDba: 85, ExchangeDB: 3, ThresholdDba: 80}
	for _, heard := range [][]exposure.Hearing{hours(85, 8), hours(88, 4), hours(91, 2, 79.9, 6)} {
		day, err := exposure.Hear(heard, limits)
		require.NoError(t, err)
		assert.InDelta(t, 85, day.LepdDba, 0.03)
	}
}

func TestExchangeRatesAndThresholdsThatCannotBe(t *testing.T) {
	for says, change := range map[string]func(*exposure.NoiseLimits){
		"exchange_db is 2, allowed is 3 to 6 dB":     func(l *exposure.NoiseLimits) { l.ExchangeDB = 2 },
		"threshold_dba is 86, allowed is 0 to 85 dB": func(l *exposure.NoiseLimits) { l.ThresholdDba = 86 },
	} {
		limits := fiveDecibelLimits
		change(&limits)
		_, err := exposure.Hear(nil, limits)
		require.EqualError(t, err, says)
	}
}

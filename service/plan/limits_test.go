package plan_test

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/catalogue"
	"github.com/glossladder/glossladder/service/exposure"
	"github.com/glossladder/glossladder/service/plan"
)

// elsewhere is the shop's catalogue under other limits.
func elsewhere(t *testing.T, limits string) *catalogue.Catalogue {
	t.Helper()
	src, err := os.ReadFile("../../rules/shipped/catalogue.yaml")
	require.NoError(t, err)
	before, rest, found := strings.Cut(string(src), "\nlimits:\n")
	require.True(t, found)
	_, after, found := strings.Cut(rest, "\n\n")
	require.True(t, found)
	shop, problems := catalogue.Parse("catalogue.yaml", []byte(before+"\n"+limits+"\n\n"+after))
	require.Empty(t, problems)
	return shop
}

// The same day stands otherwise beside other limits. What the shipped catalogue names is what holds without the section.
func TestADayIsHeldAgainstTheLimitsOfTheCatalogue(t *testing.T) {
	day := func(shop *catalogue.Catalogue) plan.Day {
		v := midSize(t, cut(), polish())
		v.Shop = shop
		return made(t, v).Days[0]
	}
	shipped := day(workshop(t))
	assert.Equal(t, exposure.EuropeanVibration(), shipped.VibrationLimits)
	assert.Equal(t, exposure.EuropeanNoise(), shipped.NoiseLimits)
	assert.Equal(t, shipped, day(elsewhere(t, "")))
	require.Equal(t, exposure.OverLimit, shipped.Vibration.Band)
	require.True(t, shipped.Noise.LowerAction, "%v dB", shipped.Noise.LepdDba)

	wide := day(elsewhere(t, "limits: {vibration: {action_ms2: 12, limit_ms2: 14}, noise: {lower_action_dba: 85, upper_action_dba: 90, limit_dba: 90, exchange_db: 5, threshold_dba: 80}}"))
	assert.Equal(t, exposure.Below, wide.Vibration.Band)
	assert.Equal(t, 1, wide.Vibration.Shares)
	assert.InDelta(t, shipped.Vibration.A8Ms2, wide.Vibration.A8Ms2, 1e-9, "the day is the same")
	assert.False(t, wide.Noise.LowerAction)
	assert.Less(t, wide.Noise.LepdDba, shipped.Noise.LepdDba, "short loud work counts less by 5 dB")
}

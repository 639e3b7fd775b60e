package climate_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/climate"
)

// leastMargin is the margin of coating practice: manual.ingal.com.au/13.php, maleco.de/taupunkt-tabelle.
const leastMargin climate.Kelvin = 3

// humidityFromWetBulb is the psychrometer equation with the coefficient 6.62e-4 per K for a ventilated instrument at
// 1013.25 hPa (WMO Guide to Instruments and Methods of Observation; coefficient from memory). Saturation is by the
// Tetens form (1930), so that it shares nothing with the code under test.
func humidityFromWetBulb(air, wet float64) float64 {
	saturation := func(t float64) float64 { return 6.1078 * math.Exp(17.27*t/(t+237.3)) }
	vapour := saturation(wet) - 6.62e-4*1013.25*(air-wet)
	return 100 * vapour / saturation(air)
}

// Worked examples of the practice that goes with ISO 8502-4, as read in a painting inspection guide (scribd 146044552).
func TestMarginOfTheWorkedExamples(t *testing.T) {
	tests := map[string]struct {
		air, humidityPct, panel float64
		dew                     float64 // printed in whole degrees
		enough                  bool
	}{
		"air 21, wet bulb 17, steel 19 may be painted": {21, humidityFromWetBulb(21, 17), 19, 15, true},
		"air 16, humidity 71, steel 13 may not":        {16, 71, 13, 11, false},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			assert.InDelta(t, tt.dew, dewPoint(t, tt.air, tt.humidityPct), 0.5)
			margin, err := climate.Margin(climate.Celsius(tt.panel), climate.Celsius(tt.air), tt.humidityPct)
			require.NoError(t, err)
			assert.InDelta(t, tt.panel-tt.dew, float64(margin), 0.5)
			assert.Equal(t, tt.enough, climate.DryEnough(margin, leastMargin), "margin %s", margin)
		})
	}
}

// The least panel temperature that a printed table allows, 3 K above its dew point, is just about enough.
func TestMarginOfPrintedLeastSurfaces(t *testing.T) {
	tests := map[string]struct{ air, humidityPct, panel float64 }{
		// maleco.de/taupunkt-tabelle, printed to a tenth.
		"mild":  {20, 70, 17.4},
		"moist": {10, 90, 11.4},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			margin, err := climate.Margin(climate.Celsius(tt.panel), climate.Celsius(tt.air), tt.humidityPct)
			require.NoError(t, err)
			assert.InDelta(t, 3, float64(margin), 0.1)
		})
	}
}

func TestMarginSixteenDegreesSeventyOnePercent(t *testing.T) {
	margin, err := climate.Margin(13, 16, 71)
	require.NoError(t, err)
	assert.InDelta(t, 2.26, float64(margin), 0.005) // 13 less the formula's 10.7438
}

func TestDryEnoughPassesTheMarginItself(t *testing.T) {
	assert.True(t, climate.DryEnough(3, 3))
	assert.False(t, climate.DryEnough(2.999, 3))
	for air := 0.0; air < 40; air += 0.37 {
		dew, err := climate.DewPoint(climate.Celsius(air), 61.3)
		require.NoError(t, err)
		margin, err := climate.Margin(dew+3, climate.Celsius(air), 61.3)
		require.NoError(t, err)
		assert.True(t, climate.DryEnough(margin, 3), "air %g, margin %v", air, float64(margin))
	}
}

func TestDryEnoughIsFalseForWhatIsNotANumber(t *testing.T) {
	nan := climate.Kelvin(math.NaN())
	assert.False(t, climate.DryEnough(nan, 3))
	assert.False(t, climate.DryEnough(3, nan))
}

func TestMarginIsNegativeOnAWetPanel(t *testing.T) {
	margin, err := climate.Margin(5, 20, 60)
	require.NoError(t, err)
	assert.InDelta(t, -7.0, float64(margin), 0.01)
	assert.Equal(t, "-7.0 K", margin.String())
}

func TestMarginRefusesAPanelThatIsNoTemperature(t *testing.T) {
	for name, panel := range map[string]climate.Celsius{
		"not a number":        climate.Celsius(math.NaN()),
		"without end":         climate.Celsius(math.Inf(1)),
		"below absolute zero": -273.16,
	} {
		t.Run(name, func(t *testing.T) {
			_, err := climate.Margin(panel, 20, 50)
			var wrong *climate.RangeError
			require.ErrorAs(t, err, &wrong)
			assert.Equal(t, "panel_c", wrong.Field)
		})
	}
}

// Fixed points by definition: NIST SP 811, appendix B.8; the two scales meet at -40.
func TestFahrenheit(t *testing.T) {
	for name, tt := range map[string]struct {
		celsius    climate.Celsius
		fahrenheit float64
	}{
		"ice":                {0, 32},
		"steam":              {100, 212},
		"scales meet":        {-40, -40},
		"a cold bay":         {10, 50},
		"absolute zero":      {-273.15, -459.67},
		"flash point of IPA": {11.666666666666666, 53}, // NIOSH pocket guide 0359 prints 53 °F
	} {
		t.Run(name, func(t *testing.T) {
			assert.InDelta(t, tt.fahrenheit, tt.celsius.Fahrenheit(), 1e-12)
			assert.InDelta(t, float64(tt.celsius), float64(climate.FromFahrenheit(tt.fahrenheit)), 1e-12)
		})
	}
	assert.Equal(t, "21.5 °C", climate.Celsius(21.5).String())
}

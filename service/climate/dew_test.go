package climate_test

import (
	"encoding/csv"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/climate"
)

// readRows reads a table of numbers from testdata; its first lines name the source.
func readRows(t *testing.T, name string) (header []string, rows [][]float64) {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	records, err := r.ReadAll()
	require.NoError(t, err)
	for _, record := range records[1:] {
		row := make([]float64, len(record))
		for i, cell := range record {
			row[i], err = strconv.ParseFloat(cell, 64)
			require.NoError(t, err, "%s: %v", name, record)
		}
		rows = append(rows, row)
	}
	return records[0], rows
}

// cell is one entry of a table with air in the rows and humidity in the columns.
type cell struct{ air, humidityPct, dew float64 }

func (c cell) String() string { return fmt.Sprintf("%g °C, %g %%", c.air, c.humidityPct) }

func readGrid(t *testing.T, name string) []cell {
	t.Helper()
	header, rows := readRows(t, name)
	var cells []cell
	for _, row := range rows {
		for i, dew := range row[1:] {
			humidity, err := strconv.ParseFloat(header[i+1], 64)
			require.NoError(t, err)
			cells = append(cells, cell{row[0], humidity, dew})
		}
	}
	return cells
}

func dewPoint(t *testing.T, air, humidityPct float64) float64 {
	t.Helper()
	dew, err := climate.DewPoint(climate.Celsius(air), humidityPct)
	require.NoError(t, err, "%g °C, %g %%", air, humidityPct)
	return float64(dew)
}

// The printed table gives one decimal and has rounding slips of its own; 0.35 K is what the Magnus fit promises.
func TestDewPointAgreesWithThePrintedTable(t *testing.T) {
	const tolerance = 0.35
	misprint := cell{30, 65, 23.7}
	var compared, misprints int
	var sum float64
	for _, c := range readGrid(t, "dew_printed.csv") {
		got := dewPoint(t, c.air, c.humidityPct)
		switch {
		case c == misprint:
			misprints++
			assert.Greater(t, math.Abs(got-c.dew), 0.9, "the misprinted cell agrees after all")
			assert.InDelta(t, 22.70, got, 0.01, "what belongs in the misprinted cell")
		case c.dew < 0: // frost, not dew
		default:
			compared++
			sum += math.Abs(got - c.dew)
			assert.InDelta(t, c.dew, got, tolerance, c.String())
		}
	}
	assert.Equal(t, 1, misprints)
	assert.Equal(t, 132, compared) // 150 cells less 17 of frost and the misprint
	assert.Less(t, sum/float64(compared), 0.06, "mean deviation from the table")
}

// Another formula for saturation, solved by another library. Down to 0 °C the two lie within 0.03 K.
func TestDewPointAgreesWithAshraeEquations(t *testing.T) {
	var compared int
	for _, c := range readGrid(t, "dew_ashrae.csv") {
		if c.dew < 0 { // over ice there, over water here
			continue
		}
		compared++
		assert.InDelta(t, c.dew, dewPoint(t, c.air, c.humidityPct), 0.03, c.String())
	}
	assert.Equal(t, 63, compared) // 70 cells less 7 of frost
}

func TestDewPointOfTheMagnusForm(t *testing.T) {
	_, rows := readRows(t, "dew_magnus.csv")
	for _, row := range rows {
		got := dewPoint(t, row[0], row[1])
		// Half of the last digit printed.
		assert.InDelta(t, row[2], got, 0.00005, "%v", row)
		// The coefficients of the WMO differ by less than a hundredth of a kelvin; this tells ours from theirs.
		assert.InDelta(t, row[3], got, 0.01, "%v", row)
		assert.NotEqual(t, fmt.Sprintf("%.4f", row[3]), fmt.Sprintf("%.4f", got), "%v", row)
	}
}

func TestDewPointAgreesWithSinglePrintedPoints(t *testing.T) {
	tests := map[string]struct {
		air, humidityPct, dew, tolerance float64
	}{
		// maleco.de/taupunkt-tabelle, printed to a tenth.
		"coating maker, mild":  {20, 70, 14.4, 0.1},
		"coating maker, moist": {10, 90, 8.4, 0.1},
		// trocknungberlin.de, printed to a tenth.
		"drying firm, moist": {22, 70, 16.3, 0.1},
		"drying firm, dry":   {22, 45, 9.5, 0.1},
		// doerken.de, printed in whole degrees.
		"membrane maker": {30, 55, 20, 0.5},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			assert.InDelta(t, tt.dew, dewPoint(t, tt.air, tt.humidityPct), tt.tolerance)
		})
	}
}

// Tables in °F print whole degrees, so half a degree of rounding and the fit's 0.35 K (0.63 °F) are allowed.
func TestDewPointAgreesWithFahrenheitTables(t *testing.T) {
	tests := map[string]struct {
		airF, humidityPct, dewF float64
	}{
		"ranachem.com":              {75, 35, 45},
		"dew chart at handypdf.com": {70, 65, 57},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			dew, err := climate.DewPoint(climate.FromFahrenheit(tt.airF), tt.humidityPct)
			require.NoError(t, err)
			assert.InDelta(t, tt.dewF, dew.Fahrenheit(), 0.5+0.63)
		})
	}
}

// Lawrence, "The relationship between relative humidity and the dewpoint temperature in moist air", BAMS 86 (2005):
// over 50 % the dew point falls about 1 K for each 5 %. How close "about" is, is ours: half a kelvin in the mean, and
// two at worst, in warm and dry air.
func TestDewPointFollowsTheRuleOfThumb(t *testing.T) {
	var sum, count float64
	for air := 10.0; air <= 30; air++ {
		for humidity := 50.0; humidity <= 100; humidity++ {
			off := math.Abs(air - (100-humidity)/5 - dewPoint(t, air, humidity))
			assert.Less(t, off, 2.0, "%g °C, %g %%", air, humidity)
			sum, count = sum+off, count+1
		}
	}
	assert.Less(t, sum/count, 0.5)
}

func TestDewPointAtSaturationIsTheAirItself(t *testing.T) {
	for air := -40.0; air <= 60; air += 0.7 {
		assert.Equal(t, air, dewPoint(t, air, 100), "%g °C", air)
	}
}

func TestDewPointRisesWithHumidityAndAir(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 1))
	for range 20_000 {
		air := -40 + 99*random.Float64()
		humidity := 0.1 + 99*random.Float64()
		dew := dewPoint(t, air, humidity)
		require.LessOrEqual(t, dew, air, "%g °C, %g %%", air, humidity)
		require.Greater(t, dewPoint(t, air, humidity+0.5), dew, "moister than %g %% at %g °C", humidity, air)
		require.Greater(t, dewPoint(t, air+0.5, humidity), dew, "warmer than %g °C at %g %%", air, humidity)
	}
}

func TestDewPointNeverExceedsTheAirJustBelowSaturation(t *testing.T) {
	almost := math.Nextafter(100, 0)
	for air := -40.0; air <= 60; air += 0.1 {
		assert.LessOrEqual(t, dewPoint(t, air, almost), air, "%g °C", air)
	}
}

func TestDewPointRefusesWhatItCannotReckon(t *testing.T) {
	tests := map[string]struct {
		air         climate.Celsius
		humidityPct float64
		field       string
	}{
		"no humidity":             {20, 0, "humidity_pct"},
		"humidity below zero":     {20, -1, "humidity_pct"},
		"humidity over 100":       {20, 100.1, "humidity_pct"},
		"humidity not a number":   {20, math.NaN(), "humidity_pct"},
		"humidity without end":    {20, math.Inf(1), "humidity_pct"},
		"air colder than the fit": {-40.1, 50, "air_c"},
		"air hotter than the fit": {60.1, 50, "air_c"},
		"air not a number":        {climate.Celsius(math.NaN()), 50, "air_c"},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			_, err := climate.DewPoint(tt.air, tt.humidityPct)
			var wrong *climate.RangeError
			require.ErrorAs(t, err, &wrong)
			assert.Equal(t, tt.field, wrong.Field)
			_, marginErr := climate.Margin(20, tt.air, tt.humidityPct)
			assert.Equal(t, err.Error(), marginErr.Error())
		})
	}
}

func TestRangeErrorNamesFieldValueRangeAndRemedy(t *testing.T) {
	_, err := climate.DewPoint(20, 120)
	assert.EqualError(t, err, "humidity_pct is 120, allowed is over 0 and up to 100 %; leave it out if it was not measured")
}

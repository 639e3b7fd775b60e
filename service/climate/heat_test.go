package climate_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/climate"
)

// Common practice, no source: comfortable to the hand below about 40 °C, too hot from about 50 °C, liquids drag below 10 °C.
var bands = climate.Bands{CoolBelowC: 10, WarmFromC: 40, HotFromC: 50}

func TestHeatBands(t *testing.T) {
	for name, tt := range map[string]struct {
		panel climate.Celsius
		want  climate.Heat
	}{
		"frost":                     {-5, climate.Cool},
		"just below comfortable":    {9.9, climate.Cool},
		"at the border of cool":     {10, climate.Comfortable},
		"an ordinary bay":           {21, climate.Comfortable},
		"just below warm":           {39.9, climate.Comfortable},
		"at the border of warm":     {40, climate.Warm},
		"just below hot":            {49.9, climate.Warm},
		"at the border of hot":      {50, climate.Hot},
		"dark panel in high summer": {75, climate.Hot},
	} {
		t.Run(name, func(t *testing.T) {
			got, err := bands.Of(tt.panel)
			require.NoError(t, err)
			assert.Equal(t, tt.want, got)
		})
	}
}

func TestHeatBandsFollowTheirThresholds(t *testing.T) {
	got, err := climate.Bands{CoolBelowC: 0, WarmFromC: 15, HotFromC: 20}.Of(21)
	require.NoError(t, err)
	assert.Equal(t, climate.Hot, got)
}

func TestHeatBandsNeedRisingBorders(t *testing.T) {
	nan := climate.Celsius(math.NaN())
	for name, tt := range map[string]struct {
		bands climate.Bands
		field string
	}{
		"nothing set":       {climate.Bands{}, "warm_from_c"},
		"warm under cool":   {climate.Bands{CoolBelowC: 30, WarmFromC: 20, HotFromC: 50}, "warm_from_c"},
		"hot at warm":       {climate.Bands{CoolBelowC: 10, WarmFromC: 40, HotFromC: 40}, "hot_from_c"},
		"cool not a number": {climate.Bands{CoolBelowC: nan, WarmFromC: 40, HotFromC: 50}, "cool_below_c"},
		"warm not a number": {climate.Bands{CoolBelowC: 10, WarmFromC: nan, HotFromC: 50}, "warm_from_c"},
		"hot without end":   {climate.Bands{CoolBelowC: 10, WarmFromC: 40, HotFromC: climate.Celsius(math.Inf(1))}, "hot_from_c"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := tt.bands.Of(20)
			var wrong *climate.RangeError
			require.ErrorAs(t, err, &wrong)
			assert.Equal(t, tt.field, wrong.Field)
		})
	}
}

func TestHeatOfAPanelThatWasNotMeasuredIsNoWord(t *testing.T) {
	got, err := bands.Of(climate.Celsius(math.NaN()))
	assert.ErrorContains(t, err, "panel_c")
	assert.Empty(t, got)
}

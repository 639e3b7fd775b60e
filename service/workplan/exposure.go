package workplan

import (
	"fmt"
	"strings"

	"github.com/glossladder/glossladder/service/exposure"
	"github.com/glossladder/glossladder/service/plan"
)

// Cautions says what to mind about a day with machines in the hands. The last one always leads to who decides.
func Cautions(day plan.Day) []string {
	var out []string
	if v := day.Vibration; v != nil {
		out = append(out, vibrationCaution(v, day.VibrationHigh)...)
	}
	if n := day.Noise; n != nil {
		out = append(out, noiseCaution(n)...)
	}
	if len(day.UnknownVibration) > 0 {
		out = append(out, "The catalogue has no vibration for "+strings.Join(day.UnknownVibration, ", ")+", so the day is more than this.")
	}
	if len(day.UnknownNoise) > 0 {
		out = append(out, "The catalogue has no noise for "+strings.Join(day.UnknownNoise, ", ")+", so the day is louder than this.")
	}
	return append(out, "Reckoned from what the catalogue declares. The employer's own assessment, the maker's instructions and local rules go before it.")
}

func vibrationCaution(v, high *exposure.VibrationDay) []string {
	var out []string
	switch {
	case v.Band == exposure.OverLimit:
		out = append(out, fmt.Sprintf("Vibration is over the daily limit. Nobody may work this day as it is: spread it over %d people or days, or use a machine that shakes less.", v.Shares))
	case v.Band == exposure.Action:
		out = append(out, fmt.Sprintf("Vibration reaches the daily action value. Spread over %d people or days, each stays under it.", v.Shares))
	}
	switch {
	case high == nil || high.Band <= v.Band:
	case high.Band == exposure.OverLimit:
		out = append(out, "At the longest times and with the declared uncertainty vibration would pass the daily limit: watch the clock, and stop in time.")
	default:
		out = append(out, "Vibration stays under the action value at the likely times. At the longest times and with the declared uncertainty it may reach it.")
	}
	return out
}

func noiseCaution(n *exposure.NoiseDay) []string {
	switch {
	case n.OverLimit:
		return []string{"Noise is over the daily limit, which counts under the protection: wear hearing protection that brings it down, and spread the work."}
	case n.UpperAction:
		return []string{"Noise reaches the upper action value: hearing protection is worn."}
	case n.LowerAction:
		return []string{"Noise reaches the lower action value: hearing protection is offered, and best worn."}
	}
	return nil
}

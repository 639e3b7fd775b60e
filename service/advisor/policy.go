package advisor

import (
	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/film"
)

// policy is the numbers that a shop works by, as the policy table gave them for one panel.
type policy struct {
	film                        film.Policy
	severityLeft                float64
	gainWorthGU                 float64
	hazeWorthIndex, hazeWorthHU float64
	confidencePct               float64
	refractiveIndex             float64
	mostTrials                  int
	change                      oneChange
	reason                      Reason
}

func policyOf(result rules.Result, reason Reason) policy {
	number := func(field string) float64 {
		value, _ := result.Number(field)
		return value
	}
	return policy{
		film: film.Policy{
			ClearSharePct: number("clear_share_pct"), ClearFloorUm: film.Microns(number("clear_floor_um")),
			TakeSharePct: number("take_share_pct"), TakeMostUm: film.Microns(number("take_most_um")),
			ThinUm: film.Microns(number("thin_um")), RepaintUm: film.Microns(number("repaint_um")),
			FillerUm: film.Microns(number("filler_um")), NeighbourUm: film.Microns(number("neighbour_um")),
		},
		severityLeft: number("severity_left"), gainWorthGU: number("gain_worth_gu"),
		hazeWorthIndex: number("haze_worth_index_hu"), hazeWorthHU: number("haze_worth_meter_hu"),
		confidencePct: number("confidence_pct"), refractiveIndex: number("refractive_index"),
		mostTrials: int(number("most_trials")), change: changeOf(result), reason: reason,
	}
}

// changeOf is how far one change goes, as usual where the policy says nothing.
func changeOf(result rules.Result) oneChange {
	or := func(field string, usual float64) float64 {
		if value, ok := result.Number(field); ok {
			return value
		}
		return usual
	}
	return oneChange{
		passes: or("more_passes", usualPasses), armCmS: or("slower_arm_cm_s", usualArmCmS), drops: or("other_drops", usualDrops),
	}
}

func removalOf(result rules.Result) film.Removal {
	number := func(field string) film.Microns {
		value, _ := result.Number(field)
		return film.Microns(value)
	}
	return film.Removal{LowUm: number("low_um"), LikelyUm: number("likely_um"), HighUm: number("high_um")}
}

package course

import (
	"maps"
	"slices"

	"github.com/glossladder/glossladder/service/history"
)

// Outcome is one scale on one panel before the work and after it, over the spots that were read both times.
type Outcome struct {
	Scale        Scale
	Before, Seen float64
	Spots        int
	// Promised is what the trial of the ladder's last step reached. Nil: no trial has proven the ladder.
	Promised *float64
}

// Outcomes gives what readings after the work show of a panel, for every scale. After is as in [Of].
func Outcomes(job *history.Job, panel *history.Panel, after func(history.TrialMade) []history.GlossSpot) []Outcome {
	found, now := map[string]history.GlossSpot{}, map[string]history.GlossSpot{}
	for _, spot := range panel.Found.Gloss {
		found[spot.Spot] = spot
	}
	merge(found, panel.Before)
	merge(now, panel.After)
	var out []Outcome
	for _, scale := range scales {
		var before, seen []float64
		for _, name := range slices.Sorted(maps.Keys(now)) { // a sum of readings depends on their order in its last digits
			was, is := scale.of(found[name]), scale.of(now[name])
			if len(was) > 0 && len(is) > 0 {
				before, seen = append(before, mean(was)), append(seen, mean(is))
			}
		}
		if len(seen) == 0 {
			continue
		}
		out = append(out, Outcome{Scale: scale, Before: mean(before), Seen: mean(seen), Spots: len(seen), Promised: promised(job, panel, scale, after)})
	}
	return out
}

// merge puts later readings of a spot in the place of earlier ones, scale by scale.
func merge(into map[string]history.GlossSpot, all []history.ReadingsTaken) {
	for _, r := range all {
		for _, spot := range r.Gloss {
			was := into[spot.Spot]
			for _, scale := range scales {
				if values := scale.of(spot); len(values) > 0 {
					scale.set(&was, values)
				}
			}
			into[spot.Spot] = was
		}
	}
}

func (s Scale) set(spot *history.GlossSpot, values []float64) {
	switch s.Angle {
	case 20:
		spot.At20GU = values
	case 60:
		spot.At60GU = values
	case 85:
		spot.At85GU = values
	default:
		spot.HazeHU = values
	}
}

// promised is what the trial of the last step of the panel's ladder reached; nil when no trial has proven it.
func promised(job *history.Job, panel *history.Panel, scale Scale, after func(history.TrialMade) []history.GlossSpot) *float64 {
	steps := history.Steps(panel.Ladder)
	if len(steps) == 0 {
		return nil
	}
	for _, p := range promises(job) {
		if p.trial.Step != steps[len(steps)-1] || !holds(p, panel) {
			continue
		}
		var reached []float64
		for _, spot := range after(p.trial) {
			if values := scale.of(spot); len(values) > 0 {
				reached = append(reached, mean(values))
			}
		}
		if len(reached) > 0 {
			return new(mean(reached))
		}
	}
	return nil
}

func holds(p promise, panel *history.Panel) bool {
	return slices.Contains(p.held, panel)
}

package hindsight

import (
	"math"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/film"
	"github.com/glossladder/glossladder/service/history/trace"
)

// carried follows numbers of policy and removal into the facts that are reckoned from them, as far as the facts on record allow.
type carried struct {
	policyWas, policyIs rules.Result
	policy              bool // the two differ
	highWas, highIs     [len(steps)]float64
	removal             bool // some high end differs
	done                bool // the film was followed
}

// Fields of the policy that no fact on record can be reckoned anew from.
var lostFields = [...]string{"confidence_pct", "refractive_index", "haze_worth_index_hu", "haze_worth_meter_hu"}

// lost are the changed fields of the policy whose consequences are not followed.
func (c *carried) lost() []string {
	var out []string
	if !c.policy {
		return nil
	}
	for _, field := range lostFields {
		if number(c.policyWas, field) != number(c.policyIs, field) {
			out = append(out, field)
		}
	}
	return out
}

func number(r rules.Result, field string) float64 {
	v, _ := r.Number(field)
	return v
}

// ladderHigh is what a step and every milder one take at the high end.
func ladderHigh(high *[len(steps)]float64, step string) float64 {
	var sum float64
	for k := strength(step); k > 0; k-- {
		sum += high[k]
	}
	return sum
}

// move puts into over what the facts of a sheet become.
func (c *carried) move(seen, over *trace.Facts) {
	if !c.policy && !c.removal {
		return
	}
	was, known := seen.Number("film.usable_um")
	usable := was
	if c.policy {
		setNumber(over, "panel.allowed_severity", number(c.policyIs, "severity_left"))
		if known {
			usable = c.usable(seen, was)
			setNumber(over, "film.usable_um", grid(usable))
		}
		c.signs(seen, over)
		c.trial(seen, over)
	}
	moved := usable - was
	if known {
		for _, step := range steps[1:] {
			setNumber(over, "film.after_"+step+"_um", grid(usable-ladderHigh(&c.highIs, step)))
		}
	}
	if left, ok := seen.Number("trial.film_left_um"); ok {
		now := seen.Word("step.now")
		setNumber(over, "trial.film_left_um", grid(left+moved))
		setNumber(over, "trial.after_repeat_um", grid(left+moved-ladderHigh(&c.highIs, now)))
		if k := strength(now) + 1; k < len(steps) {
			setNumber(over, "trial.after_step_up_um", grid(left+moved-ladderHigh(&c.highIs, steps[k])))
		}
	}
}

// grid is a bound in tenths of a micrometre, rounded down as the adviser rounds it, and within what the fact allows.
func grid(um float64) float64 {
	const least, most = -100, 500
	tenths := um * 10
	if near := math.Round(tenths); math.Abs(tenths-near) < 1e-6 {
		tenths = near
	} else {
		tenths = math.Floor(tenths)
	}
	return min(max(tenths/10, least), most)
}

func policyOf(r rules.Result) film.Policy {
	return film.Policy{
		ClearSharePct: number(r, "clear_share_pct"), ClearFloorUm: film.Microns(number(r, "clear_floor_um")),
		TakeSharePct: number(r, "take_share_pct"), TakeMostUm: film.Microns(number(r, "take_most_um")),
		ThinUm: film.Microns(number(r, "thin_um")), RepaintUm: film.Microns(number(r, "repaint_um")),
		FillerUm: film.Microns(number(r, "filler_um")), NeighbourUm: film.Microns(number(r, "neighbour_um")),
	}
}

// usable is the usable film by the new policy. The readings themselves are not on the sheet, only the bounds that were reckoned
// from them, rounded down to 0.1 µm: so the answer is right to within 0.1 µm, and rather too low.
func (c *carried) usable(seen *trace.Facts, usable float64) float64 {
	clear, ok := seen.Number("film.clear_um")
	if !ok {
		return usable
	}
	taken, _ := seen.Number("film.taken_um")
	gone := film.Removal{LowUm: film.Microns(taken), LikelyUm: film.Microns(taken), HighUm: film.Microns(taken)}
	was, is := policyOf(c.policyWas), policyOf(c.policyIs)
	basis := film.Measured{Layer: film.Top, LowestBoundUm: film.Microns(clear)}
	if whole, ok := seen.Number("film.lowest_bound_um"); ok {
		total := film.Measured{Layer: film.Total, LowestBoundUm: film.Microns(whole)}
		// The clear was reckoned as a share of the whole where that gives the clear on record.
		if b, err := was.Usable(&total, gone); err == nil && math.Abs(float64(b.ClearUm)-clear) <= 0.15 {
			basis = total
		}
	}
	before, errWas := was.Usable(&basis, gone)
	after, errIs := is.Usable(&basis, gone)
	if errWas != nil || errIs != nil {
		return usable
	}
	if math.Abs(float64(before.UsableUm)-usable) > 0.2 {
		return max(0, usable+float64(after.UsableUm-before.UsableUm)) // something else bounded it too
	}
	return float64(after.UsableUm)
}

// signs judges the film readings by the new policy.
func (c *carried) signs(seen, over *trace.Facts) {
	if lowest, ok := seen.Number("film.lowest_bound_um"); ok {
		setFlag(over, "film.thin", lowest < number(c.policyIs, "thin_um"))
	}
	highest, ok := seen.Number("film.highest_um")
	if !ok {
		return
	}
	step, _ := seen.Number("film.neighbour_um")
	setFlag(over, "film.repaint_signs", highest > number(c.policyIs, "repaint_um") || math.Abs(step) > number(c.policyIs, "neighbour_um"))
	setFlag(over, "film.filler_signs", highest > number(c.policyIs, "filler_um"))
}

// trial judges what a trial left and gained by the new policy.
func (c *carried) trial(seen, over *trace.Facts) {
	if left, ok := seen.Number("trial.severity_left"); ok {
		setNumber(over, "trial.short_by", left-number(c.policyIs, "severity_left"))
	}
	if n, ok := seen.Number("trial.number"); ok {
		setNumber(over, "trial.number_left", number(c.policyIs, "most_trials")-n)
	}
	mean, ok := seen.Number("trial.gain_gu")
	low, has := seen.Number("trial.gain_low_gu")
	worth := number(c.policyIs, "gain_worth_gu")
	if !ok || !has || worth == number(c.policyWas, "gain_worth_gu") {
		return
	}
	high := 2*mean - low // the interval is even on both sides
	switch {
	case low >= worth:
		setWord(over, "trial.gain", "worthwhile")
	case high < 0:
		setWord(over, "trial.gain", "loss")
	case high < worth:
		setWord(over, "trial.gain", "too-small")
	default:
		setWord(over, "trial.gain", "not-conclusive")
	}
}

func setNumber(to *trace.Facts, fact string, v float64) {
	to.Set(fact, trace.Value{Kind: trace.Number, Number: v})
}

func setWord(to *trace.Facts, fact, v string) {
	to.Set(fact, trace.Value{Kind: trace.Word, Word: v})
}

func setFlag(to *trace.Facts, fact string, v bool) {
	to.Set(fact, trace.Value{Kind: trace.Flag, Flag: v})
}

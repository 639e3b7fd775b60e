package advisor

import (
	"errors"
	"fmt"
	"slices"

	"github.com/glossladder/glossladder/rules"
)

// askNumbers asks a table by name for an answer of numbers.
func (c *panelCase) askNumbers(table string) (number func(string) float64, reason Reason, err error) {
	t, ok := c.a.set.Table(table)
	if !ok {
		return nil, Reason{}, fmt.Errorf("rule set has no table %s", table)
	}
	said, err := c.must(t)
	if err != nil {
		return nil, said.reason, err
	}
	return func(field string) float64 {
		value, _ := said.result.Number(field)
		return value
	}, said.reason, nil
}

func (c *panelCase) askArea() (Area, error) {
	number, reason, err := c.askNumbers("area")
	if err != nil {
		return Area{}, err
	}
	out := Area{
		LowM2: number("low_m2"), LikelyM2: number("likely_m2"), HighM2: number("high_m2"),
		Rank: int(number("rank")), Seen: int(number("seen")), Pieces: int(number("pieces")), Reason: reason,
	}
	if out.LowM2 > out.LikelyM2 || out.LikelyM2 > out.HighM2 {
		return out, &RulesError{Reason: reason, Says: fmt.Sprintf("area must rise from low to high, not %v, %v, %v", out.LowM2, out.LikelyM2, out.HighM2)}
	}
	return out, nil
}

func (c *panelCase) askAround() (Around, error) {
	number, reason, err := c.askNumbers("around")
	if err != nil {
		return Around{}, err
	}
	return Around{
		TapeMin: number("tape_min"), LightMin: number("light_min"), InspectMin: number("inspect_min"), RecheckMin: number("recheck_min"),
		CoolMin: number("cool_min"), LowPct: number("low_pct"), HighPct: number("high_pct"), Reason: reason,
	}, nil
}

func (c *panelCase) askEffort(step string, place int, last bool) (out Effort, err error) {
	c.sheet.with(func(f *factSheet) { setStep(f, step, place, last) }, func() {
		var number func(string) float64
		if number, out.Reason, err = c.askNumbers("effort"); err != nil {
			return
		}
		out = Effort{
			PrimeMin: number("prime_min"), SwapMin: number("swap_min"), CleanMin: number("clean_min"), WipeMin: number("wipe_min"),
			PadSections: number("pad_sections"), EdgePct: number("edge_pct"), PacePct: number("pace_pct"),
			LowPct: number("low_pct"), HighPct: number("high_pct"), Reason: out.Reason,
		}
	})
	return out, err
}

// visit asks what the vehicle takes once. It counts as clean when every panel is.
func (a *Advisor) visit(in Inspection, decision *rules.Decision) (Visit, error) {
	clean := len(in.Panels) > 0 && !slices.ContainsFunc(in.Panels, func(p Panel) bool { return p.Clean == nil || !*p.Clean })
	c := a.wholeVehicle(in, decision)
	if clean {
		c.sheet.yes("panel.clean", true)
	}
	number, reason, err := c.askNumbers("visit")
	if err := errors.Join(err, c.sheet.err); err != nil {
		return Visit{}, err
	}
	return Visit{
		PrepareMin: number("prepare_min"), TrialMin: number("trial_min"), FinalMin: number("final_min"), CureMin: number("cure_min"),
		LowPct: number("low_pct"), HighPct: number("high_pct"), Reason: reason,
	}, nil
}

// wholeVehicle is a question about the vehicle and none of its panels.
func (a *Advisor) wholeVehicle(in Inspection, decision *rules.Decision) *panelCase {
	none := Inspection{Vehicle: in.Vehicle, Goal: in.Goal, Climate: in.Climate, FilmGauge: in.FilmGauge, Panels: []Panel{{Paint: in.Vehicle.Paint}}}
	c := &panelCase{a: a, in: &none, panel: &none.Panels[0], sheet: newFactSheet(a.set.Schema()), decision: decision, quiet: true}
	c.setFound()
	return c
}

package plan

import (
	"errors"
	"fmt"
	"math"
)

// FieldError tells which figure of a vehicle cannot be planned with. Field is a path: panels[2].steps[0].arm_cm_s.
type FieldError struct {
	Field   string
	Value   any
	Allowed string
}

func (e *FieldError) Error() string {
	return fmt.Sprintf("%s is %v, allowed is %s", e.Field, e.Value, e.Allowed)
}

// checker gathers every fault of a vehicle.
type checker struct{ faults []error }

func (c *checker) number(field string, value, least, most float64, unit string) {
	if !(value >= least && value <= most) {
		c.faults = append(c.faults, &FieldError{field, value, fmt.Sprintf("%v to %v %s", least, most, unit)})
	}
}

func (c *checker) span(field string, s Span, unit string) {
	if !s.rises(0) {
		c.faults = append(c.faults, &FieldError{field, fmt.Sprintf("%v, %v, %v", s.Low, s.Likely, s.High), "three figures of " + unit + " from 0 that rise"})
	}
}

// What a plan can be asked for. Wide: a slipped unit is caught, judgement is the rules' (common practice, no source).
const (
	mostAreaM2   = 60
	mostPeople   = 20
	longestDayHr = 24
)

func (v *Vehicle) check() error {
	c := &checker{}
	if len(v.Panels) == 0 || len(v.Panels) > MostPanels {
		c.faults = append(c.faults, &FieldError{"panels", fmt.Sprintf("%d panels", len(v.Panels)), fmt.Sprintf("1 to %d", MostPanels)})
	}
	c.number("crew.people", float64(v.Crew.People), 1, mostPeople, "people")
	c.number("crew.day_hours", v.Crew.DayHours, 1, longestDayHr, "h")
	c.span("whole.prepare_min", v.Whole.PrepareMin, "min")
	c.span("whole.trial_min", v.Whole.TrialMin, "min")
	c.span("whole.final_min", v.Whole.FinalMin, "min")
	for step, how := range v.Steps {
		c.handling("steps."+step, how)
	}
	for i := range v.Panels {
		v.checkPanel(c, fmt.Sprintf("panels[%d]", i), &v.Panels[i])
	}
	return errors.Join(c.faults...)
}

func (c *checker) handling(at string, how Handling) {
	c.span(at+".prime_min", how.PrimeMin, "min")
	c.span(at+".swap_min", how.SwapMin, "min")
	c.span(at+".clean_min", how.CleanMin, "min")
	c.span(at+".wipe_min", how.WipeMin, "min")
	c.span(at+".edge_pct", how.EdgePct, "%")
	c.span(at+".pace", how.Pace, "reckoned time")
	c.number(at+".pad_sections", how.PadSections, 1, math.MaxInt32, "sections")
}

func (v *Vehicle) checkPanel(c *checker, at string, p *Panel) {
	c.span(at+".area_m2", p.AreaM2, "m²")
	c.number(at+".area_m2", p.AreaM2.High, 0.001, mostAreaM2, "m²")
	for name, s := range map[string]Span{
		"tape_min": p.TapeMin, "light_min": p.LightMin, "inspect_min": p.InspectMin, "recheck_min": p.RecheckMin, "cool_min": p.CoolMin,
	} {
		c.span(at+"."+name, s, "min")
	}
	for k, s := range p.Steps {
		v.checkStep(c, fmt.Sprintf("%s.steps[%d]", at, k), s)
	}
}

func (v *Vehicle) checkStep(c *checker, at string, s Step) {
	if _, ok := v.Steps[s.Step]; !ok {
		c.faults = append(c.faults, &FieldError{at + ".step", s.Step, "a step whose handling is known"})
	}
	c.number(at+".pad_mm", s.PadMm, 10, 400, "mm")
	c.number(at+".passes", s.Passes, 1, 50, "passes")
	c.number(at+".overlap_pct", s.OverlapPct, 0, 90, "%")
	c.number(at+".arm_cm_s", s.ArmCmS, 0.1, 100, "cm/s")
	c.number(at+".section_pad_areas", s.SectionPadAreas, 1, 100, "pad faces")
	c.number(at+".clean_every", s.CleanEvery, 1, 1000, "sections")
	c.span(at+".removal_um", s.RemovalUm, "µm")
	if s.PastMinPerM2 != nil {
		c.span(at+".past_min_per_m2", *s.PastMinPerM2, "min/m²")
	}
	if s.How != nil {
		c.handling(at, *s.How)
	}
	for id, known := range v.known(s) {
		if id != "" && !known {
			c.faults = append(c.faults, &FieldError{at, id, "an id of the shop's catalogue"})
		}
	}
}

// known says, of the things a step uses, whether the shop has them.
func (v *Vehicle) known(s Step) map[string]bool {
	if v.Shop == nil {
		return map[string]bool{s.MachineID: false, s.PadID: false, s.LiquidID: false}
	}
	_, machine := v.Shop.Machine(s.MachineID)
	_, pad := v.Shop.Pad(s.PadID)
	_, liquid := v.Shop.Liquid(s.LiquidID)
	return map[string]bool{s.MachineID: machine, s.PadID: pad, s.LiquidID: liquid}
}

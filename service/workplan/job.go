package workplan

import (
	"fmt"

	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/catalogue"
	"github.com/glossladder/glossladder/service/plan"
)

// Job is what somebody wants planned.
type Job struct {
	Work advisor.Work
	Shop *catalogue.Catalogue
	Crew plan.Crew
	// AreasM2 are areas that were measured, by panel.
	AreasM2 map[string]float64
	// Settled are ladders that somebody decided on, by panel; the others get what the rules advise.
	Settled map[string]string
	// AtMost are panels whose settled ladder is the most that they get: where hours are short they may get less.
	AtMost map[string]bool
	// Proven are the panels on which a trial of the settled ladder was accepted.
	Proven map[string]bool
}

// ShopError is a thing that the plan needs and the shop's catalogue does not have.
type ShopError struct{ Class, Kind, Step string }

func (e *ShopError) Error() string {
	return fmt.Sprintf("the catalogue has no %s of class %s, which the settings of the step %s ask for; add one, or change settings", e.Kind, e.Class, e.Step)
}

// ladderOf is the ladder of a panel: the settled one, or the advised.
func (j *Job) ladderOf(p *advisor.PanelWork) string {
	if settled, ok := j.Settled[p.Panel.ID]; ok {
		return settled
	}
	return p.Advice.Ladder
}

// pick says which ladder a panel gets.
type pick func(*advisor.PanelWork) string

// vehicle is the job as the reckoning of plans takes it, with a ladder for every panel.
func (j *Job) vehicle(picks pick, from *trail) (plan.Vehicle, error) {
	v := plan.Vehicle{Shop: j.Shop, Crew: j.Crew}
	worked := map[string]bool{}
	for i := range j.Work.Panels {
		p := &j.Work.Panels[i]
		panel, err := j.panel(p, picks(p), from)
		if err != nil {
			return v, err
		}
		v.Panels = append(v.Panels, panel)
		worked[p.Panel.ID] = len(panel.Steps) > 0
	}
	v.Steps = plan.Handled(v.Panels)
	v.Whole = whole(j.Work.Visit, j.spots(worked), from)
	return v, nil
}

func whole(visit advisor.Visit, spots int, from *trail) plan.Whole {
	ends := func(v float64) plan.Span { return ends(v, visit.LowPct, visit.HighPct) }
	return plan.Whole{
		PrepareMin: ends(visit.PrepareMin), TrialMin: ends(visit.TrialMin * float64(spots)), FinalMin: ends(visit.FinalMin),
		From: from.rule(visit.Reason),
	}
}

// spots is how many test spots are still to be worked: one for each group of like panels of which any is worked and none was proven.
func (j *Job) spots(worked map[string]bool) (n int) {
	for _, group := range j.Work.Groups {
		any, proven := false, false
		for _, id := range group.Panels {
			any, proven = any || worked[id], proven || j.Proven[id]
		}
		if any && !proven {
			n++
		}
	}
	return n
}

// testFirst says whether a panel is the one on which its group's ladder is proved.
func (j *Job) testFirst(id string) bool {
	for _, group := range j.Work.Groups {
		if group.TestFirst == id {
			return true
		}
	}
	return false
}

func (j *Job) panel(p *advisor.PanelWork, ladder string, from *trail) (plan.Panel, error) {
	out := plan.Panel{
		ID: p.Panel.ID, Rank: p.Area.Rank, InSun: p.Panel.InSun != nil && *p.Panel.InSun,
		Tried:  j.Proven[p.Panel.ID] || j.testFirst(p.Panel.ID),
		AreaM2: plan.Span{Low: p.Area.LowM2, Likely: p.Area.LikelyM2, High: p.Area.HighM2},
		Around: around(p.Around, from),
	}
	if m2, ok := j.AreasM2[p.Panel.ID]; ok {
		out.AreaM2, out.AreaFrom = plan.Exactly(m2), from.text(measured)
	} else {
		out.AreaFrom = from.rule(p.Area.Reason)
	}
	if p.Advice.Film != nil {
		usable := float64(p.Advice.Film.Budget.UsableUm)
		out.UsableUm = &usable
	}
	found, ok := p.Ladder(ladder)
	if !ok {
		return out, fmt.Errorf("panel %s: ladder %q was not asked for", p.Panel.ID, ladder)
	}
	for _, s := range found.Steps {
		step, err := j.step(s, from)
		if err != nil {
			return out, err
		}
		out.Steps = append(out.Steps, step)
	}
	return out, nil
}

func around(a advisor.Around, from *trail) plan.Around {
	ends := func(v float64) plan.Span { return ends(v, a.LowPct, a.HighPct) }
	return plan.Around{
		TapeMin: ends(a.TapeMin), LightMin: ends(a.LightMin), InspectMin: ends(a.InspectMin), RecheckMin: ends(a.RecheckMin),
		CoolMin: ends(a.CoolMin), AroundFrom: from.rule(a.Reason),
	}
}

func (j *Job) step(s advisor.StepWork, from *trail) (plan.Step, error) {
	padMm, err := j.padMm(s)
	if err != nil {
		return plan.Step{}, err
	}
	how := handling(s.Effort, from)
	past, pastFrom := pastPace(s, padMm, from)
	return plan.Step{
		Step: s.Step, MachineID: s.Combination.MachineID, PadID: s.Combination.PadID, LiquidID: s.Combination.LiquidID, PadMm: padMm,
		Passes: s.Settings.Passes, OverlapPct: s.Settings.OverlapPct, ArmCmS: s.Settings.ArmCmS,
		SectionPadAreas: s.Settings.SectionPadAreas, CleanEvery: s.Settings.CleanEvery, SettingsFrom: from.rule(s.Reason),
		RemovalUm:   plan.Span{Low: float64(s.Removal.LowUm), Likely: float64(s.Removal.LikelyUm), High: float64(s.Removal.HighUm)},
		RemovalFrom: from.rule(s.RemovalReason), How: &how, PastMinPerM2: past, PastFrom: pastFrom,
	}, nil
}

// pastPace is the minutes a square metre by the shop's own record of sections; nil where it does not say.
func pastPace(s advisor.StepWork, padMm float64, from *trail) (*plan.Span, plan.Source) {
	if s.Past == nil {
		return nil, ""
	}
	sectionM2 := s.Settings.SectionPadAreas * plan.PadAreaM2(padMm)
	span := plan.Span{Low: s.Past.LowMin / sectionM2, Likely: s.Past.LikelyMin / sectionM2, High: s.Past.HighMin / sectionM2}
	panels := "panel"
	if s.Past.Panels != 1 {
		panels = "panels"
	}
	return &span, from.text(plan.Source(fmt.Sprintf("this shop's record of %d timed %s", s.Past.Panels, panels)))
}

// padMm is the size of the pad that the step is worked with, or else of what its machine carries.
func (j *Job) padMm(s advisor.StepWork) (float64, error) {
	if j.Shop != nil {
		if pad, ok := j.Shop.Pad(s.Combination.PadID); ok {
			return pad.DiameterMm, nil
		}
		if machine, ok := j.Shop.Machine(s.Combination.MachineID); ok {
			return machine.PadMm, nil
		}
	}
	return 0, &ShopError{Class: s.Combination.Pad, Kind: "pad", Step: s.Step}
}

func handling(e advisor.Effort, from *trail) plan.Handling {
	ends := func(v float64) plan.Span { return ends(v, e.LowPct, e.HighPct) }
	return plan.Handling{
		PrimeMin: ends(e.PrimeMin), SwapMin: ends(e.SwapMin), CleanMin: ends(e.CleanMin), WipeMin: ends(e.WipeMin),
		PadSections: e.PadSections, EdgePct: plan.Exactly(e.EdgePct), Pace: ends(e.PacePct / 100), From: from.rule(e.Reason),
	}
}

// ends is a likely figure with its ends in % of it.
func ends(likely, lowPct, highPct float64) plan.Span {
	return plan.Span{Low: likely * lowPct / 100, Likely: likely, High: likely * highPct / 100}
}

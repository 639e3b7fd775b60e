package advisor

import (
	"errors"
	"fmt"
)

// Unseen is what the tables say about a vehicle that nobody has looked at.
type Unseen struct {
	RuleSet string
	Visit   Visit
	// The ladders that it is likely to need: if its paint turns out better, as most, and if it turns out worse.
	Low, Likely, High string
	Reason            Reason
	// Panels are the panels that a vehicle of its size has, each with those ladders. They have no advice.
	Panels []PanelWork
}

// Unseen asks everything that an estimate is reckoned from. The error is a [*RulesError].
func (a *Advisor) Unseen(vehicle Vehicle, goal Goal) (Unseen, error) {
	decision, giveBack := a.borrowDecision()
	defer giveBack()
	in := Inspection{Vehicle: vehicle, Goal: goal}
	out := Unseen{RuleSet: a.set.Hash()}
	if err := out.askLadders(a.wholeVehicle(in, decision)); err != nil {
		return out, err
	}
	var err error
	if out.Visit, err = a.visit(in, decision); err != nil {
		return out, err
	}
	for _, part := range a.parts() {
		in.Panels = []Panel{{ID: part, Part: part, Paint: vehicle.Paint}}
		c, err := a.open(&in, 0, decision)
		if err != nil {
			return out, err
		}
		c.quiet = true
		panel, err := c.unseen(out.Low, out.Likely, out.High)
		if err != nil {
			return out, errors.Join(err, c.sheet.err)
		}
		for n := range panel.Area.Pieces {
			panel.Panel.ID = part
			if panel.Area.Pieces > 1 {
				panel.Panel.ID = fmt.Sprintf("%s-%d", part, n+1)
			}
			out.Panels = append(out.Panels, panel)
		}
	}
	return out, nil
}

// parts are all parts that the contract names.
func (a *Advisor) parts() []string {
	id, ok := a.set.Schema().FactID("panel.part")
	if !ok {
		return nil
	}
	return a.set.Schema().Fact(id).Words
}

func (u *Unseen) askLadders(c *panelCase) error {
	t, ok := c.a.set.Table("estimate")
	if !ok {
		return errors.New("rule set has no table estimate")
	}
	said, err := c.must(t)
	if err := errors.Join(err, c.sheet.err); err != nil {
		return err
	}
	u.Low, _ = said.result.Word("low_ladder")
	u.Likely, _ = said.result.Word("likely_ladder")
	u.High, _ = said.result.Word("high_ladder")
	u.Reason = said.reason
	return nil
}

// unseen gathers what a panel takes that nobody has looked at, by the ladders of the estimate.
func (c *panelCase) unseen(ladders ...string) (PanelWork, error) {
	out := PanelWork{Panel: *c.panel}
	var err error
	if out.Area, err = c.askArea(); err != nil {
		return out, err
	}
	if out.Around, err = c.askAround(); err != nil {
		return out, err
	}
	for _, name := range append(ladders, noStep) {
		if _, known := out.Ladder(name); known {
			continue
		}
		ladder, err := c.ladderWork(name)
		if err != nil {
			return out, err
		}
		out.Ladders = append(out.Ladders, ladder)
	}
	return out, c.sheet.err
}

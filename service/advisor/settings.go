package advisor

import (
	"math"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/catalogue"
)

func settingsOf(result rules.Result) (Combination, Settings) {
	word := func(field string) string {
		value, _ := result.Word(field)
		return value
	}
	number := func(field string) float64 {
		value, _ := result.Number(field)
		return value
	}
	return Combination{Machine: word("machine"), Pad: word("pad"), Liquid: word("liquid")},
		Settings{
			Speed: word("speed"), Passes: number("passes"), OverlapPct: number("overlap_pct"), ArmCmS: number("arm_cm_s"),
			SectionPadAreas: number("section_pad_areas"), Drops: number("drops"), CleanEvery: number("clean_every"),
		}
}

// fromCatalogue names the shop's own machine, pad and liquid of each class: the first of its catalogue, and of pads the one
// that fits the machine. A class that the shop does not have stays without a name.
func (a *Advisor) fromCatalogue(c Combination) Combination {
	if a.catalogue == nil {
		return c
	}
	if own := a.catalogue.Machines(catalogue.MachineClass(c.Machine)); len(own) > 0 {
		c.MachineID = own[0].ID
	}
	if own := a.catalogue.Pads(catalogue.PadClass(c.Pad)); len(own) > 0 {
		c.PadID = a.fittingPad(own, c.MachineID).ID
	}
	if own := a.catalogue.Liquids(catalogue.LiquidClass(c.Liquid)); len(own) > 0 {
		c.LiquidID = own[0].ID
	}
	return c
}

// fittingPad is the pad whose size comes nearest to what the machine carries, the first of the catalogue among equals.
func (a *Advisor) fittingPad(pads []catalogue.Pad, machineID string) catalogue.Pad {
	machine, ok := a.catalogue.Machine(machineID)
	if !ok {
		return pads[0]
	}
	best := pads[0]
	for _, pad := range pads[1:] {
		if math.Abs(pad.DiameterMm-machine.PadMm) < math.Abs(best.DiameterMm-machine.PadMm) {
			best = pad
		}
	}
	return best
}

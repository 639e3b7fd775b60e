package plan

import (
	"fmt"

	"github.com/glossladder/glossladder/service/catalogue"
)

// Material is what a plan uses of one thing of the catalogue.
type Material struct {
	ID       string
	Kind     string  // pad, liquid, towel, panel-wipe, masking-tape
	Quantity float64 // in Unit; of pads the pieces in use, which last for more than one vehicle
	Unit     string  // ml, pieces, m
	Price    catalogue.Money
	From     Source
}

// materials is everything of the catalogue that the plan uses up, in the catalogue's order.
func (v *Vehicle) materials(p *Plan) []Material {
	var out []Material
	for _, pad := range v.Shop.AllPads() {
		pads := 0
		for _, step := range p.Steps {
			for _, use := range step.Pads {
				if use.PadID == pad.ID {
					pads += use.Pads
				}
			}
		}
		if pads > 0 {
			out = append(out, Material{
				ID: pad.ID, Kind: "pad", Quantity: float64(pads), Unit: "pieces",
				Price: portion(pad.Price, float64(pads), pad.LifeVehicles),
				From:  Source(fmt.Sprintf("catalogue: a pad lasts %v vehicles", pad.LifeVehicles)),
			})
		}
	}
	for _, liquid := range v.Shop.AllLiquids() {
		if ml := v.millilitres(p, liquid); ml > 0 {
			out = append(out, Material{
				ID: liquid.ID, Kind: "liquid", Quantity: ml, Unit: "ml", Price: portion(liquid.Price, ml, liquid.PackMl),
				From: Source(fmt.Sprintf("catalogue: %v ml to prime a pad, %v ml for each section", liquid.PrimeMl, liquid.PerSectionMl)),
			})
		}
	}
	return append(out, v.consumables(p)...)
}

// millilitres is the liquid of every pad that is primed and of every section worked with it.
func (v *Vehicle) millilitres(p *Plan, liquid catalogue.Liquid) (ml float64) {
	for _, step := range p.Steps {
		for _, use := range step.Pads {
			if use.LiquidID == liquid.ID {
				ml += float64(use.Pads)*liquid.PrimeMl + float64(use.Sections)*liquid.PerSectionMl
			}
		}
	}
	return ml
}

// consumables are towels and wipes by panel and step, and tape by panel.
func (v *Vehicle) consumables(p *Plan) []Material {
	panels, rounds := 0, 0
	for i := range p.Panels {
		panels += worked(&p.Panels[i])
		rounds += len(p.Panels[i].Steps)
	}
	var out []Material
	for _, c := range v.Shop.AllConsumables() {
		quantity := consumed(c, panels, rounds)
		if quantity == 0 {
			continue
		}
		unit, each := unitOf(c.Kind), "panel and step"
		if c.Kind == catalogue.MaskingTape {
			each = "panel"
		}
		out = append(out, Material{
			ID: c.ID, Kind: string(c.Kind), Quantity: quantity, Unit: unit, Price: portion(c.Price, quantity, c.Pack*c.Uses),
			From: Source(fmt.Sprintf("catalogue: %v %s for each %s", c.PerPanel, unit, each)),
		})
	}
	return out
}

// consumed is what goes for so many panels, with so many steps on all of them together.
func consumed(c catalogue.Consumable, panels, rounds int) float64 {
	if c.Kind == catalogue.MaskingTape {
		return float64(panels) * c.PerPanel
	}
	return float64(rounds) * c.PerPanel
}

func unitOf(kind catalogue.ConsumableKind) string {
	switch kind {
	case catalogue.PanelWipe:
		return "ml"
	case catalogue.MaskingTape:
		return "m"
	}
	return "pieces"
}

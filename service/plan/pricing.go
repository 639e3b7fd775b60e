package plan

import (
	"math/big"

	"github.com/glossladder/glossladder/service/catalogue"
)

// pricing turns the parts of a choice into what its limit counts: money in millionths of the smallest unit, or only their minutes in
// millionths, and then everything but work is free.
type pricing struct {
	shop  *catalogue.Catalogue
	money bool
}

const hourMin = 60

// Quantities have six decimals; a plan has some hundred parts.
const (
	strayQuantity = 1e-4
	strayParts    = 2000
)

// rounding is by how much the sum of parts may differ from a plan: half a unit for each amount that is rounded for itself, and the
// last digits of the quantities.
func (p pricing) rounding() int64 {
	if !p.money || p.shop == nil {
		return strayParts
	}
	sum := strayParts + half + millionths(p.shop.HourlyRate(), strayQuantity, hourMin)
	for _, pad := range p.shop.AllPads() {
		sum += half + millionths(pad.Price, strayQuantity, pad.LifeVehicles)
	}
	for _, liquid := range p.shop.AllLiquids() {
		sum += half + millionths(liquid.Price, strayQuantity, liquid.PackMl)
	}
	for _, c := range p.shop.AllConsumables() {
		sum += half + millionths(c.Price, strayQuantity, c.Pack*c.Uses)
	}
	return sum
}

const half = million / 2

// work is minutes in millionths.
func (p pricing) work(micros int64) int64 {
	switch {
	case !p.money:
		return micros
	case p.shop == nil:
		return 0
	}
	share := big.NewRat(micros, hourMin)
	return floor(share.Mul(share, new(big.Rat).SetInt64(int64(p.shop.HourlyRate()))))
}

// piece is a pad's share of its life, and the liquid that primes it.
func (p pricing) piece(pad, liquid string) (sum int64) {
	if !p.money || p.shop == nil {
		return 0
	}
	if found, ok := p.shop.Pad(pad); ok {
		sum += millionths(found.Price, 1, found.LifeVehicles)
	}
	if found, ok := p.shop.Liquid(liquid); ok {
		sum += millionths(found.Price, found.PrimeMl, found.PackMl)
	}
	return sum
}

// sections is the liquid of so many sections.
func (p pricing) sections(liquid string, sections int) int64 {
	if !p.money || p.shop == nil {
		return 0
	}
	found, ok := p.shop.Liquid(liquid)
	if !ok {
		return 0
	}
	return millionths(found.Price, float64(sections)*found.PerSectionMl, found.PackMl)
}

// around is the consumables of a panel with so many steps.
func (p pricing) around(steps int) (sum int64) {
	if !p.money || p.shop == nil || steps == 0 {
		return 0
	}
	for _, c := range p.shop.AllConsumables() {
		sum += millionths(c.Price, consumed(c, 1, steps), c.Pack*c.Uses)
	}
	return sum
}

// millionths is what [portion] gives before it is rounded, in millionths of the smallest unit, rounded down.
func millionths(price catalogue.Money, quantity, whole float64) int64 {
	share := new(big.Rat).Quo(rational(quantity), rational(whole))
	return floor(share.Mul(share, new(big.Rat).SetInt64(int64(price)*million)))
}

func floor(r *big.Rat) int64 { return new(big.Int).Quo(r.Num(), r.Denom()).Int64() }

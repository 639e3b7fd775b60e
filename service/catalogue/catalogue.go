package catalogue

import "slices"

// Catalogue is a shop's own things and prices. It does not change after it is read: any number of goroutines may use it,
// and every list it returns is the caller's own.
type Catalogue struct {
	currency    Currency
	hourlyRate  Money
	instruments Instruments
	machines    []Machine
	pads        []Pad
	liquids     []Liquid
	consumables []Consumable
	limits      Limits
	opening     *Opening // nil when the file does not say
}

// Figure is a number from a data sheet or a measurement that may be missing. The zero Figure is missing, never 0.
type Figure struct {
	value float64
	known bool
}

// FigureOf is a known figure.
func FigureOf(v float64) Figure { return Figure{value: v, known: true} }

// Value returns the number, and whether it is known.
func (f Figure) Value() (v float64, known bool) { return f.value, f.known }

// Machine is one machine, or the hand with its applicator.
type Machine struct {
	ID    string
	Class MachineClass
	PadMm float64 // diameter of the face that carries the pad

	OrbitMm                  Figure // diameter of the orbit: known for the orbital classes only
	SpeedMinOpm, SpeedMaxOpm Figure // orbits a minute: known for the orbital classes only
	SpeedMinRpm, SpeedMaxRpm Figure // turns a minute: known for a rotary only

	VibrationMs2  Figure // declared hand-arm vibration emission, m/s² (ISO 28927 series)
	VibrationKMs2 Figure // its declared uncertainty K, m/s² (EN 12096)
	NoiseDba      Figure // A-weighted sound pressure level at the user's ear, dB
	MassKg        Figure
}

// Pad is one kind of pad.
type Pad struct {
	ID           string
	Class        PadClass
	DiameterMm   float64
	ThicknessMm  float64
	Price        Money   // of one pad
	LifeVehicles float64 // vehicles a pad lasts, cleaned in between
}

// Liquid is one polishing liquid.
type Liquid struct {
	ID           string
	Class        LiquidClass
	AbrasiveUm   Figure // typical grain size of the abrasive
	Price        Money  // of one pack
	PackMl       float64
	PerSectionMl float64 // for a section after the first
	PrimeMl      float64 // for priming a dry pad
}

// Consumable is one thing that is used up beside pads and liquids. A pack holds pieces of a towel, ml of a panel wipe,
// metres of a masking tape; PerPanel is in the same unit.
type Consumable struct {
	ID       string
	Kind     ConsumableKind
	Price    Money // of one pack
	Pack     float64
	PerPanel float64
	Uses     float64 // times a towel is used, washed in between; 1 for what is used once
}

// Currency is the currency of every amount in the catalogue.
func (c *Catalogue) Currency() Currency { return c.currency }

// HourlyRate is the price of an hour of work.
func (c *Catalogue) HourlyRate() Money { return c.hourlyRate }

// AllMachines lists every machine in file order.
func (c *Catalogue) AllMachines() []Machine { return slices.Clone(c.machines) }

// Machines lists the machines of a class in file order; it is empty when the shop has none.
func (c *Catalogue) Machines(class MachineClass) []Machine {
	return of(c.machines, func(m Machine) bool { return m.Class == class })
}

// Machine returns the machine of an id.
func (c *Catalogue) Machine(id string) (Machine, bool) {
	return one(c.machines, func(m Machine) bool { return m.ID == id })
}

// AllPads lists every pad in file order.
func (c *Catalogue) AllPads() []Pad { return slices.Clone(c.pads) }

// Pads lists the pads of a class in file order; it is empty when the shop has none.
func (c *Catalogue) Pads(class PadClass) []Pad {
	return of(c.pads, func(p Pad) bool { return p.Class == class })
}

// Pad returns the pad of an id.
func (c *Catalogue) Pad(id string) (Pad, bool) {
	return one(c.pads, func(p Pad) bool { return p.ID == id })
}

// AllLiquids lists every liquid in file order.
func (c *Catalogue) AllLiquids() []Liquid { return slices.Clone(c.liquids) }

// Liquids lists the liquids of a class in file order; it is empty when the shop has none.
func (c *Catalogue) Liquids(class LiquidClass) []Liquid {
	return of(c.liquids, func(l Liquid) bool { return l.Class == class })
}

// Liquid returns the liquid of an id.
func (c *Catalogue) Liquid(id string) (Liquid, bool) {
	return one(c.liquids, func(l Liquid) bool { return l.ID == id })
}

// AllConsumables lists every consumable in file order.
func (c *Catalogue) AllConsumables() []Consumable { return slices.Clone(c.consumables) }

// Consumables lists the consumables of a kind in file order; it is empty when the shop has none.
func (c *Catalogue) Consumables(kind ConsumableKind) []Consumable {
	return of(c.consumables, func(x Consumable) bool { return x.Kind == kind })
}

// Consumable returns the consumable of an id.
func (c *Catalogue) Consumable(id string) (Consumable, bool) {
	return one(c.consumables, func(x Consumable) bool { return x.ID == id })
}

func of[T any](all []T, want func(T) bool) (some []T) {
	for _, x := range all {
		if want(x) {
			some = append(some, x)
		}
	}
	return some
}

func one[T any](all []T, want func(T) bool) (T, bool) {
	if i := slices.IndexFunc(all, want); i >= 0 {
		return all[i], true
	}
	var none T
	return none, false
}

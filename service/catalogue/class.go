package catalogue

// MachineClass says how a machine moves its pad.
type MachineClass string

// The classes of machine.
const (
	ShortOrbital      MachineClass = "short-orbital"       // the pad spins freely on a short orbit (up to about 12 mm)
	LongOrbital       MachineClass = "long-orbital"        // the pad spins freely on a long orbit
	GearDrivenOrbital MachineClass = "gear-driven-orbital" // orbit and spin are coupled by a gear: it does not stall
	Rotary            MachineClass = "rotary"              // the pad spins about a fixed axis, without an orbit
	Hand              MachineClass = "hand"                // no motor: an applicator in the hand
)

// MachineClasses lists the classes of machine.
func MachineClasses() []MachineClass {
	return []MachineClass{Hand, ShortOrbital, LongOrbital, GearDrivenOrbital, Rotary}
}

// Orbits says whether a machine of the class has an orbit and a speed in orbits a minute.
func (c MachineClass) Orbits() bool {
	return c == ShortOrbital || c == LongOrbital || c == GearDrivenOrbital
}

// PadClass is the material of a pad's face and the step it is made for.
type PadClass string

// The classes of pad.
const (
	FinishingFoam PadClass = "finishing-foam"
	PolishingFoam PadClass = "polishing-foam"
	CuttingFoam   PadClass = "cutting-foam"
	Microfibre    PadClass = "microfibre"
	Wool          PadClass = "wool"
)

// PadClasses lists the classes of pad, the mildest first (common practice, no source).
func PadClasses() []PadClass {
	return []PadClass{FinishingFoam, PolishingFoam, CuttingFoam, Microfibre, Wool}
}

// LiquidClass is the step a liquid is made for.
type LiquidClass string

// The classes of liquid.
const (
	FinishingLiquid LiquidClass = "finishing-liquid"
	PolishingLiquid LiquidClass = "polishing-liquid"
	CuttingLiquid   LiquidClass = "cutting-liquid"
)

// LiquidClasses lists the classes of liquid, the mildest first.
func LiquidClasses() []LiquidClass {
	return []LiquidClass{FinishingLiquid, PolishingLiquid, CuttingLiquid}
}

// ConsumableKind says what a consumable is for, and so how its use is counted.
type ConsumableKind string

// The kinds of consumable.
const (
	Towel       ConsumableKind = "towel"        // counted in pieces, washed and used again
	PanelWipe   ConsumableKind = "panel-wipe"   // a solvent wipe that takes oils off before a reading; counted in ml
	MaskingTape ConsumableKind = "masking-tape" // counted in metres
)

// ConsumableKinds lists the kinds of consumable.
func ConsumableKinds() []ConsumableKind {
	return []ConsumableKind{Towel, PanelWipe, MaskingTape}
}

// Words turns a list of classes into plain words, in the same order.
func Words[C ~string](classes []C) []string {
	words := make([]string, len(classes))
	for i, c := range classes {
		words[i] = string(c)
	}
	return words
}

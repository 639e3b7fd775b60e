package plan

import "github.com/glossladder/glossladder/service/catalogue"

// Source says where a figure came from, for people: "measured", "rule area/bonnet-medium, area.yaml:14", "this shop's last 23 jobs".
type Source string

// Vehicle is everything that a plan is made from.
type Vehicle struct {
	Panels []Panel
	// Whole is what the vehicle costs once, whatever is done.
	Whole Whole
	// Steps says how each step is handled, by step. A step of a panel that is not there is an error.
	Steps map[string]Handling
	Shop  *catalogue.Catalogue
	Crew  Crew
}

// Crew is who works, and how long a day is.
type Crew struct {
	People   int     // at least one; they share the work
	DayHours float64 // hours of work a day
}

// Panel is one panel with the ladder it gets. Without steps it is left alone and only looked at.
type Panel struct {
	ID       string
	AreaM2   Span
	AreaFrom Source
	// Rank orders panels from the top of the vehicle down; lower comes first.
	Rank  int
	InSun bool
	// Tried is true for the panel on which the ladder was proved: it is worked first.
	Tried bool
	Around
	Steps []Step
	// UsableUm is a lower bound of the film that may go; nil when it is not known.
	UsableUm *float64
}

// Around is the minutes a panel takes beside its steps.
type Around struct {
	TapeMin    Span
	LightMin   Span // moving lights
	InspectMin Span
	RecheckMin Span // readings while working and after
	CoolMin    Span // waiting before the next step on the same panel
	AroundFrom Source
}

// Step is one step of a panel's ladder.
type Step struct {
	Step                        string
	MachineID, PadID, LiquidID  string // of the catalogue; "" when the shop has none
	PadMm                       float64
	Passes, OverlapPct, ArmCmS  float64
	SectionPadAreas, CleanEvery float64
	SettingsFrom                Source
	RemovalUm                   Span
	RemovalFrom                 Source
	PastMinPerM2                *Span // minutes a square metre by the shop's own records; nil for none
	PastFrom                    Source
	How                         *Handling // how it is handled on this panel; nil as the vehicle's step says
}

// Handling is how a step is handled beside the machine's running: the minutes and the load of a pad.
type Handling struct {
	PrimeMin Span // for each pad
	SwapMin  Span // to a fresh pad
	CleanMin Span // each time
	WipeMin  Span // for each section
	// PadSections is how many sections a pad works before it is loaded.
	PadSections float64
	// EdgePct is how much more path edges and curves take.
	EdgePct Span
	// Pace is how much of the reckoned machine time it takes in practice.
	Pace Span
	From Source
}

// Whole is what a vehicle costs once.
type Whole struct {
	PrepareMin Span // wash, decontaminate, dry
	TrialMin   Span // test spots still to come
	FinalMin   Span // last wipe, protection, hand over
	From       Source
}

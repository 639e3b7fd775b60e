package advisor

import (
	"github.com/glossladder/glossladder/service/film"
)

// Recommendation is the ladder worth trying first for every panel.
type Recommendation struct {
	RuleSet     string
	Panels      []PanelAdvice
	Groups      []Group
	Cautions    []Caution
	MeasureNext []Wanted
}

// The states of a panel.
const (
	Ready       = "ready"
	Prepare     = "prepare"
	Wait        = "wait"
	NothingToDo = "nothing-to-do"
	Refer       = "refer"
	Stop        = "stop"
)

// PanelAdvice is what to do with one panel.
type PanelAdvice struct {
	Panel    string
	State    string
	Headline string
	// Readiness is gravest first.
	Readiness     []Readiness
	Defects       []DefectAdvice
	Start, Limit  string
	LimitReason   Reason
	Ladder        string
	LadderReason  Reason
	Steps         []StepAdvice
	LeftOnPurpose []string
	Cautions      []Caution
	MeasureNext   []Wanted
	// Film and Gloss are nil when nothing was measured, DewPointC when air or humidity is not known.
	Film      *FilmFindings
	Gloss     *GlossFindings
	DewPointC *float64
	// AllowedSeverity may stay, by the policy.
	AllowedSeverity float64
}

// Readiness is one thing between a panel and the work.
type Readiness struct {
	Effect, Do string
	Reason     Reason
}

// DefectAdvice is the start for one defect. Start is "" when no rule could tell.
type DefectAdvice struct {
	Kind     string
	Severity *float64
	Start    string
	Reason   Reason
}

// StepAdvice is how to run one step.
type StepAdvice struct {
	Step        string
	Combination Combination
	Settings    Settings
	Removal     film.Removal
	// UsableAfterUm is a lower bound; nil when film is not known.
	UsableAfterUm *float64
	Reason        Reason
	RemovalReason Reason
}

// Combination is machine, pad and liquid by class, and by catalogue where the shop has one of the class.
type Combination struct {
	Machine, Pad, Liquid       string
	MachineID, PadID, LiquidID string
}

// Settings are how a step is run.
type Settings struct {
	Speed                              string
	Passes, OverlapPct, ArmCmS         float64
	SectionPadAreas, Drops, CleanEvery float64
}

// FilmFindings are what the film readings of a panel say.
type FilmFindings struct {
	Measured film.Measured
	// Clear is the clear coat's own readings; nil when only the whole film was read.
	Clear  *film.Measured
	Budget film.Budget
	Signs  []film.Sign
	Policy Reason
	// Because tells how the usable film was reckoned.
	Because string
}

// GlossFindings are what the gloss and haze readings of a panel say before work.
type GlossFindings struct {
	Angle  int
	MeanGU float64
	// PlusMinusGU is nil when a single reading leaves it unknown.
	PlusMinusGU           *float64
	CeilingGU, HeadroomGU float64
	// HazeHU is nil when haze is not known; HazeIsIndex tells the index from the meter's own scale.
	HazeHU      *float64
	HazeIsIndex bool
}

// Group is panels that need the same.
type Group struct {
	Panels    []string
	TestFirst string
	Because   string
	Ladder    string
}

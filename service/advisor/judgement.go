package advisor

import "github.com/glossladder/glossladder/service/gloss"

// The verdicts.
const (
	Accept    = "accept"
	Adjust    = "adjust"
	StepUp    = "step-up"
	StepDown  = "step-down"
	Refine    = "refine"
	Repeat    = "repeat"
	StopWork  = "stop"
	noChange  = "nothing"
	noStep    = "none"
	cutStep   = "cut"
	finishing = "finish"
)

// Verdict is the judgement of the last trial on a panel.
type Verdict struct {
	RuleSet, Panel  string
	Kind, Change    string
	Headline        string
	Reason          Reason
	Gloss, Haze     *Change
	Film            *FilmTaken
	SeverityLeft    *float64
	AllowedSeverity float64
	// Kept is the steps proven so far, strongest first.
	Kept []string
	// Next is nil after accept and stop.
	Next        *NextMove
	Ladder      string
	Proven      bool
	Cautions    []Caution
	MeasureNext []Wanted
	// Earlier is the verdicts of the trials before, as judged now.
	Earlier []string
}

// Change is after less before on one scale.
type Change struct {
	Scale         gloss.Scale
	Gain          gloss.Gain
	Before, After float64
	Worth         float64
	Judgement     string
	// ReadingsNeeded and SpotsNeeded say how many would settle it: readings a spot, and spots; zero when settled or no
	// number would.
	ReadingsNeeded, SpotsNeeded int
	Note                        string
	// perSpot is the fewest readings at any spot after the trial.
	perSpot int
}

// FilmTaken is what a trial took and what is left.
type FilmTaken struct {
	TakenUm, LowUm, HighUm float64
	Measured               bool
	UsableLeftUm           float64
	Note                   string
}

// NextMove is what to do after a trial that settled nothing.
type NextMove struct {
	Step, Change string
	Advice       StepAdvice
	Do           string
}

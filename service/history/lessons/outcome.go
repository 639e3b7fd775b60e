package lessons

// Ending is how a step came out on a panel.
type Ending uint8

// The endings. The zero Ending tells nothing: the trials broke off, or the step was given up for a milder one, which says
// neither that it falls short nor that it was needed.
const (
	Untold Ending = iota
	// Accepted means that the step stays on the ladder: its last trial was accepted, or a milder step was put after it.
	Accepted
	// FellShort means that a stronger step was called for, or that the trials were stopped.
	FellShort
)

// Outcome is what is on record of one step on one panel of one job.
type Outcome struct {
	Job, Panel string
	// Class has every word that is known, Kind and Shade too.
	Class
	Ending Ending
	// Trials is how many trials were made with the step.
	Trials int
	// GainGU is what the last trial gained, at the Angle of its gloss readings in degrees. Nil: not measured, or a stronger step
	// had worked the section before.
	GainGU *float64
	Angle  int
	// RemovalUm are what trials took, where readings tell.
	RemovalUm []float64
	// TrialMinutes are what a section took in a trial, and WorkMinutes what a section took when the step was carried over the
	// panel. Nil: not timed, or sections not counted.
	TrialMinutes []float64
	WorkMinutes  *float64
}

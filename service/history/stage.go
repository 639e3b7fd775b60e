package history

import (
	"slices"
	"strings"
)

// Stage is how far a job is. The words are stored and never change their meaning.
type Stage string

// The stages, in the order of work.
const (
	StageBooked     Stage = "booked"
	StageInspected  Stage = "inspected"
	StageTrial      Stage = "trial"
	StagePlanned    Stage = "planned"
	StageInWork     Stage = "in-work"
	StageFinished   Stage = "finished"
	StageHandedOver Stage = "handed-over"
	StageCancelled  Stage = "cancelled"
)

// Stages lists all stages in the order of work.
func Stages() []Stage {
	return []Stage{StageBooked, StageInspected, StageTrial, StagePlanned, StageInWork, StageFinished, StageHandedOver, StageCancelled}
}

// Words is the stage as people read it: "in work".
func (s Stage) Words() string { return strings.ReplaceAll(string(s), "-", " ") }

// Ended reports whether nothing more is recorded, except corrections and details.
func (s Stage) Ended() bool { return s == StageHandedOver || s == StageCancelled }

func (s Stage) in(stages ...Stage) bool { return slices.Contains(stages, s) }

// mayCome is what each stage allows, by the trade's order: look, try, plan, work, finish, hand over. Details and corrections
// may always come.
func (s Stage) mayCome(k Kind) bool {
	switch k {
	case KindDetails, KindCorrection:
		return true
	case KindInspection:
		return s.in(StageBooked, StageInspected, StageTrial, StagePlanned, StageInWork)
	case KindTrial, KindDecision:
		return s.in(StageInspected, StageTrial, StagePlanned, StageInWork)
	case KindReadings, KindPlan:
		return s.in(StageInspected, StageTrial, StagePlanned, StageInWork, StageFinished)
	case KindProgress:
		return s.in(StagePlanned, StageInWork)
	case KindFinished:
		return s == StageInWork
	case KindHandedOver:
		return s == StageFinished
	case KindCancelled:
		return !s.Ended()
	case KindBooked:
	}
	return false
}

// wayOut says what would have to come before an event of a kind that the stage does not allow.
func (s Stage) wayOut(k Kind) string {
	switch {
	case k == KindBooked:
		return "a job is booked once, by its first event"
	case s.Ended():
		return "nothing more is recorded in it, except corrections; book a new job for the vehicle"
	case s == StageBooked:
		return "the vehicle has to be inspected first"
	case k == KindProgress && s == StageFinished:
		return "the work is finished; to work again, record a plan for what is still to do"
	case k == KindProgress:
		return "work follows a plan; record which panel gets which ladder first"
	case k == KindHandedOver:
		return "the work has to be finished first; to end the job without, cancel it"
	case k == KindFinished && s == StageFinished:
		return "the work is finished already"
	case k == KindFinished:
		return "no work is on record that could be finished; to end the job without, cancel it"
	}
	return "the work is finished; to inspect or try anew, record a plan for what is still to do, or book a new job"
}

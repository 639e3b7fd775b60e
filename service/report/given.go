package report

import (
	"encoding/json"
	"time"

	"github.com/glossladder/glossladder/service/history"
)

// Given is what a report is made of.
type Given struct {
	Job     *history.Job
	Vehicle history.Vehicle
	// Earlier is what the vehicle's other visits took off, as [history.Book.Life] gives it without this job.
	Earlier []history.PanelLife
	// Documents reads the documents of events.
	Documents Documents
	// Zone is that in which days are told. Nil: UTC.
	Zone *time.Location
}

// Documents reads the documents of events, which hold what was said to people. Words are those of the contract: "wash-marks".
type Documents interface {
	// Inspection reads what an inspection says beside the numbers.
	Inspection(document json.RawMessage) (*Inspected, error)
	// Advice reads what a recommendation says of one panel, and its cautions for the whole job; nil if it does not name it.
	Advice(document json.RawMessage, panel string) (*Advice, error)
	// Verdict reads what a verdict says.
	Verdict(document json.RawMessage) (*Verdict, error)
	// Trial reads the spots of a trial as they read before, where the trial has readings of its own, and after it.
	Trial(document json.RawMessage) (before, after []history.GlossSpot, err error)
}

// Inspected is what holds for all panels of an inspection, and what the panels say beside the numbers. Empty and nil: not said.
type Inspected struct {
	Goal, Protection string
	AirC             *float64
	HumidityPct      *float64
	// GlossStepGU and HazeStepHU are the smallest differences that the meter shows. Zero: not said.
	GlossStepGU, HazeStepHU float64
	System, Softness, Shade string
	Panels                  map[string]PanelSeen
}

// PanelSeen is what an inspection says of a panel beside the numbers.
type PanelSeen struct {
	Part string
	// Notes are what was written beside a kind of mark.
	Notes map[string]string
}

// Advice is what a recommendation says of a panel.
type Advice struct {
	State string
	// Readiness is what stands between the panel and the work.
	Readiness []Readiness
	Marks     []MarkAdvice
	// Limit is the strongest step that the panel allows, and why.
	Limit, LimitBecause string
	LadderBecause       string
	AllowedSeverity     float64
	Cautions            []Caution
	Film                *FilmAdvice
	Gloss               *GlossAdvice
	Settings            []Settings
}

// Readiness is one thing that stands between a panel and the work.
type Readiness struct{ Effect, Do, Because string }

// MarkAdvice is the mildest step worth trying against a kind of mark, and why.
type MarkAdvice struct {
	Kind     string
	Severity *float64
	Start    string
	Because  string
}

// Caution is one thing to watch. Whole is true where it was told for the whole job.
type Caution struct {
	Topic, Level, Do, Because string
	Panels                    []string
	Whole                     bool
}

// FilmAdvice is what film readings said before the work, in µm.
type FilmAdvice struct {
	LowestUm, LowestBoundUm, ClearUm, UsableUm float64
	Signs                                      []string
}

// GlossAdvice is what gloss readings said before the work.
type GlossAdvice struct {
	Angle     int
	CeilingGU float64
}

// Settings are with what a step was to be worked, by class.
type Settings struct{ Step, Machine, Pad, Liquid string }

// Verdict is why a trial was judged so.
type Verdict struct {
	Because  string
	Cautions []Caution
}

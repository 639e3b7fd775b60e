package history

import (
	"errors"
	"fmt"
)

// When says when readings were taken.
type When string

// The times of readings.
const (
	Before When = "before"
	During When = "during"
	After  When = "after"
)

// Readings are readings on one panel outside an inspection or a trial.
type Readings struct {
	Panel string `json:"panel"`
	When  When   `json:"when"`
	// Step is the step that was being worked, or was worked last. Empty: not said.
	Step  string      `json:"step,omitempty"`
	Gloss []GlossSpot `json:"gloss,omitempty"`
	Film  []FilmSpot  `json:"film,omitempty"`
	// Left is what is left of each defect. Nil: not inspected.
	Left []Defect `json:"left,omitempty"`
	// PanelC is the panel's temperature in °C. Nil: not measured.
	PanelC *float64 `json:"panel_c,omitempty"`
	// Gauge is what film was read with. Nil: as in the inspection.
	Gauge *Gauge `json:"gauge,omitempty"`
	// LeftAsSet says that the gauge was not zeroed or adjusted since the inspection.
	LeftAsSet bool   `json:"left_as_set,omitempty"`
	Source    string `json:"source,omitempty"`
	Note      string `json:"note,omitempty"`
}

// Kind is [KindReadings].
func (*Readings) Kind() Kind { return KindReadings }

func (r *Readings) check() error {
	errs := []error{CheckID("readings.panel_id", r.Panel), checkText("readings.note", r.Note, 500), checkText("readings.source", r.Source, 200)}
	switch r.When {
	case Before, During, After:
	default:
		errs = append(errs, &InputError{Field: "readings.time", Says: fmt.Sprintf("%q is not allowed; it is before, during or after", r.When)})
	}
	if r.Step != "" {
		errs = append(errs, checkStep("readings.step", r.Step))
	}
	if len(r.Gloss) == 0 && len(r.Film) == 0 && len(r.Left) == 0 && r.PanelC == nil {
		errs = append(errs, &InputError{Field: "readings", Says: "hold no reading; give gloss, film, what is left of the defects, or panel_c"})
	}
	return errors.Join(errs...)
}

package history

import (
	"errors"
	"fmt"

	"github.com/glossladder/glossladder/service/film"
)

// Inspection is what was found on some or all panels of the vehicle.
type Inspection struct {
	Panels []PanelFound `json:"panels"`
	// Gauge is what film was read with, the shop's own filled in, so that a change of its catalogue changes no record. Nil:
	// film was not read.
	Gauge *Gauge `json:"gauge,omitempty"`
}

// Kind is [KindInspection].
func (*Inspection) Kind() Kind { return KindInspection }

func (i *Inspection) check() error {
	if len(i.Panels) == 0 {
		return &InputError{Field: "panels", Says: "are missing; an inspection looks at one panel at least"}
	}
	var errs []error
	seen := map[string]bool{}
	for n, p := range i.Panels {
		field := fmt.Sprintf("panels[%d].id", n)
		errs = append(errs, CheckID(field, p.ID))
		if seen[p.ID] {
			errs = append(errs, &InputError{Field: field, Says: fmt.Sprintf("%q is given twice", p.ID)})
		}
		seen[p.ID] = true
	}
	return errors.Join(errs...)
}

// PanelFound is one panel as it was found, with what later visits and statistics need of it. Empty and nil mean that it was
// not given. Words are those of the contract: "soft", "wash-marks".
type PanelFound struct {
	ID        string `json:"id"`
	Substrate string `json:"substrate,omitempty"`
	System    string `json:"system,omitempty"`
	Softness  string `json:"softness,omitempty"`
	Shade     string `json:"shade,omitempty"`
	// TakenUm is what earlier visits took off as whoever inspected said, whether on record here or not. What is filled in from
	// the record is not kept here: it changes when the record is corrected.
	TakenUm *float64    `json:"taken_um,omitempty"`
	Film    []FilmSpot  `json:"film,omitempty"`
	Gloss   []GlossSpot `json:"gloss,omitempty"`
	Defects []Defect    `json:"defects,omitempty"`
}

// Defect is one kind of mark and how bad it is, 0 to 5; nil: not graded.
type Defect struct {
	Kind     string   `json:"kind"`
	Severity *float64 `json:"severity,omitempty"`
}

// FilmSpot is film readings at one place, of the whole film, of its clear coat, or both.
type FilmSpot struct {
	Spot     string    `json:"spot"`
	TotalUm  []float64 `json:"total_um,omitempty"`
	ClearUm  []float64 `json:"clear_um,omitempty"`
	NearEdge bool      `json:"near_edge,omitempty"`
}

// GlossSpot is gloss and haze readings at one taped place.
type GlossSpot struct {
	Spot   string    `json:"spot"`
	At20GU []float64 `json:"at20_gu,omitempty"`
	At60GU []float64 `json:"at60_gu,omitempty"`
	At85GU []float64 `json:"at85_gu,omitempty"`
	HazeHU []float64 `json:"haze_hu,omitempty"`
}

// Gauge is what a film gauge's maker states of it.
type Gauge struct {
	Kind         string  `json:"kind"`
	AccuracyUm   float64 `json:"accuracy_um"`
	AccuracyPct  float64 `json:"accuracy_pct"`
	ResolutionUm float64 `json:"resolution_um"`
	// GreaterOf is true when the greater of the two accuracies holds, not their sum.
	GreaterOf bool `json:"greater_of,omitempty"`
}

// GaugeOf keeps a gauge.
func GaugeOf(g film.Gauge) *Gauge {
	return &Gauge{
		Kind: string(g.Kind), AccuracyUm: float64(g.Accuracy.FixedUm), AccuracyPct: g.Accuracy.Percent,
		GreaterOf: g.Accuracy.GreaterOf, ResolutionUm: float64(g.StepUm),
	}
}

func (g *Gauge) film() film.Gauge {
	return film.Gauge{
		Kind: film.GaugeKind(g.Kind), StepUm: film.Microns(g.ResolutionUm),
		Accuracy: film.Accuracy{FixedUm: film.Microns(g.AccuracyUm), Percent: g.AccuracyPct, GreaterOf: g.GreaterOf},
	}
}

package advisor

import (
	"github.com/glossladder/glossladder/service/film"
	"github.com/glossladder/glossladder/service/gloss"
)

// Inspection is one look at one vehicle before any work.
type Inspection struct {
	Vehicle Vehicle
	Goal    Goal
	Climate Climate
	// GlossMeter and FilmGauge are what the readings were taken with; both must be filled in.
	GlossMeter GlossMeter
	FilmGauge  film.Gauge
	// Own is what the shop's own facts are wherever a panel does not say otherwise.
	Own Own
	// Panels have ids that differ.
	Panels []Panel
	// Lessons is what the shop has learned from its own record. Nil: none is kept.
	Lessons Lessons
}

// Vehicle is what holds for all of it.
type Vehicle struct {
	Size, Kept string
	// Paint is what the paint is wherever a panel does not say otherwise; panels have taken it over already.
	Paint Paint
}

// Goal is what the owner wants.
type Goal struct {
	Level      string
	Protection string
}

// Climate is the air in the bay.
type Climate struct {
	AirC        *float64
	HumidityPct *float64
}

// GlossMeter is what its maker states.
type GlossMeter struct {
	AccuracyGU, ResolutionGU, ResolutionHU float64
}

// on is the meter on one of its scales. Haze has no stated accuracy: only differences on the meter's own scale are used.
func (m GlossMeter) on(scale gloss.Scale) gloss.Meter {
	if scale == gloss.Haze {
		return gloss.Meter{Scale: scale, Resolution: m.ResolutionHU}
	}
	return gloss.Meter{Scale: scale, Accuracy: m.AccuracyGU, Resolution: m.ResolutionGU}
}

// Panel is one panel as it was found.
type Panel struct {
	ID        string
	Part      string
	Substrate string
	Paint     Paint
	Film      []FilmSpot
	Gloss     []GlossSpot
	Defects   []Defect
	// PanelC is its temperature in °C.
	PanelC                                                      *float64
	Clean, InSun, RepaintKnown, SensorBehind, EdgeOrLine, Taped *bool
	// CuredDays is days since it was repainted.
	CuredDays *float64
	// FilmTakenUm is what earlier visits took.
	FilmTakenUm *float64
	// Own is what the shop's own facts are on this panel.
	Own Own
}

// Paint is what the paint is.
type Paint struct {
	System, Softness, Shade string
	HazeProne               *bool
	AgeYears                *float64
}

// FilmSpot is film readings at one place, of the whole film, of its clear coat, or both.
type FilmSpot struct {
	Spot             string
	TotalUm, ClearUm []float64
	NearEdge         bool
}

// GlossSpot is gloss and haze readings at one taped place.
type GlossSpot struct {
	Spot                           string
	At20GU, At60GU, At85GU, HazeHU []float64
}

// readings are those of one scale.
func (s GlossSpot) readings(scale gloss.Scale) []float64 {
	switch scale {
	case gloss.Gloss20:
		return s.At20GU
	case gloss.Gloss60:
		return s.At60GU
	case gloss.Gloss85:
		return s.At85GU
	case gloss.Haze:
		return s.HazeHU
	}
	return nil
}

// spotsOn picks the spots that were read on a scale.
func spotsOn(scale gloss.Scale, spots []GlossSpot) []gloss.Spot {
	var out []gloss.Spot
	for _, spot := range spots {
		if readings := spot.readings(scale); len(readings) > 0 {
			out = append(out, gloss.Spot{Name: spot.Spot, Readings: readings})
		}
	}
	return out
}

// Defect is one kind of mark and how bad it is.
type Defect struct {
	Kind        string
	Severity    *float64
	CatchesNail *bool
}

// Trial is one section worked and measured. Nil and empty mean "not known" or "as recommended".
type Trial struct {
	Step string
	// Combination and Settings are what was used where it was not as recommended.
	Combination           Combination
	Settings              UsedSettings
	Before, After         []GlossSpot
	Left                  []Defect
	TrailsLeft            *float64
	FilmBefore, FilmAfter []FilmSpot
	WipeOff               string
	PanelC                *float64
	Changed               []string
	PadLoaded, PanelWiped *bool
	ColorTransfer         *bool
	// FreshSection says that it was worked on a section of its own, so that earlier trials took nothing there.
	FreshSection bool
}

package rpc

import (
	"google.golang.org/protobuf/types/known/structpb"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/film"
	"github.com/glossladder/glossladder/service/vocabulary"
)

// Instruments are the shop's own, for inspections that do not say what they were read with.
type Instruments struct {
	Gloss advisor.GlossMeter
	Film  film.Gauge
	// Lessons gives what the shop has learned from its own record, for inspections to be decided by; nil for nothing. Nil: no record
	// is kept.
	Lessons func() advisor.Lessons
}

// inspection turns a valid message into the adviser's terms. What holds for the vehicle fills in what a panel leaves open.
func (own Instruments) inspection(m *glossladderv1.Inspection) advisor.Inspection {
	out := advisor.Inspection{
		Vehicle:    wholeVehicleIn(m.GetVehicle()),
		Goal:       goalIn(m.GetGoal()),
		GlossMeter: own.glossMeter(m.GetInstruments().GetGlossMeter()),
		FilmGauge:  own.filmGauge(m.GetInstruments().GetFilmGauge()),
		Own:        ownIn(m.GetShop()),
	}
	if climate := m.GetClimate(); climate != nil {
		out.Climate = advisor.Climate{AirC: climate.AirC, HumidityPct: climate.HumidityPct}
	}
	for _, panel := range m.GetPanels() {
		out.Panels = append(out.Panels, panelIn(panel, m))
	}
	if own.Lessons != nil {
		out.Lessons = own.Lessons()
	}
	return out
}

// ownIn are values of the shop's own facts. One that is null is not known; one that is no value of a fact is left for the adviser to
// refuse.
func ownIn(values map[string]*structpb.Value) advisor.Own {
	if len(values) == 0 {
		return nil
	}
	out := advisor.Own{}
	for name, value := range values {
		if _, unknown := value.GetKind().(*structpb.Value_NullValue); !unknown {
			out[name] = value.AsInterface()
		}
	}
	return out
}

func wholeVehicleIn(m *glossladderv1.Vehicle) advisor.Vehicle {
	return advisor.Vehicle{
		Size: vocabulary.WordOf(m.GetSize()), Kept: vocabulary.WordOf(m.GetKept()), Paint: paintIn(nil, m.GetPaint()),
	}
}

func goalIn(m *glossladderv1.Goal) advisor.Goal {
	return advisor.Goal{Level: vocabulary.WordOf(m.GetLevel()), Protection: vocabulary.WordOf(m.GetProtection())}
}

func (own Instruments) glossMeter(m *glossladderv1.GlossMeter) advisor.GlossMeter {
	out := own.Gloss
	if m == nil {
		return out
	}
	replace(&out.AccuracyGU, m.AccuracyGu)
	replace(&out.ResolutionGU, m.ResolutionGu)
	replace(&out.ResolutionHU, m.ResolutionHu)
	return out
}

func (own Instruments) filmGauge(m *glossladderv1.FilmGauge) film.Gauge {
	out := own.Film
	if m == nil {
		return out
	}
	switch m.GetKind() {
	case glossladderv1.FilmGaugeKind_FILM_GAUGE_KIND_MAGNETIC_EDDY:
		out.Kind = film.Combined
	case glossladderv1.FilmGaugeKind_FILM_GAUGE_KIND_ULTRASONIC:
		out.Kind = film.Ultrasonic
	}
	fixed, step := float64(out.Accuracy.FixedUm), float64(out.StepUm)
	replace(&fixed, m.AccuracyUm)
	replace(&out.Accuracy.Percent, m.AccuracyPct)
	replace(&step, m.ResolutionUm)
	out.Accuracy.FixedUm, out.StepUm = film.Microns(fixed), film.Microns(step)
	return out
}

func replace(value *float64, with *float64) {
	if with != nil {
		*value = *with
	}
}

func panelIn(m *glossladderv1.Panel, whole *glossladderv1.Inspection) advisor.Panel {
	out := advisor.Panel{
		ID: m.GetId(), Part: vocabulary.WordOf(m.GetPart()), Substrate: vocabulary.WordOf(m.GetSubstrate()),
		Paint:  paintIn(m.GetPaint(), whole.GetVehicle().GetPaint()),
		Film:   filmIn(m.GetFilm()),
		Gloss:  glossIn(m.GetGloss()),
		PanelC: m.PanelC, Clean: m.Clean, InSun: m.InSun, RepaintKnown: m.RepaintKnown, SensorBehind: m.SensorBehind,
		EdgeOrLine: m.EdgeOrLine, Taped: m.Taped, CuredDays: m.CuredDays, FilmTakenUm: m.FilmTakenUm,
		Defects: defectsIn(m.GetDefects()),
		Own:     ownIn(m.GetShop()),
	}
	if climate := whole.GetClimate(); out.PanelC == nil && climate != nil {
		out.PanelC = climate.PanelC
	}
	return out
}

// paintIn takes each field from the panel where it says, from the vehicle otherwise.
func paintIn(own, vehicle *glossladderv1.Paint) advisor.Paint {
	out := advisor.Paint{
		System:   first(vocabulary.WordOf(own.GetSystem()), vocabulary.WordOf(vehicle.GetSystem())),
		Softness: first(vocabulary.WordOf(own.GetSoftness()), vocabulary.WordOf(vehicle.GetSoftness())),
		Shade:    first(vocabulary.WordOf(own.GetShade()), vocabulary.WordOf(vehicle.GetShade())),
	}
	for _, paint := range []*glossladderv1.Paint{vehicle, own} {
		if paint == nil {
			continue
		}
		if paint.HazeProne != nil {
			out.HazeProne = paint.HazeProne
		}
		if paint.AgeYears != nil {
			out.AgeYears = paint.AgeYears
		}
	}
	return out
}

func first(words ...string) string {
	for _, word := range words {
		if word != "" {
			return word
		}
	}
	return ""
}

func filmIn(spots []*glossladderv1.FilmSpot) []advisor.FilmSpot {
	var out []advisor.FilmSpot
	for _, spot := range spots {
		out = append(out, advisor.FilmSpot{
			Spot: spot.GetSpot(), TotalUm: spot.GetTotalUm(), ClearUm: spot.GetClearUm(), NearEdge: spot.GetNearEdge(),
		})
	}
	return out
}

func glossIn(spots []*glossladderv1.GlossSpot) []advisor.GlossSpot {
	var out []advisor.GlossSpot
	for _, spot := range spots {
		out = append(out, advisor.GlossSpot{
			Spot: spot.GetSpot(), At20GU: spot.GetAt20Gu(), At60GU: spot.GetAt60Gu(), At85GU: spot.GetAt85Gu(), HazeHU: spot.GetHazeHu(),
		})
	}
	return out
}

func defectsIn(defects []*glossladderv1.Defect) []advisor.Defect {
	var out []advisor.Defect
	for _, defect := range defects {
		out = append(out, advisor.Defect{
			Kind: vocabulary.WordOf(defect.GetKind()), Severity: defect.Severity, CatchesNail: defect.CatchesNail,
		})
	}
	return out
}

func trialsIn(trials []*glossladderv1.Trial) []advisor.Trial {
	var out []advisor.Trial
	for _, trial := range trials {
		t := advisor.Trial{
			Step: vocabulary.WordOf(trial.GetStep()), Before: glossIn(trial.GetBefore()), After: glossIn(trial.GetAfter()),
			Left: defectsIn(trial.GetLeft()), TrailsLeft: trial.TrailsLeft,
			FilmBefore: filmIn(trial.GetFilmBefore()), FilmAfter: filmIn(trial.GetFilmAfter()),
			WipeOff: vocabulary.WordOf(trial.GetWipeOff()), PanelC: trial.PanelC, PadLoaded: trial.PadLoaded,
			Combination: combinationIn(trial.GetCombination()), Settings: settingsIn(trial.GetSettings()),
			PanelWiped: trial.PanelWiped, ColorTransfer: trial.ColorTransfer, FreshSection: trial.GetFreshSection(),
		}
		for _, change := range trial.GetChanged() {
			t.Changed = append(t.Changed, vocabulary.WordOf(change))
		}
		out = append(out, t)
	}
	return out
}

func combinationIn(m *glossladderv1.Combination) advisor.Combination {
	return advisor.Combination{
		Machine: vocabulary.WordOf(m.GetMachine()), Pad: vocabulary.WordOf(m.GetPad()), Liquid: vocabulary.WordOf(m.GetLiquid()),
		MachineID: m.GetMachineId(), PadID: m.GetPadId(), LiquidID: m.GetLiquidId(),
	}
}

func settingsIn(m *glossladderv1.Settings) advisor.UsedSettings {
	if m == nil {
		return advisor.UsedSettings{}
	}
	return advisor.UsedSettings{
		Speed: vocabulary.WordOf(m.GetSpeed()), Passes: m.Passes, OverlapPct: m.OverlapPct, ArmCmS: m.ArmCmS,
		SectionPadAreas: m.SectionPadAreas, Drops: m.Drops, CleanEvery: m.CleanEvery,
	}
}

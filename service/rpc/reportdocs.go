package rpc

import (
	"encoding/json"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/report"
	"github.com/glossladder/glossladder/service/vocabulary"
)

// reportDocuments reads the contract's messages for a report.
type reportDocuments struct{}

// Inspection reads what an inspection says beside the numbers.
func (reportDocuments) Inspection(document json.RawMessage) (*report.Inspected, error) {
	m, err := documentInto(document, &glossladderv1.Inspection{})
	if err != nil {
		return nil, err
	}
	paint, meter := m.GetVehicle().GetPaint(), m.GetInstruments().GetGlossMeter()
	out := &report.Inspected{
		Goal: vocabulary.WordOf(m.GetGoal().GetLevel()), Protection: vocabulary.WordOf(m.GetGoal().GetProtection()),
		GlossStepGU: meter.GetResolutionGu(), HazeStepHU: meter.GetResolutionHu(),
		System: vocabulary.WordOf(paint.GetSystem()), Softness: vocabulary.WordOf(paint.GetSoftness()), Shade: vocabulary.WordOf(paint.GetShade()),
		Panels: map[string]report.PanelSeen{},
	}
	if air := m.GetClimate(); air != nil {
		out.AirC, out.HumidityPct = air.AirC, air.HumidityPct
	}
	for _, panel := range m.GetPanels() {
		seen := report.PanelSeen{Part: vocabulary.WordOf(panel.GetPart()), Notes: map[string]string{}}
		for _, defect := range panel.GetDefects() {
			if defect.GetNote() != "" {
				seen.Notes[vocabulary.WordOf(defect.GetKind())] = defect.GetNote()
			}
		}
		out.Panels[panel.GetId()] = seen
	}
	return out, nil
}

// Advice reads what a recommendation says of one panel.
func (reportDocuments) Advice(document json.RawMessage, panel string) (*report.Advice, error) {
	m, err := documentInto(document, &glossladderv1.Recommendation{})
	if err != nil {
		return nil, err
	}
	said := adviceOf(m, panel)
	if said == nil {
		return nil, nil //nolint:nilnil // the recommendation does not name the panel
	}
	out := &report.Advice{
		State: vocabulary.WordOf(said.GetState()), Limit: vocabulary.WordOf(said.GetLimit()), LimitBecause: said.GetLimitReason().GetBecause(),
		LadderBecause: said.GetLadderReason().GetBecause(), AllowedSeverity: said.GetAllowedSeverity(), Cautions: reportCautions(said.GetCautions()),
	}
	for _, c := range reportCautions(m.GetCautions()) {
		if len(c.Panels) == 0 {
			c.Whole = true
			out.Cautions = append(out.Cautions, c)
		}
	}
	for _, r := range said.GetReadiness() {
		out.Readiness = append(out.Readiness, report.Readiness{Effect: vocabulary.WordOf(r.GetEffect()), Do: r.GetDo(), Because: r.GetReason().GetBecause()})
	}
	for _, d := range said.GetDefects() {
		out.Marks = append(out.Marks, report.MarkAdvice{
			Kind: vocabulary.WordOf(d.GetKind()), Severity: d.Severity, Start: vocabulary.WordOf(d.GetStart()), Because: d.GetReason().GetBecause(),
		})
	}
	for _, s := range said.GetSteps() {
		used := s.GetCombination()
		out.Settings = append(out.Settings, report.Settings{
			Step: vocabulary.WordOf(s.GetStep()), Machine: vocabulary.WordOf(used.GetMachine()),
			Pad: vocabulary.WordOf(used.GetPad()), Liquid: vocabulary.WordOf(used.GetLiquid()),
		})
	}
	reportReadings(out, said)
	return out, nil
}

// reportReadings keeps what readings said before the work.
func reportReadings(out *report.Advice, said *glossladderv1.PanelAdvice) {
	if f := said.GetFilm(); f != nil {
		out.Film = &report.FilmAdvice{
			LowestUm: f.GetLowestUm(), LowestBoundUm: f.GetLowestBoundUm(), ClearUm: f.GetClearUm(), UsableUm: f.GetUsableUm(), Signs: f.GetSigns(),
		}
	}
	if g := said.GetGloss(); g != nil {
		out.Gloss = &report.GlossAdvice{Angle: int(g.GetAngle()), CeilingGU: g.GetCeilingGu()}
	}
}

func reportCautions(all []*glossladderv1.Caution) (out []report.Caution) {
	for _, c := range all {
		out = append(out, report.Caution{
			Topic: vocabulary.WordOf(c.GetTopic()), Level: vocabulary.WordOf(c.GetLevel()), Do: c.GetDo(), Because: c.GetReason().GetBecause(), Panels: c.GetPanelIds(),
		})
	}
	return out
}

// Verdict reads what a verdict says.
func (reportDocuments) Verdict(document json.RawMessage) (*report.Verdict, error) {
	m, err := documentInto(document, &glossladderv1.Verdict{})
	if err != nil {
		return nil, err
	}
	return &report.Verdict{Because: m.GetReason().GetBecause(), Cautions: reportCautions(m.GetCautions())}, nil
}

// Trial reads the spots of a trial.
func (reportDocuments) Trial(document json.RawMessage) (before, after []history.GlossSpot, err error) {
	m, err := documentInto(document, &glossladderv1.TrialRecord{})
	if err != nil {
		return nil, nil, err
	}
	return glossKept(m.GetTrial().GetBefore()), glossKept(m.GetTrial().GetAfter()), nil
}

package rpc

import (
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/catalogue"
	"github.com/glossladder/glossladder/service/exposure"
	"github.com/glossladder/glossladder/service/plan"
	"github.com/glossladder/glossladder/service/workplan"
)

func workPlanOut(rules *Rules, p *workplan.Plan) *glossladderv1.WorkPlan {
	out := &glossladderv1.WorkPlan{
		RuleSet: p.RuleSet, WorkMin: spanOut(p.WorkMin), WaitMin: spanOut(p.WaitMin), CureMin: p.CureMin,
		Cost: costOut(rules.Shop, p.Cost), Sources: sourcesOut(p.Sources), Notes: p.Notes,
	}
	if p.Left != nil {
		out.StillMin = spanOut(p.Left.Min())
	}
	for i := range p.Panels {
		out.Panels = append(out.Panels, panelWorkOut(p, &p.Panels[i]))
	}
	for _, step := range p.Steps {
		out.Steps = append(out.Steps, stepWorkOut(step))
	}
	for _, line := range p.Lines {
		out.Lines = append(out.Lines, &glossladderv1.TimeLine{What: line.What, Minutes: spanOut(line.Min), Sources: textsOf(line.From)})
	}
	for _, m := range p.Materials {
		out.Materials = append(out.Materials, &glossladderv1.MaterialLine{
			Id: m.ID, Kind: m.Kind, Quantity: m.Quantity, Unit: m.Unit, Price: moneyOut(p.Cost.Currency, m.Price), Source: string(m.From),
		})
	}
	for _, day := range p.Days {
		out.Exposure = dayOut(day)
	}
	return out
}

func panelWorkOut(p *workplan.Plan, w *plan.PanelWork) *glossladderv1.PanelWork {
	id := w.Panel.ID
	out := &glossladderv1.PanelWork{
		PanelId: id, Ladder: word[glossladderv1.Ladder](p.Ladders[id]), AreaM2: spanOut(w.Panel.AreaM2), AreaSource: string(w.Panel.AreaFrom),
		Minutes: spanOut(w.Minutes), Takes: &glossladderv1.Removal{LowUm: w.TakesUm.Low, LikelyUm: w.TakesUm.Likely, HighUm: w.TakesUm.High},
		Proven: p.Proven(id), LeftAlone: p.LeftAlone(id),
	}
	if w.LeftUm != nil {
		out.LeftUm = spanOut(*w.LeftUm)
	}
	for i, s := range w.Steps {
		how, _ := p.Step(id, s.Step)
		advice := stepOut(how.StepAdvice)
		out.Steps = append(out.Steps, &glossladderv1.PanelStepWork{
			Step: word[glossladderv1.Step](s.Step), Sections: int32(s.Sections),
			MachineMin: spanOut(s.MachineMin), WipeMin: spanOut(s.WipeMin), CleanMin: spanOut(s.CleanMin), PathM: s.PathM,
			Combination: advice.GetCombination(), Settings: advice.GetSettings(), Sources: textsOf(s.From),
			RemovalSource: string(w.Panel.Steps[i].RemovalFrom),
		})
	}
	return out
}

func stepWorkOut(s plan.StepWork) *glossladderv1.StepWork {
	out := &glossladderv1.StepWork{
		Step: word[glossladderv1.Step](s.Step), Panels: int32(s.Panels), Sections: int32(s.Sections), Minutes: spanOut(s.Minutes),
	}
	for _, use := range s.Pads {
		out.Pads = append(out.Pads, &glossladderv1.PadUse{
			PadId: use.PadID, LiquidId: use.LiquidID, Pads: int32(use.Pads), Sections: int32(use.Sections), ChangeAt: use.ChangeAt,
		})
	}
	return out
}

func costOut(shop *catalogue.Catalogue, c plan.Cost) *glossladderv1.PlanCost {
	return &glossladderv1.PlanCost{
		Materials: moneyOut(c.Currency, c.Materials), Labour: moneySpanOut(c.Currency, c.Labour), Total: moneySpanOut(c.Currency, c.Total),
		HourlyRate: moneyOut(c.Currency, shop.HourlyRate()),
	}
}

func dayOut(day plan.Day) *glossladderv1.ExposureDay {
	out := &glossladderv1.ExposureDay{
		Days: int32(day.Days), HandsMin: day.HandsMin, Cautions: workplan.Cautions(day),
		UnknownVibration: day.UnknownVibration, UnknownNoise: day.UnknownNoise,
	}
	if v, high := day.Vibration, day.VibrationHigh; v != nil && high != nil {
		out.Vibration = &glossladderv1.VibrationExposure{
			A8Ms2: v.A8Ms2, Points: v.Points, Band: bandOut(v.Band), HighA8Ms2: high.A8Ms2, HighBand: bandOut(high.Band), Split: int32(v.Shares),
			ActionMs2: day.VibrationLimits.ActionMs2, LimitMs2: day.VibrationLimits.LimitMs2,
		}
	}
	if n := day.Noise; n != nil {
		held := day.NoiseLimits
		out.Noise = &glossladderv1.NoiseExposure{
			DailyDba: max(0, n.LepdDba), Band: noiseBandOut(n), LowerActionDba: held.LowerActionDba, UpperActionDba: held.UpperActionDba,
			LimitDba: held.LimitDba, ExchangeDb: held.ExchangeDB,
		}
	}
	return out
}

func bandOut(b exposure.Band) glossladderv1.ExposureBand {
	switch b {
	case exposure.Below:
		return glossladderv1.ExposureBand_EXPOSURE_BAND_BELOW_ACTION
	case exposure.Action:
		return glossladderv1.ExposureBand_EXPOSURE_BAND_ACTION
	case exposure.OverLimit:
		return glossladderv1.ExposureBand_EXPOSURE_BAND_OVER_LIMIT
	}
	return glossladderv1.ExposureBand_EXPOSURE_BAND_UNSPECIFIED
}

func noiseBandOut(n *exposure.NoiseDay) glossladderv1.NoiseBand {
	switch {
	case n.OverLimit:
		return glossladderv1.NoiseBand_NOISE_BAND_OVER_LIMIT
	case n.UpperAction:
		return glossladderv1.NoiseBand_NOISE_BAND_UPPER_ACTION
	case n.LowerAction:
		return glossladderv1.NoiseBand_NOISE_BAND_LOWER_ACTION
	}
	return glossladderv1.NoiseBand_NOISE_BAND_BELOW_LOWER_ACTION
}

func estimateOut(e workplan.Estimate) *glossladderv1.Estimate {
	out := &glossladderv1.Estimate{
		RuleSet: e.RuleSet, Stage: word[glossladderv1.EstimateStage](string(e.Stage)), WorkMin: spanOut(e.WorkMin),
		Total: moneySpanOut(e.Currency, e.Total), Materials: moneyOut(e.Currency, e.Materials), Sources: sourcesOut(e.Sources),
		Narrows: e.Narrows, LadderDoubtMin: e.LadderDoubtMin,
	}
	for _, p := range e.Panels {
		out.Panels = append(out.Panels, &glossladderv1.EstimatedPanel{
			PanelId: p.Panel, Part: word[glossladderv1.PanelPart](p.Part), Pieces: int32(p.Pieces), Low: word[glossladderv1.Ladder](p.Low),
			Likely: word[glossladderv1.Ladder](p.Likely), High: word[glossladderv1.Ladder](p.High), Source: string(p.From),
		})
	}
	return out
}

func fitOut(rules *Rules, f *workplan.Fit) *glossladderv1.FitHoursResponse {
	out := &glossladderv1.FitHoursResponse{
		Plan: workPlanOut(rules, &f.Plan), ResultPct: f.ResultPct, MostResultPct: f.MostPct, FullWorkMin: f.Full.WorkMin.Likely,
		FullTotal: moneySpanOut(f.Full.Cost.Currency, f.Full.Cost.Total),
	}
	for _, p := range f.Panels {
		out.Panels = append(out.Panels, &glossladderv1.FitPanel{
			PanelId: p.Panel, Ladder: word[glossladderv1.Ladder](p.Ladder), Full: word[glossladderv1.Ladder](p.Full), Seen: float64(p.Seen),
			Grades: p.Grades, FullGrades: p.FullGrades, SavesMin: p.SavesMin, Leaves: p.Leaves,
		})
	}
	for _, point := range f.Curve {
		out.Curve = append(out.Curve, &glossladderv1.FitPoint{WorkMin: point.WorkMin, ResultPct: point.ResultPct})
	}
	return out
}

func spanOut(s plan.Span) *glossladderv1.Span {
	return &glossladderv1.Span{Low: s.Low, Likely: s.Likely, High: s.High}
}

func moneySpanOut(currency catalogue.Currency, s plan.MoneySpan) *glossladderv1.MoneySpan {
	return &glossladderv1.MoneySpan{Low: moneyOut(currency, s.Low), Likely: moneyOut(currency, s.Likely), High: moneyOut(currency, s.High)}
}

func sourcesOut(sources []workplan.Source) []*glossladderv1.SourceInfo {
	var out []*glossladderv1.SourceInfo
	for _, s := range sources {
		info := &glossladderv1.SourceInfo{Text: string(s.Text)}
		if s.Reason != nil {
			info.Reason = reasonOut(*s.Reason)
		}
		out = append(out, info)
	}
	return out
}

func textsOf(sources []plan.Source) []string {
	var out []string
	for _, s := range sources {
		out = append(out, string(s))
	}
	return out
}

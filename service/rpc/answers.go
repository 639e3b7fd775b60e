package rpc

import (
	"google.golang.org/protobuf/reflect/protoreflect"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/gloss"
	"github.com/glossladder/glossladder/service/vocabulary"
)

// word gives the enum value of a rule file's word. Words come from the contract itself, so an unknown one cannot occur.
func word[E interface {
	~int32
	protoreflect.Enum
}](short string) E {
	value, _ := vocabulary.ValueOf[E](short)
	return value
}

func recommendationOut(r advisor.Recommendation) *glossladderv1.Recommendation {
	out := &glossladderv1.Recommendation{RuleSet: r.RuleSet, Cautions: cautionsOut(r.Cautions), MeasureNext: wantedOut(r.MeasureNext)}
	for i := range r.Panels {
		out.Panels = append(out.Panels, panelOut(&r.Panels[i]))
	}
	for _, group := range r.Groups {
		out.Groups = append(out.Groups, &glossladderv1.PanelGroup{
			PanelIds: group.Panels, TestFirst: group.TestFirst, Because: group.Because, Ladder: word[glossladderv1.Ladder](group.Ladder),
		})
	}
	return out
}

func panelOut(p *advisor.PanelAdvice) *glossladderv1.PanelAdvice {
	out := &glossladderv1.PanelAdvice{
		PanelId: p.Panel, State: word[glossladderv1.PanelState](p.State), Headline: p.Headline,
		Start: word[glossladderv1.Step](p.Start), Limit: word[glossladderv1.Step](p.Limit), LimitReason: reasonOut(p.LimitReason),
		Ladder: word[glossladderv1.Ladder](p.Ladder), LadderReason: reasonOut(p.LadderReason),
		LeftOnPurpose: p.LeftOnPurpose, Cautions: cautionsOut(p.Cautions), MeasureNext: wantedOut(p.MeasureNext),
		Film: filmOut(p.Film), Gloss: glossOut(p.Gloss), DewPointC: p.DewPointC, AllowedSeverity: p.AllowedSeverity,
	}
	for _, r := range p.Readiness {
		out.Readiness = append(out.Readiness, &glossladderv1.Readiness{
			Effect: word[glossladderv1.ReadinessEffect](r.Effect), Do: r.Do, Reason: reasonOut(r.Reason),
		})
	}
	for _, d := range p.Defects {
		out.Defects = append(out.Defects, &glossladderv1.DefectAdvice{
			Kind: word[glossladderv1.DefectKind](d.Kind), Severity: d.Severity, Start: word[glossladderv1.Step](d.Start), Reason: reasonOut(d.Reason),
		})
	}
	for _, step := range p.Steps {
		out.Steps = append(out.Steps, stepOut(step))
	}
	return out
}

func stepOut(s advisor.StepAdvice) *glossladderv1.StepAdvice {
	return &glossladderv1.StepAdvice{
		Step: word[glossladderv1.Step](s.Step),
		Combination: &glossladderv1.Combination{
			Machine: word[glossladderv1.MachineClass](s.Combination.Machine), Pad: word[glossladderv1.PadClass](s.Combination.Pad),
			Liquid:    word[glossladderv1.LiquidClass](s.Combination.Liquid),
			MachineId: s.Combination.MachineID, PadId: s.Combination.PadID, LiquidId: s.Combination.LiquidID,
		},
		Settings: &glossladderv1.Settings{
			Speed: word[glossladderv1.SpeedBand](s.Settings.Speed), Passes: &s.Settings.Passes, OverlapPct: &s.Settings.OverlapPct,
			ArmCmS: &s.Settings.ArmCmS, SectionPadAreas: &s.Settings.SectionPadAreas, Drops: &s.Settings.Drops, CleanEvery: &s.Settings.CleanEvery,
		},
		Removal: &glossladderv1.Removal{
			LowUm: float64(s.Removal.LowUm), LikelyUm: float64(s.Removal.LikelyUm), HighUm: float64(s.Removal.HighUm),
		},
		UsableAfterUm: s.UsableAfterUm, Reason: reasonOut(s.Reason), RemovalReason: reasonOut(s.RemovalReason),
	}
}

func reasonOut(r advisor.Reason) *glossladderv1.Reason {
	if r.Table == "" {
		return nil
	}
	out := &glossladderv1.Reason{
		Table: r.Table, RuleId: r.Rule, Because: r.Because, File: r.File, Line: int32(r.Line), Sentence: r.Sentence,
	}
	for _, c := range r.Conditions {
		out.Conditions = append(out.Conditions, &glossladderv1.Condition{
			Fact: c.Fact, Label: c.Label, Value: c.Value, Wants: c.Wants, Margin: c.Margin, Unit: c.Unit,
		})
	}
	return out
}

func cautionsOut(cautions []advisor.Caution) []*glossladderv1.Caution {
	var out []*glossladderv1.Caution
	for _, c := range cautions {
		out = append(out, &glossladderv1.Caution{
			Topic: word[glossladderv1.CautionTopic](c.Topic), Level: word[glossladderv1.CautionLevel](c.Level),
			Do: c.Do, Reason: reasonOut(c.Reason), PanelIds: c.Panels,
		})
	}
	return out
}

func wantedOut(wanted []advisor.Wanted) []*glossladderv1.Wanted {
	var out []*glossladderv1.Wanted
	for _, w := range wanted {
		out = append(out, &glossladderv1.Wanted{
			Learn: w.Learn, Facts: w.Facts, CouldChange: w.CouldChange, Certain: w.Certain, PanelIds: w.Panels,
			CouldLeadTo: w.CouldLeadTo,
		})
	}
	return out
}

func filmOut(f *advisor.FilmFindings) *glossladderv1.FilmFindings {
	if f == nil {
		return nil
	}
	out := &glossladderv1.FilmFindings{
		LowestUm: float64(f.Measured.LowestUm), LowestBoundUm: float64(f.Measured.LowestBoundUm),
		ClearUm: float64(f.Budget.ClearUm), UsableUm: float64(f.Budget.UsableUm), UsableBecause: f.Because, Policy: reasonOut(f.Policy),
	}
	for _, spot := range f.Measured.Spots {
		out.Spots = append(out.Spots, &glossladderv1.FilmSpotMean{
			Spot: spot.Name, MeanUm: float64(spot.MeanUm), LowUm: float64(spot.LowUm), Readings: int32(spot.Readings),
		})
	}
	for _, sign := range f.Signs {
		out.Signs = append(out.Signs, sign.String())
	}
	return out
}

func glossOut(g *advisor.GlossFindings) *glossladderv1.GlossFindings {
	if g == nil {
		return nil
	}
	return &glossladderv1.GlossFindings{
		Angle: int32(g.Angle), MeanGu: g.MeanGU, PlusMinusGu: g.PlusMinusGU, CeilingGu: g.CeilingGU, HeadroomGu: g.HeadroomGU,
		HazeHu: g.HazeHU, HazeIsIndex: g.HazeIsIndex,
	}
}

func verdictOut(v advisor.Verdict) *glossladderv1.Verdict {
	out := &glossladderv1.Verdict{
		RuleSet: v.RuleSet, PanelId: v.Panel, Kind: word[glossladderv1.VerdictKind](v.Kind), Change: word[glossladderv1.Change](v.Change),
		Headline: v.Headline, Reason: reasonOut(v.Reason), Gloss: changeOut(v.Gloss), Haze: changeOut(v.Haze),
		SeverityLeft: v.SeverityLeft, SeverityAllowed: &v.AllowedSeverity, Ladder: word[glossladderv1.Ladder](v.Ladder), Proven: v.Proven,
		Cautions: cautionsOut(v.Cautions), MeasureNext: wantedOut(v.MeasureNext),
	}
	for _, step := range v.Kept {
		out.Kept = append(out.Kept, word[glossladderv1.Step](step))
	}
	for _, kind := range v.Earlier {
		out.Earlier = append(out.Earlier, word[glossladderv1.VerdictKind](kind))
	}
	if f := v.Film; f != nil {
		out.Film = &glossladderv1.FilmTaken{
			TakenUm: f.TakenUm, LowUm: f.LowUm, HighUm: f.HighUm, Measured: f.Measured, UsableLeftUm: f.UsableLeftUm, Note: f.Note,
		}
	}
	if n := v.Next; n != nil {
		out.Next = &glossladderv1.NextMove{
			Step: word[glossladderv1.Step](n.Step), Change: word[glossladderv1.Change](n.Change), Advice: stepOut(n.Advice), Do: n.Do,
		}
	}
	return out
}

func changeOut(c *advisor.Change) *glossladderv1.MeasuredChange {
	if c == nil {
		return nil
	}
	degrees, _ := c.Scale.Degrees()
	out := &glossladderv1.MeasuredChange{
		Angle: int32(degrees), Unit: unitOfScale(c.Scale), Mean: c.Gain.Mean, Low: c.Gain.Low, High: c.Gain.High,
		ConfidencePct: 100 * c.Gain.Confidence, Worth: c.Worth, Judgement: c.Judgement, Method: methodOut(c.Gain.Method),
		Compared: int32(len(c.Gain.Spots)), Note: c.Note, Before: c.Before, After: c.After,
	}
	if c.ReadingsNeeded > 0 {
		out.ReadingsNeeded = ptr(int32(c.ReadingsNeeded))
	}
	if c.SpotsNeeded > 0 {
		out.SpotsNeeded = ptr(int32(c.SpotsNeeded))
	}
	return out
}

// unitOfScale is the unit that the contract shows. The haze index is a difference of two glosses, and is told in haze units like
// the meter's own haze.
func unitOfScale(scale gloss.Scale) string {
	if scale == gloss.HazeIndex {
		return gloss.Haze.Unit()
	}
	return scale.Unit()
}

func methodOut(m gloss.Method) glossladderv1.ChangeMethod {
	switch m {
	case 0:
		return glossladderv1.ChangeMethod_CHANGE_METHOD_UNSPECIFIED
	case gloss.PairedSpots:
		return glossladderv1.ChangeMethod_CHANGE_METHOD_PAIRED
	}
	return glossladderv1.ChangeMethod_CHANGE_METHOD_WELCH
}

func ptr[T any](value T) *T { return &value }

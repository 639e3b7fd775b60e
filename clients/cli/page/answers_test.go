package page_test

import (
	"google.golang.org/protobuf/proto"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// The answers here are made by hand, so that what a page looks like does not hang on what rules say. They are invented.

func reason(table, rule, because, sentence string) *glossladderv1.Reason {
	return &glossladderv1.Reason{Table: table, RuleId: rule, Because: because, File: table + ".yaml", Line: 12, Sentence: sentence}
}

func polishing(left *float64) *glossladderv1.StepAdvice {
	return &glossladderv1.StepAdvice{
		Step: glossladderv1.Step_STEP_POLISH,
		Combination: &glossladderv1.Combination{
			Machine: glossladderv1.MachineClass_MACHINE_CLASS_SHORT_ORBITAL, MachineId: "orbital-of-the-shop",
			Pad: glossladderv1.PadClass_PAD_CLASS_POLISHING_FOAM, Liquid: glossladderv1.LiquidClass_LIQUID_CLASS_POLISHING_LIQUID,
		},
		Settings: &glossladderv1.Settings{
			Speed: glossladderv1.SpeedBand_SPEED_BAND_MID, Passes: proto.Float64(6), OverlapPct: proto.Float64(50), ArmCmS: proto.Float64(2.5),
			SectionPadAreas: proto.Float64(6), Drops: proto.Float64(3), CleanEvery: proto.Float64(1),
		},
		Removal: &glossladderv1.Removal{LowUm: 0.5, LikelyUm: 1, HighUm: 1.5}, UsableAfterUm: left,
		Reason:        reason("settings", "polish-as-usual", "A firm pad at working speed", ""),
		RemovalReason: reason("removal", "polish", "A polish takes about a micrometre.", ""),
	}
}

func wholeCar() *glossladderv1.Recommendation {
	bonnet := &glossladderv1.PanelAdvice{
		PanelId: "bonnet", State: glossladderv1.PanelState_PANEL_STATE_PREPARE, Headline: "First tape the edges. Then prove a polish on a test spot.",
		Readiness: []*glossladderv1.Readiness{{
			Effect: glossladderv1.ReadinessEffect_READINESS_EFFECT_PREPARE, Do: "Tape the edges.",
			Reason: reason("readiness", "edges-not-taped", "Paint is thinnest where a pad presses most.", "taped edges is no"),
		}},
		Defects: []*glossladderv1.DefectAdvice{
			{Kind: glossladderv1.DefectKind_DEFECT_KIND_WASH_MARKS, Severity: proto.Float64(2.5), Start: glossladderv1.Step_STEP_POLISH, Reason: reason("start", "moderate-marks", "Moderate marks need a polish.", "severity is 2.5, at least 2")},
			{Kind: glossladderv1.DefectKind_DEFECT_KIND_CHIPS, Start: glossladderv1.Step_STEP_NONE, Reason: &glossladderv1.Reason{Table: "start"}},
		},
		Start: glossladderv1.Step_STEP_POLISH, Limit: glossladderv1.Step_STEP_CUT, LimitReason: reason("limit", "nothing-against", "Nothing speaks against a cut.", ""),
		Ladder: glossladderv1.Ladder_LADDER_POLISH_FINISH, LadderReason: reason("ladder", "polish-dark", "Dark paint shows the last haze.", "shade is dark"),
		Steps: []*glossladderv1.StepAdvice{polishing(proto.Float64(6.7))}, LeftOnPurpose: []string{"chips: not for polishing"},
		Cautions: []*glossladderv1.Caution{caution(glossladderv1.CautionLevel_CAUTION_LEVEL_CARE, glossladderv1.CautionTopic_CAUTION_TOPIC_EDGES, "Stay a pad's edge away from body lines")},
		Film: &glossladderv1.FilmFindings{
			Spots:    []*glossladderv1.FilmSpotMean{{Spot: "centre", MeanUm: 118.33, LowUm: 116, Readings: 3}, {Spot: "left", MeanUm: 120, LowUm: 118, Readings: 1}},
			LowestUm: 118.33, LowestBoundUm: 116, ClearUm: 38.2, UsableUm: 8.2, UsableBecause: "38.2 µm of clear, 30 µm has to stay",
			Signs: []string{"repaint or factory rework possible"}, Policy: reason("policy", "clear-coat", "Keep at least 30 µm of clear coat.", ""),
		},
		Gloss:           &glossladderv1.GlossFindings{Angle: 20, MeanGu: 72, PlusMinusGu: proto.Float64(1.62), CeilingGu: 82.04, HeadroomGu: 10.04, HazeHu: proto.Float64(12.2), HazeIsIndex: true},
		DewPointC:       proto.Float64(9.6),
		AllowedSeverity: 1,
	}
	roof := &glossladderv1.PanelAdvice{
		PanelId: "roof", State: glossladderv1.PanelState_PANEL_STATE_READY, Headline: "Prove a polish on a test spot.",
		Start: glossladderv1.Step_STEP_POLISH, Limit: glossladderv1.Step_STEP_POLISH, LimitReason: reason("limit", "film-unknown", "Nobody measured the film.", ""),
		Ladder: glossladderv1.Ladder_LADDER_POLISH_FINISH, LadderReason: bonnet.GetLadderReason(),
		Steps: []*glossladderv1.StepAdvice{polishing(nil)}, AllowedSeverity: 1,
	}
	wing := &glossladderv1.PanelAdvice{
		PanelId: "wing-rear-left", State: glossladderv1.PanelState_PANEL_STATE_STOP, Headline: "No machine step on this panel: matte paint turns shiny.",
		Start: glossladderv1.Step_STEP_FINISH, Limit: glossladderv1.Step_STEP_NONE, LimitReason: reason("limit", "matte", "Matte paint turns shiny in patches.", "paint system is matte"),
		Ladder: glossladderv1.Ladder_LADDER_NONE, LadderReason: reason("ladder", "none", "No step is allowed.", ""),
		Gloss: &glossladderv1.GlossFindings{Angle: 85, MeanGu: 8.44, CeilingGu: 98, HeadroomGu: 89.6, HazeHu: proto.Float64(24), HazeIsIndex: false},
	}
	return &glossladderv1.Recommendation{
		RuleSet: "3fa8c1d2e0b14c5d", Panels: []*glossladderv1.PanelAdvice{bonnet, roof, wing},
		Groups: []*glossladderv1.PanelGroup{{PanelIds: []string{"bonnet", "roof"}, TestFirst: "bonnet", Because: "it has the most film to spare", Ladder: glossladderv1.Ladder_LADDER_POLISH_FINISH}},
		Cautions: []*glossladderv1.Caution{
			caution(glossladderv1.CautionLevel_CAUTION_LEVEL_DANGER, glossladderv1.CautionTopic_CAUTION_TOPIC_DUST, "Wear the respirator that the safety data sheet names."),
			caution(glossladderv1.CautionLevel_CAUTION_LEVEL_NOTE, glossladderv1.CautionTopic_CAUTION_TOPIC_PAD, "Prime the pad."),
		},
		MeasureNext: []*glossladderv1.Wanted{
			{Learn: "measure film thickness", CouldChange: "the strongest step allowed could become cut", Certain: true, PanelIds: []string{"roof"}},
			{Learn: "ask when the panel was painted", CouldChange: "work may have to wait", PanelIds: []string{"bonnet", "roof"}},
		},
	}
}

func caution(level glossladderv1.CautionLevel, topic glossladderv1.CautionTopic, do string) *glossladderv1.Caution {
	return &glossladderv1.Caution{Level: level, Topic: topic, Do: do, Reason: reason("cautions", "watch-it", "It goes wrong quickly.", "")}
}

// notSettled is a second trial whose readings cannot tell.
func notSettled() *glossladderv1.Verdict {
	return &glossladderv1.Verdict{
		RuleSet: "3fa8c1d2e0b14c5d", PanelId: "bonnet", Kind: glossladderv1.VerdictKind_VERDICT_KIND_REPEAT, Change: glossladderv1.Change_CHANGE_MORE_READINGS,
		Headline: "Repeat: read again.", Reason: reason("verdict", "cannot-tell", "The gain is inside what the meter scatters by itself.", "gloss gain is not conclusive"),
		Gloss: &glossladderv1.MeasuredChange{
			Angle: 20, Unit: "GU", Mean: 1.26, Low: -0.9, High: 3.42, ConfidencePct: 95, Worth: 2, Judgement: "not-conclusive",
			Method: glossladderv1.ChangeMethod_CHANGE_METHOD_PAIRED, Compared: 3, ReadingsNeeded: proto.Int32(7), SpotsNeeded: proto.Int32(5), Before: 72, After: 73.26,
		},
		Haze: &glossladderv1.MeasuredChange{
			Unit: "HU", Mean: 3, Low: 2.5, High: 3.5, ConfidencePct: 95, Worth: 2, Judgement: "worse",
			Method: glossladderv1.ChangeMethod_CHANGE_METHOD_WELCH, Compared: 1, Note: "only one spot has both angles", Before: 12, After: 15,
		},
		Film:         &glossladderv1.FilmTaken{TakenUm: 1, LowUm: 0.5, HighUm: 1.5, UsableLeftUm: 6.7, Note: "predicted"},
		SeverityLeft: proto.Float64(1.5), SeverityAllowed: proto.Float64(1), Kept: []glossladderv1.Step{glossladderv1.Step_STEP_POLISH},
		Ladder: glossladderv1.Ladder_LADDER_POLISH, Earlier: []glossladderv1.VerdictKind{glossladderv1.VerdictKind_VERDICT_KIND_REFINE},
		Next: &glossladderv1.NextMove{
			Step: glossladderv1.Step_STEP_POLISH, Change: glossladderv1.Change_CHANGE_MORE_READINGS, Do: "read the same spots again", Advice: polishing(proto.Float64(-0.4)),
		},
		Cautions: []*glossladderv1.Caution{caution(glossladderv1.CautionLevel_CAUTION_LEVEL_DANGER, glossladderv1.CautionTopic_CAUTION_TOPIC_FILM, "Look at the pad for colour.")},
	}
}

func someFacts() *glossladderv1.ListFactsResponse {
	return &glossladderv1.ListFactsResponse{
		RuleSet: "3fa8c1d2e0b14c5d",
		Facts: []*glossladderv1.FactInfo{
			{Name: "paint.softness", Label: "softness", Meaning: "How readily the paint marks.", Kind: glossladderv1.ValueKind_VALUE_KIND_WORD, Words: []string{"soft", "hard"}, Ordered: true},
			{Name: "paint.haze_prone", Label: "haze-prone paint", Meaning: "It dulls.", Kind: glossladderv1.ValueKind_VALUE_KIND_FLAG},
			{Name: "defect.kind", Label: "defect", Meaning: "The kind of mark.", Kind: glossladderv1.ValueKind_VALUE_KIND_WORD, Words: []string{"chips", "haze"}},
			{Name: "film.usable_um", Label: "usable film", Meaning: "What may still go.", Kind: glossladderv1.ValueKind_VALUE_KIND_NUMBER, Unit: "µm", Min: proto.Float64(0), Max: proto.Float64(500), Step: proto.Float64(0.1)},
		},
		Tables: []*glossladderv1.TableInfo{{
			Name: "start", Meaning: "The mildest step worth trying.", Hit: glossladderv1.HitPolicy_HIT_POLICY_PRIORITY, Rules: 1,
			Fields: []*glossladderv1.FactInfo{{Name: "step", Meaning: "The step.", Kind: glossladderv1.ValueKind_VALUE_KIND_WORD, Words: []string{"none", "finish"}, Ordered: true}},
		}},
	}
}

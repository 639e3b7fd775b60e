package page_test

import (
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

func some[T any](v T) *T { return &v }

// learned is an invented answer to what usually works on soft, dark paint with marks of severity 3.
func learned() (*glossladderv1.GetLessonsRequest, *glossladderv1.GetLessonsResponse) {
	estimate := func(n int32, mean, low, high, own, usual, shrunk float64) *glossladderv1.LessonEstimate {
		return &glossladderv1.LessonEstimate{Records: n, Mean: mean, Low: low, High: high, Own: &own, Usual: usual, ShrunkPct: &shrunk}
	}
	none := func(mean, low, high, usual float64) *glossladderv1.LessonEstimate {
		return &glossladderv1.LessonEstimate{Mean: mean, Low: low, High: high, Usual: usual}
	}
	class := func(step glossladderv1.Step) *glossladderv1.Lesson {
		return &glossladderv1.Lesson{
			Step: step, Softness: glossladderv1.Softness_SOFTNESS_SOFT, Shade: glossladderv1.Shade_SHADE_DARK, Severities: "3 to 3.5",
			Defect: glossladderv1.DefectKind_DEFECT_KIND_WASH_MARKS,
		}
	}
	finish, polish := class(glossladderv1.Step_STEP_FINISH), class(glossladderv1.Step_STEP_POLISH)
	finish.SuccessPct, finish.RemovalUm, finish.TrialMinutes = estimate(12, 36, 19, 55, 33.3, 30, 12), none(0.3, 0.1, 0.5, 0.3), estimate(12, 5.8, 5.2, 6.4, 5.9, 5, 22)
	finish.Gains = []*glossladderv1.GainLesson{{Angle: 20, GainGu: estimate(11, 5.1, 4.2, 6, 5, 5.5, 9)}}
	finish.WorkMinutes = &glossladderv1.LessonEstimate{Records: 6, Mean: 3.9, Low: 3.4, High: 4.4, Own: some(3.9)}
	polish.SuccessPct, polish.RemovalUm, polish.TrialMinutes = estimate(8, 88, 72, 98, 100, 70, 60), estimate(5, 1.1, 0.9, 1.3, 1.1, 1.2, 30), none(6.4, 4, 8.8, 6)
	return &glossladderv1.GetLessonsRequest{Softness: polish.GetSoftness(), Shade: polish.GetShade(), Severity: some(3.0)},
		&glossladderv1.GetLessonsResponse{
			Jobs: 41, ConfidencePct: 90, Lessons: []*glossladderv1.Lesson{finish, polish},
			Proven: []*glossladderv1.ProvenStart{
				{Step: glossladderv1.Step_STEP_FINISH, Panels: 4}, {Step: glossladderv1.Step_STEP_POLISH, Panels: 8}, {Step: glossladderv1.Step_STEP_CUT},
			},
		}
}

// replayed is an invented report of an edited set.
func replayed() *glossladderv1.ReplayReport {
	tally := &glossladderv1.ReplayTally{
		Panels: 230, Starts: 15, Limits: 2, Ladders: 16, Cautions: 1, Verdicts: 3, ForNew: 9, ForOld: 2, ForNeither: 1, Open: 5,
		TrialsSaved: 11, TrialsTimed: 9, MinutesSaved: 62.4, FilmSavedUm: -2.4,
	}
	at := []*glossladderv1.PanelOnRecord{{Decision: "jobs/grey-saloon/events/3", PanelId: "bonnet"}}
	return &glossladderv1.ReplayReport{
		RuleSet: "8d2df1803ba1", Decisions: 180, Panels: 230, Advice: 120, Verdicts: 110, RuleSets: 3, All: tally,
		Classes: []*glossladderv1.ReplayClass{
			{Softness: glossladderv1.Softness_SOFTNESS_MEDIUM, Severities: "1 to 1.5", Defect: glossladderv1.DefectKind_DEFECT_KIND_WASH_MARKS, Tally: tally},
			{Severities: "not graded", Defect: glossladderv1.DefectKind_DEFECT_KIND_HAZE, Tally: &glossladderv1.ReplayTally{Panels: 4, Limits: 1}},
		},
		Moves: []*glossladderv1.AnswerMove{
			{Table: "start", Before: "finish", After: "polish", Panels: 15, Examples: at},
			{Table: "ladder", Before: "finish", After: "polish-finish", Panels: 15, Examples: at},
			{Table: "verdict", Before: "adjust", Panels: 3, Examples: at},
			{Table: "cautions", Panels: 1},
		},
		Unfollowed: []*glossladderv1.UnfollowedField{{Field: "confidence_pct", Panels: 230}}, UnknownSets: 12, StrangeFacts: 1,
		Limits: []string{"The past went by the old answers.", "Many edits tried on one record find one that looks good by chance."},
	}
}

// hinted is an invented list of hints.
func hinted() *glossladderv1.ListRuleHintsResponse {
	return &glossladderv1.ListRuleHintsResponse{
		RuleSet: "8d2df1803ba1", Limits: []string{"Only bounds of the start table are tried."},
		Hints: []*glossladderv1.RuleHint{
			{
				Table: "start", RuleId: "moderate-wash-marks", File: "start.yaml", Line: 106, Before: "defect.severity >= 2", After: "defect.severity >= 1.5",
				Panels: 13, ForChange: 11, Against: 1, Open: 1, SurelyPct: 99.8, TrialsSaved: 11, TrialsTimed: 11, MinutesSaved: 70.5, FilmSavedUm: -1,
				Examples: []*glossladderv1.PanelOnRecord{{Decision: "jobs/grey-saloon/events/3", PanelId: "bonnet"}},
				Effects: []*glossladderv1.RuleEffect{
					{Before: "step: finish", After: "step: polish", Where: []string{"softness medium", "severity 1.5", "panels on record for a finish at most 11, or not known"}},
					{Before: "step: finish", After: "step: polish", Where: []string{"softness medium", "severity 1.5", "chance of a finish, low end at most 69 %, or not known"}},
				},
			},
			{
				Table: "start", Let: "must_go", File: "start.yaml", Line: 29, Before: "defect.severity > 3", Panels: 8, ForChange: 8, SurelyPct: 99.8, TrialsSaved: -2, FilmSavedUm: 6.4,
				Effects: []*glossladderv1.RuleEffect{
					{Before: "step: polish", After: "step: finish", Where: []string{"goal freshen"}}, {Before: "step: cut", After: "step: finish", Where: []string{"goal freshen"}},
				},
				MoreEffects: 3,
			},
		},
	}
}

// toldAgain is an invented decision told again.
func toldAgain() *glossladderv1.ExplainDecisionResponse {
	return &glossladderv1.ExplainDecisionResponse{
		RuleSet: "8d2df1803ba1",
		Questions: []*glossladderv1.QuestionExplained{
			{
				PanelId: "bonnet", About: "finish", Table: "removal", Agrees: true, Recorded: []*glossladderv1.TableAnswer{{Table: "removal", RuleId: "finish"}},
				Results: []string{"low_um: 0 µm, likely_um: 0.2 µm, high_um: 0.5 µm"},
				Reasons: []*glossladderv1.Reason{{RuleId: "finish", File: "removal.yaml", Line: 14, Because: "A finish takes next to nothing.", Sentence: "step is finish"}},
			},
			{
				PanelId: "bonnet", About: "wash-marks 2", Table: "start", Recorded: []*glossladderv1.TableAnswer{{Table: "start", RuleId: "soft-paint-starts-mild", Answer: "finish"}},
				Reasons:      []*glossladderv1.Reason{{RuleId: "moderate-wash-marks", File: "start.yaml", Line: 106, Because: "These need a polish.", Sentence: "severity is 2"}},
				NearMisses:   []*glossladderv1.NearMiss{{RuleId: "heavy-wash-marks-cut", File: "start.yaml", Line: 136, Failed: "severity is 2 and must be at least 4 (2 short)"}},
				StrangeFacts: []string{"paint.lustre"},
			},
		},
	}
}

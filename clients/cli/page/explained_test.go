package page_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/proto"

	"github.com/glossladder/glossladder/clients/cli/page"
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// explained is an explanation made by hand, with one of everything. It is invented.
func explained() *glossladderv1.Explanation {
	soft := &glossladderv1.AnswerChange{
		Fact: "paint.softness", Label: "softness", Now: "soft", Range: "hard or harder", Nearest: "hard", Answer: "polish", RuleId: "hard-marks",
		Because: "Hard paint holds on to its marks.", Supposed: "if the paint were hard or harder instead of soft", Would: "you would start with a polish",
		Sentence: "This decided it: if the paint were hard or harder instead of soft, you would start with a polish",
	}
	film := &glossladderv1.AnswerChange{
		Fact: "film.lowest_um", Label: "lowest film reading", Now: "118.3 µm", Range: "at most 117.2 µm", Nearest: "117.2 µm", To: proto.Float64(117.2),
		Answer: "polish", RuleId: "no-film-for-cut", Because: "A cut would take too much.", Away: proto.Float64(1.1), Unit: "µm", Borderline: true,
		With: []string{"film.usable_um"}, Class: glossladderv1.FactClass_FACT_CLASS_MEASURED,
		Supposed: "if the lowest film reading were at most 117.2 µm instead of 118.3 µm", Would: "nothing stronger than a polish would be allowed",
		Sentence: "Borderline, measure again before you decide: if the lowest film reading were at most 117.2 µm instead of 118.3 µm, nothing stronger than a polish would be allowed",
	}
	start := reason("start", "soft-marks", "Soft paint corrects with little.", "softness is soft")
	start.Conditions = []*glossladderv1.Condition{
		{Fact: "paint.softness", Label: "softness", Value: "soft", Wants: "at most soft"},
		{Fact: "defect.severity", Label: "severity", Value: "2", Wants: "at least 0.5", Margin: proto.Float64(1.5)},
	}
	return &glossladderv1.Explanation{
		PanelId: "bonnet", Headline: "Prove a finish on a test spot.", RuleSet: "3fa8c1d2e0b14c5d",
		Decisions: []*glossladderv1.DecisionExplanation{
			{Table: "readiness", Answer: "note", Says: "Work may begin", Why: "Work may begin", Outcome: glossladderv1.DecisionOutcome_DECISION_OUTCOME_ANSWERED},
			{
				Table: "start", About: "wash marks of severity 2", Answer: "finish", Says: "Start with a finish", Why: "Start with a finish, because the paint is soft",
				Reason: start, Changes: []*glossladderv1.AnswerChange{soft}, Outcome: glossladderv1.DecisionOutcome_DECISION_OUTCOME_ANSWERED,
				WhyNot: &glossladderv1.WhyNot{
					Step: glossladderv1.Step_STEP_CUT, RuleId: "heavy-marks", File: "start.yaml", Line: 30, Failed: []string{"the severity would have to be at least 4 and is 2"},
					EvenThen: "too-soft", Sentence: "for a cut, the severity would have to be at least 4 and is 2; and even then this comes first: soft paint bears no cut (too-soft)",
				},
				NearMisses: []*glossladderv1.NearMiss{
					{RuleId: "clear-marks", File: "start.yaml", Line: 20, Answer: "polish", Failed: "the severity would have to be at least 3 and is 2 (1 short)", Fact: "defect.severity", By: proto.Float64(1)},
					{RuleId: "chips", File: "start.yaml", Line: 40, Answer: "none", Failed: "the kind of mark would have to be chips and is wash marks", Fact: "defect.kind"},
				},
			},
			{
				Table: "limit", Answer: "cut", Says: "A cut is allowed", Why: "A cut is allowed", Reason: reason("limit", "nothing-against", "Nothing speaks against it.", ""),
				Changes: []*glossladderv1.AnswerChange{film}, Borderline: true, Outcome: glossladderv1.DecisionOutcome_DECISION_OUTCOME_ANSWERED,
			},
			{
				Table: "ladder", Answer: "polish-finish", Says: "A polish, then a finish", Why: "A polish, then a finish, because the colour is dark",
				Reason: reason("ladder", "dark", "Dark colours show the last haze.", ""), Changes: []*glossladderv1.AnswerChange{soft, film},
			},
			{Table: "cautions", Says: "One thing can hurt someone here", Why: "One thing can hurt someone here", More: []*glossladderv1.Reason{reason("cautions", "dust", "Dust harms.", "")}},
		},
		MeasureNext: wholeCar().GetMeasureNext()[:1],
	}
}

// notAnswered is what rules that cannot answer look like.
func notAnswered() *glossladderv1.Explanation {
	e := explained()
	e.Headline = "The rules cannot answer here."
	e.Decisions = append(e.Decisions[:2:2], &glossladderv1.DecisionExplanation{
		Table: "limit", Outcome: glossladderv1.DecisionOutcome_DECISION_OUTCOME_ERROR, Problem: "holds together with another rule where only one may",
		Why: "The rules cannot answer", Reason: reason("limit", "one-of-two", "Invented.", ""),
	})
	return e
}

func inspected() *glossladderv1.Inspection {
	return &glossladderv1.Inspection{
		Vehicle: &glossladderv1.Vehicle{Paint: &glossladderv1.Paint{System: glossladderv1.PaintSystem_PAINT_SYSTEM_CLEAR_COAT, AgeYears: proto.Float64(1)}},
		Goal:    &glossladderv1.Goal{Level: glossladderv1.GoalLevel_GOAL_LEVEL_ENHANCE},
		Climate: &glossladderv1.Climate{PanelC: proto.Float64(21)},
		Panels: []*glossladderv1.Panel{{
			Id: "bonnet", Paint: &glossladderv1.Paint{Softness: glossladderv1.Softness_SOFTNESS_SOFT},
			Film:    []*glossladderv1.FilmSpot{{Spot: "centre", TotalUm: []float64{118, 119, 118}}, {Spot: "front", ClearUm: []float64{40, 41, 40}}},
			Defects: []*glossladderv1.Defect{{Kind: glossladderv1.DefectKind_DEFECT_KIND_WASH_MARKS, Severity: proto.Float64(2)}, {Kind: glossladderv1.DefectKind_DEFECT_KIND_DEEP_SCRATCHES, CatchesNail: proto.Bool(true)}},
		}},
	}
}

func quiz(t *testing.T, exam page.Exam) string {
	t.Helper()
	var out strings.Builder
	require.NoError(t, page.Quiz(&out, explained(), inspected(), exam, page.Style{}))
	return out.String()
}

// The sheet of a seed can be printed again: for the trainee without the answers, for the instructor without the questions.
func TestAQuizIsTheSameForTheSameSeed(t *testing.T) {
	different := map[string]bool{}
	for seed := range uint64(20) {
		sheet := quiz(t, page.Exam{Questions: 2, Seed: seed, Answers: "none"})
		assert.Equal(t, sheet, quiz(t, page.Exam{Questions: 2, Seed: seed, Answers: "none"}))
		assert.NotContains(t, sheet, "Hard paint holds on to its marks.", "a question does not give its answer away")
		different[sheet] = true
		both := quiz(t, page.Exam{Questions: 2, Seed: seed, Answers: "below"})
		for line := range strings.Lines(quiz(t, page.Exam{Questions: 2, Seed: seed, Answers: "only"})) {
			assert.Contains(t, both, line)
		}
	}
	assert.Greater(t, len(different), 3)
}

func TestOneTableIsShownWhenAskedFor(t *testing.T) {
	titles := func(table string) (out []string) {
		for _, d := range page.Shown(explained().GetDecisions(), table) {
			out = append(out, d.GetTable())
		}
		return out
	}
	assert.Equal(t, []string{"start", "limit", "ladder"}, titles(""), "nothing stands in the way, and the rest is for whoever asks")
	assert.Equal(t, []string{"cautions"}, titles("cautions"))
	assert.Equal(t, []string{"readiness", "start", "limit", "ladder", "cautions"}, titles("all"))
}

package rpc

import (
	"context"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/vocabulary"
)

// Explain tells why a panel gets its answer, or a trial its verdict, why not another, and what would change it.
func (s *AdvisorServer) Explain(_ context.Context, req *glossladderv1.ExplainRequest) (*glossladderv1.ExplainResponse, error) {
	rules := s.book.InForce()
	said, err := rules.Advisor.Explain(rules.Instruments.inspection(req.GetInspection()), advisor.Question{
		Panel: req.GetPanelId(), Trials: trialsIn(req.GetTrials()),
		Would: vocabulary.WordOf(req.GetWould()), WouldVerdict: vocabulary.WordOf(req.GetWouldVerdict()),
	})
	if err != nil {
		return nil, statusOf(err, "inspection")
	}
	return &glossladderv1.ExplainResponse{Explanation: explanationOut(&said)}, nil
}

// MapDecision gives one decision for a panel over two facts, all others as they are.
func (s *AdvisorServer) MapDecision(_ context.Context, req *glossladderv1.MapDecisionRequest) (*glossladderv1.MapDecisionResponse, error) {
	rules := s.book.InForce()
	said, err := rules.Advisor.Map(rules.Instruments.inspection(req.GetInspection()), advisor.MapQuestion{
		Panel: req.GetPanelId(), Trials: trialsIn(req.GetTrials()), Table: req.GetTable(),
		Defect: vocabulary.WordOf(req.GetDefect()), X: req.GetX(), Y: req.GetY(),
	})
	if err != nil {
		return nil, statusOf(err, "inspection")
	}
	out := &glossladderv1.DecisionMap{
		Table: said.Table, About: said.About, XLabel: said.XLabel, YLabel: said.YLabel, Xs: said.Xs, Ys: said.Ys,
		AtX: int32(said.AtX), AtY: int32(said.AtY), Exact: said.Exact,
	}
	for _, row := range said.Answers {
		out.Rows = append(out.Rows, &glossladderv1.DecisionMapRow{Answers: row})
	}
	return &glossladderv1.MapDecisionResponse{Map: out, RuleSet: said.RuleSet}, nil
}

func explanationOut(e *advisor.Explanation) *glossladderv1.Explanation {
	out := &glossladderv1.Explanation{
		PanelId: e.Panel, Headline: e.Headline, MeasureNext: wantedOut(e.MeasureNext), RuleSet: e.RuleSet,
	}
	for i := range e.Decisions {
		out.Decisions = append(out.Decisions, decisionOut(&e.Decisions[i]))
	}
	return out
}

func decisionOut(d *advisor.DecisionExplanation) *glossladderv1.DecisionExplanation {
	out := &glossladderv1.DecisionExplanation{
		Table: d.Table, About: d.About, Outcome: outcomeOut(d.Outcome), Problem: d.Problem, Answer: d.Answer, Says: d.Says,
		Why: d.Why, Reason: reasonOut(d.Reason), Borderline: d.Borderline,
	}
	for _, more := range d.More {
		out.More = append(out.More, reasonOut(more))
	}
	if w := d.WhyNot; w != nil {
		out.WhyNot = &glossladderv1.WhyNot{
			Step: word[glossladderv1.Step](w.Step), Verdict: word[glossladderv1.VerdictKind](w.Verdict), RuleId: w.Rule, File: w.File, Line: int32(w.Line), Failed: w.Failed,
			EvenThen: w.EvenThen, Sentence: w.Sentence,
		}
	}
	for _, n := range d.NearMisses {
		out.NearMisses = append(out.NearMisses, &glossladderv1.NearMiss{
			RuleId: n.Rule, File: n.File, Line: int32(n.Line), Answer: n.Answer, Failed: n.Failed, Fact: n.Fact, By: n.By,
		})
	}
	for _, c := range d.Changes {
		out.Changes = append(out.Changes, &glossladderv1.AnswerChange{
			Fact: c.Fact, Label: c.Label, Now: c.Now, Range: c.Range, Answer: c.Answer, RuleId: c.Rule, Class: changeClass(c.Class),
			Away: c.Away, Unit: c.Unit, Borderline: c.Borderline, Sentence: c.Sentence,
			With: c.With, Nearest: c.Nearest, To: c.To, Supposed: c.Supposed, Would: c.Would, Because: c.Because,
		})
	}
	return out
}

func outcomeOut(outcome string) glossladderv1.DecisionOutcome {
	switch outcome {
	case advisor.Answered:
		return glossladderv1.DecisionOutcome_DECISION_OUTCOME_ANSWERED
	case advisor.NoAnswer:
		return glossladderv1.DecisionOutcome_DECISION_OUTCOME_NO_ANSWER
	}
	return glossladderv1.DecisionOutcome_DECISION_OUTCOME_ERROR
}

func changeClass(class rules.Class) glossladderv1.FactClass {
	switch class {
	case rules.Measurable:
		return glossladderv1.FactClass_FACT_CLASS_MEASURED
	case rules.Choosable:
		return glossladderv1.FactClass_FACT_CLASS_CHOSEN
	}
	return glossladderv1.FactClass_FACT_CLASS_GIVEN
}

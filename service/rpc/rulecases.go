package rpc

import (
	"context"
	"errors"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/cases"
)

// TestRules runs the worked cases of a set. A faulty set is an answer, not an error.
func (s *RulesServer) TestRules(_ context.Context, req *glossladderv1.TestRulesRequest) (*glossladderv1.TestRulesResponse, error) {
	set := s.desk.InForce().Advisor.Set()
	if len(req.GetFiles()) > 0 {
		var err error
		set, err = s.desk.LoadSent(req.GetFiles())
		if problems, ok := errors.AsType[rules.Problems](err); ok {
			return &glossladderv1.TestRulesResponse{Problems: problemsOut(problems)}, nil
		}
		if err != nil {
			return nil, statusOf(err, "files")
		}
	}
	report := cases.Run(set)
	out := &glossladderv1.TestRulesResponse{RuleSet: set.Hash(), Coverage: coverageOut(set, report, req.GetWithBounds())}
	for i := range report.Results {
		r := &report.Results[i]
		if r.Passed() {
			out.Passed++
		} else {
			out.Failed++
		}
		if !r.Passed() || !req.GetFailuresOnly() {
			out.Cases = append(out.Cases, caseOut(r))
		}
	}
	return out, nil
}

func caseOut(r *cases.Result) *glossladderv1.RuleCase {
	out := &glossladderv1.RuleCase{
		Table: r.Case.Table, Name: r.Case.Name, File: r.Case.File, Line: int32(r.Case.Line),
		Passed: r.Passed(), Got: r.Got, Notes: r.Notes, Why: r.Why,
	}
	for _, d := range r.Diff {
		if !d.Same {
			out.Differences = append(out.Differences, &glossladderv1.RuleCaseDifference{What: d.What, Expected: d.Want, Got: d.Got})
		}
	}
	return out
}

// coverageOut is what passed cases speak of, table by table in the order of the set.
func coverageOut(set *rules.Set, report cases.Report, bounds bool) []*glossladderv1.RuleCaseCoverage {
	var out []*glossladderv1.RuleCaseCoverage
	of := map[string]*glossladderv1.RuleCaseCoverage{}
	for _, t := range set.Tables() {
		c := &glossladderv1.RuleCaseCoverage{Table: t.Name(), Rules: int32(len(t.Rules()))}
		of[t.Name()], out = c, append(out, c)
	}
	for i := range report.Results {
		if r := &report.Results[i]; r.Passed() {
			of[r.Case.Table].Cases++
		}
	}
	for _, r := range report.Unwon() {
		of[r.Table].NoCaseWins = append(of[r.Table].NoCaseWins, uncoveredOut(r))
	}
	for _, r := range report.Unmissed() {
		of[r.Table].NoCaseMisses = append(of[r.Table].NoCaseMisses, uncoveredOut(r))
	}
	if bounds {
		for _, c := range cases.Cover(set, report) {
			of[c.Table].Bounds, of[c.Table].BoundsTested = int32(c.Bounds), int32(c.Tested)
		}
	}
	return out
}

func uncoveredOut(r cases.Coverage) *glossladderv1.RulePlace {
	return &glossladderv1.RulePlace{RuleId: r.Rule, File: r.File, Line: int32(r.Line)}
}

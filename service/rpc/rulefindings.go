package rpc

import (
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules/check"
)

func findingsOut(findings []check.Finding) []*glossladderv1.RuleFinding {
	var out []*glossladderv1.RuleFinding
	for _, f := range findings {
		finding := &glossladderv1.RuleFinding{
			Code: string(f.Code), Level: levelOut(f.Level), Table: f.Table, Message: f.Message, Example: f.Example, Mend: f.Mend,
			Effect: f.Effect, Stub: f.Stub, More: int32(f.More),
		}
		if f.Input != nil {
			finding.Region, finding.When = f.Input.Region, f.Input.When
		}
		for _, p := range f.Places {
			finding.Places = append(finding.Places, &glossladderv1.RulePlace{
				RuleId: p.Rule, File: p.File, Line: int32(p.Line), Column: int32(p.Col), Says: p.Says,
			})
		}
		out = append(out, finding)
	}
	return out
}

func levelOut(level check.Level) glossladderv1.RuleFindingLevel {
	switch level {
	case check.Error:
		return glossladderv1.RuleFindingLevel_RULE_FINDING_LEVEL_ERROR
	case check.Warning:
		return glossladderv1.RuleFindingLevel_RULE_FINDING_LEVEL_WARNING
	case check.Advice:
		return glossladderv1.RuleFindingLevel_RULE_FINDING_LEVEL_ADVICE
	}
	return glossladderv1.RuleFindingLevel_RULE_FINDING_LEVEL_UNSPECIFIED
}

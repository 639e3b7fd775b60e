package rpc

import (
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules/compare"
)

// StrongerError says that an edit makes answers stronger, or leaves out what was told, and that nobody has accepted that.
type StrongerError struct {
	Report *compare.Report
	Given  string // the code that was sent, or empty
}

func (e *StrongerError) Error() string {
	says := "nothing was written, since this makes answers stronger or leaves out what was told; if that is meant, send it again with accept_stronger " + e.Report.Acceptance()
	if e.Given != "" {
		says += "; what was accepted as " + e.Given + " is something else"
	}
	return says
}

// mostEffects are as many as a person looks through.
const mostEffects = 50

func effectsOut(report *compare.Report) *glossladderv1.RuleEffects {
	if report == nil {
		return nil
	}
	out := &glossladderv1.RuleEffects{AcceptStronger: report.Acceptance()}
	for i := range report.Tables {
		table := &report.Tables[i]
		if table.Effect.Outcome == compare.NotDecided {
			out.UndecidedTables = append(out.UndecidedTables, table.Name)
		}
		for k := range table.Effect.Regions {
			if len(out.GetEffects()) == mostEffects {
				out.More++
				continue
			}
			out.Effects = append(out.Effects, effectOut(table.Name, &table.Effect.Regions[k]))
		}
	}
	if len(out.GetEffects()) == 0 && len(out.GetUndecidedTables()) == 0 {
		return nil
	}
	return out
}

func effectOut(table string, r *compare.Region) *glossladderv1.RuleEffect {
	out := &glossladderv1.RuleEffect{
		Table: table, Direction: directionOut(r.Direction), Before: r.A.String(), After: r.B.String(), Where: r.Words(), UnlessRules: r.Front(),
	}
	if example, ok := r.Example(); ok {
		out.Example = example.Words
	}
	return out
}

func directionOut(d compare.Direction) glossladderv1.RuleEffectDirection {
	switch d {
	case compare.Different:
		return glossladderv1.RuleEffectDirection_RULE_EFFECT_DIRECTION_DIFFERENT
	case compare.Milder:
		return glossladderv1.RuleEffectDirection_RULE_EFFECT_DIRECTION_MILDER
	case compare.Stronger:
		return glossladderv1.RuleEffectDirection_RULE_EFFECT_DIRECTION_STRONGER
	case compare.More:
		return glossladderv1.RuleEffectDirection_RULE_EFFECT_DIRECTION_MORE
	case compare.Less:
		return glossladderv1.RuleEffectDirection_RULE_EFFECT_DIRECTION_LESS
	}
	return glossladderv1.RuleEffectDirection_RULE_EFFECT_DIRECTION_UNSPECIFIED
}

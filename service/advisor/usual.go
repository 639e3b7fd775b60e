package advisor

import (
	"fmt"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/film"
)

// Usual is what the rules state of a step before the shop has trials of its own.
type Usual struct {
	// WorthTrials is how many trials of the shop's own the statement is worth.
	WorthTrials float64
	// SuccessPct is the chance that the step is accepted where it is tried first; a shop may have SuccessOdds times its odds.
	SuccessPct, SuccessOdds float64
	// GainGU is at the angle chosen for judging, Minutes for one section of a trial.
	GainGU, Minutes UsualSpread
	// Removal is what the complete step takes.
	Removal film.Removal
	Reason  Reason
}

// UsualSpread is a mean, and how far a shop, the kinds of panel within a shop, and single trials lie from it.
type UsualSpread struct{ Mean, Shop, Class, Single float64 }

// Usual tells what the rules state of a step on marks of a kind and grade. Empty words and a nil severity are not known. The
// error is a [*RulesError].
func (a *Advisor) Usual(step, softness, kind string, severity *float64) (Usual, error) {
	decision, giveBack := a.borrowDecision()
	defer giveBack()
	f := newFactSheet(a.set.Schema())
	f.word("step.now", step)
	f.word("paint.softness", softness)
	removal, err := usualOf(a, f, "removal", decision)
	if err != nil {
		return Usual{}, err
	}
	f.word("defect.kind", kind)
	f.number("defect.severity", severity, nearest)
	said, err := usualOf(a, f, "expect", decision)
	if err != nil {
		return Usual{}, err
	}
	number := func(field string) float64 {
		value, _ := said.result.Number(field)
		return value
	}
	return Usual{
		WorthTrials: number("worth_trials"), SuccessPct: number("success_pct"), SuccessOdds: number("success_odds"),
		GainGU: UsualSpread{
			Mean: number("gain_gu"), Shop: number("gain_shop_gu"), Class: number("gain_class_gu"), Single: number("gain_single_gu"),
		},
		Minutes: UsualSpread{
			Mean: number("minutes"), Shop: number("minutes_shop"), Class: number("minutes_class"), Single: number("minutes_single"),
		},
		Removal: removalOf(removal.result), Reason: said.reason,
	}, nil
}

func usualOf(a *Advisor, f *factSheet, name string, decision *rules.Decision) (answer, error) {
	table, ok := a.set.Table(name)
	if !ok {
		return answer{}, fmt.Errorf("rule set has no table %s", name)
	}
	if f.err != nil {
		return answer{}, f.err
	}
	table.Answer(f.in, decision)
	winners := table.Reasons(f.in, decision)
	if len(winners) == 0 {
		return answer{}, &RulesError{Reason: Reason{Table: name}, Says: "no rule answers for what is usual of a step; add one that always does"}
	}
	return answer{result: winners[0].Result, reason: reasonOf(name, winners[0], a.set.Schema())}, nil
}

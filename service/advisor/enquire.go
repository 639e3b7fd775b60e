package advisor

import (
	"errors"
	"slices"

	"github.com/glossladder/glossladder/rules"
)

// enquire answers for one panel and keeps every question as it was put. Failed is a rule set that cannot answer.
func (a *Advisor) enquire(in Inspection, ask Question) (e *enquiry, questions []asked, failed *RulesError, giveBack func(), err error) {
	at := 0
	if ask.Panel != "" {
		at = slices.IndexFunc(in.Panels, func(p Panel) bool { return p.ID == ask.Panel })
	}
	if at < 0 || at >= len(in.Panels) {
		return nil, nil, nil, nil, &InputError{Troubles: []Trouble{{Field: "panel_id", Says: "no panel of the inspection is called " + ask.Panel}}}
	}
	decision, back := a.borrowDecision()
	defer func() {
		if err != nil {
			back()
		}
	}()
	e = &enquiry{a: a, in: in, decision: decision, now: situation{goal: in.Goal, climate: in.Climate, panel: in.Panels[at], trials: ask.Trials}}
	cases, err := a.study(in, decision)
	if errors.As(err, &failed) {
		return e, nil, failed, back, nil
	}
	if err != nil {
		return nil, nil, nil, nil, err
	}
	e.base = cases[at]
	e.others = slices.Delete(slices.Clone(cases), at, at+1)
	e.base.watch = func(t *rules.Table) { questions = append(questions, e.note(t)) }
	e.said, err = e.answer(e.base, &e.now)
	if errors.As(err, &failed) {
		return e, questions, failed, back, nil
	}
	if err != nil {
		return nil, nil, nil, nil, err
	}
	e.found = findings(&e.said)
	questions = e.inOrder(questions)
	return e, questions, nil, back, nil
}

package advisor

import (
	"slices"

	"github.com/glossladder/glossladder/rules"
)

// situation is what was found on one panel and what its trials showed. Copies are changed in one thing, to see what would
// come of it; what a copy shares with the original is never written to.
type situation struct {
	goal    Goal
	climate Climate
	panel   Panel
	trials  []Trial
}

// enquiry asks about one panel again and again, each time with one thing otherwise: the inspection itself is changed and
// everything is reckoned anew, so that facts that come from one reading move together as they would.
type enquiry struct {
	a        *Advisor
	in       Inspection
	others   []*panelCase // the other panels as they were found, to compare film with
	decision *rules.Decision
	now      situation
	// base is the panel as it was found, once everything has been asked.
	base *panelCase
	said answers
	// found are the answers by question.
	found map[subject]finding
}

// answers is everything that was answered for a panel. Verdict is nil without trials.
type answers struct {
	advice  PanelAdvice
	verdict *Verdict
	// facts are those of the last question, with the trial's where there is one.
	facts *rules.Input
}

// study reckons a situation up to the first decision.
func (e *enquiry) study(s *situation) (*panelCase, error) {
	in := e.in
	in.Goal, in.Climate, in.Panels = s.goal, s.climate, []Panel{s.panel}
	c, err := e.a.open(&in, 0, e.decision)
	if err != nil {
		return nil, err
	}
	c.quiet = true
	var wrong troubles
	c.measure(&wrong)
	if err := wrong.asError(); err != nil {
		return nil, err
	}
	err = c.reckon(append(slices.Clip(e.others), c))
	return c, err
}

// answer decides everything about a situation that was studied.
func (e *enquiry) answer(c *panelCase, s *situation) (answers, error) {
	advice, err := c.advise()
	if err != nil {
		return answers{}, err
	}
	if len(s.trials) == 0 {
		return answers{advice: advice, facts: c.sheet.in}, nil
	}
	return e.judge(c, advice, s.trials)
}

// judge gives the verdict on the last trial of a panel that was decided about.
func (e *enquiry) judge(c *panelCase, advice PanelAdvice, trials []Trial) (answers, error) {
	out := answers{advice: advice}
	b := newBench(c, advice, trials)
	if err := b.check(); err != nil {
		return answers{}, err
	}
	was := c.watch
	c.watch = func(t *rules.Table) {
		if t == e.a.tables.verdict {
			out.facts = c.sheet.in.Clone()
		}
		if was != nil {
			was(t)
		}
	}
	defer func() { c.watch = was }()
	verdict, err := b.judgeAll()
	out.verdict = &verdict
	return out, err
}

// ask gives the answers with a lever moved to where s has it. What the trials showed leaves the panel as it was decided.
func (e *enquiry) ask(l *lever, s *situation) (answers, error) {
	if l.trial {
		e.base.quiet, e.base.watch = true, nil
		return e.judge(e.base, e.said.advice, s.trials)
	}
	c, err := e.study(s)
	if err != nil {
		return answers{}, err
	}
	return e.answer(c, s)
}

// facts are those that rules see with a lever moved; those of the trial only where it moves them.
func (e *enquiry) facts(l *lever, s *situation) (*rules.Input, error) {
	if len(s.trials) > 0 && (l.trial || l.movesTrial) {
		said, err := e.ask(l, s)
		return said.facts, err
	}
	c, err := e.study(s)
	if err != nil {
		return nil, err
	}
	return c.sheet.in, nil
}

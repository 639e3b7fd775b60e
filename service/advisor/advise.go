package advisor

import (
	"fmt"
	"slices"
)

// advise asks the tables in their order and puts their answers together.
func (c *panelCase) advise() (PanelAdvice, error) {
	out := PanelAdvice{Panel: c.panel.ID, Film: c.film, Gloss: c.gloss, DewPointC: c.dewC, AllowedSeverity: c.policy.severityLeft}
	for _, stage := range [...]func(*panelCase, *PanelAdvice) error{
		(*panelCase).decideStart, (*panelCase).decideLimit, (*panelCase).decideReadiness,
		(*panelCase).decideLadder, (*panelCase).decideSteps, (*panelCase).decideCautions,
	} {
		if err := stage(c, &out); err != nil {
			return PanelAdvice{}, err
		}
	}
	if c.sheet.err != nil {
		return PanelAdvice{}, c.sheet.err
	}
	out.LeftOnPurpose = leftOnPurpose(&out)
	out.State = stateOf(&out)
	out.Headline = headline(&out)
	out.MeasureNext = c.wanted.ranked(c.panel.ID)
	return out, nil
}

// decideStart asks for every defect; the strongest answer is where the panel would start.
func (c *panelCase) decideStart(out *PanelAdvice) error {
	out.Start = noStep
	var worst *float64
	for _, defect := range c.panel.Defects {
		advice := DefectAdvice{Kind: defect.Kind, Severity: defect.Severity}
		var err error
		c.sheet.with(func(f *factSheet) { setDefect(f, defect) }, func() {
			var said answer
			var ok bool
			if said, ok, err = c.one(c.a.tables.start); err == nil {
				advice.Reason = said.reason
				if ok {
					advice.Start, _ = said.result.Word("step")
				}
				c.wantStart(advice.Start)
			}
		})
		if err != nil {
			return err
		}
		c.starts = append(c.starts, advice.Start)
		if strength(advice.Start) > 0 {
			out.Start = strongerOf(out.Start, advice.Start)
			if defect.Severity != nil && (worst == nil || *defect.Severity > *worst) {
				worst = defect.Severity
			}
		}
		out.Defects = append(out.Defects, advice)
	}
	c.sheet.number("panel.worst_severity", worst, nearest)
	c.sheet.word("step.start", out.Start)
	return nil
}

func setDefect(f *factSheet, defect Defect) {
	f.word("defect.kind", defect.Kind)
	f.number("defect.severity", defect.Severity, nearest)
	f.flag("defect.catches_nail", defect.CatchesNail)
	if f.recall.marks != nil {
		f.recall.marks(f, defect)
	}
}

func (c *panelCase) decideLimit(out *PanelAdvice) error {
	said, err := c.must(c.a.tables.limit)
	if err != nil {
		return err
	}
	out.Limit, _ = said.result.Word("step")
	out.LimitReason = said.reason
	c.wantLimit(out.Start, out.Limit)
	c.sheet.word("step.limit", out.Limit)
	c.sheet.word("step.first", milderOf(out.Start, out.Limit))
	return nil
}

func (c *panelCase) decideReadiness(out *PanelAdvice) error {
	said, err := c.all(c.a.tables.readiness)
	if err != nil {
		return err
	}
	for _, each := range said {
		effect, _ := each.result.Word("effect")
		do, _ := each.result.Text("do")
		out.Readiness = append(out.Readiness, Readiness{Effect: effect, Do: do, Reason: each.reason})
	}
	slices.SortStableFunc(out.Readiness, func(a, b Readiness) int { return gravity(b.Effect) - gravity(a.Effect) })
	if worst := worstEffect(out.Readiness); milderOf(out.Start, out.Limit) != noStep && worst != "stop" && worst != "refer" {
		c.wantReadiness() // what is ruled out already cannot be ruled out again
	}
	return nil
}

// gravity orders the effects of readiness as the contract does.
func gravity(effect string) int {
	return slices.Index([]string{"note", "prepare", "wait", "refer", "stop"}, effect)
}

// decideLadder asks which steps follow from where the ladder starts, and holds the answer against the guards.
func (c *panelCase) decideLadder(out *PanelAdvice) error {
	out.Ladder = noStep
	first := milderOf(out.Start, out.Limit)
	if worst := worstEffect(out.Readiness); worst == "stop" || worst == "refer" {
		first = noStep
		c.sheet.word("step.first", first)
	}
	said, err := c.must(c.a.tables.ladder)
	if err != nil {
		return err
	}
	out.Ladder, _ = said.result.Word("ladder")
	out.LadderReason = said.reason
	if err := guardLadder(said, out.Ladder, first); err != nil {
		return err
	}
	if first != noStep {
		c.wantLadder(out.Ladder)
	}
	return nil
}

func worstEffect(all []Readiness) string {
	if len(all) == 0 {
		return ""
	}
	return all[0].Effect
}

// guardLadder holds what no rule file may break: the ladder starts where start and limit say, and never ends on a cut.
func guardLadder(said answer, ladder, first string) error {
	steps := stepsOf(ladder)
	switch {
	case first == noStep && len(steps) > 0:
		return &RulesError{Reason: said.reason, Says: fmt.Sprintf("answers %s where no step is allowed or needed", ladder)}
	case first != noStep && (len(steps) == 0 || steps[0] != first):
		return &RulesError{Reason: said.reason, Says: fmt.Sprintf("answers %s where the ladder has to start with %s", ladder, first)}
	case len(steps) > 0 && steps[len(steps)-1] == cutStep:
		return &RulesError{Reason: said.reason, Says: "answers a ladder that ends on a cut; a cut leaves a haze of its own"}
	}
	return nil
}

// decideSteps asks how to run each step of the ladder and what it will leave.
func (c *panelCase) decideSteps(out *PanelAdvice) error {
	steps := stepsOf(out.Ladder)
	var left *float64
	if c.film != nil {
		left = ptr(float64(c.film.Budget.UsableUm))
	}
	for place, step := range steps {
		if left != nil {
			left = ptr(*left - float64(c.removal[step].HighUm))
		}
		advice, err := c.adviseStep(step, place+1, place == len(steps)-1, left)
		if err != nil {
			return err
		}
		out.Steps = append(out.Steps, advice)
	}
	return nil
}

func (c *panelCase) adviseStep(step string, place int, last bool, left *float64) (StepAdvice, error) {
	out := StepAdvice{Step: step, UsableAfterUm: left, Removal: c.removal[step]}
	var err error
	if out.RemovalReason, err = c.removalReason(step); err != nil {
		return out, err
	}
	c.sheet.with(func(f *factSheet) { setStep(f, step, place, last) }, func() {
		var said answer
		if said, err = c.must(c.a.tables.settings); err == nil {
			out.Reason = said.reason
			out.Combination, out.Settings = settingsOf(said.result)
			out.Combination = c.a.fromCatalogue(out.Combination)
		}
	})
	return out, err
}

func setStep(f *factSheet, step string, place int, last bool) {
	f.word("step.now", step)
	at := float64(place)
	f.number("step.place", &at, nearest)
	f.yes("step.last", last)
	if f.recall.step != nil {
		f.recall.step(f, step)
	}
}

// leftOnPurpose names what the panel's limit leaves undone.
func leftOnPurpose(out *PanelAdvice) []string {
	var left []string
	for _, defect := range out.Defects {
		if strength(defect.Start) > strength(out.Limit) {
			left = append(left, fmt.Sprintf("%s: needs a %s, but this panel allows %s",
				plainDefect(defect), defect.Start, allowance(out.Limit)))
		}
	}
	return left
}

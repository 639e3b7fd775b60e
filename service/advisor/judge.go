package advisor

import (
	"fmt"
	"slices"
)

// JudgeTrial gives the verdict on the last of a panel's trials and the next move. Trials are every trial on that panel,
// the oldest first; each earlier one is judged again as it was, so the same trials give the same answer.
//
// The error is an [*InputError] for trials that cannot be reckoned with, every one at once, or a [*RulesError].
func (a *Advisor) JudgeTrial(in Inspection, panel string, trials []Trial) (Verdict, error) {
	said, _, err := a.judgeTrial(in, panel, trials, nil)
	return said, err
}

func (a *Advisor) judgeTrial(in Inspection, panel string, trials []Trial, notes *notes) (said Verdict, index int, err error) {
	index = slices.IndexFunc(in.Panels, func(p Panel) bool { return p.ID == panel })
	if index < 0 {
		return Verdict{}, 0, &InputError{Troubles: []Trouble{{Field: "panel_id", Says: fmt.Sprintf("%q is not a panel of the inspection", panel)}}}
	}
	if len(trials) == 0 {
		return Verdict{}, 0, &InputError{Troubles: []Trouble{{Field: "trials", Says: "there is no trial to judge; send at least one"}}}
	}
	decision, giveBack := a.borrowDecision()
	defer giveBack()
	cases, err := a.studyNoting(in, decision, notes)
	if err != nil {
		return Verdict{}, 0, err
	}
	c := cases[index]
	advice, err := c.advise()
	if err != nil {
		return Verdict{}, 0, err
	}
	b := newBench(c, advice, trials)
	if err := b.check(); err != nil {
		return Verdict{}, 0, err
	}
	said, err = b.judgeAll()
	notes.finish(c)
	return said, index, err
}

// bench is a panel under trial: what the trials so far have shown, kept and taken.
type bench struct {
	c      *panelCase
	advice PanelAdvice
	trials []Trial

	verdicts []Verdict
	kept     []string
	// takenUm is what the trials took at the high end from the section that is being worked.
	takenUm float64
	// noted is how many sheets were noted before the trials; 0 without a record.
	noted int
}

func newBench(c *panelCase, advice PanelAdvice, trials []Trial) *bench {
	return &bench{c: c, advice: advice, trials: trials}
}

// judgeAll judges every trial in order and returns the verdict on the last.
func (b *bench) judgeAll() (Verdict, error) {
	for i := range b.trials {
		verdict, err := b.judge(i)
		if err != nil {
			return Verdict{}, err
		}
		b.verdicts = append(b.verdicts, verdict)
	}
	last := b.verdicts[len(b.verdicts)-1]
	for _, v := range b.verdicts[:len(b.verdicts)-1] {
		last.Earlier = append(last.Earlier, v.Kind)
	}
	return last, nil
}

// judge judges one trial with what the earlier ones left behind.
func (b *bench) judge(i int) (Verdict, error) {
	trial := &b.trials[i]
	b.c.notes.begin(b, trial)
	out := Verdict{RuleSet: b.c.a.set.Hash(), Panel: b.c.panel.ID, AllowedSeverity: b.advice.AllowedSeverity}
	out.Gloss = b.glossChange(trial)
	out.Haze = b.hazeChange(trial)
	out.SeverityLeft = worstLeft(trial.Left)
	out.Film = b.filmTaken(trial)
	var said answer
	var err error
	b.c.wanted = wantList{}
	b.c.sheet.with(func(f *factSheet) { b.setTrial(f, i, &out) }, func() {
		if said, err = b.c.must(b.c.a.tables.verdict); err == nil {
			b.c.wantVerdict(said)
		}
	})
	if err != nil {
		return out, err
	}
	if b.c.sheet.err != nil {
		return out, b.c.sheet.err
	}
	out.Reason = said.reason
	out.Kind, _ = said.result.Word("verdict")
	out.Change, _ = said.result.Word("change")
	b.guard(i, &out)
	err = b.follow(i, &out)
	return out, err
}

// guard holds what no rule file can lift: no step above the limit, no ladder that ends on a cut, and a loop that ends.
func (b *bench) guard(i int, out *Verdict) {
	step := b.trials[i].Step
	next, _ := stronger(step)
	switch {
	case b.advice.Ladder == noStep && (out.Kind != StopWork):
		b.stop(out, b.advice.LimitReason)
	case out.Kind == Accept && step == cutStep:
		out.Kind, out.Change = Refine, ""
	case out.Kind == StepUp && (next == "" || strength(next) > strength(b.advice.Limit)):
		b.stop(out, b.advice.LimitReason)
	case i+1 >= b.c.policy.mostTrials && out.Kind != Accept && out.Kind != StopWork:
		b.stop(out, b.c.policy.reason)
	}
}

// stop ends the trials on the panel for a reason that is not the verdict table's own.
func (b *bench) stop(out *Verdict, why Reason) {
	out.Kind, out.Change, out.Reason = StopWork, "", why
}

// follow carries a verdict out: what is kept, what comes next, and the ladder so far.
func (b *bench) follow(i int, out *Verdict) error {
	trial := &b.trials[i]
	next := trial.Step
	switch out.Kind {
	case Accept, StopWork:
		next = ""
	case StepUp:
		next, _ = stronger(trial.Step)
		b.kept = nil // a stronger step undoes the finish of the milder ones
	case StepDown, Refine:
		below, ok := milder(trial.Step)
		if !ok {
			return &RulesError{Reason: out.Reason, Says: fmt.Sprintf("answers %s after a %s, and no step is milder", out.Kind, trial.Step)}
		}
		next = below
	}
	if out.Kind == Accept || out.Kind == Refine {
		b.kept = append(b.kept, trial.Step)
	}
	if out.Kind == StopWork && b.worthKeeping(trial, out) {
		b.kept = append(b.kept, trial.Step)
	}
	out.Kept = stepsOf(ladderOf(b.kept))
	return b.finish(i, next, out)
}

// worthKeeping says whether a step that goes no further is still worth carrying on: the panel allows it, it gained, it did
// no harm, and it leaves nothing that a milder step would have to mend.
func (b *bench) worthKeeping(trial *Trial, out *Verdict) bool {
	harmed := trial.ColorTransfer != nil && *trial.ColorTransfer && b.c.panel.Paint.System != "single-stage" ||
		out.Film != nil && out.Film.UsableLeftUm < 0
	return !harmed && strength(trial.Step) <= strength(b.advice.Limit) && trial.Step != cutStep &&
		out.Gloss != nil && out.Gloss.Judgement == "worthwhile"
}

func (b *bench) finish(i int, next string, out *Verdict) error {
	out.Ladder = ladderOf(b.kept)
	out.Proven = out.Kind == Accept
	if next != "" {
		move, err := b.nextMove(i, next, out)
		if err != nil {
			return err
		}
		out.Next = move
	}
	cautions, err := b.cautionsFor(next, out)
	if err != nil {
		return err
	}
	out.Cautions = cautions
	out.MeasureNext = b.c.wanted.ranked(b.c.panel.ID)
	out.Headline = verdictHeadline(out)
	return nil
}

func (b *bench) nextMove(i int, step string, out *Verdict) (*NextMove, error) {
	place := len(b.kept) + 1
	var left *float64
	if b.advice.Film != nil {
		left = ptr(float64(b.advice.Film.Budget.UsableUm) - b.takenUm - float64(b.c.removal[step].HighUm))
	}
	advice, err := b.c.adviseStep(step, place, step == finishing, left)
	if err != nil {
		return nil, err
	}
	if step == b.trials[i].Step {
		advice = b.changed(b.asTried(advice, i), out.Change)
	}
	return &NextMove{Step: step, Change: out.Change, Advice: advice, Do: nextInWords(step, out)}, nil
}

// cautionsFor are those of the panel, and of the next step or of the ladder that is carried on.
func (b *bench) cautionsFor(next string, out *Verdict) ([]Caution, error) {
	if next != "" {
		return b.c.cautions([]string{next}, nil)
	}
	return b.c.cautions(out.Kept, nil)
}

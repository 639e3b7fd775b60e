package advisor

import (
	"slices"
)

// setTrial fills the facts of one trial.
func (b *bench) setTrial(f *factSheet, i int, out *Verdict) {
	trial := &b.trials[i]
	number := float64(i + 1)
	f.number("trial.number", &number, nearest)
	left := float64(b.c.policy.mostTrials) - number
	f.number("trial.number_left", &left, nearest)
	inRow := float64(b.inRow(i))
	f.number("trial.on_step", &inRow, nearest)
	setStep(f, trial.Step, len(b.kept)+1, trial.Step == finishing)
	b.setReadings(f, out)
	b.setSeen(f, trial, out)
	b.setChanges(f, i)
	b.setFilmLeft(f, trial, out)
}

func (b *bench) setReadings(f *factSheet, out *Verdict) {
	if g := out.Gloss; g != nil {
		f.word("trial.gain", g.Judgement)
		f.number("trial.gain_gu", &g.Gain.Mean, nearest)
		f.number("trial.gain_low_gu", &g.Gain.Low, down)
		if left, ok := b.headroomLeft(g); ok {
			f.number("trial.headroom_left_gu", &left, nearest)
		}
	}
	if out.Haze != nil {
		f.word("trial.haze", out.Haze.Judgement)
	}
}

func (b *bench) setSeen(f *factSheet, trial *Trial, out *Verdict) {
	f.number("trial.severity_left", out.SeverityLeft, nearest)
	if out.SeverityLeft != nil {
		short := *out.SeverityLeft - b.advice.AllowedSeverity
		f.number("trial.short_by", &short, nearest)
		if worst := b.worstBefore(); worst != nil {
			improved := *worst - *out.SeverityLeft
			f.number("trial.improved_by", &improved, nearest)
		}
	}
	f.number("trial.trails_left", trial.TrailsLeft, nearest)
	f.word("trial.wipe_off", trial.WipeOff)
	f.number("trial.panel_c", trial.PanelC, up)
	f.flag("trial.panel_wiped", trial.PanelWiped)
	f.flag("trial.pad_loaded", trial.PadLoaded)
	f.flag("trial.color_transfer", trial.ColorTransfer)
}

func (b *bench) setChanges(f *factSheet, i int) {
	trial := &b.trials[i]
	changes := slices.DeleteFunc(slices.Clone(trial.Changed), func(c string) bool { return c == noChange })
	count := float64(len(changes))
	f.number("trial.things_changed", &count, nearest)
	switch len(changes) {
	case 0:
		f.word("trial.changed", noChange)
	case 1:
		f.word("trial.changed", changes[0])
	}
	again, strongerTried, milderFell := false, false, false
	below, _ := milder(trial.Step)
	for k, earlier := range b.trials[:i] {
		if earlier.Step == trial.Step && sharesChange(earlier.Changed, changes) {
			again = true
		}
		strongerTried = strongerTried || strength(earlier.Step) > strength(trial.Step) && !moreThanEnough(&b.verdicts[k])
		milderFell = milderFell || earlier.Step == below && b.verdicts[k].Kind == StepUp
	}
	f.yes("trial.same_change_again", again)
	f.yes("trial.stronger_failed", strongerTried)
	f.yes("trial.milder_failed", milderFell)
}

// moreThanEnough says that a stronger step did reach the goal and was only given up for a milder one: coming back to it
// is open.
func moreThanEnough(v *Verdict) bool {
	return v.Kind == StepDown && v.SeverityLeft != nil && *v.SeverityLeft <= v.AllowedSeverity
}

func sharesChange(earlier, now []string) bool {
	return slices.ContainsFunc(earlier, func(c string) bool { return c != noChange && slices.Contains(now, c) })
}

// inRow counts the trials with the same step up to this one.
func (b *bench) inRow(i int) int {
	n := 1
	for k := i - 1; k >= 0 && b.trials[k].Step == b.trials[i].Step; k-- {
		n++
	}
	return n
}

func (b *bench) setFilmLeft(f *factSheet, trial *Trial, out *Verdict) {
	if out.Film == nil {
		return
	}
	left := out.Film.UsableLeftUm
	f.number("trial.film_left_um", &left, down)
	again := left - float64(b.c.ladderRemoval(trial.Step).HighUm)
	f.number("trial.after_repeat_um", &again, down)
	if above, ok := stronger(trial.Step); ok {
		up := left - float64(b.c.ladderRemoval(above).HighUm)
		f.number("trial.after_step_up_um", &up, down)
	}
}

// worstBefore is the worst severity among the defects that polishing can mend.
func (b *bench) worstBefore() *float64 {
	var worst *float64
	for _, defect := range b.advice.Defects {
		if strength(defect.Start) > 0 && defect.Severity != nil && (worst == nil || *defect.Severity > *worst) {
			worst = defect.Severity
		}
	}
	return worst
}

// worstLeft is the worst severity left; nil when nothing was graded.
func worstLeft(left []Defect) *float64 {
	var worst *float64
	for _, defect := range left {
		if defect.Severity != nil && (worst == nil || *defect.Severity > *worst) {
			worst = defect.Severity
		}
	}
	return worst
}

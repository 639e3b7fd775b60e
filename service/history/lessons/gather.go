package lessons

import (
	"github.com/glossladder/glossladder/service/history"
)

// Kinds are the events that outcomes are made of. A scan that asks for these alone is enough.
func Kinds() []history.Kind {
	return []history.Kind{
		history.KindInspection, history.KindReadings, history.KindTrial, history.KindDecision, history.KindProgress, history.KindCorrection,
	}
}

// Gather makes outcomes of the events of one job, in their order.
func Gather(events []history.Event) []Outcome {
	var out []Outcome
	for _, c := range Courses(events) {
		out = c.tell(out)
	}
	return out
}

// tell adds the outcomes of a course, one for each step that was tried or timed.
func (c *Course) tell(to []Outcome) []Outcome {
	for _, step := range []string{"finish", "polish", "cut"} {
		out := Outcome{Job: c.Job, Panel: c.Panel, Class: c.Class, Ending: c.Ending(step)}
		out.Step = step
		for i := range c.Trials {
			if c.Trials[i].Step == step {
				out.add(&c.Trials[i])
			}
		}
		if w := c.Work[step]; w.Timed && w.Sections > 0 {
			each := w.Minutes / float64(w.Sections)
			out.WorkMinutes = &each
		}
		if out.Trials > 0 || out.WorkMinutes != nil {
			to = append(to, out)
		}
	}
	return to
}

func (out *Outcome) add(t *Tried) {
	out.Trials++
	if t.Minutes != nil {
		out.TrialMinutes = append(out.TrialMinutes, *t.Minutes)
	}
	if t.Verdict == nil {
		return
	}
	if taken := t.Verdict.Taken; taken != nil && taken.Measured {
		out.RemovalUm = append(out.RemovalUm, taken.LikelyUm)
	}
	if gloss := t.Verdict.Gloss; gloss != nil && !t.After {
		gain := gloss.Mean
		out.GainGU, out.Angle = &gain, gloss.Angle
	}
}

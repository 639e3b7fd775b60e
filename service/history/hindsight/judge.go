package hindsight

import (
	"github.com/glossladder/glossladder/service/history/lessons"
)

// Speaks says which of two answers an outcome speaks for.
type Speaks uint8

// What outcomes say. The zero value says nothing.
const (
	// Open: only another course of events could tell.
	Open Speaks = iota
	// ForNeither: both start the same, or both would have come to the same.
	ForNeither
	// ForOld and ForNew: that answer costs less film or, with the same film, fewer trials.
	ForOld
	ForNew
)

// String is for people.
func (s Speaks) String() string {
	return [...]string{"open", "for neither", "for the old answer", "for the new answer"}[min(s, 3)]
}

// cost is what it takes to start a panel with a step, as far as its course tells.
type cost struct {
	known bool
	// trials that only showed that the step is too mild, and what they took of the day where they were timed.
	trials, timed int
	minutes       float64
	// filmUm is what the ladder takes more than the one that was proven, over the whole panel.
	filmUm float64
}

// costOf is the cost of starting with a step on a panel whose proven ladder starts with another. Likely is what each step is
// expected to take.
func costOf(c *lessons.Course, proven, start string, likely *[len(steps)]float64) cost {
	switch {
	case strength(start) == 0:
		return cost{} // nobody knows what came of leaving it
	case strength(start) >= strength(proven):
		return cost{known: true, filmUm: ladderHigh(likely, start) - ladderHigh(likely, proven)}
	case !fellShort(c, start, proven):
		return cost{} // nobody tried
	}
	out := cost{known: true}
	for i := range c.Trials {
		t := &c.Trials[i]
		if s := strength(t.Step); t.After || s < strength(start) || s >= strength(proven) {
			continue
		}
		out.trials++
		if t.Minutes != nil {
			out.timed++
			out.minutes += *t.Minutes
		}
	}
	return out
}

// fellShort says whether a step, or a stronger one that is milder than the proven one, was tried and fell short: what a polish
// does not clear a finish does not clear either.
func fellShort(c *lessons.Course, step, proven string) bool {
	for k := strength(step); k < strength(proven); k++ {
		if c.Ending(steps[k]) == lessons.FellShort {
			return true
		}
	}
	return false
}

// Verdict on two starts of one panel.
type judgement struct {
	speaks Speaks
	// what the new start saves against the old; below zero it costs more. Timed is how many of the trials were.
	trials, timed int
	minutes       float64
	filmUm        float64
}

// judge weighs two starts by what came of the panel. Film counts before trials, since it does not come back.
func judge(c *lessons.Course, old, is string, likely *[len(steps)]float64) judgement {
	proven, ok := c.Proven()
	if old == is {
		return judgement{speaks: ForNeither}
	}
	if !ok {
		return judgement{}
	}
	was, then := costOf(c, proven, old, likely), costOf(c, proven, is, likely)
	if !was.known || !then.known {
		return judgement{}
	}
	out := judgement{
		trials: was.trials - then.trials, timed: was.timed - then.timed, minutes: was.minutes - then.minutes, filmUm: was.filmUm - then.filmUm,
	}
	switch {
	case out.filmUm > 0, out.filmUm == 0 && out.trials > 0:
		out.speaks = ForNew
	case out.filmUm < 0, out.trials < 0:
		out.speaks = ForOld
	default:
		out.speaks = ForNeither
	}
	return out
}

// judgeVerdict weighs two verdicts on one trial by what came after it. A verdict that changes something about a step and tries
// again was in vain where the step fell short in the end; whether one more try would have done where nobody made it is open.
func judgeVerdict(c *lessons.Course, trial int64, old, is string) judgement {
	if old == is {
		return judgement{speaks: ForNeither}
	}
	at := -1
	for i := range c.Trials {
		if c.Trials[i].Sequence == trial {
			at = i
		}
	}
	if at < 0 || is != "step-up" || old != "adjust" && old != "repeat" {
		return judgement{}
	}
	out := judgement{}
	step := c.Trials[at].Step
	for _, t := range c.Trials[at+1:] {
		if t.Step != step {
			break
		}
		out.trials++
		if t.Minutes != nil {
			out.timed++
			out.minutes += *t.Minutes
		}
		if t.Said() == "step-up" {
			out.speaks = ForNew
			return out
		}
	}
	return judgement{}
}

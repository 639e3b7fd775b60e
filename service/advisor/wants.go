package advisor

import (
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules"
)

const (
	startCouldBe = "the step to start with could be"
	limitCouldBe = "the strongest step allowed could be"
)

// wantStart notes what could move the start for one defect. The limit is not known yet: what it makes idle is dropped
// by wantLimit.
func (c *panelCase) wantStart(now string) {
	c.want(c.a.tables.start, spokenStep(now), func(result rules.Result) (rank, string, string, bool) {
		step, _ := result.Word("step")
		return couldStart, startCouldBe, spokenStep(step), step != now
	})
}

// wantLimit notes what could move the limit, where that would move the start of the ladder.
func (c *panelCase) wantLimit(start, limit string) {
	first := milderOf(start, limit)
	c.wanted.keep(startCouldBe, func(step string) bool { return milderOf(unspoken(step), limit) != first })
	c.want(c.a.tables.limit, spokenStep(limit), func(result rules.Result) (rank, string, string, bool) {
		step, _ := result.Word("step")
		rank := couldAllow
		if strength(step) < strength(limit) {
			rank = couldForbid
		}
		return rank, limitCouldBe, spokenStep(step), milderOf(start, step) != first
	})
}

// spokenStep is a step as people say it, "" when no rule could tell.
func spokenStep(step string) string {
	if step == noStep {
		return "no step"
	}
	return step
}

func unspoken(step string) string {
	if step == "no step" {
		return noStep
	}
	return step
}

// keep drops the words of a phrase that do not pass, and what then has nothing left to change.
func (l *wantList) keep(phrase string, pass func(word string) bool) {
	for i := range l.items {
		for k := range l.items[i].could {
			if l.items[i].could[k].phrase == phrase {
				l.items[i].could[k].words = slices.DeleteFunc(l.items[i].could[k].words, func(w string) bool { return !pass(w) })
			}
		}
		l.items[i].could = slices.DeleteFunc(l.items[i].could, func(o outcome) bool { return o.phrase == phrase && len(o.words) == 0 })
	}
	l.items = slices.DeleteFunc(l.items, func(w wantItem) bool { return len(w.could) == 0 })
}

// wantReadiness notes what could forbid the work or make it wait. Notes hold nobody up.
func (c *panelCase) wantReadiness() {
	phrases := map[string]string{
		"prepare": "something may have to be done first", "wait": "work may have to wait",
		"refer": "this may be for another trade", "stop": "polishing may be ruled out",
	}
	c.want(c.a.tables.readiness, "", func(result rules.Result) (rank, string, string, bool) {
		effect, _ := result.Word("effect")
		if effect == "stop" || effect == "refer" {
			return couldForbid, phrases[effect], "", true
		}
		return couldHold, phrases[effect], "", phrases[effect] != ""
	})
}

func (c *panelCase) wantLadder(now string) {
	c.want(c.a.tables.ladder, LadderInWords(now), func(result rules.Result) (rank, string, string, bool) {
		ladder, _ := result.Word("ladder")
		return couldAllow, "the ladder could be", LadderInWords(ladder), ladder != now
	})
}

// wantVerdict notes what could change the verdict on a trial.
func (c *panelCase) wantVerdict(now answer) {
	present, _ := now.result.Word("verdict")
	c.want(c.a.tables.verdict, plainWord(present), func(result rules.Result) (rank, string, string, bool) {
		kind, _ := result.Word("verdict")
		rank := couldStart
		if kind == StopWork {
			rank = couldForbid
		}
		return rank, "the verdict could be", plainWord(kind), kind != present
	})
}

// inWords lists words as people do: "no step, finish or cut".
func inWords(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
}

package rpc

import (
	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/film"
	"github.com/glossladder/glossladder/service/history/lessons"
)

// Learned lets an adviser look things up in what a shop has learned.
type Learned struct{ *lessons.Lessons }

// Lesson is what is on record of a step.
func (l Learned) Lesson(step, softness, kind string, severity *float64, angle int) (advisor.Lesson, bool) {
	found, ok := l.Lessons.Lesson(classOf(step, softness, kind, severity))
	if !ok || found.Success.N == 0 && found.RemovalUm.N == 0 && found.WorkMinutes.N == 0 {
		return advisor.Lesson{}, false
	}
	out := advisor.Lesson{
		Panels: found.Success.N, SuccessPct: 100 * found.Success.Mean, SuccessLowPct: 100 * found.Success.Low,
		Removals: found.RemovalUm.N, TakesLowUm: film.Microns(found.RemovalUm.Low),
	}
	if work := found.WorkMinutes; work.N > 0 {
		out.Section = &advisor.SectionTime{LowMin: max(0, work.Low), LikelyMin: work.Mean, HighMin: work.High, Panels: work.N}
	}
	if angles := found.Angles(); angle == 0 && len(angles) > 0 {
		angle = angles[0]
	}
	if gain, read := found.Gain[angle]; read {
		out.GainGU, out.GainLowGU = &gain.Mean, &gain.Low
	}
	return out, true
}

// Proven is how surely a step does.
func (l Learned) Proven(step, softness, kind string, severity *float64) (panels int, lowPct float64, known bool) {
	panels, low, known := l.Lessons.Proven(classOf(step, softness, kind, severity))
	return panels, 100 * low, known
}

func classOf(step, softness, kind string, severity *float64) lessons.Class {
	return lessons.Class{Step: step, Softness: softness, Kind: kind, Band: lessons.BandOf(severity)}
}

// Expecting asks the rules what is usual for a class.
func Expecting(a *advisor.Advisor) func(lessons.Class) (lessons.Expectation, error) {
	return func(c lessons.Class) (lessons.Expectation, error) {
		said, err := usualOf(a, c)
		if err != nil {
			return lessons.Expectation{}, err
		}
		return lessons.Expect(said.SuccessPct/100, said.SuccessOdds, said.WorthTrials,
			lessons.Spread(said.GainGU), lessons.Spread(said.Minutes),
			lessons.SpreadOf(float64(said.Removal.LowUm), float64(said.Removal.LikelyUm), float64(said.Removal.HighUm))), nil
	}
}

func usualOf(a *advisor.Advisor, c lessons.Class) (advisor.Usual, error) {
	var severity *float64
	if worst, graded := c.Band.Worst(); graded {
		severity = &worst
	}
	return a.Usual(c.Step, c.Softness, c.Kind, severity)
}

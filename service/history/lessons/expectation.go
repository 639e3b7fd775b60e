package lessons

import (
	"math"

	"github.com/glossladder/glossladder/service/history/learned"
)

// Expectation is what is usual for a class before the shop has trials of its own, as the trade or a rule table says.
type Expectation struct {
	// Success is the chance that the step is accepted, over 0 and under 1.
	Success float64
	// Odds says how far a shop may differ from it, and how many trials it is worth.
	Odds learned.OddsPrior
	// GainGU is at the angle chosen for judging, MinutesEach for one section in a trial, RemovalUm for the complete step.
	GainGU, MinutesEach, RemovalUm learned.NormalPrior
}

// Spread is what is usual of a quantity: the mean, how far a shop may lie from it, how far classes lie apart within a shop, and
// how far single trials lie from their class, each as a standard deviation.
type Spread struct{ Mean, Shop, Class, Single float64 }

// Expect puts an expectation together. Success is a chance; a shop may have odds times the odds of it, or be as far below it,
// in two cases of three; worth is how many trials the whole is worth.
func Expect(success, odds, worth float64, gainGU, minutesEach, removalUm Spread) Expectation {
	normal := func(s Spread) learned.NormalPrior {
		return learned.NormalPrior{Mean: s.Mean, MeanSD: s.Shop, BetweenSD: s.Class, WithinSD: s.Single, WithinDF: worth}
	}
	return Expectation{
		Success: success, Odds: learned.OddsPrior{LevelSD: math.Log(odds), Likeness: worth},
		GainGU: normal(gainGU), MinutesEach: normal(minutesEach), RemovalUm: normal(removalUm),
	}
}

// nineInTen is how many standard deviations the ends of an interval that holds nine in ten lie apart.
const nineInTen = 2 * 1.6448536269514722

// SpreadOf turns the span that a rule gives for a quantity into a spread: the span is taken to hold nine single trials in ten,
// and what they differ by to come in equal parts from shop, class and trial. A span of nothing counts as a hundredth of a unit.
func SpreadOf(low, likely, high float64) Spread {
	each := math.Max(high-low, 0.01) / nineInTen / math.Sqrt(3)
	return Spread{Mean: likely, Shop: each, Class: each, Single: each}
}

package course

import (
	"fmt"

	"github.com/glossladder/glossladder/service/history/drift"
)

// State is how the work goes.
type State int

// The states.
const (
	TooFew State = iota + 1
	AsPromised
	FallingBehind
	Better
)

// State is how the work goes, by the last thing that would hardly be seen if nothing had changed. What was called and then read
// on course again eight times in a row is over.
func (c Course) State() State {
	if c.Chart.Sigma == 0 {
		return TooFew
	}
	const over = 8
	for i := len(c.Chart.Signals) - 1; i >= 0; i-- {
		s := c.Chart.Signals[i]
		if len(c.Points)-1-s.At >= over {
			break
		}
		if c.Scale.Worse(s.Low) {
			return FallingBehind
		}
		return Better
	}
	return AsPromised
}

// Says is how the work goes and what to do, in plain words.
func (c Course) Says() string {
	last, unit := c.Points[len(c.Points)-1].Value, c.Scale.Unit()
	switch c.State() {
	case TooFew:
		return fmt.Sprintf("too few readings to tell; the trial promised %.1f %s, read last was %.1f", c.Promised, unit, last)
	case FallingBehind:
		text := fmt.Sprintf("the work falls behind the trial (%s): the pad may be loading up; clean it or put on a fresh one, then read again", c.lastSignal())
		if c.SectionsOnPad != nil && *c.SectionsOnPad > 1 {
			text += fmt.Sprintf(". It has worked %d sections", *c.SectionsOnPad)
		}
		return text
	case Better:
		return fmt.Sprintf("the work is better than the trial (%s); look whether a milder step would do on what is left", c.lastSignal())
	}
	return "the work keeps to what the trial promised"
}

func (c Course) lastSignal() drift.Kind { return c.Chart.Signals[len(c.Chart.Signals)-1].Kind }

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

// State is how the work goes with the pad that is on now, by the last thing that would hardly be seen if nothing had changed.
// What was called and then read on course again eight times in a row is over.
func (c Course) State() State {
	const over = 8
	if c.Chart.Sigma == 0 || c.ThisPad == len(c.Points) {
		return TooFew
	}
	signal, ok := c.lastSignal()
	switch {
	case !ok || signal.At < c.ThisPad || len(c.Points)-1-signal.At >= over:
		return AsPromised
	case c.Scale.Worse(signal.Low):
		return FallingBehind
	}
	return Better
}

// Says is how the work goes and what to do, in plain words.
func (c Course) Says() string {
	last, unit := c.Points[len(c.Points)-1].Value, c.Scale.Unit()
	switch c.State() {
	case TooFew:
		if c.ThisPad == len(c.Points) {
			return fmt.Sprintf("nothing was read since a fresh or cleaned pad was put on; the trial promised %.1f %s, read last was %.1f", c.Promised, unit, last)
		}
		return fmt.Sprintf("too few readings to tell; the trial promised %.1f %s, read last was %.1f", c.Promised, unit, last)
	case FallingBehind:
		text := fmt.Sprintf("the work falls behind the trial (%s): the pad may be loading up; clean it or put on a fresh one, then read again", c.signalWords())
		if c.SectionsOnPad != nil && *c.SectionsOnPad > 1 {
			text += fmt.Sprintf(". It has worked %d sections", *c.SectionsOnPad)
		}
		return text
	case Better:
		return fmt.Sprintf("the work is better than the trial (%s); look whether a milder step would do on what is left", c.signalWords())
	}
	return "the work keeps to what the trial promised"
}

func (c Course) lastSignal() (drift.Signal, bool) {
	if len(c.Chart.Signals) == 0 {
		return drift.Signal{}, false
	}
	return c.Chart.Signals[len(c.Chart.Signals)-1], true
}

func (c Course) signalWords() string {
	signal, _ := c.lastSignal()
	return signal.Kind.String()
}

package webhook

import (
	"fmt"
	"slices"
	"time"
)

// Pace is how patient a dispatcher is. The zero value is what Standard Webhooks propose.
type Pace struct {
	// Timeout is how long a receiver may take to answer. Zero: 20 s.
	Timeout time.Duration
	// Waits are those after each try in vain; when they are used up the delivery is given up. Empty: nine, from 5 s to a day,
	// over three days.
	Waits []time.Duration
}

// proposed is the schedule that Standard Webhooks propose.
var proposed = [...]time.Duration{
	5 * time.Second, 5 * time.Minute, 30 * time.Minute, 2 * time.Hour, 5 * time.Hour,
	10 * time.Hour, 14 * time.Hour, 20 * time.Hour, 24 * time.Hour,
}

// MostTries is how often a delivery is sent before it is given up, unless a [Pace] says otherwise.
const MostTries = len(proposed) + 1

// Bounds of a pace.
const (
	usualTimeout   = 20 * time.Second // Standard Webhooks propose 15 to 30 s
	longestTimeout = 2 * time.Minute
	longestWait    = 7 * 24 * time.Hour
	mostWaits      = 50
)

// Check says what is wrong with a pace, by the name of what says it.
func (p Pace) Check() error {
	if p.Timeout < 0 || p.Timeout > longestTimeout {
		return fmt.Errorf("webhook timeout %v: allowed is up to %v", p.Timeout, longestTimeout)
	}
	if len(p.Waits) > mostWaits {
		return fmt.Errorf("webhook waits: there are %d, allowed are up to %d", len(p.Waits), mostWaits)
	}
	for _, wait := range p.Waits {
		if wait <= 0 || wait > longestWait {
			return fmt.Errorf("webhook wait %v: allowed is more than none and up to %v", wait, longestWait)
		}
	}
	return nil
}

// settled is the pace with everything said.
func (p Pace) settled() Pace {
	if p.Timeout == 0 {
		p.Timeout = usualTimeout
	}
	if len(p.Waits) == 0 {
		p.Waits = proposed[:]
	}
	p.Waits = slices.Clone(p.Waits)
	return p
}

// after is the wait after so many failed tries, up to a fifth longer by chance (0 to 1), so that a receiver that comes back is
// not met by everybody at once; ok is false when there is no further try.
func (p Pace) after(tries int, chance float64) (wait time.Duration, ok bool) {
	if tries > len(p.Waits) {
		return 0, false
	}
	wait = p.Waits[max(tries, 1)-1]
	return wait + time.Duration(chance*float64(wait)/5), true
}

// look is how often the queue is looked at: no wait is shorter.
func (p Pace) look() time.Duration {
	const least = 10 * time.Millisecond
	return max(least, min(lookEvery, slices.Min(p.Waits)))
}

// lease is longer than a try can take; a delivery lent by a process that died comes back after it.
func (p Pace) lease() time.Duration { return 2 * p.Timeout }

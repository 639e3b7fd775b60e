package drift

import (
	"errors"
	"fmt"
	"math"
)

// d2 is the expected range of two normal readings in standard deviations: 2/√π = 1.128. NIST/SEMATECH e-Handbook of Statistical
// Methods, 6.3.2.2, prints it as 1.128.
var d2 = 2 / math.SqrtPi

// Chart is a control chart of individual readings, in the readings' own unit.
type Chart struct {
	Centre float64
	// Sigma is the standard deviation of a single reading from its course.
	Sigma  float64
	Values []float64
	// Signals are what would hardly happen if nothing had changed, by the place of the reading that completed them.
	Signals []Signal
}

// Lower and Upper are the limits that a reading leaves about three times in a thousand though nothing has changed.
func (c Chart) Lower() float64 { return c.Centre - 3*c.Sigma }

// Upper is the upper of the limits; see [Chart.Lower].
func (c Chart) Upper() float64 { return c.Centre + 3*c.Sigma }

// Kind says what is unusual.
type Kind int

// The kinds, by the tests of the NIST/SEMATECH e-Handbook, 6.3.2 (the rules of the Western Electric handbook).
const (
	Outside     Kind = iota + 1 // one reading past a limit of three sigma
	TwoOfThree                  // two of three in a row past two sigma, on one side
	FourOfFive                  // four of five in a row past one sigma, on one side
	EightBeside                 // eight in a row on one side
	SixTrend                    // six in a row each further than the one before
)

// String says it in words.
func (k Kind) String() string {
	switch k {
	case Outside:
		return "one reading outside the limits"
	case TwoOfThree:
		return "two of three readings in a row far to one side"
	case FourOfFive:
		return "four of five readings in a row to one side"
	case EightBeside:
		return "eight readings in a row on one side"
	case SixTrend:
		return "six readings in a row in one direction"
	}
	return fmt.Sprintf("kind %d", int(k))
}

// Signal is one thing that is unusual.
type Signal struct {
	At   int // place of the reading that completed it, from 0
	Kind Kind
	Low  bool // towards lower readings
}

// Errors of a chart that cannot be drawn.
var (
	ErrFewReadings = errors.New("a scatter needs two readings at least")
	ErrNoScatter   = errors.New("readings that never differ tell no scatter; the display's step hides it")
)

// SigmaOf is the standard deviation that readings in their order show from one to the next: the mean moving range over 1.128,
// NIST/SEMATECH e-Handbook 6.3.2.2. A slow drift hardly widens it, which is why it is used. Several runs of readings count
// together; from the end of one to the beginning of the next is no range. Errors: [ErrFewReadings], [ErrNoScatter], [*ValueError].
func SigmaOf(runs ...[]float64) (float64, error) {
	var sum float64
	ranges := 0
	for _, run := range runs {
		if err := check(run); err != nil {
			return 0, err
		}
		for i := 1; i < len(run); i++ {
			sum += math.Abs(run[i] - run[i-1])
			ranges++
		}
	}
	switch {
	case ranges == 0:
		return 0, ErrFewReadings
	case sum == 0:
		return 0, ErrNoScatter
	}
	return sum / float64(ranges) / d2, nil
}

// Watch holds readings in their order against a course: the value that was promised and the scatter of a single reading about
// it. Errors: [*ValueError].
func Watch(centre, sigma float64, values []float64) (Chart, error) {
	if !(sigma > 0) || math.IsInf(sigma, 1) {
		return Chart{}, &ValueError{Field: "sigma", Value: sigma, Allowed: "a number over 0"}
	}
	if !finite(centre) {
		return Chart{}, &ValueError{Field: "centre", Value: centre, Allowed: "a finite number"}
	}
	if err := check(values); err != nil {
		return Chart{}, err
	}
	out := Chart{Centre: centre, Sigma: sigma, Values: values}
	z := make([]float64, len(values))
	for i, v := range values {
		z[i] = (v - centre) / sigma
	}
	for i := range z {
		out.Signals = append(out.Signals, signals(z[:i+1])...)
	}
	return out, nil
}

// signals are those that the last reading completes.
func signals(z []float64) []Signal {
	var out []Signal
	at := len(z) - 1
	for _, low := range []bool{false, true} {
		side := 1.0
		if low {
			side = -1
		}
		past := func(sigmas float64, window, need int) bool {
			if len(z) < window || !(side*z[at] > sigmas) {
				return false // a signal is told at a reading that speaks for it
			}
			count := 0
			for _, v := range z[at+1-window:] {
				if side*v > sigmas {
					count++
				}
			}
			return count >= need
		}
		for _, test := range []struct {
			kind Kind
			hit  bool
		}{
			{Outside, past(3, 1, 1)},
			{TwoOfThree, past(2, 3, 2)},
			{FourOfFive, past(1, 5, 4)},
			{EightBeside, past(0, 8, 8)},
			{SixTrend, trend(z, side)},
		} {
			if test.hit {
				out = append(out, Signal{At: at, Kind: test.kind, Low: low})
			}
		}
	}
	return out
}

// trend says whether the last six readings each lie further to a side than the one before.
func trend(z []float64, side float64) bool {
	const row = 6
	if len(z) < row {
		return false
	}
	for i := len(z) - row + 1; i < len(z); i++ {
		if side*(z[i]-z[i-1]) <= 0 {
			return false
		}
	}
	return true
}

// ValueError tells which number cannot be charted.
type ValueError struct {
	Field   string
	Value   float64
	Allowed string
}

func (e *ValueError) Error() string {
	return fmt.Sprintf("%s is %v, allowed is %s", e.Field, e.Value, e.Allowed)
}

func check(values []float64) error {
	for i, v := range values {
		if !finite(v) {
			return &ValueError{Field: fmt.Sprintf("reading %d", i+1), Value: v, Allowed: "a finite number"}
		}
	}
	return nil
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

package gloss

import "math"

// Side is where an interval stands against a limit.
type Side uint8

// The sides. Straddles means that the readings do not decide.
const (
	Straddles Side = iota + 1
	Above
	Below
)

// String returns the side in a person's words.
func (s Side) String() string {
	switch s {
	case Straddles:
		return "on both sides of the limit"
	case Above:
		return "wholly at or above the limit"
	case Below:
		return "wholly below the limit"
	}
	return "no side"
}

// Against says where the whole interval stands against a limit in the gain's unit. An interval whose low end just
// touches the limit is Above.
func (g Gain) Against(limit float64) Side {
	switch {
	case g.Low >= limit:
		return Above
	case g.High < limit:
		return Below
	}
	return Straddles
}

// Verdict is what the readings prove about a gain.
type Verdict uint8

// The verdicts.
const (
	// NotConclusive: the interval holds both gains that are worth having and gains that are not. See [Gain.Outlook].
	NotConclusive Verdict = iota + 1
	// Worthwhile: the whole interval is at or above the smallest worthwhile gain.
	Worthwhile
	// TooSmall: the whole interval is below the smallest worthwhile gain, though there may be some gain.
	TooSmall
	// Loss: the whole interval is below zero.
	Loss
)

// String returns the verdict in a person's words.
func (v Verdict) String() string {
	switch v {
	case NotConclusive:
		return "not conclusive"
	case Worthwhile:
		return "worthwhile"
	case TooSmall:
		return "too small to be worth it"
	case Loss:
		return "a loss"
	}
	return "no verdict"
}

// Judge compares the interval with the smallest gain worth having, in the gain's unit; zero asks only whether there
// was no loss. A negative, infinite or NaN smallest returns a [*RangeError].
func (g Gain) Judge(smallestWorthwhile float64) (Verdict, error) {
	limits := &RangeError{
		Field: "smallest worthwhile gain", Value: smallestWorthwhile, Max: math.Inf(1),
		Unit: g.Scale.Unit(), Advice: "set it in the rule files",
	}
	if err := limits.orNil(); err != nil {
		return 0, err
	}
	switch {
	case g.Against(smallestWorthwhile) == Above:
		return Worthwhile, nil
	case g.Against(0) == Below:
		return Loss, nil
	case g.Against(smallestWorthwhile) == Below:
		return TooSmall, nil
	}
	return NotConclusive, nil
}

package gloss

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// ErrNoSpread says that nothing gives the values any uncertainty, so no honest interval exists.
var ErrNoSpread = errors.New("readings show no spread and the meter names no display step; give the step its display moves in")

// RangeError is a value outside what is allowed.
type RangeError struct {
	Field   string // what was wrong, as a person would name it
	Value   float64
	Min     float64
	Max     float64 // +Inf when there is no upper end
	MinOpen bool    // Min itself is not allowed
	Unit    string  // "" for a bare number
	Advice  string  // a way out; may be empty
}

func (e *RangeError) Error() string {
	var complaint string
	switch {
	case math.IsInf(e.Max, 1):
		complaint = "is not " + withUnit(e.Min, e.Unit) + " or more"
	case e.MinOpen:
		complaint = "is not above " + number(e.Min) + " and at most " + withUnit(e.Max, e.Unit)
	default:
		complaint = "is outside " + number(e.Min) + " to " + withUnit(e.Max, e.Unit)
	}
	return withAdvice(fmt.Sprintf("%s: %s %s", e.Field, withUnit(e.Value, e.Unit), complaint), e.Advice)
}

func (e *RangeError) holds() bool {
	if e.MinOpen && e.Value == e.Min {
		return false
	}
	return e.Min <= e.Value && e.Value <= e.Max && !math.IsInf(e.Value, 0)
}

// orNil returns e as an error unless its value is allowed. NaN never is.
func (e *RangeError) orNil() error {
	if e.holds() {
		return nil
	}
	return e
}

// CountError is too few of something to reckon with.
type CountError struct {
	Field  string
	Have   int
	Need   int
	Advice string
}

func (e *CountError) Error() string {
	return withAdvice(fmt.Sprintf("%s: have %d, need at least %d", e.Field, e.Have, e.Need), e.Advice)
}

// SpotError is a spot that cannot be told from another.
type SpotError struct {
	Side    string // "before", "after", or "" when there is one side only
	Name    string
	Problem string
}

func (e *SpotError) Error() string {
	return strings.TrimSpace(fmt.Sprintf("%s spot %q: %s", e.Side, e.Name, e.Problem))
}

// ScaleError is a scale that does not fit where it was given.
type ScaleError struct {
	Field   string
	Scale   Scale
	Allowed []Scale
}

func (e *ScaleError) Error() string {
	names := make([]string, len(e.Allowed))
	for i, s := range e.Allowed {
		names[i] = s.String()
	}
	return fmt.Sprintf("%s: %s does not fit here; use %s", e.Field, e.Scale, strings.Join(names, ", "))
}

func withAdvice(text, advice string) string {
	if advice == "" {
		return text
	}
	return text + "; " + advice
}

func withUnit(v float64, unit string) string {
	if unit == "" {
		return number(v)
	}
	return number(v) + " " + unit
}

// number prints at most one decimal more than any instrument shows, without a trailing zero.
func number(v float64) string { return strconv.FormatFloat(v, 'g', 6, 64) }

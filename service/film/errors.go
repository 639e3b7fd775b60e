package film

import (
	"errors"
	"fmt"
)

var (
	// ErrNoSpots is returned for a panel without spots. A panel that nobody measured has no film readings to reckon
	// with; leave it out instead of passing it empty.
	ErrNoSpots = errors.New("film has no spots; give at least one spot of three readings, or leave film out")

	// ErrNoCommonSpot is returned when before and after share no spot, so that nothing can be subtracted.
	ErrNoCommonSpot = errors.New("no film spot was read both before and after; read the same taped spots again, under the same names")

	// ErrNotSameLayer is returned when before and after do not cover the same layer.
	ErrNotSameLayer = errors.New("film before and after cover different layers; read the same layer both times")

	// ErrNotTotal is returned when signs are asked of readings that do not see the whole film.
	ErrNotTotal = errors.New("signs of thin film, repaint or filler need readings of the whole film, not of its top layer")
)

// RangeError tells which value was outside what can be reckoned with. Field is spelled as in the facts and the policy.
type RangeError struct {
	Field string
	Value float64
	// Allowed says the range in words and units, such as "0 to 100 %".
	Allowed string
}

func (e *RangeError) Error() string {
	return fmt.Sprintf("%s is %v, allowed is %s; correct it or leave it out", e.Field, e.Value, e.Allowed)
}

// TooFewReadingsError tells of a spot with fewer readings than a spot mean takes.
type TooFewReadingsError struct {
	Spot string
	Have int
	Need int
}

func (e *TooFewReadingsError) Error() string {
	return fmt.Sprintf("film %s has too few readings, %d, need >= %d; lift the gauge and read the spot again, or leave the spot out", e.Spot, e.Have, e.Need)
}

// SameSpotError tells of two spots of one panel that carry the same name.
type SameSpotError struct{ Spot string }

func (e *SameSpotError) Error() string {
	return fmt.Sprintf("film %s is given twice; put its readings together or name the spots apart", e.Spot)
}

func checkRange(field string, value, low, high float64, allowed string) error {
	if value >= low && value <= high { // false for NaN
		return nil
	}
	return &RangeError{Field: field, Value: value, Allowed: allowed}
}

// thickest is where paint gauges end (from memory); nothing that is polished comes near it.
const thickest Microns = 3000

func checkThickness(field string, value Microns) error {
	return checkRange(field, float64(value), 0, float64(thickest), "0 to 3000 µm")
}

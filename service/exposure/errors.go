package exposure

import (
	"fmt"
	"math"
)

// RangeError tells which value cannot be reckoned with. Field names it with its unit's ending.
type RangeError struct {
	Field   string
	Value   float64
	Allowed string
}

func (e *RangeError) Error() string {
	return fmt.Sprintf("%s is %v, allowed is %s", e.Field, e.Value, e.Allowed)
}

// within returns a [*RangeError] unless value lies in min to max, both included. NaN lies nowhere.
func within(field string, value, min, max float64, unit string) error {
	if value >= min && value <= max {
		return nil
	}
	return &RangeError{Field: field, Value: value, Allowed: fmt.Sprintf("%v to %v %s", min, max, unit)}
}

// positive returns a [*RangeError] unless value is a finite number over zero.
func positive(field string, value float64, unit string) error {
	if value > 0 && !math.IsInf(value, 1) {
		return nil
	}
	return &RangeError{Field: field, Value: value, Allowed: "over 0 " + unit}
}

// dayMinutes is the longest day that can be reckoned.
const dayMinutes = 24 * 60

// checkMinutes holds the minutes of all stretches together against a day.
func checkMinutes(minutes []float64) error {
	var sum float64
	for _, m := range minutes {
		if err := within("minutes", m, 0, dayMinutes, "min"); err != nil {
			return err
		}
		sum += m
	}
	return within("minutes of all work together", sum, 0, dayMinutes, "min")
}

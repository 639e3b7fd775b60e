package climate

import (
	"fmt"
	"math"
)

// RangeError tells which value was outside what can be reckoned with. Field is spelled as in the facts.
type RangeError struct {
	Field string
	Value float64
	// Allowed says the range in words and units, such as "over 0 and up to 100 %".
	Allowed string
	// Remedy says what to do instead; never empty.
	Remedy string
}

func (e *RangeError) Error() string {
	return fmt.Sprintf("%s is %v, allowed is %s; %s", e.Field, e.Value, e.Allowed, e.Remedy)
}

// finite is false for NaN as well, since NaN compares false with everything.
func finite(x float64) bool { return math.Abs(x) <= math.MaxFloat64 }

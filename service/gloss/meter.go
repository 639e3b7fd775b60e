package gloss

import (
	"errors"
	"math"
)

// Meter is one instrument on one scale. Accuracy and Resolution are in the scale's unit. Zero says that the meter has
// no such error at all; a caller that does not know a figure must put in what it is prepared to assume.
type Meter struct {
	Scale Scale
	// Accuracy is the stated largest error, either way, against the reference.
	Accuracy float64
	// Resolution is the smallest step the display moves in, such as 0.1 or 1.
	Resolution float64
}

// accuracyComponent treats the stated accuracy as the half width of a rectangular distribution: GUM 4.3.7.
func (m Meter) accuracyComponent() Component {
	return Component{Source: "stated accuracy", Standard: Rectangular(m.Accuracy), DF: math.Inf(1)}
}

// resolutionComponent is not divided by the number of readings: repeats that all round to the same number share one
// rounding error, and taking more of them does not shrink it.
func (m Meter) resolutionComponent() Component {
	return Component{Source: "display step", Standard: DisplayStep(m.Resolution), DF: math.Inf(1)}
}

func (m Meter) check() error {
	if err := m.Scale.checkReadable("meter scale"); err != nil {
		return err
	}
	limit := m.Scale.Max()
	accuracy := &RangeError{
		Field: "meter accuracy", Value: m.Accuracy, Max: limit, Unit: m.Scale.Unit(),
		Advice: "give the largest error the meter's certificate states",
	}
	resolution := &RangeError{
		Field: "meter resolution", Value: m.Resolution, Max: limit, Unit: m.Scale.Unit(),
		Advice: "give the step the display moves in",
	}
	return errors.Join(accuracy.orNil(), resolution.orNil())
}

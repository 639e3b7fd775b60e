package gloss

import (
	"fmt"
	"math"
)

// Index is the refractive index assumed for a clear coat, and how far from it the true one may lie either way.
type Index struct {
	N         float64
	HalfWidth float64 // zero only for an index that was measured
}

// Headroom is how much gloss a panel could still gain before its clear coat reflects all it can.
type Headroom struct {
	Scale       Scale
	CeilingGU   float64
	RoomGU      float64 // negative where flakes add light, or the index is higher than assumed
	LowGU       float64 // the interval at the uncertainty's confidence
	HighGU      float64
	Uncertainty Uncertainty
}

// HeadroomOf compares a panel on a gloss scale with the ceiling for an index. Besides the panel's own uncertainty, stated
// accuracy included, it counts what the unsure index does to the ceiling. The confidence is the panel's.
func HeadroomOf(panel Panel, index Index) (Headroom, error) {
	if err := panel.Scale.checkGloss("panel scale"); err != nil {
		return Headroom{}, err
	}
	half, err := ceilingHalfWidth(panel.Scale, index)
	if err != nil {
		return Headroom{}, err
	}
	part := Component{Source: "refractive index", Standard: Rectangular(half), DF: math.Inf(1)}
	u, err := Combine(panel.Uncertainty.Confidence, append([]Component{part}, panel.Uncertainty.Components...)...)
	if err != nil {
		return Headroom{}, fmt.Errorf("headroom: %w", err)
	}
	top := ceiling(panel.Scale, index.N)
	room := top - panel.Mean
	return Headroom{
		Scale: panel.Scale, CeilingGU: top, RoomGU: room,
		LowGU: room - u.Expanded, HighGU: room + u.Expanded, Uncertainty: u,
	}, nil
}

// ceilingHalfWidth takes half the ceiling's whole change over the index range: over so short a range it is straight.
func ceilingHalfWidth(scale Scale, index Index) (float64, error) {
	width := &RangeError{Field: "refractive index half width", Value: index.HalfWidth, Max: 0.2}
	if err := width.orNil(); err != nil {
		return 0, err
	}
	low, high := index.N-index.HalfWidth, index.N+index.HalfWidth
	for _, n := range []float64{index.N, low, high} {
		if err := checkIndex(n); err != nil {
			return 0, err
		}
	}
	return (ceiling(scale, high) - ceiling(scale, low)) / 2, nil
}

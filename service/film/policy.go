package film

import "errors"

// Policy is the judgement behind the figures, as the rule files give it for the paint system at hand. On single-stage
// paint the colour coat stands where a field says clear: it is the layer that is thinned. The zero value allows
// nothing.
type Policy struct {
	// ClearSharePct is the share of the whole film that is clear at the thin end, used when only the whole was read,
	// over 0 to 100. With 35 µm of clear in a factory film of 80 to 95 µm it is about 37 to 44.
	ClearSharePct float64
	// ClearFloorUm is the least clear that must stay.
	ClearFloorUm Microns
	// TakeSharePct is how much of the clear as first applied may go over the vehicle's life, 0 to 100.
	TakeSharePct float64
	// TakeMostUm is the most that may go over the vehicle's life, however thick the clear.
	TakeMostUm Microns

	// ThinUm, RepaintUm and FillerUm are thresholds on the whole film, NeighbourUm on the step between two panels.
	// ClearSharePct describes factory film and is not trusted above RepaintUm.
	ThinUm      Microns
	RepaintUm   Microns
	FillerUm    Microns
	NeighbourUm Microns
}

// Check returns every complaint about the policy, each a [*RangeError] that names the field as rule files spell it.
func (p Policy) Check() error {
	return errors.Join(
		checkRange("clear_share_pct", p.ClearSharePct, 0, 100, "0 to 100 %"),
		checkThickness("clear_floor_um", p.ClearFloorUm),
		checkRange("take_share_pct", p.TakeSharePct, 0, 100, "0 to 100 %"),
		checkThickness("take_most_um", p.TakeMostUm),
		checkThickness("thin_um", p.ThinUm),
		checkThickness("repaint_um", p.RepaintUm),
		checkThickness("filler_um", p.FillerUm),
		checkThickness("neighbour_um", p.NeighbourUm),
	)
}

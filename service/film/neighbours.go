package film

// Step is how far the mean film of one panel lies above that of another, with the half width of its interval.
type Step struct {
	From string
	To   string
	// DiffUm is From less To: positive where From carries more film.
	DiffUm Microns
	HalfUm Microns
}

// GreatestStep compares a panel with its neighbours and returns the step greatest in size, or nil if no neighbour is
// comparable: only panels of the same substrate, read over the same layer, are. Of equal steps the first counts.
//
// The interval is drawn as if each panel had been read with a gauge of its own. One gauge over both would tell steps
// apart better than this claims. The degrees of freedom are the fewer of the two panels'. Confidence is bounded as for
// [Measure].
func GreatestStep(panel *Measured, neighbours []*Measured, confidencePct float64) (*Step, error) {
	if err := checkConfidence(confidencePct); err != nil {
		return nil, err
	}
	var other *Measured
	for _, n := range neighbours {
		if n.Substrate != panel.Substrate || n.Layer != panel.Layer {
			continue
		}
		if other == nil || size(panel.MeanUm-n.MeanUm) > size(panel.MeanUm-other.MeanUm) {
			other = n
		}
	}
	if other == nil {
		return nil, nil
	}
	q := between(confidencePct, min(panel.meanDegrees, other.meanDegrees))
	return &Step{
		From:   panel.Panel,
		To:     other.Panel,
		DiffUm: panel.MeanUm - other.MeanUm,
		HalfUm: q.bound(hypot(panel.meanScatterUm, other.meanScatterUm), hypot(panel.meanGaugeUm, other.meanGaugeUm)),
	}, nil
}

func size(m Microns) Microns { return max(m, -m) }

package film

import "errors"

// Difference is what readings before and after say was removed, with the interval that holds it at the confidence
// asked for.
type Difference struct {
	// RemovedUm is before less after, positive where film is gone. Below zero is possible and means noise.
	RemovedUm Microns
	LowUm     Microns
	HighUm    Microns
	// LeastUm is the smallest removal these readings could have shown: the half width of the interval.
	LeastUm Microns
	// Spots is how many spots were paired.
	Spots int
	// Resolvable is true when the interval keeps clear of zero. It is often false: a polishing step takes about a micron,
	// and one pair of readings by a gauge of ±(1 µm + 1 %) resolves three.
	Resolvable bool
}

// GaugeUse says how before and after hang together.
type GaugeUse bool

const (
	// SetAnew means that the gauge was zeroed or adjusted in between, or was another of its kind: its stated accuracy
	// counts twice. When in doubt, this.
	SetAnew GaugeUse = false
	// LeftAsSet means one gauge, not zeroed or adjusted in between: what it reads wrong it reads wrong twice, so the
	// stated accuracy cancels and only rounding and scatter remain.
	LeftAsSet GaugeUse = true
)

// Removed subtracts readings after from readings before, spot by spot; spots read only once are left out. Two spots or
// more give a paired t interval on the differences of the spot means (NIST/SEMATECH e-Handbook, 7.3.1.1), one spot gives
// an interval from the scatter within it, with the fewer degrees of freedom of the two sets. The gauge's part is added
// as in [Measure] and does not average out over spots.
//
// Errors are those of [Measure] for either side, [ErrNotSameLayer] or [ErrNoCommonSpot].
func Removed(g Gauge, use GaugeUse, before, after Panel, confidencePct float64) (Difference, error) {
	if err := errors.Join(g.Kind.CanRead(before.Substrate, before.Layer), g.Kind.CanRead(after.Substrate, after.Layer)); err != nil {
		return Difference{}, err
	}
	if before.Layer.orTotal() != after.Layer.orTotal() {
		return Difference{}, ErrNotSameLayer
	}
	was, wasErr := checkSpots(before.Spots)
	is, isErr := checkSpots(after.Spots)
	if err := errors.Join(g.Check(), checkConfidence(confidencePct), wasErr, isErr); err != nil {
		return Difference{}, err
	}
	pairs := pair(was, is)
	if len(pairs) == 0 {
		return Difference{}, ErrNoCommonSpot
	}
	removed, scatter, degrees := pairs.removed()
	half := between(confidencePct, degrees).bound(scatter, pairs.gaugeUm(g, use))
	return Difference{
		RemovedUm:  removed,
		LowUm:      removed - half,
		HighUm:     removed + half,
		LeastUm:    half,
		Spots:      len(pairs),
		Resolvable: size(removed) > half,
	}, nil
}

type spotPair struct{ before, after Spot }

type spotPairs []spotPair

func pair(before, after []Spot) spotPairs {
	var pairs spotPairs
	for _, b := range before {
		for _, a := range after {
			if a.Name == b.Name {
				pairs = append(pairs, spotPair{b, a})
			}
		}
	}
	return pairs
}

// removed returns the mean difference with its standard error and degrees of freedom.
func (p spotPairs) removed() (mean, scatter Microns, degrees int) {
	if len(p) == 1 {
		was, wasSpread := meanAndSpread(p[0].before.ReadingsUm)
		is, isSpread := meanAndSpread(p[0].after.ReadingsUm)
		n, k := len(p[0].before.ReadingsUm), len(p[0].after.ReadingsUm)
		return was - is, hypot(standardError(wasSpread, n), standardError(isSpread, k)), min(n, k) - 1
	}
	differences := make([]Microns, len(p))
	for i, s := range p {
		was, _ := meanAndSpread(s.before.ReadingsUm)
		is, _ := meanAndSpread(s.after.ReadingsUm)
		differences[i] = was - is
	}
	mean, spread := meanAndSpread(differences)
	return mean, standardError(spread, len(p)), len(p) - 1
}

// gaugeUm is the gauge's part of a difference, taken at the thickest film read, where the stated accuracy is widest.
func (p spotPairs) gaugeUm(g Gauge, use GaugeUse) Microns {
	var thickest Microns
	for _, s := range p {
		was, _ := meanAndSpread(s.before.ReadingsUm)
		is, _ := meanAndSpread(s.after.ReadingsUm)
		thickest = max(thickest, was, is)
	}
	once := g.roundingUm()
	if use == SetAnew {
		once = g.standardUm(thickest)
	}
	return hypot(once, once)
}

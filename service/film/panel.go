package film

import (
	"errors"
	"slices"
)

// Panel is what was read on one panel in one go.
type Panel struct {
	Name      string
	Substrate Substrate
	// Layer is what the readings cover; empty means [Total].
	Layer Layer
	Spots []Spot
}

// Measured is what the readings of a panel say. It is made by [Measure] only.
type Measured struct {
	Panel     string
	Substrate Substrate
	Layer     Layer
	// Spots are in the order given; every one is named.
	Spots []SpotMean
	// MeanUm is the mean of the spot means.
	MeanUm Microns
	// LowestUm and HighestUm are the lowest and the highest spot mean, at the spots named.
	LowestUm    Microns
	LowestSpot  string
	HighestUm   Microns
	HighestSpot string
	// LowestBoundUm lies below the film at every measured spot, with the confidence asked for. See [Measure].
	LowestBoundUm Microns
	// SpreadUm is the highest spot mean less the lowest.
	SpreadUm Microns
	// EdgeDropUm is the mean of the spots away from edges less the lowest spot near one: positive where film falls
	// toward the edge. Nil unless both sorts of spot were read.
	EdgeDropUm *Microns

	meanScatterUm Microns
	meanDegrees   int
	meanGaugeUm   Microns
}

// Measure reckons spot means and the panel's lowest film. It returns a [*CannotReadError] if the gauge cannot read the
// panel, otherwise every complaint about gauge, spots and confidence at once: [ErrNoSpots], [*TooFewReadingsError],
// [*SameSpotError], [*RangeError].
//
// Each spot gets a bound of its own, from the scatter of readings (GUM, JCGM 100:2008, 4.2) and the gauge's stated
// accuracy. The scatter is pooled over the panel, so that three readings that happen to agree claim nothing; a spot that
// scatters more than the rest keeps its own. LowestBoundUm is the least of these bounds, not the bound of the lowest
// mean. Picking the lowest of several noisy means is a selection that makes it look thinner than it is; that errs to
// the safe side and is left so. No allowance for having looked at many spots is needed: one spot is truly the thinnest,
// and the least bound is no higher than that spot's own, so it lies below the thinnest film at least as often as
// confidencePct says. It says nothing of places that were not read.
func Measure(g Gauge, p Panel, confidencePct float64) (Measured, error) {
	if err := g.Kind.CanRead(p.Substrate, p.Layer); err != nil {
		return Measured{}, err
	}
	spots, spotsErr := checkSpots(p.Spots)
	if err := errors.Join(g.Check(), checkConfidence(confidencePct), spotsErr); err != nil {
		return Measured{}, err
	}
	m := Measured{Panel: p.Name, Substrate: p.Substrate, Layer: p.Layer.orTotal(), Spots: spotMeans(g, spots, confidencePct)}
	m.overPanel()
	m.edgeDrop()
	m.meanUncertainty(g)
	return m, nil
}

func spotMeans(g Gauge, spots []Spot, confidencePct float64) []SpotMean {
	means := make([]SpotMean, len(spots))
	for i, s := range spots {
		mean, spread := meanAndSpread(s.ReadingsUm)
		means[i] = SpotMean{Name: s.Name, NearEdge: s.NearEdge, Readings: len(s.ReadingsUm), MeanUm: mean, SpreadUm: spread}
	}
	pooled, degrees := repeatability(means)
	q := below(confidencePct, degrees)
	for i := range means {
		m := &means[i]
		half := q.bound(standardError(max(pooled, m.SpreadUm), m.Readings), g.standardUm(m.MeanUm))
		m.LowUm, m.HighUm = max(0, m.MeanUm-half), m.MeanUm+half
	}
	return means
}

func (m *Measured) overPanel() {
	low := slices.MinFunc(m.Spots, byMean)
	high := slices.MaxFunc(m.Spots, byMean)
	m.LowestUm, m.LowestSpot = low.MeanUm, low.Name
	m.HighestUm, m.HighestSpot = high.MeanUm, high.Name
	m.SpreadUm = high.MeanUm - low.MeanUm
	m.LowestBoundUm = low.LowUm
	for _, s := range m.Spots {
		m.LowestBoundUm = min(m.LowestBoundUm, s.LowUm)
	}
}

func byMean(a, b SpotMean) int {
	switch {
	case a.MeanUm < b.MeanUm:
		return -1
	case a.MeanUm > b.MeanUm:
		return 1
	}
	return 0
}

func (m *Measured) edgeDrop() {
	var inner []Microns
	var edge *Microns
	for _, s := range m.Spots {
		switch {
		case !s.NearEdge:
			inner = append(inner, s.MeanUm)
		case edge == nil || s.MeanUm < *edge:
			edge = &s.MeanUm
		}
	}
	if edge == nil || len(inner) == 0 {
		return
	}
	mean, _ := meanAndSpread(inner)
	drop := mean - *edge
	m.EdgeDropUm = &drop
}

// meanUncertainty keeps what the panel's mean is worth: the scatter between its spots, or within the only one.
func (m *Measured) meanUncertainty(g Gauge) {
	values := make([]Microns, len(m.Spots))
	for i, s := range m.Spots {
		values[i] = s.MeanUm
	}
	mean, spread := meanAndSpread(values)
	n := len(values)
	if n == 1 {
		spread, n = m.Spots[0].SpreadUm, m.Spots[0].Readings
	}
	m.MeanUm = mean
	m.meanScatterUm, m.meanDegrees = standardError(spread, n), n-1
	m.meanGaugeUm = g.standardUm(mean)
}

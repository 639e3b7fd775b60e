package gloss

import "math"

// RemedyKind is what to take more of.
type RemedyKind uint8

// The remedies, the one that costs least first.
const (
	// AfterReadings are more readings on the worked paint, at each spot the gain rests on (in all, for PooledReadings). They
	// can be taken at once.
	AfterReadings RemedyKind = iota + 1
	// BothReadings are more readings both before and after. The paint as it was is gone, so they need a new trial.
	BothReadings
	// MoreSpots are more spots read both before and after, in a new trial.
	MoreSpots
)

// String returns what to take in a person's words.
func (k RemedyKind) String() string {
	switch k {
	case AfterReadings:
		return "more readings at the same spots now"
	case BothReadings:
		return "more readings before and after, in a new trial"
	case MoreSpots:
		return "more spots before and after, in a new trial"
	}
	return "nothing"
}

// Remedy is a number of further readings or spots that would settle a question.
type Remedy struct {
	Kind RemedyKind
	More int // on top of what there is; at least 1
}

// Obstacle is why no number of readings is offered.
type Obstacle uint8

// The obstacles.
const (
	// OnTheLimit: the gain is the limit itself, so no interval around it will ever clear the limit.
	OnTheLimit Obstacle = iota + 1
	// DisplayTooCoarse: rounding to the display step alone hides the difference; a finer display could show it.
	DisplayTooCoarse
	// TooMany: it would take more than the most the caller is prepared to ask for.
	TooMany
)

// String returns the obstacle in a person's words.
func (o Obstacle) String() string {
	switch o {
	case OnTheLimit:
		return "the gain sits exactly on the limit"
	case DisplayTooCoarse:
		return "the meter's display step is too coarse to tell"
	case TooMany:
		return "it would take more readings than are worth taking"
	}
	return "none"
}

// Outlook is what would make a gain stand clear of a limit.
type Outlook struct {
	Settled  bool     // it already does
	Remedies []Remedy // any one of them would do; the cheapest kind first
	Obstacle Obstacle // zero unless unsettled without a remedy
}

// Outlook says how many more readings or spots would put the whole interval on one side of the limit, were the gain and
// the spread to stay as they are: the quantile is worked out anew for each number tried. Since both may move, it is
// a fair guess, not a promise. atMost is the largest number to offer for any one remedy and must be 1 to 1000.
func (g Gain) Outlook(limit float64, atMost int) (Outlook, error) {
	if err := checkOutlook(limit, atMost, g.Scale.Unit()); err != nil {
		return Outlook{}, err
	}
	if g.Against(limit) != Straddles {
		return Outlook{Settled: true}, nil
	}
	var remedies []Remedy
	for _, kind := range []RemedyKind{AfterReadings, BothReadings, MoreSpots} {
		if more, ok := g.fewest(kind, limit, atMost); ok {
			remedies = append(remedies, Remedy{Kind: kind, More: more})
		}
	}
	if len(remedies) > 0 {
		return Outlook{Remedies: remedies}, nil
	}
	return Outlook{Obstacle: g.obstacle(limit)}, nil
}

func checkOutlook(limit float64, atMost int, unit string) error {
	if math.IsNaN(limit) || math.IsInf(limit, 0) {
		return &RangeError{Field: "limit", Value: limit, Min: -math.MaxFloat64, Max: math.MaxFloat64, Unit: unit}
	}
	most := &RangeError{Field: "most readings to ask for", Value: float64(atMost), Min: 1, Max: 1000}
	return most.orNil()
}

func (g Gain) obstacle(limit float64) Obstacle {
	distance := math.Abs(g.Mean - limit)
	switch {
	case distance <= 1e-12*max(math.Abs(limit), 1):
		return OnTheLimit
	case coverage(math.Inf(1), g.Confidence)*math.Sqrt(g.evidence.resolution) >= distance:
		return DisplayTooCoarse
	}
	return TooMany
}

// fewest tries every number in turn: the half width need not fall steadily, for more readings on one side alone can
// cost degrees of freedom.
func (g Gain) fewest(kind RemedyKind, limit float64, atMost int) (more int, ok bool) {
	if !g.evidence.offers(kind, g.Method) {
		return 0, false
	}
	distance := math.Abs(g.Mean - limit)
	best := coverage(math.Inf(1), g.Confidence)
	for more = 1; more <= atMost; more++ {
		next := g.evidence.with(kind, more)
		// No coverage factor is smaller than the normal one, and that one is free.
		if best*next.standard() >= distance {
			continue
		}
		if u, err := next.uncertainty(g.Confidence); err == nil && u.Expanded < distance {
			return more, true
		}
	}
	return 0, false
}

func (e evidence) standard() float64 {
	sum := e.resolution
	if e.differences.count > 0 {
		sum += e.differences.variance / float64(e.differences.count)
	}
	for _, g := range e.groups {
		sum += g.variance / float64(g.count)
	}
	return math.Sqrt(sum)
}

// offers says whether a remedy makes sense for how the gain was found.
func (e evidence) offers(kind RemedyKind, method Method) bool {
	readings := method == OneSpot || method == PooledReadings
	switch kind {
	case AfterReadings:
		return readings || len(e.differences.repeats) > 0
	case BothReadings:
		return readings
	case MoreSpots:
		return !readings
	}
	return false
}

// with returns the evidence as it would be with more readings or spots of the same spread.
func (e evidence) with(kind RemedyKind, more int) evidence {
	next := e
	next.groups = make([]group, len(e.groups))
	for i, g := range e.groups {
		if kind != AfterReadings || g.after {
			g.count += more
		}
		next.groups[i] = g
	}
	switch {
	case e.differences.count == 0:
	case kind == MoreSpots:
		next.differences.count += more
	case kind == AfterReadings:
		next.differences.variance = e.differences.withRepeats(more)
	}
	return next
}

// withRepeats leaves alone what the repeats do not explain: the gain's own spread from spot to spot, and the readings
// before.
func (d differences) withRepeats(more int) float64 {
	var now, then float64
	for _, r := range d.repeats {
		now += r.share(0)
		then += r.share(more)
	}
	return max(d.variance-now, 0) + then
}

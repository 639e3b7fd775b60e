package gloss

import "slices"

// Method is how the readings of two occasions were compared.
type Method uint8

// The methods, best first.
const (
	// PairedSpots takes the difference at each of two or more spots read on both occasions: paired t. What differs from
	// spot to spot drops out.
	PairedSpots Method = iota + 1
	// OneSpot compares the readings of the only spot read on both occasions: Welch's t. It speaks of that spot only.
	OneSpot
	// UnpairedSpots compares the spot means of two sets of different spots: Welch's t.
	UnpairedSpots
	// PooledReadings compares all readings of different places, where an occasion has one spot only: Welch's t. It cannot tell a
	// gain from a difference between the places.
	PooledReadings
)

// String returns the method in a person's words.
func (m Method) String() string {
	switch m {
	case PairedSpots:
		return "the same spots before and after"
	case OneSpot:
		return "repeats on one spot before and after"
	case UnpairedSpots:
		return "different spots before and after"
	case PooledReadings:
		return "readings from different places before and after"
	}
	return "no method"
}

// compare picks the best method the strands allow. It fills in all of a gain that does not depend on its confidence.
func compare(strands []strand) (Gain, error) {
	common := commonNames(strands)
	switch {
	case len(common) > 1:
		return paired(strands, common), nil
	case len(common) == 1 && repeated(strands, common[0]):
		return grouped(strands, OneSpot, func(s strand) ([]float64, []string) {
			return s.at(common[0]).Readings, common
		})
	case allSeveral(strands):
		return grouped(strands, UnpairedSpots, func(s strand) ([]float64, []string) {
			return meansOf(s.means), s.names()
		})
	}
	return grouped(strands, PooledReadings, func(s strand) ([]float64, []string) {
		var all []float64
		for _, spot := range s.spots {
			all = append(all, spot.Readings...)
		}
		return all, s.names()
	})
}

func paired(strands []strand, common []string) Gain {
	gain := Gain{Method: PairedSpots, Spots: common, LeftOut: leftOut(strands, common)}
	values := make([]float64, len(common))
	var largest float64
	for _, s := range strands {
		var used []SpotMean
		for i, name := range common {
			mean := s.means[s.index(name)]
			values[i] += s.sign * mean.Mean
			largest = max(largest, mean.Mean)
			used = append(used, mean)
		}
		if variance, df := pooled(used); s.after && df > 0 {
			gain.evidence.differences.repeats = append(gain.evidence.differences.repeats, repeats{variance, countsOf(used)})
		}
	}
	var variance float64
	gain.Mean, variance = meanVariance(values)
	gain.evidence.differences.count = len(values)
	gain.evidence.differences.variance = dropNoise(variance, largest)
	return gain
}

func grouped(strands []strand, method Method, pick func(strand) ([]float64, []string)) (Gain, error) {
	gain := Gain{Method: method}
	for _, s := range strands {
		values, names := pick(s)
		if len(values) < 2 {
			return Gain{}, &CountError{
				Field: s.label + " readings", Have: len(values), Need: 2,
				Advice: "set the meter down again for at least three readings, or read two spots before and after",
			}
		}
		mean, variance := meanVariance(values)
		gain.Mean += s.sign * mean
		gain.evidence.groups = append(gain.evidence.groups, group{
			label: s.label, variance: variance,
			count: len(values), after: s.after,
		})
		for _, name := range names {
			if !slices.Contains(gain.Spots, name) {
				gain.Spots = append(gain.Spots, name)
			}
		}
	}
	gain.LeftOut = leftOut(strands, gain.Spots)
	return gain, nil
}

// commonNames lists the spots that every strand has, in the order of the first.
func commonNames(strands []strand) []string {
	var common []string
	for _, name := range strands[0].names() {
		missing := func(s strand) bool { return s.index(name) < 0 }
		if !slices.ContainsFunc(strands, missing) {
			common = append(common, name)
		}
	}
	return common
}

// leftOut lists the spots that are in some strand but not in used, in the order they are first met.
func leftOut(strands []strand, used []string) []string {
	var left []string
	for _, s := range strands {
		for _, name := range s.names() {
			if !slices.Contains(used, name) && !slices.Contains(left, name) {
				left = append(left, name)
			}
		}
	}
	return left
}

func repeated(strands []strand, name string) bool {
	once := func(s strand) bool { return len(s.at(name).Readings) < 2 }
	return !slices.ContainsFunc(strands, once)
}

func allSeveral(strands []strand) bool {
	lone := func(s strand) bool { return len(s.spots) < 2 }
	return !slices.ContainsFunc(strands, lone)
}

func (s strand) index(name string) int {
	return slices.IndexFunc(s.spots, func(spot Spot) bool { return spot.Name == name })
}

func (s strand) at(name string) Spot { return s.spots[s.index(name)] }

func (s strand) names() []string {
	names := make([]string, len(s.spots))
	for i, spot := range s.spots {
		names[i] = spot.Name
	}
	return names
}

func countsOf(spots []SpotMean) []int {
	counts := make([]int, len(spots))
	for i, s := range spots {
		counts[i] = s.Count
	}
	return counts
}

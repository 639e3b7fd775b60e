package gloss

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/stat"
)

// Spot is one taped place, read one or more times with the meter lifted and set down again between readings. Its name
// is what pairs a reading before with one after.
type Spot struct {
	Name     string
	Readings []float64 // in the unit of the meter's scale; at least one
}

// SpotMean is what the readings of one spot come to.
type SpotMean struct {
	Name     string
	Scale    Scale
	Count    int
	Mean     float64
	Min, Max float64
	variance float64
}

// SD returns the sample standard deviation (n−1); ok is false for a single reading, whose spread is not known.
func (s SpotMean) SD() (sd float64, ok bool) {
	return math.Sqrt(s.variance), s.Count > 1
}

// SpotMeans summarises each spot, in the order given. It reports every bad reading and every bad name at once.
func SpotMeans(scale Scale, spots []Spot) ([]SpotMean, error) {
	if err := scale.checkReadable("scale"); err != nil {
		return nil, err
	}
	if err := checkSpots("", scale, spots); err != nil {
		return nil, err
	}
	return summarise(scale, spots), nil
}

func summarise(scale Scale, spots []Spot) []SpotMean {
	means := make([]SpotMean, len(spots))
	for i, spot := range spots {
		mean, variance := meanVariance(spot.Readings)
		low, high := spot.Readings[0], spot.Readings[0]
		for _, r := range spot.Readings {
			low, high = min(low, r), max(high, r)
		}
		means[i] = SpotMean{
			Name: spot.Name, Scale: scale, Count: len(spot.Readings),
			Mean: mean, Min: low, Max: high, variance: variance,
		}
	}
	return means
}

// meanVariance is the two-pass form with a correction term: sums of squares lose every digit on readings that agree
// well. The variance of one value is returned as zero and must not be used.
func meanVariance(values []float64) (mean, variance float64) {
	if len(values) == 1 {
		return values[0], 0
	}
	mean, variance = stat.MeanVariance(values, nil)
	return mean, dropNoise(variance, math.Max(slices.Max(values), -slices.Min(values)))
}

// dropNoise returns zero for a variance that comes from binary fractions alone: values that are equal in decimals are
// not quite equal in floating point, and must not pass for a measured spread. largest is the size of what was
// added up.
func dropNoise(variance, largest float64) float64 {
	const share = 1e-14
	if noise := largest * share; variance <= noise*noise {
		return 0
	}
	return variance
}

func checkSpots(side string, scale Scale, spots []Spot) error {
	if len(spots) == 0 {
		field := "spots"
		if side != "" {
			field = side + " spots"
		}
		return &CountError{Field: field, Need: 1, Advice: "read at least one taped spot"}
	}
	var problems []error
	seen := make(map[string]bool, len(spots))
	for _, spot := range spots {
		switch {
		case spot.Name == "":
			problems = append(problems, &SpotError{Side: side, Problem: "a spot needs a name, so that it can be found again"})
		case seen[spot.Name]:
			problems = append(problems, &SpotError{
				Side: side, Name: spot.Name,
				Problem: "named twice; put all its readings in one list",
			})
		}
		seen[spot.Name] = true
		problems = append(problems, checkReadings(side, scale, spot))
	}
	return errors.Join(problems...)
}

func checkReadings(side string, scale Scale, spot Spot) error {
	if len(spot.Readings) == 0 {
		return &CountError{Field: spot.where(side) + " readings", Need: 1, Advice: "leave out a spot that was not read"}
	}
	var problems []error
	limit := scale.Max()
	for i, value := range spot.Readings {
		if 0 <= value && value <= limit && !math.IsInf(value, 1) {
			continue
		}
		problems = append(problems, &RangeError{
			Field: fmt.Sprintf("%s reading %d", spot.where(side), i+1),
			Value: value, Max: limit, Unit: scale.Unit(), Advice: "read the spot again, or leave the reading out",
		})
	}
	return errors.Join(problems...)
}

func (s Spot) where(side string) string {
	return strings.TrimSpace(fmt.Sprintf("%s spot %q", side, s.Name))
}

package gloss

import (
	"math"
)

// Panel is what the spots of one panel read together.
type Panel struct {
	Scale       Scale
	Spots       []SpotMean
	Mean        float64 // each spot counts the same, however often it was read
	Uncertainty Uncertainty
}

// Measure returns the panel's mean and its uncertainty at a confidence, in the meter's unit. With two spots or more the
// spread between spot means is the type A part (GUM 4.2.3); one spot rests on its own repeats and speaks of that
// spot only. The meter's stated accuracy and display step are added as type B parts: the accuracy is the same at every spot
// and is not averaged away. One reading alone returns a [*CountError].
func Measure(meter Meter, spots []Spot, confidence float64) (Panel, error) {
	if err := meter.check(); err != nil {
		return Panel{}, err
	}
	if err := checkSpots("", meter.Scale, spots); err != nil {
		return Panel{}, err
	}
	means := summarise(meter.Scale, spots)
	repeats, mean, err := typeA(means)
	if err != nil {
		return Panel{}, err
	}
	uncertainty, err := Combine(confidence, repeats, meter.accuracyComponent(), meter.resolutionComponent())
	if err != nil {
		return Panel{}, err
	}
	return Panel{Scale: meter.Scale, Spots: means, Mean: mean, Uncertainty: uncertainty}, nil
}

func typeA(spots []SpotMean) (Component, float64, error) {
	if len(spots) > 1 {
		mean, variance := meanVariance(meansOf(spots))
		return standardError("spread between spots", variance, len(spots)), mean, nil
	}
	only := spots[0]
	if only.Count < 2 {
		return Component{}, 0, &CountError{
			Field: "readings of the only spot", Have: only.Count, Need: 2,
			Advice: "set the meter down again for at least three readings",
		}
	}
	return standardError("spread of readings", only.variance, only.Count), only.Mean, nil
}

func standardError(source string, variance float64, count int) Component {
	return Component{Source: source, Standard: math.Sqrt(variance / float64(count)), DF: float64(count - 1)}
}

func meansOf(spots []SpotMean) []float64 {
	means := make([]float64, len(spots))
	for i, s := range spots {
		means[i] = s.Mean
	}
	return means
}

// Repeatability is how well the same hand and meter agree with themselves, from the user's own repeats. No published
// limit is built in.
type Repeatability struct {
	Scale Scale
	SD    float64 // pooled within spots
	DF    int
	Limit float64 // two single readings of one spot differ by more than this about once in twenty
}

// RepeatabilityOf pools the spread inside spots that were read at least twice. Limit is 1.96·√2·SD (ISO 5725-6, which
// rounds the factor to 2.8). No spot with a second reading returns a [*CountError].
func RepeatabilityOf(scale Scale, spots []Spot) (Repeatability, error) {
	means, err := SpotMeans(scale, spots)
	if err != nil {
		return Repeatability{}, err
	}
	variance, df := pooled(means)
	if df == 0 {
		return Repeatability{}, &CountError{
			Field: "readings of any one spot", Have: 1, Need: 2,
			Advice: "read at least one spot again",
		}
	}
	sd := math.Sqrt(variance)
	return Repeatability{Scale: scale, SD: sd, DF: df, Limit: coverage(math.Inf(1), 0.95) * math.Sqrt2 * sd}, nil
}

func pooled(spots []SpotMean) (variance float64, df int) {
	var squares float64
	for _, s := range spots {
		squares += s.variance * float64(s.Count-1)
		df += s.Count - 1
	}
	if df == 0 {
		return 0, 0
	}
	return squares / float64(df), df
}

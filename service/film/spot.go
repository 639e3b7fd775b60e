package film

import (
	"errors"
	"fmt"
)

// LeastReadings is how many readings make a spot: three within a circle of 4 cm (SSPC-PA 2, measuring dry film on
// metal). A reading out of line that does not come again is discarded by the person who took it, before it gets here;
// nothing is thrown away in silence.
const LeastReadings = 3

// Spot is one place on a panel with its readings.
type Spot struct {
	// Name tells the spot from others on the panel; before and after are paired by it. Empty means its place in the
	// list: "spot 1".
	Name string
	// NearEdge marks a spot beside an edge or a body line, where film runs thin.
	NearEdge   bool
	ReadingsUm []Microns
}

// SpotMean is what the readings of one spot say. LowUm and HighUm are bounds each on its own side: the true film at
// this spot lies above LowUm with the confidence asked for, and below HighUm with the same.
type SpotMean struct {
	Name     string
	NearEdge bool
	Readings int
	MeanUm   Microns
	// SpreadUm is the sample standard deviation of the readings.
	SpreadUm Microns
	// LowUm is never below zero.
	LowUm  Microns
	HighUm Microns
}

// checkSpots names the unnamed and returns every complaint at once.
func checkSpots(spots []Spot) ([]Spot, error) {
	if len(spots) == 0 {
		return nil, ErrNoSpots
	}
	named := make([]Spot, len(spots))
	seen := make(map[string]bool, len(spots))
	var errs []error
	for i, s := range spots {
		if s.Name == "" {
			s.Name = fmt.Sprintf("spot %d", i+1)
		}
		if seen[s.Name] {
			errs = append(errs, &SameSpotError{s.Name})
		}
		seen[s.Name] = true
		if err := s.check(); err != nil {
			errs = append(errs, err)
		}
		named[i] = s
	}
	return named, errors.Join(errs...)
}

func (s Spot) check() error {
	var errs []error
	if n := len(s.ReadingsUm); n < LeastReadings {
		errs = append(errs, &TooFewReadingsError{Spot: s.Name, Have: n, Need: LeastReadings})
	}
	for i, r := range s.ReadingsUm {
		if checkThickness("", r) != nil { // the name is put together only when it is wanted
			errs = append(errs, checkThickness(fmt.Sprintf("film %s reading %d", s.Name, i+1), r))
		}
	}
	return errors.Join(errs...)
}

// repeatability is the scatter of readings within spots, pooled over all of them (GUM, JCGM 100:2008, 4.2.4):
// the variance of each weighted by its degrees of freedom.
func repeatability(means []SpotMean) (spread Microns, degrees int) {
	var squares Microns
	for _, m := range means {
		squares += Microns(m.Readings-1) * m.SpreadUm * m.SpreadUm
		degrees += m.Readings - 1
	}
	return sqrt(squares / Microns(degrees)), degrees
}

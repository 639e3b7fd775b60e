package history

import (
	"slices"

	"github.com/glossladder/glossladder/service/film"
)

// usualConfidencePct is taken where no decision on record tells the policy's own: common practice, no source.
const usualConfidencePct = 95

// FilmTaken is what a job took off one panel.
type FilmTaken struct {
	film.Removal
	// Measured is true when film readings before and after tell, false when it is what the steps were expected to take.
	Measured bool
	// Unaccounted are the steps worked whose removal nobody can tell: the figures are then too low.
	Unaccounted []string
}

// took keeps what a trial took, by its verdict.
func (p *Panel) took(trial int64, said *PanelDecided) {
	if said.Taken == nil {
		return
	}
	for i := range p.sections {
		for k := range p.sections[i].trials {
			if t := &p.sections[i].trials[k]; t.Sequence == trial {
				if said.Taken.Measured {
					p.expected[t.Step] = said.Taken.Removal
				}
				p.measured = append(p.measured, trialTaken{trial, *said.Taken})
			}
		}
	}
}

type trialTaken struct {
	trial int64
	taken Taken
}

// Taken is what this job took off the panel so far; nil when nothing was worked.
//
// Over the panel, film goes with every step that was carried over it: as much as the film readings before and after say where
// they can resolve it, as much as each step was expected to take otherwise. On a test section it went with the trials too, and
// whether the section was worked again is known only where progress says that it was spared. The thinner of the two places
// counts, since the budget is kept by the thinnest; where it is not known, the high end takes the section as worked twice.
func (p *Panel) Taken() *FilmTaken {
	if len(p.passes) == 0 && len(p.sections) == 0 {
		return nil
	}
	var out FilmTaken
	over, measured, missing := p.takenOver()
	out.Measured, out.Unaccounted = measured, missing
	tested, missing := p.takenTesting()
	for _, step := range missing {
		if !slices.Contains(out.Unaccounted, step) {
			out.Unaccounted = append(out.Unaccounted, step)
		}
	}
	out.Removal = film.Removal{
		LowUm: max(over.LowUm, tested.LowUm), LikelyUm: max(over.LikelyUm, tested.LikelyUm), HighUm: max(over.HighUm, tested.HighUm),
	}
	if slices.ContainsFunc(p.passes, func(w pass) bool { return !w.spared }) {
		out.HighUm = over.HighUm + tested.HighUm
	}
	return &out
}

// takenOver is what the steps carried over the panel took.
func (p *Panel) takenOver() (sum film.Removal, measured bool, missing []string) {
	if len(p.passes) == 0 {
		return film.Removal{}, false, nil
	}
	diff := p.difference()
	if diff != nil && diff.Resolvable && diff.RemovedUm > 0 {
		return between(diff), true, nil
	}
	for _, w := range p.passes {
		expected, ok := p.expected[w.step]
		if !ok && !slices.Contains(missing, w.step) {
			missing = append(missing, w.step)
		}
		sum = plus(sum, expected.film())
	}
	if len(missing) > 0 && diff != nil {
		// Readings that resolve nothing still bound what is gone.
		return between(diff), true, nil
	}
	return sum, false, missing
}

// takenTesting is what the trials took where most of them were made.
func (p *Panel) takenTesting() (most film.Removal, missing []string) {
	for _, s := range p.sections {
		var sum film.Removal
		for _, t := range s.trials {
			removal, ok := p.takenByTrial(t)
			if !ok && !slices.Contains(missing, t.Step) {
				missing = append(missing, t.Step)
			}
			sum = plus(sum, removal)
		}
		most = film.Removal{
			LowUm: max(most.LowUm, sum.LowUm), LikelyUm: max(most.LikelyUm, sum.LikelyUm), HighUm: max(most.HighUm, sum.HighUm),
		}
	}
	return most, missing
}

// takenByTrial is what the latest verdict says that a trial took, or what its step was expected to.
func (p *Panel) takenByTrial(t TrialMade) (film.Removal, bool) {
	for _, m := range slices.Backward(p.measured) {
		if m.trial == t.Sequence {
			return m.taken.film(), true
		}
	}
	expected, ok := p.expected[t.Step]
	return expected.film(), ok
}

// difference compares film after the work with film before it; nil when the two do not share a spot or cannot be read.
func (p *Panel) difference() *film.Difference {
	before, after := slices.Clone(p.Found.Film), []FilmSpot(nil)
	for _, r := range p.Before {
		before = latestBySpot(before, r.Film)
	}
	gauge, use := p.Gauge, film.LeftAsSet
	for _, r := range p.After {
		if len(r.Film) == 0 {
			continue
		}
		after = latestBySpot(after, r.Film)
		if !r.LeftAsSet {
			use = film.SetAnew
		}
		if r.Gauge != nil && (gauge == nil || *r.Gauge != *gauge) {
			use = film.SetAnew
			gauge = worse(gauge, r.Gauge)
		}
	}
	if gauge == nil {
		return nil
	}
	confidence := p.confidencePct
	if confidence == 0 {
		confidence = usualConfidencePct
	}
	for _, layer := range []film.Layer{film.Total, film.Top} {
		diff, err := film.Removed(gauge.film(), use, p.layer(layer, before), p.layer(layer, after), confidence)
		if err == nil {
			return &diff
		}
	}
	return nil
}

// worse is the gauge that may be further off on ordinary paint, 100 µm in all.
func worse(a, b *Gauge) *Gauge {
	const ordinary film.Microns = 100
	if a == nil || b.film().Accuracy.Limit(ordinary) > a.film().Accuracy.Limit(ordinary) {
		return b
	}
	return a
}

// latestBySpot puts readings in the place of earlier ones of the same spot.
func latestBySpot(spots, later []FilmSpot) []FilmSpot {
	for _, s := range later {
		if at := slices.IndexFunc(spots, func(o FilmSpot) bool { return o.Spot == s.Spot }); at >= 0 {
			spots[at] = s
		} else {
			spots = append(spots, s)
		}
	}
	return spots
}

func (p *Panel) layer(layer film.Layer, spots []FilmSpot) film.Panel {
	out := film.Panel{Name: p.ID, Substrate: film.Substrate(p.Found.Substrate), Layer: layer}
	for _, s := range spots {
		readings := s.TotalUm
		if layer == film.Top {
			readings = s.ClearUm
		}
		if len(readings) < film.LeastReadings {
			continue
		}
		spot := film.Spot{Name: s.Spot, NearEdge: s.NearEdge}
		for _, um := range readings {
			spot.ReadingsUm = append(spot.ReadingsUm, film.Microns(um))
		}
		out.Spots = append(out.Spots, spot)
	}
	return out
}

// between is the interval of a difference as a removal: nothing grows back, so no end lies below zero.
func between(d *film.Difference) film.Removal {
	return film.Removal{LowUm: max(0, d.LowUm), LikelyUm: max(0, d.RemovedUm), HighUm: max(0, d.HighUm)}
}

func plus(a, b film.Removal) film.Removal {
	return film.Removal{LowUm: a.LowUm + b.LowUm, LikelyUm: a.LikelyUm + b.LikelyUm, HighUm: a.HighUm + b.HighUm}
}

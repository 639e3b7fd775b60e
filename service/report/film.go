package report

import (
	"github.com/glossladder/glossladder/service/film"
	"github.com/glossladder/glossladder/service/history"
)

// Film is what is on record of a panel's film, in µm. Nil: not known.
type Film struct {
	// Said is what the readings before the work said; AfterUm the lowest spot mean of those after it.
	Said    *FilmAdvice
	AfterUm *float64
	// Earlier is what other visits took.
	Earlier *history.PanelLife
	// Taken is what this visit took. Nil: nothing was worked.
	Taken *history.FilmTaken
	// UsableUm is what might still go before the work, a lower bound; Left what may still go now.
	UsableUm *float64
	Left     *Left
}

// Left is what may still be taken off, in µm: LowUm keeps the high end of what was taken and is the figure to go by.
type Left struct{ LowUm, LikelyUm, HighUm float64 }

// film puts what was taken beside what was there.
func (m *maker) film(p *Panel, now *history.Panel) {
	p.Film.Taken = now.Taken()
	for i := range m.given.Earlier {
		if m.given.Earlier[i].Panel == now.ID && m.given.Earlier[i].Taken.HighUm > 0 {
			p.Film.Earlier = &m.given.Earlier[i]
		}
	}
	p.Film.AfterUm = lowest(m.after(now.ID))
	if p.Advice == nil || p.Advice.Film == nil {
		return
	}
	p.Film.Said = p.Advice.Film
	usable := p.Advice.Film.UsableUm
	p.Film.UsableUm = &usable
	p.Film.Left = left(usable, p.Film.Taken)
}

// left is what may still go; nil where some work is on record whose removal nobody can tell.
func left(usable float64, taken *history.FilmTaken) *Left {
	if taken == nil {
		return &Left{usable, usable, usable}
	}
	if len(taken.Unaccounted) > 0 {
		return nil
	}
	less := func(um film.Microns) float64 { return max(0, usable-float64(um)) }
	return &Left{LowUm: less(taken.HighUm), LikelyUm: less(taken.LikelyUm), HighUm: less(taken.LowUm)}
}

// lowest is the lowest spot mean of all layers in readings, the latest of each spot; nil if none has enough readings.
func lowest(all []*history.Readings) *float64 {
	means := map[string]float64{}
	for _, r := range all {
		for _, s := range r.Film {
			if len(s.TotalUm) < film.LeastReadings {
				continue
			}
			var sum float64
			for _, um := range s.TotalUm {
				sum += um
			}
			means[s.Spot] = sum / float64(len(s.TotalUm))
		}
	}
	var out *float64
	for _, mean := range means {
		if out == nil || mean < *out {
			out = new(mean)
		}
	}
	return out
}

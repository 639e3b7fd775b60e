package advisor

import (
	"math"
	"slices"

	"github.com/glossladder/glossladder/service/film"
)

// filmLevers move film readings as another reading would: all of a layer together, or those near an edge alone. Film that
// was not read is thought of as one spot with readings that agree.
func (e *enquiry) filmLevers() []lever {
	spots := e.now.panel.Film
	if len(spots) == 0 {
		return e.filmNotRead()
	}
	var out []lever
	if len(filmSpots(film.Total, spots)) > 0 {
		m := &e.base.film.Measured
		l := e.filmLever("film.lowest_um", float64(m.LowestUm), 1, func(spot *FilmSpot) *[]float64 { return &spot.TotalUm })
		l.sway = ptr(float64(m.LowestUm - m.LowestBoundUm))
		l.clear = func(s *situation) { s.panel.Film = nil }
		out = append(out, l)
	}
	if clear := e.clearRead(); clear != nil {
		l := e.filmLever("film.clear_um", float64(clear.LowestUm), 1, func(spot *FilmSpot) *[]float64 { return &spot.ClearUm })
		l.sway = ptr(float64(clear.LowestUm - clear.LowestBoundUm))
		out = append(out, l)
	}
	return append(out, e.edgeLevers()...)
}

func (e *enquiry) clearRead() *film.Measured {
	switch f := e.base.film; {
	case f.Clear != nil:
		return f.Clear
	case f.Measured.Layer == film.Top:
		return &f.Measured
	}
	return nil
}

// edgeLevers move the spots near an edge alone, by how far they fall toward it.
func (e *enquiry) edgeLevers() []lever {
	drop := e.base.film.Measured.EdgeDropUm
	if drop == nil {
		return nil
	}
	nearEdge := func(spot *FilmSpot) *[]float64 {
		if !spot.NearEdge {
			return nil
		}
		return &spot.TotalUm
	}
	return []lever{e.filmLever("film.edge_drop_um", float64(*drop), -1, nearEdge)}
}

// filmLever moves the readings that pick gives by what takes value to a place, or by its opposite.
func (e *enquiry) filmLever(name string, value, sign float64, pick func(*FilmSpot) *[]float64) lever {
	l := numbersOf(e.fact(name))
	l.stand(value)
	if sign > 0 { // no reading may come to lie over what a gauge reads
		highest := value
		for i := range e.now.panel.Film {
			for _, um := range *pick(&e.now.panel.Film[i]) {
				highest = max(highest, um)
			}
		}
		l.size = max(l.at+1, l.size-int(math.Ceil((highest-value)/l.step)))
	}
	l.set = func(s *situation, place int) {
		by := sign * (l.numberAt(place) - value)
		s.panel.Film = slices.Clone(s.panel.Film)
		for i := range s.panel.Film {
			readings := pick(&s.panel.Film[i])
			if readings == nil {
				continue
			}
			*readings = slices.Clone(*readings)
			for k := range *readings {
				(*readings)[k] = max(0, (*readings)[k]+by)
			}
		}
	}
	return l
}

func (e *enquiry) filmNotRead() []lever {
	if e.in.FilmGauge.Kind.CanRead(film.Substrate(e.now.panel.Substrate), film.Total) != nil {
		return nil
	}
	l := numbersOf(e.fact("film.lowest_um"))
	l.clear = func(*situation) {}
	l.set = func(s *situation, place int) {
		um := l.numberAt(place)
		s.panel.Film = []FilmSpot{{Spot: "centre", TotalUm: []float64{um, um, um}}}
	}
	return []lever{l}
}

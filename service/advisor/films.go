package advisor

import (
	"errors"
	"fmt"

	"github.com/glossladder/glossladder/service/film"
)

// measure turns the panel's film readings into means and bounds. What cannot be read goes to wrong, by field.
func (c *panelCase) measure(wrong *troubles) {
	if len(c.panel.Film) == 0 {
		return
	}
	where := fmt.Sprintf("panels[%d].film", c.index)
	total := c.measureLayer(film.Total, where, wrong)
	top := c.measureLayer(film.Top, where, wrong)
	if total == nil && top == nil {
		return
	}
	c.film = &FilmFindings{Clear: top}
	if total != nil {
		c.film.Measured = *total
	} else {
		c.film.Measured = *top
	}
}

// measureLayer reckons one layer; nil when it was not read or could not be reckoned.
func (c *panelCase) measureLayer(layer film.Layer, where string, wrong *troubles) *film.Measured {
	spots := filmSpots(layer, c.panel.Film)
	if len(spots) == 0 {
		return nil
	}
	measured, err := film.Measure(c.in.FilmGauge, film.Panel{
		Name: c.panel.ID, Substrate: film.Substrate(c.panel.Substrate), Layer: layer, Spots: spots,
	}, c.policy.confidencePct)
	if err != nil {
		addFilmTrouble(wrong, where, c.panel.Film, layer, err)
		return nil
	}
	return &measured
}

func filmSpots(layer film.Layer, spots []FilmSpot) []film.Spot {
	var out []film.Spot
	for _, spot := range spots {
		readings := spot.TotalUm
		if layer == film.Top {
			readings = spot.ClearUm
		}
		if len(readings) == 0 {
			continue
		}
		converted := film.Spot{Name: spot.Spot, NearEdge: spot.NearEdge}
		for _, um := range readings {
			converted.ReadingsUm = append(converted.ReadingsUm, film.Microns(um))
		}
		out = append(out, converted)
	}
	return out
}

// addFilmTrouble names the spot's field where the error tells the spot, and the panel's film where it does not.
func addFilmTrouble(wrong *troubles, where string, spots []FilmSpot, layer film.Layer, err error) {
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		for _, each := range joined.Unwrap() {
			addFilmTrouble(wrong, where, spots, layer, each)
		}
		return
	}
	var few *film.TooFewReadingsError
	if errors.As(err, &few) {
		for i, spot := range spots {
			if spot.Spot == few.Spot {
				where = fmt.Sprintf("%s[%d].%s", where, i, layerField(layer))
			}
		}
	}
	wrong.add(where, err)
}

func layerField(layer film.Layer) string {
	if layer == film.Top {
		return "clear_um"
	}
	return "total_um"
}

// reckonFilm fills the film facts: what was read, what it may mean, and what may still go.
func (c *panelCase) reckonFilm(all []*panelCase) error {
	if c.film == nil {
		return nil
	}
	if c.film.Measured.Layer == film.Total {
		if err := c.reckonWholeFilm(all); err != nil {
			return err
		}
	}
	basis := &c.film.Measured
	if c.film.Clear != nil {
		basis = c.film.Clear
	}
	var taken film.Removal
	if c.panel.FilmTakenUm != nil {
		um := film.Microns(*c.panel.FilmTakenUm)
		taken = film.Removal{LowUm: um, LikelyUm: um, HighUm: um}
	}
	budget, err := c.policy.film.Usable(basis, taken)
	if err != nil {
		return &RulesError{Reason: c.policy.reason, Says: err.Error()}
	}
	c.film.Budget, c.film.Policy = *budget, c.policy.reason
	c.film.Because = budgetInWords(*budget, c.policy.film, *basis)
	c.sheet.number("film.clear_um", ptr(float64(budget.ClearUm)), down)
	c.sheet.number("film.usable_um", ptr(float64(budget.UsableUm)), down)
	for _, step := range stepsByStrength[1:] {
		left := float64(budget.UsableUm - c.ladderRemoval(step).HighUm)
		c.sheet.number("film.after_"+step+"_um", &left, down)
	}
	return nil
}

func (c *panelCase) reckonWholeFilm(all []*panelCase) error {
	m := &c.film.Measured
	c.sheet.number("film.lowest_um", ptr(float64(m.LowestUm)), nearest)
	c.sheet.number("film.highest_um", ptr(float64(m.HighestUm)), nearest)
	c.sheet.number("film.lowest_bound_um", ptr(float64(m.LowestBoundUm)), down)
	if m.EdgeDropUm != nil {
		c.sheet.number("film.edge_drop_um", ptr(float64(*m.EdgeDropUm)), up)
	}
	step, err := film.GreatestStep(m, neighboursOf(c, all), c.policy.confidencePct)
	if err != nil {
		return err
	}
	if step != nil {
		c.sheet.number("film.neighbour_um", ptr(float64(step.DiffUm)), nearest)
	}
	signs, err := c.policy.film.Signs(*m, step)
	if err != nil {
		return &RulesError{Reason: c.policy.reason, Says: err.Error()}
	}
	c.film.Signs = signs
	has := func(flag film.Flag) bool {
		for _, sign := range signs {
			if sign.Flag == flag {
				return true
			}
		}
		return false
	}
	c.sheet.yes("film.thin", has(film.Thin))
	c.sheet.yes("film.repaint_signs", has(film.RepaintOrRework))
	c.sheet.yes("film.filler_signs", has(film.FillerSuspected))
	return nil
}

// neighboursOf is every other panel of the vehicle whose whole film was read.
func neighboursOf(c *panelCase, all []*panelCase) []*film.Measured {
	var out []*film.Measured
	for _, other := range all {
		if other != c && other.film != nil && other.film.Measured.Layer == film.Total {
			out = append(out, &other.film.Measured)
		}
	}
	return out
}

// budgetInWords tells how the usable film came about, for people.
func budgetInWords(b film.Budget, p film.Policy, m film.Measured) string {
	clear := fmt.Sprintf("clear coat at least %v, as read", b.ClearUm)
	if b.ByShare {
		clear = fmt.Sprintf("lowest film at least %v, of which about %.0f %% is clear: at least %v", m.LowestBoundUm, p.ClearSharePct, b.ClearUm)
	}
	taken := ""
	if b.TakenUm > 0 {
		taken = fmt.Sprintf(", %v already taken", b.TakenUm)
	}
	var limit string
	switch b.Binding {
	case film.Floor:
		limit = fmt.Sprintf("%v has to stay", p.ClearFloorUm)
	case film.Share:
		limit = fmt.Sprintf("no more than %.0f %% of the clear may go over the vehicle's life", p.TakeSharePct)
	default:
		limit = fmt.Sprintf("no more than %v may go over the vehicle's life", p.TakeMostUm)
	}
	return fmt.Sprintf("%s; %s%s: %v may still go", clear, limit, taken, b.UsableUm)
}

// signsOfRepaint is the evidence that a panel was painted again, if there is any.
func signsOfRepaint(f *FilmFindings) []film.Sign {
	var out []film.Sign
	for _, sign := range f.Signs {
		if sign.Flag != film.Thin {
			out = append(out, sign)
		}
	}
	return out
}

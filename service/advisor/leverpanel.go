package advisor

import (
	"slices"

	"github.com/glossladder/glossladder/service/gloss"
)

// levers are everything about the panel, its paint, the air, the goal and the last trial that may be otherwise.
func (e *enquiry) levers() []lever {
	out := e.paintLevers()
	out = append(out, e.panelLevers()...)
	for i := range e.now.panel.Defects {
		if len(e.now.trials) == 0 { // what the marks were before a trial cannot be graded again
			out = append(out, e.defectLevers(i)...)
		}
	}
	readings := e.filmLevers()
	if len(e.now.trials) == 0 { // what gloss was before a trial cannot be read again
		readings = append(readings, e.glossLevers()...)
	}
	readings = append(readings, e.numberLever("film.taken_um", e.now.panel.FilmTakenUm, func(s *situation, v *float64) { s.panel.FilmTakenUm = v }))
	for i := range readings {
		readings[i].movesTrial = true
	}
	out = append(out, readings...)
	out = append(out, e.airLevers()...)
	out = append(out, e.ownLevers()...)
	if len(e.now.trials) > 0 {
		out = append(out, e.trialLevers()...)
	}
	return out
}

func (e *enquiry) paintLevers() []lever {
	p := &e.now.panel
	out := []lever{
		e.wordLever("paint.system", p.Paint.System, func(s *situation, w string) { s.panel.Paint.System = w }),
		e.wordLever("paint.softness", p.Paint.Softness, func(s *situation, w string) { s.panel.Paint.Softness = w }),
		e.wordLever("paint.shade", p.Paint.Shade, func(s *situation, w string) { s.panel.Paint.Shade = w }),
		e.flagLever("paint.haze_prone", p.Paint.HazeProne, func(s *situation, v *bool) { s.panel.Paint.HazeProne = v }),
		e.numberLever("paint.age_years", p.Paint.AgeYears, func(s *situation, v *float64) { s.panel.Paint.AgeYears = v }),
		e.wordLever("goal.level", e.now.goal.Level, func(s *situation, w string) { s.goal.Level = w }),
		e.wordLever("goal.protection", e.now.goal.Protection, func(s *situation, w string) { s.goal.Protection = w }),
	}
	if p.RepaintKnown == nil || *p.RepaintKnown { // else it was never repainted
		out = append(out, e.numberLever("paint.cured_days", p.CuredDays, func(s *situation, v *float64) { s.panel.CuredDays = v }))
	}
	return out
}

// panelLevers leave the substrate out: on another one the film readings would not be these.
func (e *enquiry) panelLevers() []lever {
	p := &e.now.panel
	return []lever{
		e.wordLever("panel.part", p.Part, func(s *situation, w string) { s.panel.Part = w }),
		e.flagLever("panel.clean", p.Clean, func(s *situation, v *bool) { s.panel.Clean = v }),
		e.flagLever("panel.in_sun", p.InSun, func(s *situation, v *bool) { s.panel.InSun = v }),
		e.flagLever("panel.repaint_known", p.RepaintKnown, func(s *situation, v *bool) { s.panel.RepaintKnown = v }),
		e.flagLever("panel.sensor_behind", p.SensorBehind, func(s *situation, v *bool) { s.panel.SensorBehind = v }),
		e.flagLever("panel.edge_or_line", p.EdgeOrLine, func(s *situation, v *bool) { s.panel.EdgeOrLine = v }),
		e.flagLever("panel.taped", p.Taped, func(s *situation, v *bool) { s.panel.Taped = v }),
	}
}

func (e *enquiry) defectLevers(i int) []lever {
	d := &e.now.panel.Defects[i]
	change := func(s *situation, how func(*Defect)) {
		s.panel.Defects = slices.Clone(s.panel.Defects)
		how(&s.panel.Defects[i])
	}
	out := []lever{
		e.wordLever("defect.kind", d.Kind, func(s *situation, w string) { change(s, func(d *Defect) { d.Kind = w }) }),
		e.numberLever("defect.severity", d.Severity, func(s *situation, v *float64) { change(s, func(d *Defect) { d.Severity = v }) }),
		e.flagLever("defect.catches_nail", d.CatchesNail, func(s *situation, v *bool) { change(s, func(d *Defect) { d.CatchesNail = v }) }),
	}
	for k := range out {
		out[k].about = i
	}
	return out
}

func (e *enquiry) airLevers() []lever {
	return []lever{
		e.numberLever("climate.air_c", e.now.climate.AirC, func(s *situation, v *float64) { s.climate.AirC = v }),
		e.numberLever("climate.humidity_pct", e.now.climate.HumidityPct, func(s *situation, v *float64) { s.climate.HumidityPct = v }),
		e.numberLever("climate.panel_c", e.now.panel.PanelC, func(s *situation, v *float64) { s.panel.PanelC = v }),
	}
}

// glossLevers move all readings of one scale by as much.
func (e *enquiry) glossLevers() []lever {
	var out []lever
	for _, scale := range []gloss.Scale{gloss.Gloss20, gloss.Gloss60, gloss.Gloss85, gloss.Haze} {
		mean, read := meanOn(scale, e.now.panel.Gloss)
		if !read {
			continue
		}
		l := numbersOf(e.fact(factOfScale[scale]))
		l.stand(mean)
		l.sway = e.base.plusMinus(scale)
		if scale == gloss.Gloss60 {
			l.breaks = []float64{gloss.HighGloss60GU}
		}
		l.set = func(s *situation, place int) {
			s.panel.Gloss = movedGloss(s.panel.Gloss, scale, l.numberAt(place)-mean)
		}
		out = append(out, l)
	}
	return out
}

// movedGloss is spots with all readings of one scale moved; a reading never falls below zero.
func movedGloss(spots []GlossSpot, scale gloss.Scale, by float64) []GlossSpot {
	out := slices.Clone(spots)
	for i := range out {
		readings := slices.Clone(out[i].readings(scale))
		for k := range readings {
			readings[k] = max(0, readings[k]+by)
		}
		switch scale {
		case gloss.Gloss20:
			out[i].At20GU = readings
		case gloss.Gloss60:
			out[i].At60GU = readings
		case gloss.Gloss85:
			out[i].At85GU = readings
		case gloss.Haze:
			out[i].HazeHU = readings
		}
	}
	return out
}

package advisor

import (
	"fmt"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/climate"
	"github.com/glossladder/glossladder/service/film"
)

// panelCase is one panel on its way through the tables.
type panelCase struct {
	a     *Advisor
	in    *Inspection
	panel *Panel
	index int
	sheet *factSheet

	policy  policy
	removal map[string]film.Removal
	film    *FilmFindings
	gloss   *GlossFindings
	dewC    *float64

	// decision is reused from question to question.
	decision *rules.Decision
	wanted   wantList
	// watch, if there is one, is told of every question before it is put.
	watch func(*rules.Table)
	// notes take every question with its answer; nil where nobody asks for a record. Tried is the step of the trial that is judged.
	notes *notes
	tried string
	// starts are the steps found for each defect so far.
	starts []string
	// quiet leaves out what is worth learning.
	quiet bool
}

// open sets what was found on the panel and asks for its policy and for what each step takes.
func (a *Advisor) open(in *Inspection, index int, decision *rules.Decision) (*panelCase, error) {
	return a.openNoting(in, index, decision, nil)
}

func (a *Advisor) openNoting(in *Inspection, index int, decision *rules.Decision, notes *notes) (*panelCase, error) {
	c := &panelCase{
		a: a, in: in, panel: &in.Panels[index], index: index, sheet: newFactSheet(a.set.Schema()), decision: decision, notes: notes,
	}
	c.sheet.recall = c.recalls()
	c.setFound()
	c.setOwn()
	answer, err := c.must(a.tables.policy)
	if err != nil {
		return nil, err
	}
	c.policy = policyOf(answer.result, answer.reason)
	c.sheet.number("panel.allowed_severity", &c.policy.severityLeft, nearest)
	if err := c.askRemoval(); err != nil {
		return nil, err
	}
	return c, c.sheet.err
}

// setFound copies what the technician found to the fact sheet.
func (c *panelCase) setFound() {
	p, f := c.panel, c.sheet
	f.word("paint.system", p.Paint.System)
	f.word("paint.softness", p.Paint.Softness)
	f.word("paint.shade", p.Paint.Shade)
	f.flag("paint.haze_prone", p.Paint.HazeProne)
	f.number("paint.age_years", p.Paint.AgeYears, nearest)
	f.number("paint.cured_days", p.CuredDays, down)
	f.word("panel.part", p.Part)
	f.word("panel.substrate", p.Substrate)
	f.flag("panel.clean", p.Clean)
	f.flag("panel.in_sun", p.InSun)
	repaintKnown := p.RepaintKnown
	if p.CuredDays != nil {
		repaintKnown = ptr(true) // who knows how long ago it was painted knows that it was
	}
	f.flag("panel.repaint_known", repaintKnown)
	f.flag("panel.sensor_behind", p.SensorBehind)
	f.flag("panel.edge_or_line", p.EdgeOrLine)
	f.flag("panel.taped", p.Taped)
	f.number("film.taken_um", p.FilmTakenUm, up)
	f.number("climate.air_c", c.in.Climate.AirC, nearest)
	f.number("climate.humidity_pct", c.in.Climate.HumidityPct, nearest)
	f.number("climate.panel_c", p.PanelC, nearest)
	f.word("vehicle.size", c.in.Vehicle.Size)
	f.word("vehicle.kept", c.in.Vehicle.Kept)
	f.word("goal.level", c.in.Goal.Level)
	f.word("goal.protection", c.in.Goal.Protection)
	if p.Substrate != "" {
		f.yes("film.readable", c.in.FilmGauge.Kind.CanRead(film.Substrate(p.Substrate), film.Total) == nil)
	}
}

// askRemoval asks what each step takes off this paint.
func (c *panelCase) askRemoval() error {
	c.removal = map[string]film.Removal{}
	for _, step := range stepsByStrength[1:] {
		var result rules.Result
		var err error
		c.askingOf(step, func() { result, err = c.quick(c.a.tables.removal) })
		if err != nil {
			return err
		}
		c.removal[step] = removalOf(result)
		if c.removal[step].Check() != nil {
			return c.badRemoval(step)
		}
	}
	return nil
}

// askingOf asks with a step to be looked at.
func (c *panelCase) askingOf(step string, ask func()) {
	c.sheet.with(func(f *factSheet) { f.word("step.now", step) }, ask)
}

// badRemoval names the rule that gives a removal that does not rise.
func (c *panelCase) badRemoval(step string) error {
	said, err := c.removalReason(step)
	if err != nil {
		return err
	}
	r := c.removal[step]
	return &RulesError{Reason: said, Says: fmt.Sprintf("removal must rise from low to high, not %v, %v, %v", r.LowUm, r.LikelyUm, r.HighUm)}
}

// removalReason is why a step is expected to take what it takes.
func (c *panelCase) removalReason(step string) (reason Reason, err error) {
	c.askingOf(step, func() {
		var said answer
		said, err = c.must(c.a.tables.removal)
		reason = said.reason
	})
	return reason, err
}

// ladderRemoval is what a step and every milder step after it take together.
func (c *panelCase) ladderRemoval(first string) film.Removal {
	var all []film.Removal
	for k := strength(first); k > 0; k-- {
		all = append(all, c.removal[stepsByStrength[k]])
	}
	sum, err := film.Ladder(all...)
	if err != nil {
		return film.Removal{} // each was checked when it was asked for
	}
	return sum
}

// reckon turns measurements into facts. Panels are compared with their neighbours, so every one is measured before.
func (c *panelCase) reckon(all []*panelCase) error {
	if err := c.reckonFilm(all); err != nil {
		return err
	}
	c.reckonGloss()
	c.reckonClimate()
	return c.sheet.err
}

func (c *panelCase) reckonClimate() {
	air, humidity := c.in.Climate.AirC, c.in.Climate.HumidityPct
	if air == nil || humidity == nil {
		return
	}
	dew, err := climate.DewPoint(climate.Celsius(*air), *humidity)
	if err != nil {
		return // bounds were checked at the door
	}
	c.dewC = ptr(float64(dew))
	if c.panel.PanelC != nil {
		margin := *c.panel.PanelC - float64(dew)
		c.sheet.number("climate.dew_margin_c", &margin, down)
	}
}

func ptr[T any](value T) *T { return &value }

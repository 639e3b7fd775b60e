package report

import (
	"slices"
	"strings"

	"github.com/glossladder/glossladder/service/gloss"
	"github.com/glossladder/glossladder/service/report/chart"
	"github.com/glossladder/glossladder/service/report/sheet"
	"github.com/glossladder/glossladder/service/report/words"
)

// hazeUnit is that of both kinds of haze, as everywhere else that people are told of it.
const hazeUnit = "HU"

func unitOf(scale gloss.Scale) string {
	if scale == gloss.HazeIndex {
		return hazeUnit
	}
	return scale.Unit()
}

// results are gloss and haze before and after, and what each panel gained.
func (w writer) results() []sheet.Block {
	var out []sheet.Block
	for _, scale := range [...]gloss.Scale{gloss.Gloss20, gloss.Gloss60, gloss.Gloss85, gloss.Haze, gloss.HazeIndex} {
		if figure := w.change(scale); figure != nil {
			out = append(out, *figure)
		}
	}
	if len(out) == 0 {
		return nil
	}
	return append(out, w.gains(), sheet.Paragraph{Small: true, Text: w.text(words.IntervalNote, arg("share", w.l.Percent(w.r.ConfidencePct)))})
}

// changed are the changes of all panels on a scale.
func (w writer) changed(scale gloss.Scale) (panels []*Panel, changes []*Change) {
	for i := range w.r.Panels {
		p := &w.r.Panels[i]
		for _, c := range [...]*Change{p.Gloss, p.Haze} {
			if c != nil && c.Scale == scale {
				panels, changes = append(panels, p), append(changes, c)
			}
		}
	}
	return panels, changes
}

// change is the figure of one scale; nil if no panel has it.
func (w writer) change(scale gloss.Scale) *sheet.Figure {
	panels, changes := w.changed(scale)
	if len(changes) == 0 {
		return nil
	}
	name := w.scale(changes[0])
	c := chart.Chart{
		Title: capital(w.say(words.FigureChange, arg("scale", name))), Axis: w.say(words.Axis, arg("what", name), arg("unit", unitOf(scale))),
		Keys:   []chart.Key{{Shape: chart.Hollow, Label: w.say(words.KeyBefore)}, {Shape: chart.Filled, Label: w.say(words.KeyAfter)}},
		Number: w.l.Number,
	}
	spot := false
	for i, change := range changes {
		label := w.panel(panels[i].Found.ID)
		if change.TestSpot {
			label, spot = label+" *", true
		}
		c.Rows = append(c.Rows, chart.Row{Label: label, Dots: []chart.Dot{
			w.dot(chart.Hollow, change.Before, unitOf(scale)), w.dot(chart.Filled, change.After, unitOf(scale)),
		}})
	}
	if ceiling := oneCeiling(changes); ceiling > 0 {
		c.Lines = []chart.Line{{At: ceiling, Label: w.say(words.Ceiling, arg("value", w.l.Number(ceiling, 0)))}}
	}
	figure := &sheet.Figure{Caption: c.Title, Chart: c}
	if spot {
		figure.Note = w.say(words.SpotOnly)
	}
	return figure
}

func (w writer) dot(shape chart.Shape, v Value, unit string) chart.Dot {
	return chart.Dot{Shape: shape, Value: v.Mean, Low: v.Low, High: v.High, Text: w.value(v, unit)}
}

// oneCeiling is the ceiling that all changes share; 0 if they do not, or if it lies so far away that it would squeeze the rest.
func oneCeiling(changes []*Change) float64 {
	ceiling, low, high := changes[0].CeilingGU, changes[0].Before.Mean, changes[0].Before.Mean
	for _, c := range changes {
		if c.CeilingGU != ceiling {
			return 0
		}
		for _, v := range [...]Value{c.Before, c.After} {
			low, high = min(low, v.Low), max(high, v.High)
		}
	}
	if ceiling > high+(high-low) {
		return 0
	}
	return ceiling
}

// gains is what each panel gained and which marks went.
func (w writer) gains() sheet.Table {
	table := sheet.Table{Columns: []sheet.Column{
		{Head: w.say(words.ColPanel)},
		{Head: w.say(words.ColGlossGain), Number: true},
		{Head: w.say(words.ColHazeGain), Number: true},
		{Head: w.say(words.ColSpots), Number: true},
		{Head: w.say(words.ColMarksLeft)},
	}}
	for i := range w.r.Panels {
		p := &w.r.Panels[i]
		if p.Gloss == nil && p.Haze == nil {
			continue
		}
		spots := 0
		for _, c := range [...]*Change{p.Gloss, p.Haze} {
			if c != nil {
				spots = max(spots, c.Spots)
			}
		}
		table.Rows = append(table.Rows, []sheet.Text{
			sheet.Say(w.panel(p.Found.ID)), sheet.Say(w.changeOf(p.Gloss)), sheet.Say(w.changeOf(p.Haze)), sheet.Say(w.l.Number(float64(spots), 0)), sheet.Say(w.marksLeft(p)),
		})
	}
	return table
}

// changeOf says a gain, with a star where only a test spot was read.
func (w writer) changeOf(c *Change) string {
	if c == nil {
		return "–"
	}
	star := ""
	if c.TestSpot {
		star = " *"
	}
	return w.gain(c.Gain, unitOf(c.Scale)) + star
}

// marksLeft says each mark before and after: "wash marks 2 → 1".
func (w writer) marksLeft(p *Panel) string {
	var out []string
	for _, m := range p.Marks {
		switch {
		case m.Left == nil:
		case m.Before == nil:
			out = append(out, w.mark(m.Kind, m.Left))
		default:
			out = append(out, w.mark(m.Kind, m.Before)+" → "+w.severity(*m.Left))
		}
	}
	if len(out) == 0 {
		return w.say(words.NotLookedAt)
	}
	return strings.Join(out, ", ")
}

// film is what was taken and what is left.
func (w writer) film() []sheet.Block {
	if !slices.ContainsFunc(w.r.Panels, func(p Panel) bool { return p.Film.Taken != nil || p.Film.Said != nil }) {
		return nil
	}
	c := chart.Chart{
		Title: w.say(words.FigureFilm), Axis: w.say(words.Axis, arg("what", w.say(words.MayGo)), arg("unit", w.l.FilmUnit())),
		Keys:   []chart.Key{{Shape: chart.Hollow, Label: w.say(words.KeyBefore)}, {Shape: chart.Filled, Label: w.say(words.KeyAfter)}},
		Lines:  []chart.Line{{At: 0, Label: w.say(words.NothingMore)}},
		Number: w.l.Number,
	}
	table := sheet.Table{Columns: []sheet.Column{
		{Head: w.say(words.ColPanel)},
		{Head: w.say(words.ColTaken), Number: true},
		{Head: w.say(words.ColHow)},
		{Head: w.say(words.ColEarlier), Number: true},
		{Head: w.say(words.ColMayGo), Number: true},
	}}
	for i := range w.r.Panels {
		p := &w.r.Panels[i]
		if row := w.filmRow(p); row != nil {
			c.Rows = append(c.Rows, *row)
		}
		table.Rows = append(table.Rows, w.filmCells(p))
	}
	var out []sheet.Block
	if len(c.Rows) > 0 {
		out = append(out, sheet.Figure{Caption: c.Title, Chart: c})
	}
	return append(out, table, sheet.Paragraph{Small: true, Text: w.text(words.FilmNote)})
}

// filmRow is what might go before and what may go now; nil where film is not known.
func (w writer) filmRow(p *Panel) *chart.Row {
	f := &p.Film
	if f.UsableUm == nil {
		return nil
	}
	at := w.l.InFilmUnit
	row := chart.Row{Label: w.panel(p.Found.ID), Dots: []chart.Dot{
		{Shape: chart.Hollow, Value: at(*f.UsableUm), Low: at(*f.UsableUm), High: at(*f.UsableUm), Text: w.l.Film(*f.UsableUm)},
	}}
	if left := f.Left; left != nil && f.Taken != nil {
		row.Dots = append(row.Dots, chart.Dot{
			Shape: chart.Filled, Value: at(left.LikelyUm), Low: at(left.LowUm), High: at(left.HighUm),
			Text: w.say(words.WithRange, arg("value", w.l.Film(left.LikelyUm)), arg("low", w.l.FilmNumber(left.LowUm)), arg("high", w.l.FilmNumber(left.HighUm))),
		})
	}
	return &row
}

func (w writer) filmCells(p *Panel) []sheet.Text {
	f := &p.Film
	taken, how, earlier, left := w.say(words.NothingTaken), "–", "–", w.say(words.NotMeasured)
	if t := f.Taken; t != nil {
		taken = w.removal(removalOf(t.Removal))
		switch {
		case len(t.Unaccounted) > 0:
			taken, how = w.say(words.NotKnown), w.say(words.HowUnaccounted, arg("steps", w.ladder(t.Unaccounted)))
		case t.Measured:
			how = w.say(words.HowMeasured)
		default:
			how = w.say(words.HowExpected)
		}
	}
	if f.Earlier != nil {
		earlier = w.removal(removalOf(f.Earlier.Taken))
		if f.Earlier.Incomplete {
			earlier = w.say(words.AtLeast, arg("value", earlier))
		}
	}
	switch {
	case f.Left != nil:
		left = w.l.Film(f.Left.LowUm)
	case f.UsableUm != nil:
		left = w.say(words.NotKnown)
	}
	return []sheet.Text{sheet.Say(w.panel(p.Found.ID)), sheet.Say(taken), sheet.Say(how), sheet.Say(earlier), {{Text: left, Kind: sheet.Strong}}}
}

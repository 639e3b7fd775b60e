package report

import (
	"strings"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/report/sheet"
	"github.com/glossladder/glossladder/service/report/words"
)

// short is what the report comes to, in a few sentences.
func (w writer) short() []sheet.Block {
	if len(w.r.Panels) == 0 {
		return []sheet.Block{sheet.Paragraph{Text: w.text(words.NothingYet)}}
	}
	worked := 0
	for i := range w.r.Panels {
		if w.r.Panels[i].Worked() {
			worked++
		}
	}
	said := []string{w.say(words.ShortPanels, arg("n", len(w.r.Panels)), arg("worked", worked))}
	for _, sentence := range []string{w.shortGain(words.ShortGloss, false), w.shortGain(words.ShortHaze, true), w.shortFilm()} {
		if sentence != "" {
			said = append(said, sentence)
		}
	}
	return []sheet.Block{sheet.Paragraph{Text: sheet.Say(strings.Join(said, " "))}}
}

// shortGain tells the smallest and the largest change of the finished panels; "" if none was read.
func (w writer) shortGain(key words.Key, haze bool) string {
	var least, most *Change
	n := 0
	for i := range w.r.Panels {
		c := w.r.Panels[i].Gloss
		if haze {
			c = w.r.Panels[i].Haze
		}
		if c == nil || c.TestSpot || least != nil && c.Scale != least.Scale {
			continue
		}
		n++
		if least == nil || c.Gain.Mean < least.Gain.Mean {
			least = c
		}
		if most == nil || c.Gain.Mean > most.Gain.Mean {
			most = c
		}
	}
	if n == 0 {
		return ""
	}
	if n == 1 {
		return w.say(key, arg("scale", w.scale(least)), arg("n", n), arg("change", w.gain(least.Gain, unitOf(least.Scale))))
	}
	span := w.say(words.FromTo, arg("low", w.l.Signed(least.Gain.Mean, 1)), arg("high", w.l.With(w.l.Signed(most.Gain.Mean, 1), unitOf(most.Scale))))
	return w.say(key, arg("scale", w.scale(least)), arg("n", n), arg("change", span))
}

func (w writer) scale(c *Change) string { return w.l.Word("scale", scaleWord(c.Scale.String())) }

// scaleWord makes a key of a scale's name.
func scaleWord(name string) string {
	return strings.ReplaceAll(strings.TrimSuffix(strings.ReplaceAll(name, " ", "-"), "°"), "°", "")
}

// shortFilm tells the most that was taken off any panel.
func (w writer) shortFilm() string {
	var most *history.FilmTaken
	for i := range w.r.Panels {
		taken := w.r.Panels[i].Film.Taken
		if taken == nil {
			continue
		}
		if len(taken.Unaccounted) > 0 {
			return ""
		}
		if most == nil || taken.HighUm > most.HighUm {
			most = taken
		}
	}
	if most == nil {
		return ""
	}
	return w.say(words.ShortFilm, arg("most", w.l.Film(float64(most.HighUm))))
}

// findings is what was found, panel by panel.
func (w writer) findings() []sheet.Block {
	if len(w.r.Panels) == 0 {
		return nil
	}
	table := sheet.Table{
		Columns: []sheet.Column{
			{Head: w.say(words.ColPanel)},
			{Head: w.say(words.ColMarks)},
			{Head: w.say(words.ColThinnest, arg("unit", w.l.FilmUnit())), Number: true},
			{Head: w.say(words.ColGlossFound), Number: true},
			{Head: w.say(words.ColNoted)},
		},
		Note: w.say(words.SeverityNote),
	}
	for i := range w.r.Panels {
		p := &w.r.Panels[i]
		table.Rows = append(table.Rows, []sheet.Text{
			sheet.Say(w.panel(p.Found.ID)), sheet.Say(w.marksFound(p)), sheet.Say(w.thinnest(p)), sheet.Say(w.glossFound(p)), w.noted(p),
		})
	}
	return []sheet.Block{table}
}

func (w writer) marksFound(p *Panel) string {
	var out []string
	for _, m := range p.Marks {
		if m.Before != nil || m.Left == nil {
			out = append(out, w.mark(m.Kind, m.Before))
		}
	}
	if len(out) == 0 {
		return w.say(words.NoMarks)
	}
	return strings.Join(out, ", ")
}

func (w writer) thinnest(p *Panel) string {
	if p.Film.Said == nil {
		return w.say(words.NotMeasured)
	}
	return w.l.FilmNumber(p.Film.Said.LowestUm)
}

func (w writer) glossFound(p *Panel) string {
	if p.GlossFound == nil {
		return w.say(words.NotMeasured)
	}
	degrees, _ := p.GlossFound.Scale.Degrees()
	return w.say(words.GlossAt, arg("value", w.l.With(w.l.Number(p.GlossFound.Mean, 1), unitOf(p.GlossFound.Scale))), arg("angle", w.l.Number(degrees, 0)))
}

// noted is what is peculiar to the panel.
func (w writer) noted(p *Panel) sheet.Text {
	var out []string
	whole := &w.r.Whole
	own := w.paint(differs(p.Found.System, whole.System, w.r.Vehicle.Paint.System), differs(p.Found.Softness, whole.Softness, w.r.Vehicle.Paint.Softness),
		differs(p.Found.Shade, whole.Shade, w.r.Vehicle.Paint.Shade))
	if own != "" {
		out = append(out, own)
	}
	if p.Found.Substrate != "" && p.Found.Substrate != "steel" {
		out = append(out, w.l.Word("substrate", p.Found.Substrate))
	}
	text := sheet.Say(strings.Join(out, "; "))
	add := func(said string) {
		if text.String() != "" {
			text = append(text, sheet.Piece{Text: "; "})
		}
		text = append(text, w.quote(said))
	}
	if p.Film.Said != nil {
		for _, sign := range p.Film.Said.Signs {
			add(sign)
		}
	}
	for _, m := range p.Marks {
		if m.Note != "" {
			add(m.Note)
		}
	}
	return text
}

// differs is the panel's own word where it is not the vehicle's.
func differs(own string, whole ...string) string {
	if own == first(whole...) {
		return ""
	}
	return own
}

package report

import (
	"slices"
	"strings"

	"github.com/glossladder/glossladder/service/film"
	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/report/sheet"
	"github.com/glossladder/glossladder/service/report/words"
)

func removalOf(r film.Removal) history.Removal { return history.RemovalOf(r) }

// strength orders the steps, none the least.
func strength(step string) int {
	return slices.Index([]string{"none", "finish", "polish", "cut"}, step)
}

// onPurpose is what stayed, and why, as far as it is on record.
func (w writer) onPurpose() []sheet.Block {
	var list sheet.List
	for i := range w.r.Panels {
		p := &w.r.Panels[i]
		var text sheet.Text
		for _, more := range w.stayed(p) {
			if text != nil {
				text = append(text, sheet.Piece{Text: " "})
			}
			text = append(text, more...)
		}
		if text != nil {
			head := sheet.Text{{Text: w.panel(p.Found.ID), Kind: sheet.Strong}, {Text: ": "}}
			list = append(list, append(head, once(text)...))
		}
	}
	list = append(list, w.stillSeen()...)
	if len(list) == 0 {
		return nil
	}
	return []sheet.Block{list}
}

// once leaves out what was quoted before in the same text.
func once(text sheet.Text) (out sheet.Text) {
	said := map[string]bool{}
	for _, piece := range text {
		if piece.Kind == sheet.Quoted && said[piece.Text] {
			continue
		}
		said[piece.Text] = true
		if blank := piece.Text == " " && len(out) > 0 && out[len(out)-1].Text == " "; !blank {
			out = append(out, piece)
		}
	}
	return out
}

// stayed is what stayed on one panel.
func (w writer) stayed(p *Panel) (out []sheet.Text) {
	if text := w.unworked(p); text != nil {
		out = append(out, text)
	}
	out = append(out, w.beyond(p)...)
	for _, s := range p.Steps {
		if s.State == history.LeftOut {
			out = append(out, sheet.Text{{Text: capital(w.say(words.StepLeftOut, arg("step", w.l.Word("step", s.Step)))) + " "}, w.quote(s.Why)})
		}
	}
	return out
}

// beyond are marks that need more than the panel allows, or for which no step is advised.
func (w writer) beyond(p *Panel) (out []sheet.Text) {
	if p.Advice == nil {
		return nil
	}
	for _, m := range p.Advice.Marks {
		var text, because string
		switch {
		case strength(m.Start) > strength(p.Advice.Limit):
			text = w.say(words.Beyond, arg("mark", w.mark(m.Kind, m.Severity)), arg("needs", w.l.Word("step", m.Start)), arg("allows", w.l.Word("step", p.Advice.Limit)))
			if p.Advice.Limit == "none" {
				text = w.say(words.BeyondAny, arg("mark", w.mark(m.Kind, m.Severity)), arg("needs", w.l.Word("step", m.Start)))
			}
			because = p.Advice.LimitBecause
		case m.Start == "none":
			text, because = w.say(words.NotAdvised, arg("mark", w.mark(m.Kind, m.Severity))), m.Because
		default:
			continue
		}
		said := sheet.Say(capital(text))
		if because != "" {
			said = append(said, sheet.Piece{Text: " "}, w.quote(because))
		}
		out = append(out, said)
	}
	return out
}

// unworked says why a panel was left as it was; nil if it was not, or its work is still to come.
func (w writer) unworked(p *Panel) sheet.Text {
	if p.Worked() || !w.r.Job.Stage.Ended() && w.r.Job.Stage != history.StageFinished {
		return nil
	}
	text := sheet.Say(capital(w.say(words.LeftAsItWas)))
	if p.Advice == nil {
		return text
	}
	if state := w.l.Word("state", p.Advice.State); state != "" {
		text[0].Text += " " + state
	}
	for _, r := range p.Advice.Readiness {
		if r.Effect == "note" {
			continue
		}
		text = append(text, sheet.Piece{Text: " "}, w.quote(r.Do))
		if r.Because != "" {
			text = append(text, sheet.Piece{Text: " "}, w.quote(r.Because))
		}
	}
	return text
}

// stillSeen are the marks of worked panels that are still to be seen: panels with the same marks together.
func (w writer) stillSeen() (out sheet.List) {
	var texts []string
	panels := map[string][]string{}
	for i := range w.r.Panels {
		text := w.allowed(&w.r.Panels[i])
		if text == "" {
			continue
		}
		if panels[text] == nil {
			texts = append(texts, text)
		}
		panels[text] = append(panels[text], w.r.Panels[i].Found.ID)
	}
	for _, text := range texts {
		out = append(out, sheet.Text{{Text: capital(w.panels(panels[text])), Kind: sheet.Strong}, {Text: ": " + text}})
	}
	return out
}

// allowed are marks of a worked panel that are still to be seen; "" if there are none.
func (w writer) allowed(p *Panel) string {
	var all []string
	for _, m := range p.Marks {
		if m.Left != nil && *m.Left > 0 && !p.tooMuch(m.Kind) {
			all = append(all, w.mark(m.Kind, m.Left))
		}
	}
	if len(all) == 0 || !p.Worked() {
		return ""
	}
	text := w.say(words.StillSeen, arg("marks", strings.Join(all, ", ")))
	if p.Advice != nil {
		text += " " + w.say(words.MayStay, arg("severity", w.severity(p.Advice.AllowedSeverity)))
	}
	return text
}

// tooMuch reports whether a mark needs more than the panel allows.
func (p *Panel) tooMuch(kind string) bool {
	return p.Advice != nil && slices.ContainsFunc(p.Advice.Marks, func(m MarkAdvice) bool {
		return m.Kind == kind && strength(m.Start) > strength(p.Advice.Limit)
	})
}

// care is how to keep the paint: common practice, no source.
func (w writer) care() []sheet.Block {
	if !slices.ContainsFunc(w.r.Panels, func(p Panel) bool { return p.Worked() }) {
		return nil
	}
	list := sheet.List{w.text(words.CareWash), w.text(words.CareDry), w.text(words.CareDroppings), w.text(words.CareBrushes)}
	switch w.r.Whole.Protection {
	case "wax", "sealant", "coating":
		list = append(list, w.text(words.CareProtected, arg("protection", w.l.Word("protection", w.r.Whole.Protection))))
	default:
		list = append(list, w.text(words.CareUnprotected))
	}
	return []sheet.Block{append(list, w.text(words.CareKeep))}
}

// tells reports whether a caution tells of the vehicle rather than of a day's work.
func tells(c *Caution) bool {
	switch c.Topic {
	case "sensors", "old-paint", "refinisher":
		return c.Level != "note"
	case "film", "paint": // those for the whole job say how to work, those for a panel how it is
		return c.Level != "note" && !c.Whole
	}
	return false
}

// cautions are for whoever works on the paint next.
func (w writer) cautions() []sheet.Block {
	out := []sheet.Block{sheet.Paragraph{Text: w.text(words.CautionsFor)}}
	list := sheet.List{w.text(words.CautionGone), w.text(words.CautionEdges)}
	for _, c := range w.r.Cautions {
		if !tells(&c) {
			continue
		}
		head := capital(w.l.Word("topic", c.Topic))
		if len(c.Panels) > 0 && len(c.Panels) < len(w.r.Panels) {
			head += ", " + w.panels(c.Panels)
		}
		list = append(list, sheet.Text{{Text: head, Kind: sheet.Strong}, {Text: ": "}, w.quote(c.Do), {Text: " "}, w.quote(c.Because)})
	}
	return append(out, list)
}

// foot says where the figures come from.
func (w writer) foot() []string {
	out := []string{w.say(words.FootRecord, arg("day", w.l.Date(w.r.UpTo)))}
	if w.r.Corrected > 0 {
		out[0] += " " + w.say(words.FootCorrected, arg("n", w.r.Corrected))
	}
	if w.quotes() {
		out = append(out, w.say(words.FootQuoted))
	}
	if g := w.r.Gauge; g != nil {
		out = append(out, w.say(words.FootGauge, arg("gauge", w.l.Word("gauge", g.Kind)), arg("fixed", w.l.Film(g.AccuracyUm)), arg("share", w.l.With(w.l.Number(g.AccuracyPct, 1), "%"))))
	}
	if len(w.r.RuleSets) > 0 {
		var short []string
		for _, hash := range w.r.RuleSets {
			short = append(short, hash[:min(12, len(hash))])
		}
		out = append(out, w.say(words.FootRules, arg("n", len(short)), arg("rules", strings.Join(short, ", "))))
	}
	return append(out, w.say(words.FootBound))
}

// quotes reports whether the report may quote rules or the shop.
func (w writer) quotes() bool { return len(w.r.Notes) > 0 || len(w.r.RuleSets) > 0 }

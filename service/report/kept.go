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
	add := func(panel string, text sheet.Text) {
		head := sheet.Text{{Text: w.panel(panel), Kind: sheet.Strong}, {Text: ": "}}
		list = append(list, append(head, text...))
	}
	for i := range w.r.Panels {
		p := &w.r.Panels[i]
		id := p.Found.ID
		for _, text := range w.beyond(p) {
			add(id, text)
		}
		for _, s := range p.Steps {
			if s.State == history.LeftOut {
				add(id, sheet.Text{{Text: w.say(words.StepLeftOut, arg("step", w.l.Word("step", s.Step))) + " "}, w.quote(s.Why)})
			}
		}
		if text := w.unworked(p); text != nil {
			add(id, text)
		}
		if text := w.allowed(p); text != nil {
			add(id, text)
		}
	}
	if len(list) == 0 {
		return nil
	}
	return []sheet.Block{list}
}

// beyond are marks that need more than the panel allows.
func (w writer) beyond(p *Panel) (out []sheet.Text) {
	if p.Advice == nil {
		return nil
	}
	for _, m := range p.Advice.Marks {
		if strength(m.Start) <= strength(p.Advice.Limit) {
			continue
		}
		text := sheet.Text{{Text: w.say(words.Beyond, arg("mark", w.mark(m.Kind, m.Severity)), arg("needs", w.l.Word("step", m.Start)), arg("allows", w.l.Word("step", p.Advice.Limit)))}}
		if p.Advice.LimitBecause != "" {
			text = append(text, sheet.Piece{Text: " "}, w.quote(p.Advice.LimitBecause))
		}
		out = append(out, text)
	}
	return out
}

// unworked says why a panel was left as it was; nil if it was not, or its work is still to come.
func (w writer) unworked(p *Panel) sheet.Text {
	if p.Worked() || !w.r.Job.Stage.Ended() && w.r.Job.Stage != history.StageFinished {
		return nil
	}
	text := sheet.Text{{Text: w.say(words.LeftAsItWas)}}
	if p.Advice == nil {
		return text
	}
	text[0].Text += " " + w.l.Word("state", p.Advice.State)
	text[0].Text = strings.TrimRight(text[0].Text, " ")
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

// allowed are marks of a worked panel that are still to be seen.
func (w writer) allowed(p *Panel) sheet.Text {
	var all []string
	for _, m := range p.Marks {
		if m.Left != nil && *m.Left > 0 && !p.tooMuch(m.Kind) {
			all = append(all, w.mark(m.Kind, m.Left))
		}
	}
	if len(all) == 0 || !p.Worked() {
		return nil
	}
	text := w.say(words.StillSeen, arg("marks", strings.Join(all, ", ")))
	if p.Advice != nil {
		text += " " + w.say(words.MayStay, arg("severity", w.severity(p.Advice.AllowedSeverity)))
	}
	return sheet.Say(text)
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

// lasting are the topics of cautions that are about the vehicle rather than about a day's work.
var lasting = [...]string{"film", "paint", "sensors", "old-paint", "refinisher"}

// cautions are for whoever works on the paint next.
func (w writer) cautions() []sheet.Block {
	out := []sheet.Block{sheet.Paragraph{Text: w.text(words.CautionsFor)}}
	list := sheet.List{w.text(words.CautionGone), w.text(words.CautionEdges)}
	for _, c := range w.r.Cautions {
		if c.Level == "note" || !slices.Contains(lasting[:], c.Topic) {
			continue
		}
		head := w.l.Word("topic", c.Topic)
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

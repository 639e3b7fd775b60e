package report

import (
	"strings"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/report/sheet"
	"github.com/glossladder/glossladder/service/report/words"
)

// Options say how a report is set.
type Options struct {
	// Heading stands above the title, such as the shop's name. Empty: nothing does.
	Heading string
	Paper   sheet.Paper
}

// Sheet says the report in a language.
func (r *Report) Sheet(l *words.Language, opts Options) *sheet.Sheet {
	w := writer{r: r, l: l}
	return &sheet.Sheet{
		Lang: l.Tag(), Paper: opts.Paper, Over: opts.Heading, Title: l.Say(words.Title), Under: w.under(), Notice: w.notice(), Facts: w.facts(),
		Sections: []sheet.Section{
			w.section(words.InShort, w.short()),
			w.section(words.FromTheShop, w.notes()),
			w.section(words.Findings, w.findings()),
			w.section(words.Work, w.work()),
			w.section(words.Results, w.results()),
			w.section(words.OnPurpose, w.onPurpose()),
			w.section(words.FilmHeading, w.film()),
			w.section(words.Care, w.care()),
			w.section(words.Cautions, w.cautions()),
		},
		Foot: w.foot(),
	}
}

// writer says one report in one language.
type writer struct {
	r *Report
	l *words.Language
}

func (w writer) section(heading words.Key, blocks []sheet.Block) sheet.Section {
	return sheet.Section{Heading: w.l.Say(heading), Blocks: blocks}
}

func (w writer) say(key words.Key, args ...words.Arg) string { return w.l.Say(key, args...) }

// text is a plain text.
func (w writer) text(key words.Key, args ...words.Arg) sheet.Text {
	return sheet.Say(w.say(key, args...))
}

// quote is somebody's own words.
func (w writer) quote(text string) sheet.Piece {
	return sheet.Piece{Text: w.l.Quote(text), Kind: sheet.Quoted}
}

func arg(name string, value any) words.Arg { return words.Arg{Name: name, Value: value} }

func (w writer) under() string {
	if w.r.Job.Label == "" {
		return w.r.Vehicle.Label
	}
	return w.r.Vehicle.Label + " · " + w.r.Job.Label
}

// notice tells that the report is not the last word.
func (w writer) notice() string {
	switch {
	case w.r.Job.Stage == history.StageCancelled:
		return w.say(words.NoticeCancelled)
	case !w.r.Complete():
		return w.say(words.NoticeInterim, arg("stage", w.l.Word("stage", string(w.r.Job.Stage))))
	}
	return ""
}

func (w writer) facts() []sheet.Fact {
	var out []sheet.Fact
	add := func(name words.Key, value string) {
		if value != "" {
			out = append(out, sheet.Fact{Name: w.say(name), Value: value})
		}
	}
	for _, day := range []struct {
		name words.Key
		is   bool
		text string
	}{
		{words.FactInspected, !w.r.Inspected.IsZero(), w.l.Date(w.r.Inspected)},
		{words.FactEnded, !w.r.Ended.IsZero(), w.l.Date(w.r.Ended)},
		{words.FactHandedOver, !w.r.HandedOver.IsZero(), w.l.Date(w.r.HandedOver)},
	} {
		if day.is {
			add(day.name, day.text)
		}
	}
	whole := &w.r.Whole
	add(words.FactWanted, w.word("goal", whole.Goal))
	add(words.FactPaint, w.paint(first(whole.System, w.r.Vehicle.Paint.System), first(whole.Softness, w.r.Vehicle.Paint.Softness), first(whole.Shade, w.r.Vehicle.Paint.Shade)))
	add(words.FactProtection, w.word("protection", whole.Protection))
	add(words.FactAir, w.air())
	add(words.FactJob, w.r.Job.ID)
	return out
}

// first is the first word that is not empty.
func first(all ...string) string {
	for _, word := range all {
		if word != "" {
			return word
		}
	}
	return ""
}

func (w writer) word(group, word string) string {
	if word == "" {
		return ""
	}
	return w.l.Word(group, word)
}

func (w writer) paint(system, softness, shade string) string {
	var out []string
	for _, word := range [...]string{w.word("system", system), w.word("softness", softness), w.word("shade", shade)} {
		if word != "" {
			out = append(out, word)
		}
	}
	return strings.Join(out, ", ")
}

func (w writer) air() string {
	var out []string
	if w.r.Whole.AirC != nil {
		out = append(out, w.l.Temperature(*w.r.Whole.AirC))
	}
	if w.r.Whole.HumidityPct != nil {
		out = append(out, w.say(words.Humidity, arg("share", w.l.Percent(*w.r.Whole.HumidityPct))))
	}
	return strings.Join(out, ", ")
}

func (w writer) notes() (out []sheet.Block) {
	for _, note := range w.r.Notes {
		out = append(out, sheet.Paragraph{Text: sheet.Text{w.quote(note)}})
	}
	return out
}

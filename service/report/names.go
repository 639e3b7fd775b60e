package report

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/report/words"
)

// parts are the contract's words for where a panel is, those of two words first.
var parts = [...]string{"front-wing", "rear-wing", "boot-lid", "mirror-cap", "bonnet", "roof", "door", "bumper", "sill", "pillar"}

// panelName is a panel as people read it. An id is the shop's own word; one that is made of the contract's words and of sides,
// such as "door-front-left", is said in the language.
func panelName(l *words.Language, id string) string {
	for _, part := range parts {
		rest, ok := strings.CutPrefix(id, part)
		if !ok || rest != "" && rest[0] != '-' {
			continue
		}
		name := l.Word("part", part)
		for side := range strings.SplitSeq(strings.TrimPrefix(rest, "-"), "-") {
			if side == "" {
				continue
			}
			if !l.Has("side", side) {
				return strings.ReplaceAll(id, "-", " ")
			}
			name += " " + l.Word("side", side)
		}
		return name
	}
	return strings.ReplaceAll(id, "-", " ")
}

// capital makes the first letter of a text large.
func capital(text string) string {
	r, size := utf8.DecodeRuneInString(text)
	if size == 0 {
		return text
	}
	return string(unicode.ToUpper(r)) + text[size:]
}

// panel names a panel at the beginning of a line.
func (w writer) panel(id string) string { return capital(panelName(w.l, id)) }

func (w writer) panels(ids []string) string {
	var out []string
	for _, id := range ids {
		out = append(out, panelName(w.l, id))
	}
	return w.l.And(out)
}

// ladder says steps in their order: "polish, then finish".
func (w writer) ladder(steps []string) string {
	if len(steps) == 0 {
		return w.say(words.NoStep)
	}
	out := w.l.Word("step", steps[0])
	for _, step := range steps[1:] {
		out = w.say(words.Then, arg("first", out), arg("next", w.l.Word("step", step)))
	}
	return out
}

// mark says a kind of mark and its severity: "wash marks 2".
func (w writer) mark(kind string, severity *float64) string {
	name := w.l.Word("defect", kind)
	if severity == nil {
		return name
	}
	return name + "\u00a0" + w.severity(*severity)
}

// severity writes a grade, with a decimal only where it needs one.
func (w writer) severity(v float64) string {
	decimals := 0
	if v != float64(int(v)) {
		decimals = 1
	}
	return w.l.Number(v, decimals)
}

// film says a removal: "0.3 µm (0.1 to 0.5)".
func (w writer) removal(r history.Removal) string {
	return w.say(words.WithRange, arg("value", w.l.Film(r.LikelyUm)), arg("low", w.l.FilmNumber(r.LowUm)), arg("high", w.l.FilmNumber(r.HighUm)))
}

// value says a figure with its interval: "79.9 GU (79.2 to 80.6)".
func (w writer) value(v Value, unit string) string {
	text := w.l.Number(v.Mean, 1)
	if unit != "" {
		text = w.l.With(text, unit)
	}
	if !v.Sure {
		return text
	}
	return w.say(words.WithRange, arg("value", text), arg("low", w.l.Number(v.Low, 1)), arg("high", w.l.Number(v.High, 1)))
}

// gain is value with signs.
func (w writer) gain(v Value, unit string) string {
	text := w.l.With(w.l.Signed(v.Mean, 1), unit)
	if !v.Sure {
		return text
	}
	return w.say(words.WithRange, arg("value", text), arg("low", w.l.Signed(v.Low, 1)), arg("high", w.l.Signed(v.High, 1)))
}

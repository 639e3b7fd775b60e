package report

import (
	"slices"
	"strings"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/report/sheet"
	"github.com/glossladder/glossladder/service/report/words"
)

// alike are panels that got the same ladder for the same reasons.
type alike struct {
	panels  []string
	ladder  []string
	reasons []string
	open    bool
	advised string // the ladder advised, where another was worked
	minutes float64
	timed   bool
}

// work is what was done and why, ladder by ladder, and the test spots that proved it.
func (w writer) work() []sheet.Block {
	var groups []*alike
	for i := range w.r.Panels {
		p := &w.r.Panels[i]
		if !p.Worked() {
			continue
		}
		made := &alike{ladder: p.Ladder(), reasons: p.reasons(), open: !p.finished()}
		if p.otherThanAdvised() {
			made.advised = p.Advised
		}
		at := slices.IndexFunc(groups, func(g *alike) bool {
			return slices.Equal(g.ladder, made.ladder) && slices.Equal(g.reasons, made.reasons) && g.open == made.open && g.advised == made.advised
		})
		if at < 0 {
			at = len(groups)
			groups = append(groups, made)
		}
		groups[at].add(p)
	}
	var out []sheet.Block
	if len(groups) > 0 {
		out = append(out, sheet.Paragraph{Text: w.text(words.WhyTest)})
	}
	var list sheet.List
	for _, g := range groups {
		list = append(list, w.group(g))
	}
	if len(list) > 0 {
		out = append(out, list)
	}
	if with := w.settings(); len(with) > 0 {
		out = append(out, sheet.Paragraph{Text: with})
	}
	if spots := w.spots(); len(spots) > 0 {
		out = append(out, sheet.Subheading(w.say(words.TestSpots)), spots)
	} else if len(list) > 0 {
		out = append(out, sheet.Paragraph{Text: w.text(words.NoSpots)})
	}
	return out
}

func (g *alike) add(p *Panel) {
	g.panels = append(g.panels, p.Found.ID)
	for _, s := range p.Steps {
		if s.Minutes != nil {
			g.minutes, g.timed = g.minutes+*s.Minutes, true
		}
	}
}

// finished reports whether every step of the panel is done or left out.
func (p *Panel) finished() bool {
	return !slices.ContainsFunc(p.Steps, func(s Step) bool { return s.State == history.Open || s.State == history.UnderWay })
}

// otherThanAdvised reports whether another ladder was worked than was advised: what the test spots proved goes before the advice.
func (p *Panel) otherThanAdvised() bool {
	return p.Advice != nil && !slices.Equal(p.Ladder(), history.Steps(p.Advised))
}

// reasons are why the ladder was chosen: why the strongest step, and why those that follow.
func (p *Panel) reasons() (out []string) {
	add := func(because string) {
		if because != "" && !slices.Contains(out, because) {
			out = append(out, because)
		}
	}
	steps := p.Ladder()
	if p.Advice == nil {
		return nil
	}
	for _, m := range p.Advice.Marks {
		if len(steps) > 0 && m.Start == steps[0] {
			add(m.Because)
		}
	}
	if !p.otherThanAdvised() {
		add(p.Advice.LadderBecause)
	}
	return out
}

func (w writer) group(g *alike) sheet.Text {
	out := sheet.Text{{Text: capital(w.panels(g.panels)), Kind: sheet.Strong}, {Text: ": " + w.ladder(g.ladder) + "."}}
	if g.timed {
		out = append(out, sheet.Piece{Text: " " + w.say(words.Worked, arg("time", w.duration(g.minutes)))})
	}
	if g.open {
		out = append(out, sheet.Piece{Text: " " + w.say(words.StillOpen)})
	}
	if g.advised != "" {
		out = append(out, sheet.Piece{Text: " " + w.say(words.Advised, arg("ladder", w.ladder(history.Steps(g.advised))))})
	}
	for _, because := range g.reasons {
		out = append(out, sheet.Piece{Text: " "}, w.quote(because))
	}
	return out
}

// duration says minutes as hours and minutes.
func (w writer) duration(minutes float64) string {
	whole := int(minutes + 0.5)
	if whole < 60 {
		return w.l.With(w.l.Number(float64(whole), 0), "min")
	}
	return w.l.With(w.l.Number(float64(whole/60), 0), "h") + " " + w.l.With(w.l.Number(float64(whole%60), 0), "min")
}

// settings say with what the steps were advised to be worked, each step once.
func (w writer) settings() sheet.Text {
	var steps []string
	said := map[string][]string{}
	for i := range w.r.Panels {
		p := &w.r.Panels[i]
		if p.Advice == nil || !p.Worked() {
			continue
		}
		for _, s := range p.Advice.Settings {
			if !slices.Contains(p.Ladder(), s.Step) {
				continue
			}
			text := w.combination(s.Machine, s.Pad, s.Liquid)
			if text == "" || slices.Contains(said[s.Step], text) {
				continue
			}
			if len(said[s.Step]) == 0 {
				steps = append(steps, s.Step)
			}
			said[s.Step] = append(said[s.Step], text)
		}
	}
	if len(steps) == 0 {
		return nil
	}
	slices.SortStableFunc(steps, func(a, b string) int { return slices.Index(order[:], a) - slices.Index(order[:], b) })
	out := sheet.Text{{Text: w.say(words.AdvisedWith) + " "}}
	for i, step := range steps {
		if i > 0 {
			out = append(out, sheet.Piece{Text: "; "})
		}
		out = append(out, sheet.Piece{Text: w.l.Word("step", step), Kind: sheet.Strong}, sheet.Piece{Text: ": " + strings.Join(said[step], " / ")})
	}
	return append(out, sheet.Piece{Text: "."})
}

// order is that of the steps, strongest first.
var order = [...]string{"cut", "polish", "finish"}

func (w writer) combination(machine, pad, liquid string) string {
	var out []string
	for _, word := range [...]string{w.word("machine", machine), w.word("pad", pad), w.word("liquid", liquid)} {
		if word != "" {
			out = append(out, word)
		}
	}
	return strings.Join(out, ", ")
}

// spots are the test spots and what they proved.
func (w writer) spots() (out sheet.List) {
	for i := range w.r.Panels {
		for _, t := range w.r.Panels[i].Trials {
			text := sheet.Text{{Text: w.panel(w.r.Panels[i].Found.ID) + ", " + w.l.Word("step", t.Step), Kind: sheet.Strong}}
			if t.Verdict == nil {
				out = append(out, append(text, sheet.Piece{Text: ": " + w.say(words.NoVerdict)}))
				continue
			}
			text = append(text, sheet.Piece{Text: ": " + w.l.Word("verdict", t.Verdict.Verdict) + w.measured(t.Verdict) + "."})
			if t.Because != "" {
				text = append(text, sheet.Piece{Text: " "}, w.quote(t.Because))
			}
			out = append(out, text)
		}
	}
	return out
}

// measured says what a test spot changed, as the verdict has it.
func (w writer) measured(v *history.PanelDecided) string {
	var out []string
	if g := v.Gloss; g != nil {
		out = append(out, w.say(words.SpotGloss, arg("angle", w.l.Number(float64(g.Angle), 0)), arg("change", w.gain(Value{g.Mean, g.Low, g.High, true}, "GU"))))
	}
	if h := v.Haze; h != nil {
		out = append(out, w.say(words.SpotHaze, arg("change", w.gain(Value{h.Mean, h.Low, h.High, true}, hazeUnit))))
	}
	if v.SeverityLeft != nil && v.SeverityAllowed != nil {
		out = append(out, w.say(words.SpotLeft, arg("left", w.severity(*v.SeverityLeft)), arg("allowed", w.severity(*v.SeverityAllowed))))
	}
	if len(out) == 0 {
		return ""
	}
	return "; " + strings.Join(out, ", ")
}

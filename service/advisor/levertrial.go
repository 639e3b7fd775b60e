package advisor

import (
	"slices"

	"github.com/glossladder/glossladder/service/gloss"
)

// trialLevers are what the last trial showed.
func (e *enquiry) trialLevers() []lever {
	t := &e.now.trials[len(e.now.trials)-1]
	out := []lever{
		e.numberLever("trial.severity_left", worstLeft(t.Left), func(s *situation, v *float64) {
			onLast(s, func(t *Trial) { t.Left = leaving(t.Left, s.panel.Defects, v) })
		}),
		e.numberLever("trial.trails_left", t.TrailsLeft, func(s *situation, v *float64) { onLast(s, func(t *Trial) { t.TrailsLeft = v }) }),
		e.wordLever("trial.wipe_off", t.WipeOff, func(s *situation, w string) { onLast(s, func(t *Trial) { t.WipeOff = w }) }),
		e.numberLever("trial.panel_c", t.PanelC, func(s *situation, v *float64) { onLast(s, func(t *Trial) { t.PanelC = v }) }),
		e.flagLever("trial.panel_wiped", t.PanelWiped, func(s *situation, v *bool) { onLast(s, func(t *Trial) { t.PanelWiped = v }) }),
		e.flagLever("trial.pad_loaded", t.PadLoaded, func(s *situation, v *bool) { onLast(s, func(t *Trial) { t.PadLoaded = v }) }),
		e.flagLever("trial.color_transfer", t.ColorTransfer, func(s *situation, v *bool) { onLast(s, func(t *Trial) { t.ColorTransfer = v }) }),
	}
	out = append(out, e.gainLevers()...)
	for i := range out {
		out[i].trial = true
	}
	return out
}

// onLast changes the last trial.
func onLast(s *situation, how func(*Trial)) {
	s.trials = slices.Clone(s.trials)
	how(&s.trials[len(s.trials)-1])
}

// leaving is what is left, with the worst of it at a severity; nothing if nobody looked.
func leaving(left, found []Defect, severity *float64) []Defect {
	if severity == nil {
		return nil
	}
	out := slices.Clone(left)
	if len(out) == 0 && len(found) > 0 {
		out = []Defect{{Kind: found[0].Kind}}
	}
	worst := 0
	for i := range out {
		if out[i].Severity != nil && (out[worst].Severity == nil || *out[i].Severity > *out[worst].Severity) {
			worst = i
		}
	}
	for i := range out {
		if i == worst || out[i].Severity != nil && *out[i].Severity > *severity {
			out[i].Severity = severity
		}
	}
	return out
}

// gainLevers move the readings after the trial: those of the angle that gloss is judged at, and those that haze alone hangs
// on. The index of haze is 60° less 20°, so gloss at one angle moves it too.
func (e *enquiry) gainLevers() []lever {
	var out []lever
	v := e.said.verdict
	if g := v.Gloss; g != nil {
		out = append(out, e.gainLever("trial.gain_gu", g, g.Scale, 1))
	}
	if h := v.Haze; h != nil {
		scale, sign := h.Scale, 1.0
		if scale == gloss.HazeIndex {
			scale = gloss.Gloss60
			if v.Gloss != nil && v.Gloss.Scale == gloss.Gloss60 {
				scale, sign = gloss.Gloss20, -1
			}
		}
		out = append(out, e.gainLever("trial.haze_hu", h, scale, sign))
	}
	return out
}

// furthestGain is how far from what was read another reading of gloss or haze is thought of, in GU or HU.
const furthestGain = 40

func (e *enquiry) gainLever(name string, now *Change, scale gloss.Scale, sign float64) lever {
	fact := e.fact("trial.gain_gu")
	if name != fact.Name { // rules see only what the change of haze proves, people read a number
		fact = e.fact("trial.haze")
		fact.Unit, fact.Min, fact.Max, fact.Step, fact.Words = "HU", -100, 100, 0.1, nil
	}
	middle := onGrid(now.Gain.Mean, fact, nearest)
	fact.Min, fact.Max = max(fact.Min, middle-furthestGain), min(fact.Max, middle+furthestGain)
	l := numbersOf(fact)
	l.stand(now.Gain.Mean)
	if now.Gain.High > now.Gain.Low {
		l.sway = ptr((now.Gain.High - now.Gain.Low) / 2)
	}
	low, high := now.Gain.Mean-now.Gain.Low, now.Gain.High-now.Gain.Mean
	for _, edge := range []float64{-now.Worth, 0, now.Worth} {
		l.breaks = append(l.breaks, edge-high, edge, edge+low)
	}
	l.set = func(s *situation, place int) {
		by := sign * (l.numberAt(place) - now.Gain.Mean)
		onLast(s, func(t *Trial) { t.After = movedGloss(t.After, scale, by) })
	}
	return l
}

package advisor_test

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/gloss"
)

// otherwise is an inspection and its trials with one thing changed, as a change of an explanation names it; false where
// this test knows no way.
func otherwise(in advisor.Inspection, trials []advisor.Trial, defect int, c *advisor.AnswerChange, to *float64) (advisor.Inspection, []advisor.Trial, bool) {
	in.Panels = slices.Clone(in.Panels)
	p := &in.Panels[0]
	p.Defects = slices.Clone(p.Defects)
	trials = slices.Clone(trials)
	var last *advisor.Trial
	if len(trials) > 0 {
		last = &trials[len(trials)-1]
	}
	yes := ptr(c.Nearest == "yes")
	switch c.Fact {
	case "paint.system":
		p.Paint.System = c.Nearest
	case "paint.softness":
		p.Paint.Softness = c.Nearest
	case "paint.shade":
		p.Paint.Shade = c.Nearest
	case "paint.haze_prone":
		p.Paint.HazeProne = yes
	case "paint.age_years":
		p.Paint.AgeYears = to
	case "paint.cured_days":
		p.CuredDays = to
	case "goal.level":
		in.Goal.Level = c.Nearest
	case "goal.protection":
		in.Goal.Protection = c.Nearest
	case "panel.part":
		p.Part = c.Nearest
	case "panel.clean":
		p.Clean = yes
	case "panel.in_sun":
		p.InSun = yes
	case "panel.repaint_known":
		p.RepaintKnown = yes
	case "panel.sensor_behind":
		p.SensorBehind = yes
	case "panel.edge_or_line":
		p.EdgeOrLine = yes
	case "panel.taped":
		p.Taped = yes
	case "film.taken_um":
		p.FilmTakenUm = to
	case "defect.kind":
		p.Defects[defect].Kind = c.Nearest
	case "defect.severity":
		p.Defects[defect].Severity = to
	case "defect.catches_nail":
		p.Defects[defect].CatchesNail = yes
	case "film.lowest_um":
		p.Film = filmAt(p.Film, *to)
	case "climate.air_c":
		in.Climate.AirC = to
	case "climate.humidity_pct":
		in.Climate.HumidityPct = to
	case "climate.panel_c":
		p.PanelC = to
	case "trial.severity_left":
		last.Left = []advisor.Defect{{Kind: "wash-marks", Severity: to}}
	case "trial.trails_left":
		last.TrailsLeft = to
	case "trial.wipe_off":
		last.WipeOff = c.Nearest
	case "trial.panel_c":
		last.PanelC = to
	case "trial.panel_wiped":
		last.PanelWiped = yes
	case "trial.pad_loaded":
		last.PadLoaded = yes
	case "trial.color_transfer":
		last.ColorTransfer = yes
	default:
		return in, trials, false
	}
	return in, trials, true
}

// filmAt is readings moved together so that the lowest spot mean comes to a value; film that was not read becomes one spot.
func filmAt(spots []advisor.FilmSpot, um float64) []advisor.FilmSpot {
	if len(spots) == 0 {
		return []advisor.FilmSpot{{Spot: "anywhere", TotalUm: []float64{um, um, um}}}
	}
	lowest := math.Inf(1)
	for _, s := range spots {
		sum := 0.0
		for _, r := range s.TotalUm {
			sum += r
		}
		lowest = min(lowest, sum/float64(len(s.TotalUm)))
	}
	out := slices.Clone(spots)
	for i := range out {
		out[i].TotalUm = slices.Clone(out[i].TotalUm)
		for k := range out[i].TotalUm {
			out[i].TotalUm[k] += um - lowest
		}
	}
	return out
}

// answerTo asks for the answer to one decision. It is what the recommendation or the verdict itself says.
func answerTo(t *testing.T, a *advisor.Advisor, in advisor.Inspection, trials []advisor.Trial, d *advisor.DecisionExplanation, defect int) string {
	t.Helper()
	if len(trials) > 0 {
		v, err := a.JudgeTrial(in, "bonnet", trials)
		require.NoError(t, err)
		return v.Kind + " " + v.Change
	}
	p := recommend(t, a, in)
	switch d.Table {
	case "start":
		return p.Defects[defect].Start
	case "limit":
		return p.Limit
	case "ladder":
		return p.Ladder
	case "readiness":
		if len(p.Readiness) == 0 || p.Readiness[0].Effect == "note" {
			return "may begin"
		}
		return p.Readiness[0].Effect
	case "settings":
		for _, s := range p.Steps {
			if s.Step == d.About {
				return fmt.Sprint(s.Combination, s.Settings)
			}
		}
		return "not worked"
	}
	var rules []string
	for _, c := range p.Cautions {
		if c.Level == "danger" {
			rules = append(rules, c.Reason.Rule)
		}
	}
	sort.Strings(rules)
	return strings.Join(rules, " ")
}

// answerOf is the answer of a change, where it is a single word.
func answerOf(c *advisor.AnswerChange, table string) (string, bool) {
	switch table {
	case "start", "limit", "ladder":
		return c.Answer, true
	case "readiness":
		if c.Answer == "" || c.Answer == "note" {
			return "may begin", true
		}
		return c.Answer, true
	}
	return "", false
}

// Every change that is told was told because the changed inspection, or trial, answers so; and one step of the instrument
// nearer it does not.
func TestWhatWouldChangeItDoesWhenTheInputIsChanged(t *testing.T) {
	a := shop(t)
	heavy := func(change func(*advisor.Panel)) func(*advisor.Inspection) {
		return panel(func(p *advisor.Panel) { p.Defects[0].Severity = ptr(4.0); change(p) })
	}
	cases := varied()
	cases["heavy marks on hard paint"] = heavy(func(p *advisor.Panel) { p.Paint.Softness = "hard" })
	cases["little film"] = heavy(func(p *advisor.Panel) { p.Film = filmAt(p.Film, 106) })
	cases["two kinds of mark"] = panel(func(p *advisor.Panel) {
		p.Defects = append(p.Defects, advisor.Defect{Kind: "oxidation", Severity: ptr(3.0)})
	})
	verified := 0
	for name, change := range cases {
		in := inspection(change)
		verified += verify(t, a, name, in, nil)
	}
	for name, trials := range map[string][]advisor.Trial{
		"reached":       {trial("finish", 5, 0, 1)},
		"short":         {trial("finish", 5, 0, 2)},
		"rising haze":   {trial("polish", 5, 4, 1)},
		"noise":         {trial("finish", 0, 0, 2, noisy)},
		"no film known": {trial("finish", 5, 0, 2)},
		"second":        {trial("finish", 5, 0, 2), trial("polish", 5, 0, 1)},
	} {
		in := inspection()
		if name == "no film known" {
			in.Panels[0].Film = nil
		}
		verified += verify(t, a, name, in, trials)
	}
	assert.Greater(t, verified, 150)
}

func verify(t *testing.T, a *advisor.Advisor, name string, in advisor.Inspection, trials []advisor.Trial) (verified int) {
	t.Helper()
	e, err := a.Explain(in, advisor.Question{Trials: trials})
	require.NoError(t, err)
	defect := -1
	for i := range e.Decisions {
		d := &e.Decisions[i]
		if d.Table == "start" {
			defect++
		}
		now := answerTo(t, a, in, trials, d, defect)
		for k := range d.Changes {
			c := &d.Changes[k]
			of := max(defect, 0)
			if len(in.Panels[0].Defects) > 1 && d.Table != "start" && strings.HasPrefix(c.Fact, "defect.") {
				continue // which of the marks is not told to this test
			}
			changed, tried, ok := otherwise(in, trials, of, c, c.To)
			if !ok {
				assert.Contains(t, []string{"trial.gain_gu", "trial.haze"}, c.Fact, "this test must learn to change it")
				continue
			}
			verified++
			then := answerTo(t, a, changed, tried, d, of)
			what := name + ", " + d.Table + ": " + c.Sentence
			assert.NotEqual(t, now, then, what)
			if want, ok := answerOf(c, d.Table); ok {
				assert.Equal(t, want, then, what)
			}
			if d.Table == "verdict" {
				assert.True(t, strings.HasPrefix(then, c.Answer+" "), what)
			}
			nearer(t, a, in, trials, d, c, of, now, what)
		}
	}
	return verified
}

// nearer checks that one step less than a change does not do.
func nearer(t *testing.T, a *advisor.Advisor, in advisor.Inspection, trials []advisor.Trial, d *advisor.DecisionExplanation, c *advisor.AnswerChange, of int, now, what string) {
	t.Helper()
	if c.To == nil || c.Away == nil {
		return
	}
	step := map[string]float64{"severity": 0.5, "trails": 0.5, "years": 1, "days": 1}
	by := 0.1
	for part, s := range step {
		if strings.Contains(c.Fact, part) {
			by = s
		}
	}
	if *c.Away < by*1.5 {
		return
	}
	less := *c.To + by
	if strings.HasPrefix(c.Range, "at least") || *c.To > valueOf(c.Now) {
		less = *c.To - by
	}
	changed, tried, _ := otherwise(in, trials, of, c, &less)
	then := answerTo(t, a, changed, tried, d, of)
	if want, ok := answerOf(c, d.Table); ok {
		assert.NotEqual(t, want, then, "%s, but so does %v", what, less)
	}
}

func valueOf(text string) float64 {
	var v float64
	_, _ = fmt.Sscan(text, &v)
	return v
}

// The readings of a trial move together: the same gloss at 20° changes the gain and, being part of it, the haze index.
func TestGlossAndHazeOfATrialMoveTogether(t *testing.T) {
	a := shop(t)
	moved := 0
	for gain := 0.0; gain <= 6; gain++ {
		in, trials := inspection(), []advisor.Trial{trial("polish", gain, 1, 1)}
		e, err := a.Explain(in, advisor.Question{Trials: trials})
		require.NoError(t, err)
		v, err := a.JudgeTrial(in, "bonnet", trials)
		require.NoError(t, err)
		for _, c := range decisionOf(t, e, "verdict").Changes {
			if c.Fact != "trial.gain_gu" {
				continue
			}
			require.NotNil(t, v.Gloss)
			require.Equal(t, gloss.Gloss20, v.Gloss.Scale)
			changed := []advisor.Trial{trials[0]}
			changed[0].After = slices.Clone(trials[0].After)
			for i := range changed[0].After {
				readings := slices.Clone(changed[0].After[i].At20GU)
				for k := range readings {
					readings[k] += *c.To - v.Gloss.Gain.Mean
				}
				changed[0].After[i].At20GU = readings
			}
			then, err := a.JudgeTrial(in, "bonnet", changed)
			require.NoError(t, err)
			half := (v.Gloss.Gain.High - v.Gloss.Gain.Low) / 2
			assert.Equal(t, *c.Away <= max(half, 0.1), c.Borderline, "%s, with ± %v GU", c.Sentence, half)
			assert.Equal(t, c.Answer, then.Kind, c.Sentence)
			assert.NotEqual(t, v.Kind+v.Change, then.Kind+then.Change, c.Sentence)
			moved++
		}
	}
	assert.Positive(t, moved)
}

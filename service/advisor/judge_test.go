package advisor_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/advisor"
)

// trial is a clean, wiped test spot that leaves marks of some severity and moves gloss and haze. Invented.
func trial(step string, gloss, haze, left float64, change ...func(*advisor.Trial)) advisor.Trial {
	t := advisor.Trial{
		Step: step, After: shifted(gloss, haze), Left: []advisor.Defect{{Kind: "wash-marks", Severity: &left}},
		TrailsLeft: ptr(0.0), WipeOff: "clean", PanelC: ptr(30.0), PanelWiped: ptr(true), PadLoaded: ptr(false), ColorTransfer: ptr(false),
	}
	for _, c := range change {
		c(&t)
	}
	return t
}

// noisy spoils the readings so that no gain can be told from chance.
func noisy(t *advisor.Trial) {
	t.After = shifted(1.5, 0)
	t.After[0].At20GU = []float64{79.5, 70.2, 76.9}
	t.After[2].At20GU = []float64{71.5, 79.2, 72.9}
}

func TestJudgeTrialGivesEachVerdict(t *testing.T) {
	a := shop(t)
	short := func(in *advisor.Inspection) { in.Panels[0].FilmTakenUm = ptr(8.0) }
	for _, row := range []struct {
		name         string
		in           advisor.Inspection
		trials       []advisor.Trial
		kind, change string
		kept         []string
	}{
		{"goal reached with a real gain", inspection(), []advisor.Trial{trial("finish", 5, 0, 1)}, advisor.Accept, "", []string{"finish"}},
		{"a gain inside the noise", inspection(), []advisor.Trial{trial("finish", 0, 0, 2, noisy)}, advisor.Repeat, "more-readings", nil},
		{"a gain with rising haze", inspection(), []advisor.Trial{trial("polish", 5, 4, 1)}, advisor.Refine, "", []string{"polish"}},
		{"short of the goal with film to spare", inspection(), []advisor.Trial{trial("finish", 5, 0, 2)}, advisor.StepUp, "", nil},
		{"short of the goal and the film would not bear more", inspection(short), []advisor.Trial{trial("finish", 5, 0, 2)}, advisor.StopWork, "", []string{"finish"}},
		{"residue that wipes hard", inspection(), []advisor.Trial{trial("finish", 5, 0, 2, func(t *advisor.Trial) { t.WipeOff = "hard" })}, advisor.Adjust, "less-liquid", nil},
		{"dusting", inspection(), []advisor.Trial{trial("finish", 5, 0, 2, func(t *advisor.Trial) { t.WipeOff = "dusting" })}, advisor.Adjust, "more-liquid", nil},
		{"a loaded pad", inspection(), []advisor.Trial{trial("finish", 5, 0, 2, func(t *advisor.Trial) { t.PadLoaded = ptr(true) })}, advisor.Adjust, "fresh-pad", nil},
		{"a hot panel", inspection(), []advisor.Trial{trial("finish", 5, 0, 2, func(t *advisor.Trial) { t.PanelC = ptr(55.0) })}, advisor.Adjust, "cool-panel", nil},
		{"oils not wiped away", inspection(), []advisor.Trial{trial("finish", 5, 0, 1, func(t *advisor.Trial) { t.PanelWiped = ptr(false) })}, advisor.Repeat, "panel-wipe", nil},
		{"colour on the pad of clear coat", inspection(), []advisor.Trial{trial("finish", 5, 0, 1, func(t *advisor.Trial) { t.ColorTransfer = ptr(true) })}, advisor.StopWork, "", nil},
		{"a cut that reaches the goal still needs a milder step", inspection(), []advisor.Trial{trial("cut", 5, 0, 1)}, advisor.Refine, "", []string{"cut"}},
	} {
		t.Run(row.name, func(t *testing.T) {
			v, err := a.JudgeTrial(row.in, "bonnet", row.trials)
			require.NoError(t, err)
			assert.Equal(t, row.kind, v.Kind, "%s:%d %s", v.Reason.File, v.Reason.Line, v.Reason.Rule)
			assert.Equal(t, row.change, v.Change)
			assert.Equal(t, row.kept, v.Kept)
			assert.NotEmpty(t, v.Headline)
			assertTold(t, v.Reason)
			assert.Equal(t, v.Kind == advisor.Accept || v.Kind == advisor.StopWork, v.Next == nil, "a next move exactly when the matter is open")
			if v.Next != nil {
				assert.NotEmpty(t, v.Next.Do)
				assert.Positive(t, v.Next.Advice.Settings.Passes)
			}
		})
	}
}

func TestRepeatSaysHowManyReadingsWouldSettleIt(t *testing.T) {
	v, err := shop(t).JudgeTrial(inspection(), "bonnet", []advisor.Trial{trial("finish", 0, 0, 2, noisy)})
	require.NoError(t, err)
	require.NotNil(t, v.Gloss)
	assert.Equal(t, "not-conclusive", v.Gloss.Judgement)
	assert.Positive(t, v.Gloss.ReadingsNeeded+v.Gloss.SpotsNeeded, v.Gloss.Note)
	assert.Contains(t, v.Headline, "should settle it")
}

func TestOneReadingIsNoMeasurement(t *testing.T) {
	one := trial("finish", 0, 0, 2)
	one.Before = []advisor.GlossSpot{{Spot: "a", At60GU: []float64{84}}}
	one.After = []advisor.GlossSpot{{Spot: "a", At60GU: []float64{90}}}
	v, err := shop(t).JudgeTrial(inspection(), "bonnet", []advisor.Trial{one})
	require.NoError(t, err)
	assert.Equal(t, "not-conclusive", v.Gloss.Judgement)
	assert.Equal(t, 3, v.Gloss.ReadingsNeeded)
}

func TestTrialsOnOneSectionAddUpAndAFreshSectionStartsAgain(t *testing.T) {
	a := shop(t)
	same, err := a.JudgeTrial(inspection(), "bonnet", []advisor.Trial{trial("finish", 5, 0, 2), trial("polish", 5, 0, 1)})
	require.NoError(t, err)
	fresh, err := a.JudgeTrial(inspection(), "bonnet", []advisor.Trial{
		trial("finish", 5, 0, 2), trial("polish", 5, 0, 1, func(t *advisor.Trial) { t.FreshSection = true }),
	})
	require.NoError(t, err)
	assert.Less(t, same.Film.UsableLeftUm, fresh.Film.UsableLeftUm)
	assert.Equal(t, []string{advisor.StepUp}, same.Earlier)
}

func TestMeasuredRemovalCountsWhereTheGaugeCanResolveIt(t *testing.T) {
	read := func(um float64) []advisor.FilmSpot {
		return []advisor.FilmSpot{
			{Spot: "centre", TotalUm: []float64{um, um + 0.1, um - 0.1}}, {Spot: "left", TotalUm: []float64{um + 3, um + 3.1, um + 2.9}}, {Spot: "right", TotalUm: []float64{um + 1, um + 1.1, um + 0.9}},
		}
	}
	measured := trial("polish", 5, 0, 1, func(t *advisor.Trial) { t.FilmBefore, t.FilmAfter = read(124), read(121) })
	v, err := shop(t).JudgeTrial(inspection(), "bonnet", []advisor.Trial{measured})
	require.NoError(t, err)
	assert.True(t, v.Film.Measured, v.Film.Note)
	assert.InDelta(t, 3, v.Film.TakenUm, 1e-6)

	tiny := trial("polish", 5, 0, 1, func(t *advisor.Trial) { t.FilmBefore, t.FilmAfter = read(124), read(124) })
	v, err = shop(t).JudgeTrial(inspection(), "bonnet", []advisor.Trial{tiny})
	require.NoError(t, err)
	assert.False(t, v.Film.Measured, "nothing was resolved, so the prediction counts")
	assert.Positive(t, v.Film.HighUm)
}

func TestTroublesOfTrialsComeAtOnce(t *testing.T) {
	bad := trial("finish", 5, 0, 1)
	bad.After = []advisor.GlossSpot{{Spot: "elsewhere", At60GU: []float64{90, 91}}}
	bad.FilmAfter = []advisor.FilmSpot{{Spot: "centre", TotalUm: []float64{118}}}
	_, err := shop(t).JudgeTrial(inspection(), "bonnet", []advisor.Trial{trial("none", 5, 0, 1), bad})
	var input *advisor.InputError
	require.ErrorAs(t, err, &input)
	var fields []string
	for _, trouble := range input.Troubles {
		fields = append(fields, trouble.Field)
	}
	assert.Equal(t, []string{"trials[0].step", "trials[1].film_after[0].total_um", "trials[1].after"}, fields)

	_, err = shop(t).JudgeTrial(inspection(), "boot", []advisor.Trial{trial("finish", 5, 0, 1)})
	require.ErrorAs(t, err, &input)
	assert.Equal(t, "panel_id", input.Troubles[0].Field)
}

// Whatever trials show, following the advice ends: with an accepted ladder that never ends on a cut, or with a stop, and never
// with a step above the panel's limit.
func TestTheTrialLoopAlwaysEnds(t *testing.T) {
	a := shop(t)
	random := rand.New(rand.NewPCG(1, 2))
	pick := func(words ...string) string { return words[random.IntN(len(words))] }
	strength := []string{"none", "finish", "polish", "cut"}
	for run := range 400 {
		in := inspection(panel(func(p *advisor.Panel) {
			p.Paint.Softness = pick("", "very-soft", "soft", "medium", "hard", "very-hard")
			p.Defects[0].Severity = ptr(float64(random.IntN(11)) / 2)
			um := 85 + 60*random.Float64()
			p.Film = []advisor.FilmSpot{{Spot: "centre", TotalUm: []float64{um, um, um}}}
			if random.IntN(4) == 0 {
				p.Film = nil
			}
		}))
		limit := recommend(t, a, in).Limit
		var trials []advisor.Trial
		next := advisor.Trial{Step: pick("finish", "polish", "cut")}
		ended := false
		for range 31 {
			this := trial(next.Step, 8*random.Float64()-3, 4*random.Float64()-2, float64(random.IntN(11))/2, func(t *advisor.Trial) {
				t.WipeOff = pick("", "clean", "hard", "oily", "dusting")
				t.Changed = next.Changed
				t.PanelC = ptr(15 + 45*random.Float64())
				t.PadLoaded = ptr(random.IntN(5) == 0)
				t.FreshSection = random.IntN(3) == 0
			})
			trials = append(trials, this)
			v, err := a.JudgeTrial(in, "bonnet", trials)
			require.NoError(t, err, "run %d", run)
			if v.Next == nil {
				ended = true
				steps := v.Kept
				if v.Kind == advisor.Accept {
					require.NotEmpty(t, steps)
					assert.NotEqual(t, "cut", steps[len(steps)-1], "run %d", run)
				}
				break
			}
			require.LessOrEqual(t, slices.Index(strength, v.Next.Step), max(slices.Index(strength, limit), slices.Index(strength, this.Step)), "run %d: %s", run, v.Headline)
			next = advisor.Trial{Step: v.Next.Step}
			if v.Change != "" {
				next.Changed = []string{v.Change}
			}
		}
		require.True(t, ended, "run %d never ended: %d trials", run, len(trials))
	}
}

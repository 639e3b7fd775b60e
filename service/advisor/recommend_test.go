package advisor_test

import (
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/advisor"
)

func TestRecommendChoosesTheMildestStepWithAFairChance(t *testing.T) {
	a := shop(t)
	for _, row := range []struct {
		name                 string
		change               func(*advisor.Inspection)
		start, limit, ladder string
		state                string
	}{
		{"soft, dark, lightly marked, sound film", panel(func(*advisor.Panel) {}), "finish", "cut", "finish", advisor.Ready},
		{"the same marks on very hard paint", panel(func(p *advisor.Panel) { p.Paint.Softness = "very-hard" }), "polish", "cut", "polish-finish", advisor.Ready},
		{"unknown film is never cut", panel(func(p *advisor.Panel) { p.Film, p.Defects[0].Severity = nil, ptr(5.0) }), "cut", "polish", "polish-finish", advisor.Ready},
		{"matte paint is refused", panel(func(p *advisor.Panel) { p.Paint.System = "matte" }), "finish", "none", "none", advisor.Stop},
		{"a wrap is refused", panel(func(p *advisor.Panel) { p.Paint.System = "wrap" }), "finish", "none", "none", advisor.Stop},
		{"a thin reading stops", panel(func(p *advisor.Panel) { p.Film[0].TotalUm = []float64{79, 80, 81} }), "finish", "none", "none", advisor.Stop},
		{"nothing to mend", panel(func(p *advisor.Panel) { p.Defects = nil }), "none", "cut", "none", advisor.NothingToDo},
	} {
		t.Run(row.name, func(t *testing.T) {
			p := recommend(t, a, inspection(row.change))
			assert.Equal(t, row.start, p.Start, "start")
			assert.Equal(t, row.limit, p.Limit, "limit: %s", p.LimitReason.Because)
			assert.Equal(t, row.ladder, p.Ladder, "ladder")
			assert.Equal(t, row.state, p.State, "state: %s", p.Headline)
			assertTold(t, p.LimitReason)
			assertTold(t, p.LadderReason)
			for _, defect := range p.Defects {
				assertTold(t, defect.Reason)
			}
		})
	}
}

// assertTold checks that a reason names its rule, its place and why.
func assertTold(t *testing.T, r advisor.Reason) {
	t.Helper()
	assert.NotEmpty(t, r.Rule, "rule of %s", r.Table)
	assert.NotEmpty(t, r.Because, "because of %s", r.Rule)
	assert.Equal(t, r.Table+".yaml", r.File)
	assert.Positive(t, r.Line)
}

func TestRecommendSaysHowToRunEachStepAndWhatItLeaves(t *testing.T) {
	p := recommend(t, shop(t), inspection(panel(func(p *advisor.Panel) { p.Paint.Softness = "very-hard" })))
	require.Len(t, p.Steps, 2)
	usable := float64(p.Film.Budget.UsableUm)
	for i, step := range p.Steps {
		assertTold(t, step.Reason)
		assertTold(t, step.RemovalReason)
		assert.NotEmpty(t, step.Combination.Pad)
		assert.NotEmpty(t, step.Combination.PadID, "the shop has a pad of the kind")
		assert.Positive(t, step.Settings.Passes)
		require.NotNil(t, step.UsableAfterUm)
		usable -= float64(step.Removal.HighUm)
		assert.InDelta(t, usable, *step.UsableAfterUm, 1e-9, "step %d takes its high end", i)
	}
}

func TestWhatThePanelDoesNotAllowIsLeftOnPurpose(t *testing.T) {
	p := recommend(t, shop(t), inspection(panel(func(p *advisor.Panel) {
		p.Film = nil
		p.Defects = append(p.Defects, advisor.Defect{Kind: "sanding-marks", Severity: ptr(4.0)})
	})))
	require.Len(t, p.LeftOnPurpose, 1)
	assert.Equal(t, "sanding marks 4: needs a cut, but this panel allows at most a polish", p.LeftOnPurpose[0])
}

func TestMeasureNextListsWhatCouldChangeTheAnswerAndNothingElse(t *testing.T) {
	a := shop(t)
	whole := recommend(t, a, inspection())
	assert.Empty(t, whole.MeasureNext, "everything that matters is known")

	noFilm := recommend(t, a, inspection(panel(func(p *advisor.Panel) { p.Film = nil })))
	require.NotEmpty(t, noFilm.MeasureNext)
	assert.Contains(t, noFilm.MeasureNext[0].Learn, "film thickness")
	assert.True(t, noFilm.MeasureNext[0].Certain)
	assert.Contains(t, noFilm.MeasureNext[0].CouldChange, "no step")

	idle := recommend(t, a, inspection(panel(func(p *advisor.Panel) {
		p.EdgeOrLine, p.SensorBehind = nil, nil
		for i := range p.Gloss {
			p.Gloss[i].At20GU = nil
		}
	})))
	assert.Empty(t, idle.MeasureNext, "these change cautions at most")

	plastic := recommend(t, a, inspection(panel(func(p *advisor.Panel) { p.Substrate, p.Film = "plastic", nil })))
	require.NotEmpty(t, plastic.MeasureNext)
	assert.Equal(t, "measure film thickness with an ultrasonic gauge; the one at hand cannot read plastic", plastic.MeasureNext[0].Learn)

	matte := recommend(t, a, inspection(panel(func(p *advisor.Panel) { p.Paint.System, p.Film = "matte", nil })))
	assert.Empty(t, matte.MeasureNext, "nothing could allow a step")

	noSoftness := recommend(t, a, inspection(panel(func(p *advisor.Panel) { p.Paint.Softness = "" })))
	require.NotEmpty(t, noSoftness.MeasureNext)
	assert.Contains(t, noSoftness.MeasureNext[0].Facts, "paint.softness")
}

func TestEveryTroubleOfAnInspectionComesAtOnce(t *testing.T) {
	in := inspection(panel(func(p *advisor.Panel) { p.Film[1].TotalUm = []float64{120, 121} }))
	bumper := in.Panels[0]
	bumper.ID, bumper.Substrate = "bumper", "plastic"
	bumper.Film = []advisor.FilmSpot{{Spot: "centre", TotalUm: []float64{90, 91, 92}}}
	unknown := in.Panels[0]
	unknown.ID, unknown.Substrate = "door", ""
	unknown.Film = bumper.Film
	in.Panels = append(in.Panels, bumper, unknown)

	_, err := shop(t).Recommend(in)
	var input *advisor.InputError
	require.ErrorAs(t, err, &input)
	var fields []string
	for _, trouble := range input.Troubles {
		fields = append(fields, trouble.Field)
		assert.NotEmpty(t, trouble.Says)
	}
	assert.Equal(t, []string{"panels[0].film[1].total_um", "panels[1].film", "panels[2].film"}, fields)
}

func TestPanelsThatNeedTheSameAreGroupedAndTheSafestIsTestedFirst(t *testing.T) {
	in := inspection()
	with := func(id string, change func(*advisor.Panel)) {
		p := in.Panels[0]
		p.ID = id
		change(&p)
		in.Panels = append(in.Panels, p)
	}
	with("roof", func(p *advisor.Panel) {
		p.Film = []advisor.FilmSpot{{Spot: "centre", TotalUm: []float64{128, 128, 128}}}
	})
	with("door", func(p *advisor.Panel) {
		p.Film = []advisor.FilmSpot{{Spot: "centre", TotalUm: []float64{129, 129, 129}}}
		p.EdgeOrLine = ptr(true)
	})
	with("wing", func(p *advisor.Panel) { p.Paint.Softness = "very-hard" })
	out, err := shop(t).Recommend(in)
	require.NoError(t, err)
	require.Len(t, out.Groups, 2)
	assert.Equal(t, []string{"bonnet", "roof", "door"}, out.Groups[0].Panels)
	assert.Equal(t, "roof", out.Groups[0].TestFirst, "the door has more film but holds an edge: %s", out.Groups[0].Because)
	assert.Equal(t, []string{"wing"}, out.Groups[1].Panels)
	assert.Equal(t, "wing", out.Groups[1].TestFirst)

	seen := map[string]bool{}
	for _, caution := range out.Cautions {
		assert.Empty(t, caution.Panels)
		seen[caution.Reason.Rule] = true
	}
	assert.NotEmpty(t, seen, "what holds for every panel is said once")
	for _, p := range out.Panels {
		for _, caution := range p.Cautions {
			assert.False(t, seen[caution.Reason.Rule], "%s is told for the job and again for %s", caution.Reason.Rule, p.Panel)
		}
	}
}

func TestRecommendIsTheSameFromManyGoroutines(t *testing.T) {
	a := shop(t)
	want, err := a.Recommend(inspection())
	require.NoError(t, err)
	var wait sync.WaitGroup
	for range 8 {
		wait.Go(func() {
			for range 20 {
				got, err := a.Recommend(inspection())
				assert.NoError(t, err)
				assert.Equal(t, want.Panels[0].Headline, got.Panels[0].Headline)
				assert.Equal(t, want.Panels[0].Steps, got.Panels[0].Steps)
			}
		})
	}
	wait.Wait()
}

// Less film never allows more: the ladder's first step falls or stays as the film gets thinner.
func TestThinnerFilmNeverAllowsAStrongerStep(t *testing.T) {
	a := shop(t)
	rank := map[string]int{"none": 0, "finish": 1, "polish": 2, "cut": 3}
	for _, softness := range []string{"", "very-soft", "soft", "medium", "hard", "very-hard"} {
		last := 3
		for um := 185.0; um >= 70; um -= 2.5 {
			p := recommend(t, a, inspection(panel(func(p *advisor.Panel) {
				p.Paint.Softness = softness
				p.Defects[0].Severity = ptr(5.0)
				p.Film = []advisor.FilmSpot{{Spot: "centre", TotalUm: []float64{um, um, um}}}
			})))
			assert.LessOrEqual(t, rank[p.Limit], last, "softness %q, %v µm", softness, um)
			last = rank[p.Limit]
			for _, step := range p.Steps {
				assert.GreaterOrEqual(t, *step.UsableAfterUm, 0.0, "softness %q, %v µm: the ladder %s overdraws", softness, um, p.Ladder)
			}
		}
		assert.Zero(t, last, "the thinnest film allows nothing")
	}
}

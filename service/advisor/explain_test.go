package advisor_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/advisor"
)

func decisionOf(t *testing.T, e advisor.Explanation, table string) advisor.DecisionExplanation {
	t.Helper()
	for _, d := range e.Decisions {
		if d.Table == table {
			return d
		}
	}
	require.Fail(t, "not asked", table)
	return advisor.DecisionExplanation{}
}

// varied inspections. Invented.
func varied() map[string]func(*advisor.Inspection) {
	return map[string]func(*advisor.Inspection){
		"soft, dark, lightly marked": panel(func(*advisor.Panel) {}),
		"very hard paint":            panel(func(p *advisor.Panel) { p.Paint.Softness = "very-hard" }),
		"softness not known":         panel(func(p *advisor.Panel) { p.Paint.Softness = "" }),
		"film not measured":          panel(func(p *advisor.Panel) { p.Film = nil }),
		"severe marks, unknown film": panel(func(p *advisor.Panel) { p.Film, p.Defects[0].Severity = nil, ptr(5.0) }),
		"matte":                      panel(func(p *advisor.Panel) { p.Paint.System = "matte" }),
		"thin film":                  panel(func(p *advisor.Panel) { p.Film[0].TotalUm = []float64{79, 80, 81} }),
		"nothing to mend":            panel(func(p *advisor.Panel) { p.Defects = nil }),
		"hot panel":                  panel(func(p *advisor.Panel) { p.PanelC = ptr(48.0) }),
		"a scratch that catches": panel(func(p *advisor.Panel) {
			p.Defects[0] = advisor.Defect{Kind: "deep-scratches", Severity: ptr(3.0), CatchesNail: ptr(true)}
		}),
		"severity not graded":         panel(func(p *advisor.Panel) { p.Defects[0].Severity = nil }),
		"film just above what allows": panel(func(p *advisor.Panel) { p.Film[0].TotalUm = []float64{110, 110.2, 109.8} }),
	}
}

// An explanation tells what the recommendation answers, in the same words, and never at length.
func TestExplainTellsTheRecommendationsOwnDecisions(t *testing.T) {
	a := shop(t)
	for name, change := range varied() {
		t.Run(name, func(t *testing.T) {
			in := inspection(change)
			p := recommend(t, a, in)
			e, err := a.Explain(in, "", "cut")
			require.NoError(t, err)
			assert.Equal(t, p.Headline, e.Headline)
			assert.Equal(t, p.MeasureNext, e.MeasureNext)
			assert.Equal(t, p.Limit, decisionOf(t, e, "limit").Answer)
			assert.Equal(t, p.LimitReason, decisionOf(t, e, "limit").Reason)
			assert.Equal(t, p.Ladder, decisionOf(t, e, "ladder").Answer)
			for i, d := range p.Defects {
				assert.Equal(t, d.Start, e.Decisions[i].Answer)
				assert.Equal(t, d.Reason, e.Decisions[i].Reason)
			}
			for _, d := range e.Decisions {
				assert.NotEmpty(t, d.Why)
				assert.LessOrEqual(t, len(d.Changes), 3)
				assert.LessOrEqual(t, len(d.NearMisses), 3)
				for _, c := range d.Changes {
					assert.NotEqual(t, d.Answer, c.Answer, c.Sentence)
					assert.Contains(t, c.Sentence, c.Range)
				}
				for _, n := range d.NearMisses {
					assert.NotEqual(t, d.Answer, n.Answer, n.Failed)
				}
			}
		})
	}
}

// What is said to change the answer does, when the inspection is changed so and asked again.
func TestWhatWouldChangeItDoes(t *testing.T) {
	a := shop(t)
	in := inspection()
	start := decisionOf(t, mustExplain(t, a, in, ""), "start")
	seen := 0
	for _, c := range start.Changes {
		changed := inspection(panel(func(p *advisor.Panel) {
			switch c.Fact {
			case "paint.softness":
				p.Paint.Softness = strings.ReplaceAll(strings.TrimPrefix(c.Range, "at least "), " ", "-")
			case "defect.severity":
				p.Defects[0].Severity = ptr(2 + *c.Away)
				if strings.HasPrefix(c.Range, "at most") || c.Range == "0" {
					p.Defects[0].Severity = ptr(2 - *c.Away)
				}
			default:
				return
			}
			seen++
		}))
		if c.Fact == "paint.softness" || c.Fact == "defect.severity" {
			assert.Equal(t, c.Answer, recommend(t, a, changed).Defects[0].Start, c.Sentence)
		}
	}
	assert.GreaterOrEqual(t, seen, 2, "%+v", start.Changes)
}

func mustExplain(t *testing.T, a *advisor.Advisor, in advisor.Inspection, would string) advisor.Explanation {
	t.Helper()
	e, err := a.Explain(in, "", would)
	require.NoError(t, err)
	return e
}

func TestWhyNotNamesTheRuleAndWhatItLacks(t *testing.T) {
	e := mustExplain(t, shop(t), inspection(), "cut")
	start := decisionOf(t, e, "start")
	require.NotNil(t, start.WhyNot)
	assert.NotEmpty(t, start.WhyNot.Rule)
	assert.NotEmpty(t, start.WhyNot.Failed)
	assert.Contains(t, start.WhyNot.Sentence, start.WhyNot.Failed[0])
	assert.Nil(t, decisionOf(t, e, "limit").WhyNot, "this panel allows a cut")
	assert.Nil(t, decisionOf(t, mustExplain(t, shop(t), inspection(), "finish"), "start").WhyNot, "it is the answer")
	assert.NotNil(t, decisionOf(t, mustExplain(t, shop(t), inspection(varied()["matte"]), "polish"), "limit").WhyNot)
}

// A panel whose film is moved down in small steps comes to a point where the reading cannot tell on which side it lies.
func TestAFlipInsideTheReadingsUncertaintyIsBorderline(t *testing.T) {
	a := shop(t)
	borderline, clear := 0, 0
	for um := 130.0; um >= 95; um-- {
		in := inspection(panel(func(p *advisor.Panel) {
			p.Film = []advisor.FilmSpot{{Spot: "centre", TotalUm: []float64{um, um + 0.5, um - 0.5}}}
		}))
		limit := decisionOf(t, mustExplain(t, a, in, ""), "limit")
		if !limit.Borderline {
			clear++
			continue
		}
		borderline++
		for _, c := range limit.Changes {
			if c.Borderline {
				assert.Equal(t, rules.Measurable, c.Class)
				assert.True(t, strings.HasPrefix(c.Sentence, "borderline: measure again"), c.Sentence)
			}
		}
	}
	assert.Positive(t, borderline)
	assert.Positive(t, clear)
}

// Where the panel stands, the map holds its own answer; the engine compares every field with running it.
func TestMapHoldsTheAdvisersAnswerWhereThePanelStands(t *testing.T) {
	a := shop(t)
	m, err := a.Map(inspection(), "", "", "softness", "defect.severity")
	require.NoError(t, err)
	require.True(t, m.Exact)
	assert.Equal(t, recommend(t, a, inspection()).Start, m.Answers[m.AtY][m.AtX])
	assert.Equal(t, "not known", m.Xs[len(m.Xs)-1])
	different := map[string]bool{}
	for _, row := range m.Answers {
		for _, answer := range row {
			different[answer] = true
		}
	}
	assert.Greater(t, len(different), 2)
}

func TestExplainAndMapNameWhatIsNotThere(t *testing.T) {
	a := shop(t)
	var wrong *advisor.InputError
	_, err := a.Explain(inspection(), "boot", "")
	require.ErrorAs(t, err, &wrong)
	assert.Contains(t, err.Error(), "boot")
	for _, row := range []struct{ name, table, x, y, says string }{
		{"no such fact", "", "sofness", "severity", "no fact"},
		{"the same twice", "", "softness", "paint.softness", "already"},
		{"no such table", "verdict", "softness", "shade", "was not asked"},
	} {
		_, err := a.Map(inspection(), "", row.table, row.x, row.y)
		require.ErrorAs(t, err, &wrong, row.name)
		assert.Contains(t, err.Error(), row.says, row.name)
	}
}

// Some rules would still lose to an earlier one if everything they ask were so; then that one is named.
func TestWhyNotSaysWhatComesFirstEvenThen(t *testing.T) {
	a := shop(t)
	named, told := 0, 0
	for _, kind := range []string{"wash-marks", "haze", "deep-scratches", "chips", "orange-peel"} {
		for severity := range 6 {
			for _, would := range []string{"none", "finish", "polish", "cut"} {
				in := inspection(panel(func(p *advisor.Panel) {
					p.Defects[0] = advisor.Defect{Kind: kind, Severity: ptr(float64(severity)), CatchesNail: ptr(true)}
				}))
				why := decisionOf(t, mustExplain(t, a, in, would), "start").WhyNot
				if why == nil {
					continue
				}
				told++
				assert.NotEmpty(t, why.Sentence)
				if why.EvenThen != "" {
					named++
					assert.NotEqual(t, why.Rule, why.EvenThen)
					assert.True(t, strings.HasSuffix(why.Sentence, "and even then "+why.EvenThen+" comes first"), why.Sentence)
				}
			}
		}
	}
	assert.Greater(t, told, 50)
	assert.Positive(t, named)
}

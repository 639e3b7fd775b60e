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
			e, err := a.Explain(in, advisor.Question{Would: "cut"})
			require.NoError(t, err)
			assert.Equal(t, p.Headline, e.Headline)
			assert.Equal(t, p.MeasureNext, e.MeasureNext)
			assert.Equal(t, p.Limit, decisionOf(t, e, "limit").Answer)
			assert.Equal(t, p.LimitReason, decisionOf(t, e, "limit").Reason)
			assert.Equal(t, p.Ladder, decisionOf(t, e, "ladder").Answer)
			starts := 0
			for _, d := range e.Decisions {
				if d.Table == "start" {
					assert.Equal(t, p.Defects[starts].Start, d.Answer)
					assert.Equal(t, p.Defects[starts].Reason, d.Reason)
					starts++
				}
				assert.NotEmpty(t, d.Why)
				assert.NotEmpty(t, d.Says)
				for _, text := range append([]string{d.Says, d.Why}, sentences(&d)...) {
					assert.NotRegexp(t, `_|[a-z]-[a-z]+-[a-z]|%!|\b(paint|film|defect|trial|step|panel)\.[a-z]`, text, "names of facts are for rules")
				}
				assert.Equal(t, advisor.Answered, d.Outcome)
				assert.LessOrEqual(t, len(d.Changes), 3)
				assert.LessOrEqual(t, len(d.NearMisses), 3)
				for _, c := range d.Changes {
					if d.Table != "cautions" && d.Table != "settings" {
						assert.NotEqual(t, d.Answer, c.Answer, c.Sentence)
					}
					assert.Contains(t, strings.ToLower(c.Sentence), strings.ToLower(c.Supposed+", "+c.Would))
				}
				for _, n := range d.NearMisses {
					assert.NotEqual(t, d.Answer, n.Answer, n.Failed)
				}
			}
			assert.Len(t, p.Defects, starts)
		})
	}
}

func mustExplain(t *testing.T, a *advisor.Advisor, in advisor.Inspection, would string) advisor.Explanation {
	t.Helper()
	e, err := a.Explain(in, advisor.Question{Would: would})
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
	for um := 130.0; um >= 95; um -= 2.5 {
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
				assert.True(t, strings.HasPrefix(c.Sentence, "Borderline, measure again before you decide: "), c.Sentence)
			}
		}
	}
	assert.Positive(t, borderline)
	assert.Positive(t, clear)
}

func TestExplainAndMapNameWhatIsNotThere(t *testing.T) {
	a := shop(t)
	var wrong *advisor.InputError
	for name, bad := range map[string]advisor.Inspection{
		"too few readings": inspection(panel(func(p *advisor.Panel) { p.Film[0].TotalUm = []float64{120} })),
	} {
		_, err := a.Explain(bad, advisor.Question{})
		require.ErrorAs(t, err, &wrong, name)
		_, err = a.Map(bad, advisor.MapQuestion{X: "softness", Y: "severity"})
		require.ErrorAs(t, err, &wrong, name)
	}
	_, err := a.Explain(inspection(), advisor.Question{Trials: []advisor.Trial{{Step: "none"}}})
	require.ErrorAs(t, err, &wrong, "a trial of no step")
	_, err = a.Explain(inspection(), advisor.Question{Panel: "boot"})
	require.ErrorAs(t, err, &wrong)
	assert.Contains(t, err.Error(), "boot")
	for _, row := range []struct{ name, table, x, y, says string }{
		{"no such fact", "", "sofness", "severity", "no fact"},
		{"the same twice", "", "softness", "paint.softness", "already"},
		{"no such table", "verdict", "softness", "shade", "was not asked"},
	} {
		_, err := a.Map(inspection(), advisor.MapQuestion{Table: row.table, X: row.x, Y: row.y})
		require.ErrorAs(t, err, &wrong, row.name)
		assert.Contains(t, err.Error(), row.says, row.name)
	}
}

// Some rules would still lose to an earlier one if everything they ask were so; then that one is named.
func TestWhyNotSaysWhatComesFirstEvenThen(t *testing.T) {
	a := shop(t)
	named, told := 0, 0
	for _, kind := range []string{"wash-marks", "deep-scratches"} {
		for severity := 1; severity < 6; severity += 2 {
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
					assert.Contains(t, why.Sentence, "this comes first: ")
					assert.True(t, strings.HasSuffix(why.Sentence, " ("+why.EvenThen+")"), why.Sentence)
				}
			}
		}
	}
	assert.Greater(t, told, 15)
	assert.Positive(t, named)
}

// A verdict is explained like any other decision, and somebody who would have judged otherwise is told why not.
func TestExplainTellsOfAVerdict(t *testing.T) {
	a := shop(t)
	for _, row := range []struct {
		name   string
		trials []advisor.Trial
		would  string
	}{
		{"accept", []advisor.Trial{trial("finish", 5, 0, 1)}, advisor.StepUp},
		{"refine", []advisor.Trial{trial("polish", 5, 4, 1)}, advisor.Accept},
		{"step up", []advisor.Trial{trial("finish", 5, 0, 2)}, advisor.Accept},
		{"the second of two", []advisor.Trial{trial("finish", 5, 0, 2), trial("polish", 5, 0, 1)}, advisor.Repeat},
	} {
		t.Run(row.name, func(t *testing.T) {
			v, err := a.JudgeTrial(inspection(), "bonnet", row.trials)
			require.NoError(t, err)
			e, err := a.Explain(inspection(), advisor.Question{Trials: row.trials, WouldVerdict: row.would})
			require.NoError(t, err)
			require.Len(t, e.Decisions, 1)
			d := e.Decisions[0]
			assert.Equal(t, v.Headline, e.Headline)
			assert.Equal(t, v.Kind, d.Answer)
			assert.Equal(t, v.Reason, d.Reason)
			assert.Contains(t, d.Why, ", because ")
			assert.NotEmpty(t, d.Changes)
			require.NotNil(t, d.WhyNot)
			assert.Equal(t, row.would, d.WhyNot.Verdict)
			assert.Empty(t, d.WhyNot.Step)
			assert.NotEmpty(t, d.WhyNot.Sentence)
		})
	}
}

// Rules that cannot answer are explained in the same shape, up to where they fail.
func TestExplainTellsOfRulesThatCannotAnswer(t *testing.T) {
	cut := "table: ladder\nhit: first\nrules:\n  - id: ends-on-a-cut\n    when: true\n    then: {ladder: cut-polish}\n    because: Invented.\n"
	e, err := shopWith(t, map[string]string{"ladder.yaml": cut}).Explain(inspection(), advisor.Question{})
	require.NoError(t, err)
	last := e.Decisions[len(e.Decisions)-1]
	assert.Equal(t, advisor.BadAnswer, last.Outcome)
	assert.Equal(t, "ladder", last.Table)
	assert.Contains(t, last.Problem, "has to start with finish")
	assert.Equal(t, "ends-on-a-cut", last.Reason.Rule)
	assert.Contains(t, e.Headline, "The rules cannot answer here")
	start := decisionOf(t, e, "start")
	assert.Equal(t, advisor.Answered, start.Outcome)
	assert.Equal(t, "finish", start.Answer)
}

// No rule that holds is an answer of its own, in the same shape.
func TestExplainTellsOfNoAnswer(t *testing.T) {
	none := "table: start\nhit: priority\nrules:\n  - id: only-chips\n    when: defect.kind == \"chips\"\n    then: {step: none}\n    because: Invented.\n"
	e, err := shopWith(t, map[string]string{"start.yaml": none}).Explain(inspection(), advisor.Question{Would: "polish"})
	require.NoError(t, err)
	start := decisionOf(t, e, "start")
	assert.Equal(t, advisor.NoAnswer, start.Outcome)
	assert.Empty(t, start.Answer)
	assert.Equal(t, "No rule says where to start", start.Why)
	require.NotNil(t, start.WhyNot)
	assert.Equal(t, "no rule ever answers a polish", start.WhyNot.Sentence)
}

func sentences(d *advisor.DecisionExplanation) []string {
	var out []string
	for _, c := range d.Changes {
		out = append(out, c.Sentence)
	}
	for _, n := range d.NearMisses {
		out = append(out, n.Failed)
	}
	return out
}

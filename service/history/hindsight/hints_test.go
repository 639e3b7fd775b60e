package hindsight_test

import (
	"errors"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/hindsight"
)

// fellShort are panels whose finish fell short and whose polish was accepted, and as many as did with the finish.
func fellShort(t testing.TB, set *rules.Set, severity float64, short, did int) []*job {
	t.Helper()
	a := adviser(t, set)
	var out []*job
	for i := range short + did {
		j := newJob(fmt.Sprintf("job-%03d", i))
		j.inspect(t, a, marked(severity))
		if i < short {
			j.try("bonnet", "finish", "step-up", 5)
			j.try("bonnet", "polish", "accept", 6)
		} else {
			j.try("bonnet", "finish", "accept", 5)
		}
		out = append(out, j)
	}
	return out
}

func hints(t testing.TB, set *rules.Set, weigh hindsight.Weigh, jobs ...*job) []hindsight.Hint {
	t.Helper()
	out, err := hindsight.Hints(t.Context(), scan(jobs...), set, weigh)
	require.NoError(t, err)
	return out
}

// Marks of grade 1.5 in medium paint start with a finish by the shipped rules. Where it fell short time after time, the bound of the
// polish is what the outcomes speak against.
func TestABoundThatOutcomesSpeakAgainst(t *testing.T) {
	s := set(t)
	found := hints(t, s, hindsight.Weigh{}, fellShort(t, s, 1.5, 14, 1)...)
	require.NotEmpty(t, found)
	h := found[0]
	assert.Equal(t, "start", h.Table)
	assert.Equal(t, "moderate-wash-marks", h.Rule)
	assert.Equal(t, "start.yaml", h.File)
	assert.Positive(t, h.Line)
	assert.Equal(t, "defect.severity >= 2 becomes defect.severity >= 1.5", h.Change())
	assert.Equal(t, []int{15, 14, 1, 0}, []int{h.Panels, h.ForChange, h.Against, h.Open})
	assert.Greater(t, h.Surely, 0.99)
	assert.Equal(t, 14, h.Trials)
	assert.InDelta(t, 70, h.Minutes, 1e-9)
	assert.InDelta(t, -1, h.FilmUm, 1e-9, "the one panel that a finish was enough for would have lost a polish")
	require.Len(t, h.Examples, 3)
	assert.Equal(t, "job-000", h.Examples[0].Job)
	require.NotEmpty(t, h.Effect.Regions)
	assert.Contains(t, fmt.Sprint(h.Effect.Regions[0].Words()), "severity 1.5")
}

func TestWhatOutcomesDoNotSpeakForIsNoHint(t *testing.T) {
	s := set(t)
	for _, c := range []struct {
		name       string
		short, did int
		weigh      hindsight.Weigh
	}{
		{"nothing on record", 0, 0, hindsight.Weigh{}},
		{"too few", 7, 0, hindsight.Weigh{}},
		{"as many for as against", 10, 10, hindsight.Weigh{}},
		{"a promise would be broken", 14, 0, hindsight.Weigh{Keeps: func(*rules.Set) bool { return false }}},
	} {
		assert.Empty(t, hints(t, s, c.weigh, fellShort(t, s, 1.5, c.short, c.did)...), c.name)
	}
	assert.NotEmpty(t, hints(t, s, hindsight.Weigh{Least: 3, Surely: 0.9}, fellShort(t, s, 1.5, 7, 0)...), "a shop may ask for less")
	gone := errors.New("gone")
	_, err := hindsight.Hints(t.Context(), func(yield func(history.Traced, error) bool) { yield(history.Traced{}, gone) }, s, hindsight.Weigh{})
	require.ErrorIs(t, err, gone)
}

// Panels whose trials prove nothing, and steps that nobody tried, give no hint however many there are.
func TestWhatNobodyTriedIsNoHint(t *testing.T) {
	s := set(t)
	a := adviser(t, s)
	var jobs []*job
	for i := range 40 {
		j := newJob(fmt.Sprintf("job-%03d", i))
		j.inspect(t, a, marked(2))
		j.try("bonnet", "polish", "accept", 6)
		jobs = append(jobs, j)
	}
	for _, h := range hints(t, s, hindsight.Weigh{}, jobs...) {
		t.Errorf("%s: %s, for %d, against %d", h.Rule, h.Change(), h.ForChange, h.Against)
	}
}

func TestADecisionIsExplainedByTheSetThatMadeIt(t *testing.T) {
	s := set(t)
	j := newJob("a")
	j.inspect(t, adviser(t, s), marked(2))
	decision := j.events[2].Body.(*history.Decision)
	all := hindsight.Explain(s, decision)
	require.NotEmpty(t, all)
	byTable := map[string]hindsight.Explained{}
	for _, e := range all {
		assert.True(t, e.Agrees, "%s %s", e.Explanation.Table, e.About)
		assert.Empty(t, e.Strange)
		assert.Equal(t, "bonnet", e.Panel)
		byTable[e.Explanation.Table] = e
	}
	start := byTable["start"]
	assert.Equal(t, "wash-marks 2", start.About)
	assert.Equal(t, "moderate-wash-marks", start.Explanation.Winners[0].Rule)
	assert.Contains(t, start.Explanation.String(), "severity is 2, which is at least 2")

	other := set(t, edits["start sooner"], edit{"start.yaml", "id: moderate-wash-marks", "id: marks-of-some-grade"})
	decision.Sheets[0].Facts["paint.lustre"] = 3.0
	differs := 0
	for _, e := range hindsight.Explain(other, decision) {
		if !e.Agrees {
			differs++
			assert.Equal(t, "start", e.Explanation.Table)
		}
		if e.Explanation.Table == "policy" {
			assert.Equal(t, []string{"paint.lustre"}, e.Strange)
		}
	}
	assert.Equal(t, 1, differs, "by another set the answer is another")
}

func BenchmarkHints(b *testing.B) {
	s := set(b)
	jobs := record(b, s, 10_000)
	for b.Loop() {
		hints(b, s, hindsight.Weigh{}, jobs...)
	}
}

package plan_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/plan"
)

func TestBeforeTheFirstStepOnlyWhatComesBeforeItIsOff(t *testing.T) {
	v := midSize(t, polish(), finish())
	p := made(t, v)
	still := p.Still(func(string, string) plan.Progress { return plan.Progress{} }).Min()
	before := v.Whole.PrepareMin.Plus(v.Whole.TrialMin)
	for _, panel := range v.Panels {
		before = before.Plus(panel.InspectMin)
	}
	assertSpan(t, plan.Span{Low: p.WorkMin.Low - before.Low, Likely: p.WorkMin.Likely - before.Likely, High: p.WorkMin.High - before.High}, still)
}

func TestAtTheEndTheLastWipeIsLeft(t *testing.T) {
	v := midSize(t, polish(), finish())
	p := made(t, v)
	assertSpan(t, v.Whole.FinalMin, p.Still(func(string, string) plan.Progress { return plan.Progress{Begun: true, Over: true} }).Min())
}

// One panel, by hand. 15 sections of polish are planned; 3 are worked, so four fifths of the machine, the wipes, the cleanings and the one
// pad are left. It is taped and lit already; it is still to be read again and wiped.
func TestStillByHand(t *testing.T) {
	v := midSize(t, polish())
	v.Panels = v.Panels[1:2]
	p := made(t, v)
	require.Equal(t, 15, p.Steps[0].Sections)
	work, panel := p.Panels[0].Steps[0], v.Panels[0]
	want := work.Minutes().By(0.8).Plus(handling.PrimeMin.By(0.8)).Plus(panel.RecheckMin).Plus(v.Whole.FinalMin)
	assertSpan(t, want, p.Still(func(string, string) plan.Progress { return plan.Progress{Begun: true, Sections: 3} }).Min())
	assertSpan(t, want, p.Still(func(string, string) plan.Progress { return plan.Progress{Begun: true, Sections: 2, Of: 10} }).Min())
	uncounted := work.Minutes().Plus(handling.PrimeMin).Plus(panel.RecheckMin).Plus(v.Whole.FinalMin)
	assertSpan(t, uncounted, p.Still(func(string, string) plan.Progress { return plan.Progress{Begun: true} }).Min())
	more := p.Still(func(string, string) plan.Progress { return plan.Progress{Begun: true, Sections: 40} }).Min()
	assertSpan(t, v.Whole.FinalMin, more)
}

func TestProgressNeverAddsTime(t *testing.T) {
	p := made(t, midSize(t, cut(), polish(), finish()))
	type step struct{ panel, step string }
	random := rand.New(rand.NewPCG(7, 11))
	for range 200 {
		now := map[step]plan.Progress{}
		at := func(panel, name string) plan.Progress { return now[step{panel, name}] }
		last := p.Still(at).Min()
		for range 60 {
			panel := p.Panels[random.IntN(len(p.Panels))]
			of := step{panel.Panel.ID, panel.Steps[random.IntN(3)].Step}
			was := now[of]
			now[of] = plan.Progress{Begun: true, Over: was.Over || random.IntN(3) == 0, Sections: was.Sections + random.IntN(5)}
			next := p.Still(at).Min()
			require.LessOrEqual(t, next.Low, last.Low+1e-9)
			require.LessOrEqual(t, next.Likely, last.Likely+1e-9)
			require.LessOrEqual(t, next.High, last.High+1e-9)
			require.LessOrEqual(t, next.Low, next.Likely)
			require.LessOrEqual(t, next.Likely, next.High)
			last = next
		}
		assert.GreaterOrEqual(t, last.Low, 0.0)
	}
}

func TestWhatIsLeftLiesInTheOrderOfWork(t *testing.T) {
	p := made(t, midSize(t, cut(), polish(), finish()))
	left := p.Still(func(panel, step string) plan.Progress {
		return plan.Progress{Begun: step == "polish" && panel == "roof", Over: step == "cut"}
	})
	require.Len(t, left.Steps, 2)
	assert.Equal(t, "polish", left.Steps[0].Step)
	assert.Equal(t, "finish", left.Steps[1].Step)
	assertSpan(t, plan.Span{}, left.BeforeMin) // every panel is taped
}

func assertSpan(t *testing.T, want, got plan.Span) {
	t.Helper()
	assert.InDelta(t, want.Low, got.Low, 1e-9)
	assert.InDelta(t, want.Likely, got.Likely, 1e-9)
	assert.InDelta(t, want.High, got.High, 1e-9)
}

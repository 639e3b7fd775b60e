package advisor_test

import (
	"fmt"
	"io/fs"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules/shipped"
	"github.com/glossladder/glossladder/service/advisor"
)

// shopWithTrials is a shop whose policy allows so many trials on a panel.
func shopWithTrials(t *testing.T, most int) *advisor.Advisor {
	t.Helper()
	policy, err := fs.ReadFile(shipped.Files(), "policy.yaml")
	require.NoError(t, err)
	require.Contains(t, string(policy), "most_trials: 8,")
	return shopWith(t, map[string]string{"policy.yaml": strings.ReplaceAll(string(policy), "most_trials: 8,", fmt.Sprintf("most_trials: %d,", most))})
}

// anyTrial is a trial of which anything may have been found, or not looked at. Invented.
func anyTrial(random *rand.Rand) advisor.Trial {
	pick := func(words ...string) string { return words[random.IntN(len(words))] }
	maybe := func(v float64) *float64 {
		if random.IntN(5) == 0 {
			return nil
		}
		return &v
	}
	return trial(pick("finish", "polish", "cut"), 8*random.Float64()-3, 4*random.Float64()-2, float64(random.IntN(6))/2, func(t *advisor.Trial) {
		t.WipeOff = pick("", "clean", "clean", "clean", "hard", "dusting")
		t.PanelC = maybe(15 + 40*random.Float64())
		t.TrailsLeft = maybe(float64(random.IntN(4)) / 2)
		t.FreshSection = random.IntN(5) != 0
		t.PadLoaded = ptr(random.IntN(5) == 0)
		t.PanelWiped = ptr(random.IntN(6) != 0)
		if random.IntN(6) == 0 {
			t.Changed = []string{pick("more-passes", "slower-arm", "fresh-pad", "stronger-pad", "more-readings")}
		}
		if random.IntN(6) == 0 {
			t.Left = nil
		}
		if random.IntN(6) == 0 {
			t.After = nil
		}
	})
}

// Whatever was tried and found, advice followed or not, the last trial that the policy allows ends the matter, and it is
// the rule file's own doing: no guard has to step in. A cut is the one thing that may still be refined, since no ladder ends
// on it; what follows it is milder, and that ends.
func TestTheLastTrialOfThePolicyEndsTheMatter(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 7))
	ends := map[string]int{}
	for _, most := range []int{1, 3, 8} {
		a := shopWithTrials(t, most)
		for run := range 150 {
			in := inspection(panel(func(p *advisor.Panel) {
				p.Defects[0].Severity = ptr(float64(random.IntN(11)) / 2)
				um := 85 + 60*random.Float64()
				p.Film = []advisor.FilmSpot{{Spot: "centre", TotalUm: []float64{um, um, um}}}
				if random.IntN(3) == 0 {
					p.Film = nil
				}
			}))
			var trials []advisor.Trial
			for len(trials) < most+random.IntN(3) {
				trials = append(trials, anyTrial(random))
			}
			v, err := a.JudgeTrial(in, "bonnet", trials)
			require.NoError(t, err)
			last := trials[len(trials)-1].Step
			if v.Kind == advisor.Refine && last == "cut" {
				ends["a cut refined"]++
				assert.Equal(t, "polish", v.Next.Step)
				continue
			}
			require.Contains(t, []string{advisor.Accept, advisor.StopWork}, v.Kind, "%d of %d trials, run %d: %s", len(trials), most, run, v.Headline)
			require.Nil(t, v.Next)
			require.Contains(t, []string{"verdict", "limit"}, v.Reason.Table, "%d of %d trials, run %d: %s", len(trials), most, run, v.Reason.Because)
			ends[v.Kind+" by "+v.Reason.Table]++
		}
	}
	assert.Greater(t, ends["accept by verdict"], 10, "%v", ends)
	assert.Greater(t, ends["stop by verdict"], 10, "%v", ends)
	assert.Positive(t, ends["a cut refined"], "%v", ends)
}

// Whatever was tried and found, no next step is stronger than the panel allows.
func TestNoHistoryLeadsPastTheLimit(t *testing.T) {
	a := shop(t)
	random := rand.New(rand.NewPCG(9, 1))
	strength := []string{"none", "finish", "polish", "cut"}
	kinds := map[string]int{}
	for run := range 300 {
		in := inspection(panel(func(p *advisor.Panel) {
			p.Defects[0].Severity = ptr(4.0)
			p.Paint.Softness = "medium"
			um := 100 + 80*random.Float64()
			p.Film = []advisor.FilmSpot{{Spot: "centre", TotalUm: []float64{um, um, um}}}
			if random.IntN(3) == 0 {
				p.Film = nil
			}
		}))
		limit := slices.Index(strength, recommend(t, a, in).Limit)
		var trials []advisor.Trial
		for range 1 + random.IntN(4) {
			if random.IntN(3) == 0 { // worked well and too mild
				trials = append(trials, trial([]string{"finish", "polish"}[random.IntN(2)], 5, 0, 3))
			} else {
				trials = append(trials, anyTrial(random))
			}
			v, err := a.JudgeTrial(in, "bonnet", trials)
			require.NoError(t, err)
			if v.Next != nil {
				require.LessOrEqual(t, slices.Index(strength, v.Next.Step), limit, "run %d, %d trials: %s", run, len(trials), v.Headline)
			}
			kinds[v.Kind]++
		}
	}
	assert.Greater(t, kinds[advisor.StepUp], 20, "%v", kinds)
}

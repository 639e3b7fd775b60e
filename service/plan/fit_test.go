package plan_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/plan"
)

// ladders are the usual choices of a panel.
var ladders = []plan.Choice{
	{Ladder: "none"},
	{Ladder: "finish", Steps: []string{"finish"}},
	{Ladder: "polish", Steps: []string{"polish"}},
	{Ladder: "polish-finish", Steps: []string{"polish", "finish"}},
	{Ladder: "cut-polish-finish", Steps: []string{"cut", "polish", "finish"}},
}

// randomVehicle is a small vehicle whose ties are frequent: worth and minutes come from few values.
func randomVehicle(r *rand.Rand, panels int) ([]plan.Candidate, plan.Setup, int) {
	out := make([]plan.Candidate, panels)
	for i := range out {
		out[i].Panel = fmt.Sprintf("panel %d", i)
		for _, c := range ladders[r.IntN(2):] {
			if r.IntN(4) == 0 && len(out[i].Choices) > 0 {
				continue
			}
			c.Minutes, c.Worth, c.TakesNm = r.IntN(12)*len(c.Steps), r.IntN(10)*len(c.Steps), 500*r.IntN(3)*len(c.Steps)
			out[i].Choices = append(out[i].Choices, c)
		}
	}
	return out, plan.Setup{"finish": r.IntN(6), "polish": r.IntN(6), "cut": r.IntN(9)}, r.IntN(60)
}

// brute tries everything.
func brute(panels []plan.Candidate, setup plan.Setup, minutes int) (best plan.Fit, ok bool) {
	picks := make([]int, len(panels))
	var walk func(i int)
	walk = func(i int) {
		if i == len(panels) {
			fit := priced(panels, setup, picks)
			if fit.Minutes <= minutes && (!ok || ahead(fit, best)) {
				best, ok = fit, true
			}
			return
		}
		for k := range panels[i].Choices {
			picks[i] = k
			walk(i + 1)
		}
	}
	walk(0)
	return best, ok
}

func priced(panels []plan.Candidate, setup plan.Setup, picks []int) plan.Fit {
	fit := plan.Fit{Picks: slices.Clone(picks)}
	used := map[string]bool{}
	for i, k := range picks {
		c := panels[i].Choices[k]
		fit.Minutes, fit.Worth, fit.TakesNm = fit.Minutes+c.Minutes, fit.Worth+c.Worth, fit.TakesNm+c.TakesNm
		for _, s := range c.Steps {
			if !used[s] {
				used[s] = true
				fit.Minutes += setup[s]
			}
		}
	}
	return fit
}

func ahead(a, b plan.Fit) bool {
	if a.Worth != b.Worth {
		return a.Worth > b.Worth
	}
	if a.Minutes != b.Minutes {
		return a.Minutes < b.Minutes
	}
	return a.TakesNm < b.TakesNm
}

func TestBestIsWhatTryingEverythingFinds(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	none := 0
	for n := range 1000 {
		panels, setup, minutes := randomVehicle(r, 1+r.IntN(5))
		want, ok := brute(panels, setup, minutes)
		got, err := plan.Best(panels, setup, minutes)
		if !ok {
			none++
			require.ErrorIs(t, err, plan.ErrNoRoom, "vehicle %d", n)
			continue
		}
		require.NoError(t, err)
		require.Equal(t, []int{want.Worth, want.Minutes, want.TakesNm}, []int{got.Worth, got.Minutes, got.TakesNm}, "vehicle %d", n)
		require.Equal(t, priced(panels, setup, got.Picks), got, "what the picks come to")
	}
	assert.Positive(t, none, "some vehicles must not fit at all")
}

// Every point of the curve is the best of its minutes, and between two points nothing is better than the first.
func TestTheCurveHoldsTheBestOfEveryBudget(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 11))
	for range 100 {
		panels, setup, _ := randomVehicle(r, 1+r.IntN(4))
		curve, err := plan.Tradeoff(panels, setup, 60)
		if err != nil {
			require.ErrorIs(t, err, plan.ErrNoRoom)
			continue
		}
		for minutes := range 61 {
			at := -1
			for i, fit := range curve {
				if fit.Minutes <= minutes {
					at = i
				}
			}
			want, ok := brute(panels, setup, minutes)
			require.Equal(t, ok, at >= 0)
			if ok {
				require.Equal(t, want.Worth, curve[at].Worth, "%d minutes", minutes)
				require.Equal(t, want.Minutes, curve[at].Minutes, "%d minutes", minutes)
			}
		}
	}
}

func TestNoRoomSaysTheLeast(t *testing.T) {
	panels := []plan.Candidate{
		{Panel: "bonnet", Choices: []plan.Choice{{Ladder: "finish", Steps: []string{"finish"}, Minutes: 30, Worth: 5}}},
		{Panel: "roof", Choices: []plan.Choice{{Ladder: "none"}, {Ladder: "polish", Steps: []string{"polish"}, Minutes: 40, Worth: 9}}},
	}
	_, err := plan.Best(panels, plan.Setup{"finish": 10, "polish": 10}, 39)
	require.EqualError(t, err, "39 minutes are too few: the least that these panels need is 40")

	fit, err := plan.Best(panels, plan.Setup{"finish": 10, "polish": 10}, 40)
	require.NoError(t, err)
	assert.Equal(t, plan.Fit{Picks: []int{0, 0}, Minutes: 40, Worth: 5}, fit)
}

func TestCandidatesThatCannotBe(t *testing.T) {
	one := []plan.Choice{{Ladder: "none"}}
	for _, row := range []struct {
		panels  []plan.Candidate
		minutes int
		says    string
	}{
		{nil, 60, "number of panels is 0, allowed is 1 to 60"},
		{[]plan.Candidate{{Panel: "roof", Choices: one}}, -1, "minutes is -1, allowed is 0 to 6000"},
		{[]plan.Candidate{{Panel: "roof"}}, 60, "panel roof: number of choices is 0, allowed is 1 to 16"},
		{
			[]plan.Candidate{{Panel: "roof", Choices: []plan.Choice{{Minutes: 5}, {Worth: -1}}}},
			60,
			"panel roof, choice 2: worth is -1, allowed is 0 to 1000000000",
		},
	} {
		_, err := plan.Best(row.panels, nil, row.minutes)
		require.EqualError(t, err, row.says)
	}
}

func BenchmarkBest25Panels5Ladders(b *testing.B) {
	r := rand.New(rand.NewPCG(1, 1))
	panels := make([]plan.Candidate, 25)
	for i := range panels {
		for _, c := range ladders {
			c.Minutes, c.Worth, c.TakesNm = (8+r.IntN(12))*len(c.Steps), 1000*len(c.Steps)+r.IntN(900), 800*len(c.Steps)
			panels[i].Choices = append(panels[i].Choices, c)
		}
	}
	setup := plan.Setup{"finish": 12, "polish": 12, "cut": 15}
	b.ReportAllocs()
	for b.Loop() {
		_, err := plan.Best(panels, setup, 12*60)
		require.NoError(b, err)
	}
}

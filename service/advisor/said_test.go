package advisor_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/film"
)

// A fact without words of its own would be told by its label, which nobody says.
func TestEveryFactThatShippedRulesAskForHasWords(t *testing.T) {
	set := shop(t).Set()
	for _, name := range []string{"readiness", "start", "limit", "ladder", "settings", "cautions", "verdict"} {
		table, ok := set.Table(name)
		require.True(t, ok)
		for _, rule := range table.Rules() {
			for _, id := range rule.Reads {
				fact := set.Schema().Fact(id).Name
				assert.True(t, advisor.Said(fact), "say in seen.go how people say %s", fact)
			}
		}
	}
}

func TestWhateverCanBeMovedHasWords(t *testing.T) {
	a := shop(t)
	near := inspection(panel(func(p *advisor.Panel) {
		p.Film = []advisor.FilmSpot{
			{Spot: "centre", TotalUm: []float64{120, 121, 122}, ClearUm: []float64{40, 41, 42}},
			{Spot: "edge", TotalUm: []float64{118, 119, 117}, NearEdge: true},
		}
		for i := range p.Gloss {
			p.Gloss[i].HazeHU, p.Gloss[i].At85GU = []float64{20, 21, 20}, []float64{90, 91, 90}
		}
	}))
	near.FilmGauge.Kind = film.Ultrasonic
	for name, row := range map[string]struct {
		in     advisor.Inspection
		trials []advisor.Trial
		least  int
	}{
		"before work": {near, nil, 28}, "after a trial": {inspection(), []advisor.Trial{trial("polish", 5, 2, 1)}, 25},
	} {
		levers, err := a.Levers(row.in, row.trials)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, len(levers), row.least, "%s: %v", name, levers)
		for _, fact := range levers {
			assert.True(t, advisor.Supposes(fact), "say in supposed.go how people suppose %s otherwise", fact)
		}
	}
}

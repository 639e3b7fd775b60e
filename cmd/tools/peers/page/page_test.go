package page_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/cmd/tools/peers/bench"
	"github.com/glossladder/glossladder/cmd/tools/peers/engine"
	"github.com/glossladder/glossladder/cmd/tools/peers/page"
)

func result(load, ready, explained time.Duration) bench.Result {
	r := bench.Result{Load: load, PerAsk: map[engine.Way][]time.Duration{engine.Ready: {ready}}}
	if explained > 0 {
		r.PerAsk[engine.Explained] = []time.Duration{explained}
	}
	return r
}

func TestFiguresAreWrittenWithRatiosGrowthAndReasons(t *testing.T) {
	us := result(time.Second, 50, 200)
	us.PerAsk[engine.AsData] = []time.Duration{100}
	text := page.Figures{
		Peers: []bench.Peer{{Name: "Ours"}, {Name: "Mark", Reference: true}, {Name: "Quick", How: "quickly"}, {Name: "Broken"}},
		Sizes: []int{10, 1000},
		Shapes: []page.Shape{{Name: "dense", Results: [][]bench.Result{
			{us, result(1, 10, 0), result(2*time.Millisecond, 100, 0), result(3, 400, 1500)},
			{us, result(1, 90, 0), result(40*time.Millisecond, 12_345, 0), {Failure: "load: too big"}},
		}}},
	}.Write()
	for _, line := range []string{
		"| Ours | 50 ns | 50 ns | 1.0× |",
		"| Mark | 10 ns (0.2×) | 90 ns (1.8×) | 9.0× |",
		"| Quick | 100 ns (2.0×) | 12.3 µs (247×) | 123× |",
		"| Broken | 400 ns (8.0×) | no figure | none |",
		"| **the best of them against ours** | **2.0×** Quick | **247×** Quick | |",
		"| Ours, as data | 100 ns | 100 ns | 1.0× |",
		"| Quick | none | none | none |",
		"| **the best of them against our words** | **7.5×** Broken | none | |",
		"| **the best of them against our data** | **15×** Broken | none | |",
		"| Quick | 2.00 ms | 40.0 ms | 40.0 µs |",
		"\nNo figure for Broken with 1,000 rules, dense: load: too big.",
		"- **Quick**: quickly.",
	} {
		assert.Contains(t, text, line+"\n")
	}
}

func TestReplaceKeepsWhatStandsAroundTheFigures(t *testing.T) {
	const marks = "<!-- figures: begin; `go run . -page` writes what stands between these marks -->\nold\n<!-- figures: end -->\n"
	got, err := page.Replace("before\n"+marks+"after\n", "new\n")
	require.NoError(t, err)
	assert.Contains(t, got, "before\n")
	assert.Contains(t, got, "\nnew\n")
	assert.Contains(t, got, "after\n")
	assert.NotContains(t, got, "old")
	_, err = page.Replace("a page without marks\n", "new\n")
	require.ErrorContains(t, err, "figures: begin")
}

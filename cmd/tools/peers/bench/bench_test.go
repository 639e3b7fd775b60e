package bench_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/cmd/tools/peers/bench"
	"github.com/glossladder/glossladder/cmd/tools/peers/engine"
	"github.com/glossladder/glossladder/cmd/tools/peers/table"
)

// always is an engine that gives the same reply to every request.
func always(reply string) []bench.Peer {
	return []bench.Peer{{Name: "fake", Command: []string{"sh", "-c", `while read -r line; do echo '` + reply + `'; done`}}}
}

func plan() bench.Plan {
	return bench.Plan{Points: 2, Rounds: 3, Limit: time.Minute, Patience: time.Minute}
}

func TestAWrongAnswerEndsTheRun(t *testing.T) {
	_, err := bench.Table(t.Context(), always(`{"ns":8,"ways":["ready"],"passes":1,"answers":[77,77]}`), plan(), table.Shapes()[1], 10)
	require.ErrorContains(t, err, "wrong answer: rule 77 for point 0")
	_, err = bench.Table(t.Context(), always(`{"ns":8,"ways":["ready"],"passes":1,"answers":[]}`), plan(), table.Shapes()[1], 10)
	require.ErrorContains(t, err, "0 answers for 2 points")
}

func TestAnEngineThatCannotLoadHasNoFigures(t *testing.T) {
	for name, row := range map[string]struct {
		peers []bench.Peer
		says  string
	}{
		"it says why":        {always(`{"error":"too many rules"}`), "load: too many rules"},
		"it ends":            {[]bench.Peer{{Name: "fake", Command: []string{"sh", "-c", "echo out of memory >&2; exit 3"}}}, "out of memory"},
		"it never is ready":  {[]bench.Peer{{Name: "fake", Command: []string{"sleep", "60"}}}, "load: took too long: more than 300ms"},
		"it answers no run":  {always(`{"ways":["ready"],"error":""}`), "wrong"},
		"it is no such file": {[]bench.Peer{{Name: "fake", Command: []string{"/no/such/engine"}}}, "no such file"},
	} {
		t.Run(name, func(t *testing.T) {
			p := plan()
			p.Limit = 300 * time.Millisecond
			results, err := bench.Table(t.Context(), row.peers, p, table.Shapes()[0], 10)
			if err != nil {
				require.ErrorContains(t, err, row.says)
				return
			}
			require.Contains(t, results[0].Failure, row.says)
			_, ok := results[0].Median(engine.Ready)
			assert.False(t, ok)
		})
	}
}

func TestMediansAndRatiosAreTakenRoundByRound(t *testing.T) {
	ours := bench.Result{PerAsk: map[engine.Way][]time.Duration{engine.Ready: {10, 100, 20}}}
	theirs := bench.Result{PerAsk: map[engine.Way][]time.Duration{engine.Ready: {30, 400, 100}}}
	d, ok := theirs.Median(engine.Ready)
	require.True(t, ok)
	assert.Equal(t, time.Duration(100), d)
	ratio, ok := theirs.Ratio(engine.Ready, ours, engine.Ready)
	require.True(t, ok)
	assert.Equal(t, 4.0, ratio, "the middle of 3, 4 and 5, not of the medians")

	slow := bench.Result{PerAsk: map[engine.Way][]time.Duration{engine.Ready: {50, 700}}}
	ratio, ok = slow.Ratio(engine.Ready, ours, engine.Ready)
	require.True(t, ok, "measured in two rounds only")
	assert.Equal(t, 6.0, ratio)
	_, ok = ours.Ratio(engine.Explained, theirs, engine.Ready)
	assert.False(t, ok)
}

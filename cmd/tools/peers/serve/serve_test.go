package serve_test

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/cmd/tools/peers/engine"
	"github.com/glossladder/glossladder/cmd/tools/peers/serve"
	"github.com/glossladder/glossladder/cmd/tools/peers/table"
)

func TestServeLoadsRunsAndTellsWhatIsWrong(t *testing.T) {
	asked := 0
	fake := func(rules []table.Rule, at []table.Point) (engine.Engine, error) {
		if len(rules) == 0 {
			return nil, errors.New("no rules")
		}
		return engine.Engine{engine.Ready: func(i int) (int, error) {
			asked++
			return table.Decide(rules, at[i]), nil
		}}, nil
	}
	lines := []string{
		`{"load":{"rules":[]}}`,
		`{"load":{"rules":[[{"fact":0,"op":"at-least","lo":5}]],"points":[[9],[1]]}}`,
		`{"run":{"way":"ready","ns":0}}`,
		`{"run":{"way":"explained","ns":0}}`,
		`{}`,
	}
	var out strings.Builder
	require.NoError(t, serve.Serve(strings.NewReader(strings.Join(lines, "\n")), &out, fake))
	var replies []serve.Reply
	for line := range strings.Lines(out.String()) {
		var r serve.Reply
		require.NoError(t, json.Unmarshal([]byte(line), &r))
		replies = append(replies, r)
	}
	require.Len(t, replies, len(lines))
	assert.Equal(t, "no rules", replies[0].Error)
	assert.Equal(t, []engine.Way{engine.Ready}, replies[1].Ways)
	assert.Equal(t, 1, replies[2].Passes)
	assert.Equal(t, []int{0, table.None}, replies[2].Answers)
	assert.Equal(t, 2, asked)
	assert.Contains(t, replies[3].Error, "explained")
	assert.NotEmpty(t, replies[4].Error)
}

package engine_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/cmd/tools/peers/engine"
	"github.com/glossladder/glossladder/cmd/tools/peers/table"
)

// Every engine gives the oracle's answer on every point, in each of its ways.
func TestEnginesAgreeWithAPlainScan(t *testing.T) {
	for _, m := range engine.Makers() {
		for _, s := range table.Shapes() {
			t.Run(m.Name+"/"+s.Name, func(t *testing.T) {
				rules, at := table.Generate(s, 10, 40)
				e, err := m.Make(rules, at)
				require.NoError(t, err)
				require.Contains(t, e, engine.Ready)
				require.Contains(t, e, engine.Fresh)
				for way, ask := range e {
					for i, p := range at {
						got, err := ask(i)
						require.NoError(t, err)
						require.Equal(t, table.Decide(rules, p), got, "%s, point %d", way, i)
					}
				}
			})
		}
	}
}

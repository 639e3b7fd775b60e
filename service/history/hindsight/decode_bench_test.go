package hindsight_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
)

// Reading one advice on one panel as it is stored: what a replay from disk pays before it asks anything, whole and without sheets.
func BenchmarkReadDecision(b *testing.B) {
	s := set(b)
	jobs := record(b, s, 1)
	kind, v, data, err := history.Encode(jobs[0].events[2].Body)
	require.NoError(b, err)
	for name, decode := range map[string]func(history.Kind, int, []byte) (history.Body, error){"whole": history.Decode, "lean": history.DecodeLean} {
		b.Run(name, func(b *testing.B) {
			b.ReportMetric(float64(len(data)), "B")
			for b.Loop() {
				_, err := decode(kind, v, data)
				require.NoError(b, err)
			}
		})
	}
}

package hindsight_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/trace"
)

// Reading one advice on one panel: what a replay pays before it asks anything, for the event as it is stored, whole and without
// sheets, and for its trace.
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
	b.Run("trace", func(b *testing.B) {
		made := trace.Of(jobs[0].events[2].Body)
		b.ReportMetric(float64(len(made)), "B")
		words := trace.NewWords()
		reader, facts := trace.NewReader(words), trace.NewFacts(words)
		var sheet trace.Sheet
		for b.Loop() {
			_, err := reader.Decision(made, facts)
			require.NoError(b, err)
			for reader.Sheet(&sheet, facts) {
			}
			require.NoError(b, reader.Err())
		}
	})
	b.Run("writing its trace", func(b *testing.B) {
		for b.Loop() {
			require.NotEmpty(b, trace.Of(jobs[0].events[2].Body))
		}
	})
	b.Run("writing it whole", func(b *testing.B) {
		for b.Loop() {
			_, _, _, err := history.Encode(jobs[0].events[2].Body)
			require.NoError(b, err)
		}
	})
}

package shipped_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules/promise"
)

func TestEveryPromiseIsKept(t *testing.T) {
	set := load(t)
	src, ok := set.Source(promise.File)
	require.True(t, ok)
	promises, err := promise.Parse(promise.File, src)
	require.NoError(t, err)
	verdicts, err := promise.Verify(set, promises, 0)
	require.NoError(t, err)
	require.NotEmpty(t, verdicts)
	for _, v := range verdicts {
		assert.Equal(t, promise.Kept, v.Outcome, "%s after %d steps: %s", v.Promise.ID, v.Steps, v.Example)
	}
}

func BenchmarkVerifyShipped(b *testing.B) {
	set := load(b)
	src, _ := set.Source(promise.File)
	promises, err := promise.Parse(promise.File, src)
	require.NoError(b, err)
	for b.Loop() {
		verdicts, err := promise.Verify(set, promises, 0)
		require.NoError(b, err)
		require.Empty(b, promise.Refusals(verdicts))
	}
}

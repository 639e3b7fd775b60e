package shipped_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/mutate"
	"github.com/glossladder/glossladder/rules/promise"
)

// leastScore is the share of small mistakes that cases and promises must notice, in percent.
const leastScore = 95

func promises(t testing.TB, set *rules.Set) []promise.Promise {
	t.Helper()
	src, ok := set.Source(promise.File)
	require.True(t, ok)
	list, err := promise.Parse(promise.File, src)
	require.NoError(t, err)
	return list
}

func TestCasesAndPromisesNoticeSmallMistakes(t *testing.T) {
	if testing.Short() {
		t.Skip("takes long, and nothing in it runs at once")
	}
	set := load(t)
	report, err := mutate.Run(set, promises(t, set), 0)
	require.NoError(t, err)
	for _, table := range set.Tables() {
		tally := report.Of(table.Name(), "")
		assert.Greater(t, tally.Caught, 3*len(table.Rules()), "%s: too few mistakes were made to tell anything", table.Name())
		assert.GreaterOrEqual(t, tally.Score(), float64(leastScore)-1, table.Name())
	}
	if score := report.All().Score(); score < leastScore {
		t.Errorf("%.2f %% of the mistakes are caught, less than %d %%; rules test --mutate shows the cases that would catch these:", score, leastScore)
		for _, f := range report.Survivors() {
			t.Log(f.Mutant.String())
		}
	}
	for _, f := range report.Findings {
		assert.False(t, f.Undecided, "not decided: %s", &f.Mutant)
		assert.NotEqual(t, mutate.Refused, f.Outcome, "does not load: %s", &f.Mutant)
	}
}

func BenchmarkMutateShipped(b *testing.B) {
	set := load(b)
	list := promises(b, set)
	for b.Loop() {
		report, err := mutate.Run(set, list, 0)
		require.NoError(b, err)
		b.ReportMetric(float64(report.All().Made()), "mutants")
	}
}

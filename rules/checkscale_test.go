package rules_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/check"
	"github.com/glossladder/glossladder/rules/internal/gen"
)

// Checks at the size of rule sets that no file holds: ten thousand rules are more than
// a file may be, so tables are built without one.

func builtTable(t testing.TB, hit rules.Hit, whens []string) *rules.Table {
	t.Helper()
	table, err := rules.BuildTable(gen.Schema(), "t", hit, whens, gen.Words)
	require.NoError(t, err)
	return table
}

// generated is the conditions of a random table. Dense ones name few facts and often
// hold together, sparse ones name most.
func generated(n, least, most int) []string {
	whens := make([]string, n)
	for i, row := range gen.Table(rand.New(rand.NewPCG(2, uint64(n))), n, least, most) {
		whens[i] = row.When
	}
	return whens
}

// findings counts the findings of each kind, those that are told together as well.
func findings(fs []check.Finding) map[check.Code]int {
	out := map[check.Code]int{}
	for _, f := range fs {
		out[f.Code] += max(1, f.More)
	}
	return out
}

// planted is how many faults of a kind are put into a table.
const planted = 7

// without leaves rows out of a table that answers every input, which plants gaps.
func without(n int) (whens, left []string) {
	for i, when := range gen.Parted(n) {
		if i%(n/planted) == 3 && len(left) < planted {
			left = append(left, when)
			continue
		}
		whens = append(whens, when)
	}
	return whens, left
}

// requireGaps asks that every planted gap is told, and nothing else as a gap.
func requireGaps(t testing.TB, n int) {
	t.Helper()
	whens, left := without(n)
	report := check.Table(builtTable(t, rules.Unique, whens), 0)
	var told []string
	for _, f := range report {
		if f.Code == check.Gap {
			require.NotNil(t, f.Input, f)
			told = append(told, f.Input.When)
		}
	}
	// A told gap may reach over two planted ones that touch. So: each condition left out
	// adds no input to those told, and none of those told adds an input to those left out.
	require.NotEmpty(t, told)
	hidden := builtTable(t, rules.First, slices.Concat(told, left))
	require.Equal(t, len(left), findings(check.Table(hidden, 0))[check.NeverWins], "gaps left out %v, told %v", left, told)
	hidden = builtTable(t, rules.First, slices.Concat(left, told))
	require.Equal(t, len(told), findings(check.Table(hidden, 0))[check.NeverWins], "gaps left out %v, told %v", left, told)
}

// requireOverlaps asks that every rule said twice is told with the one it meets.
func requireOverlaps(t testing.TB, n int) {
	t.Helper()
	whens := gen.Parted(n)
	want := map[string]bool{}
	for i := range planted {
		twice := i*(n/planted) + 5
		want[fmt.Sprintf("r-%d r-%d", len(whens), twice)] = true
		whens = append(whens, whens[twice])
	}
	got := map[string]bool{}
	for _, f := range check.Table(builtTable(t, rules.Unique, whens), 0) {
		if f.Code == check.Conflict {
			got[f.Subject] = true
		}
	}
	require.Equal(t, want, got)
}

// requireShadows asks that every rule behind a complete table is told, though none of
// the rules in front hides it alone.
func requireShadows(t testing.TB, n int) {
	t.Helper()
	whens := gen.Parted(n)
	r := rand.New(rand.NewPCG(4, uint64(n)))
	var want []string
	for range planted {
		x, y := r.IntN(100), r.IntN(100)
		want = append(want, fmt.Sprintf("r-%d", len(whens)))
		whens = append(whens, fmt.Sprintf("g.f0 in %d..%d && g.f1 in %d..%d", x, x+90, y, y+90))
	}
	var got []string
	for _, f := range check.Table(builtTable(t, rules.First, whens), 0) {
		if f.Code == check.NeverWins {
			got = append(got, f.Subject)
			require.Greater(t, len(f.Places), 2, "one rule alone does not hide %s", f.Subject)
		}
	}
	require.Equal(t, want, got)
}

func requireComplete(t testing.TB, n int) {
	t.Helper()
	for _, hit := range []rules.Hit{rules.Unique, rules.First} {
		found := findings(check.Table(builtTable(t, hit, gen.Parted(n)), 0))
		delete(found, check.Mergeable) // pieces that were one
		require.Empty(t, found, hit)
	}
}

func TestPlantedFaultsOfAThousandRulesAreFound(t *testing.T) {
	const n = 1000
	t.Run("complete", func(t *testing.T) { requireComplete(t, n) })
	t.Run("gaps", func(t *testing.T) { requireGaps(t, n) })
	t.Run("overlaps", func(t *testing.T) { requireOverlaps(t, n) })
	t.Run("shadows", func(t *testing.T) { requireShadows(t, n) })
}

// Every pair of rules that hold together is counted, those that are not told one by one too.
func TestEveryOverlapIsCounted(t *testing.T) {
	if testing.Short() {
		t.Skip("takes long, and nothing in it runs at once")
	}
	whens := generated(300, 2, 4)
	table := builtTable(t, rules.Unique, whens)
	pairs := 0
	for i := range whens {
		for j := range i {
			both := builtTable(t, rules.First, []string{"(" + whens[i] + ") && (" + whens[j] + ")"})
			if both.Boxes() > 0 {
				pairs++
			}
		}
	}
	require.Greater(t, pairs, 1000)
	found := check.Table(table, 0)
	require.Equal(t, pairs, findings(found)[check.Conflict])
	last := found[len(found)-1]
	for _, f := range found {
		if f.Code == check.Conflict && f.More > 0 {
			last = f
		}
	}
	require.Equal(t, pairs-20, last.More)
	require.Greater(t, len(last.Places), 100)
}

// BenchmarkCheck finds what is planted at every size before it measures.
func BenchmarkCheck(b *testing.B) {
	for _, n := range []int{1000, 10_000} {
		b.Run(fmt.Sprintf("planted/%d", n), func(b *testing.B) {
			for b.Loop() {
				requireGaps(b, n)
				requireOverlaps(b, n)
				requireShadows(b, n)
				requireComplete(b, n)
			}
		})
		for _, c := range []struct {
			name  string
			hit   rules.Hit
			whens []string
		}{
			{"complete/first", rules.First, gen.Parted(n)},
			{"complete/unique", rules.Unique, gen.Parted(n)},
			{"sparse/first", rules.First, generated(n, 3, 9)},
			{"sparse/unique", rules.Unique, generated(n, 3, 9)},
			{"dense/first", rules.First, generated(n, 1, 3)},
			{"dense/priority", rules.Priority, generated(n, 1, 3)},
			{"dense/any", rules.Any, generated(n, 1, 3)},
		} {
			table := builtTable(b, c.hit, c.whens)
			b.Run(fmt.Sprintf("%s/%d", c.name, n), func(b *testing.B) {
				for b.Loop() {
					check.Table(table, 0)
				}
			})
		}
	}
}

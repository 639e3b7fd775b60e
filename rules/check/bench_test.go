package check_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/check"
	"github.com/glossladder/glossladder/rules/internal/gen"
)

// parted is a table that answers every input exactly once: the numbers g.f0 and g.f1
// are parted again and again. Leaving a row out plants a gap.
func parted(n int, leave int) []string {
	r := rand.New(rand.NewPCG(1, uint64(n)))
	type part struct{ lo, hi [2]int }
	parts := []part{{hi: [2]int{400, 200}}}
	for len(parts) < n {
		i := r.IntN(len(parts))
		p := parts[i]
		axis := 0
		if p.hi[1]-p.lo[1] > (p.hi[0]-p.lo[0])/2 {
			axis = 1
		}
		if p.hi[axis]-p.lo[axis] < 1 {
			continue
		}
		at := p.lo[axis] + r.IntN(p.hi[axis]-p.lo[axis])
		q := p
		p.hi[axis], q.lo[axis] = at, at+1
		parts[i] = p
		parts = append(parts, q)
	}
	var out []string
	for i, p := range parts {
		if i == leave {
			continue
		}
		out = append(out, fmt.Sprintf("g.f0 >= %v && g.f0 <= %v && g.f1 >= %d && g.f1 <= %d",
			float64(p.lo[0])/2, float64(p.hi[0])/2, p.lo[1], p.hi[1]))
	}
	return append(out, "not known(g.f0)", "known(g.f0) && not known(g.f1)")
}

func generated(t testing.TB, hit string, whens []string) *rules.Table {
	t.Helper()
	var b strings.Builder
	fmt.Fprintf(&b, "table: t\nhit: %s\nrules:\n", hit)
	for i, when := range whens {
		fmt.Fprintf(&b, "- {id: r%d, when: '%s', then: {word: %s}, because: x}\n", i, when, gen.Words[i%len(gen.Words)])
	}
	set, err := rules.Load(fstest.MapFS{"t.yaml": {Data: []byte(b.String())}}, gen.Schema())
	require.NoError(t, err)
	return set.Tables()[0]
}

func TestCompleteTableIsProvedAndPlantedFaultsAreFound(t *testing.T) {
	const n = 1000
	require.Empty(t, check.Table(generated(t, "unique", parted(n, -1)), 0))
	for _, leave := range []int{0, 333, 999} {
		require.Equal(t, map[check.Code]int{check.Gap: 1}, codes(check.Table(generated(t, "unique", parted(n, leave)), 0)))
	}
	whens := parted(n, -1)
	whens = append(whens, whens[417]) // the same inputs, and another result
	require.Equal(t, 1, codes(check.Table(generated(t, "any", whens), 0))[check.Conflict])
	require.Equal(t, 1, codes(check.Table(generated(t, "first", whens), 0))[check.NeverWins])
}

func BenchmarkCheck(b *testing.B) {
	for _, n := range []int{1000, 5000} {
		for _, hit := range []string{"first", "unique"} {
			tab := generated(b, hit, parted(n, -1))
			b.Run(fmt.Sprintf("complete/%s/%d", hit, n), func(b *testing.B) {
				for b.Loop() {
					check.Table(tab, 0)
				}
			})
		}
	}
	for _, n := range []int{1000, 5000} {
		var whens []string
		for _, row := range gen.Table(rand.New(rand.NewPCG(2, 3)), n, 3, 9) {
			whens = append(whens, row.When)
		}
		tab := generated(b, "first", whens)
		b.Run(fmt.Sprintf("sparse/first/%d", n), func(b *testing.B) {
			for b.Loop() {
				check.Table(tab, 0)
			}
		})
	}
}

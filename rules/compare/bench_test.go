package compare_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/compare"
	"github.com/glossladder/glossladder/rules/internal/gen"
)

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

// edit is one edit of a generated table.
type edit struct {
	name        string
	least, most int    // facts that a rule names
	was, is     string // the condition of a rule in the middle; a generated one when was is empty, and then is narrows it
}

var edits = []edit{
	{"a clause more in a rule of many facts", 6, 12, "", "g.f1 <= 100 and g.f3 <= 150"},
	{"a clause more in a rule of few facts", 2, 4, "", "g.f1 <= 100 and g.f3 <= 150"},
	{
		"a bound of a broad rule among rules of many facts", 6, 12,
		"g.f0 in 40..90 and g.f1 <= 120 and g.f6 == \"small\"", "g.f0 in 40..95 and g.f1 <= 120 and g.f6 == \"small\"",
	},
	{
		"a bound of a broad rule among rules of few facts", 2, 4,
		"g.f0 in 40..90 and g.f1 <= 120 and g.f6 == \"small\"", "g.f0 in 40..95 and g.f1 <= 120 and g.f6 == \"small\"",
	},
}

// tables are a table of n rules and the same after the edit.
func (e edit) tables(t testing.TB, hit string, n int) (a, b *rules.Table) {
	t.Helper()
	var whens []string
	for _, row := range gen.Table(rand.New(rand.NewPCG(2, 3)), n, e.least, e.most) {
		whens = append(whens, row.When)
	}
	next := slices.Clone(whens)
	if e.was == "" {
		next[n/2] += " and " + e.is
	} else {
		whens[n/2], next[n/2] = e.was, e.is
	}
	return generated(t, hit, whens), generated(t, hit, next)
}

// What a benchmark measures must be right: the answers at random inputs are compared.
func TestRegionsOfLargeTablesHoldAtRandomInputs(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 1))
	for _, hit := range []string{"first", "priority", "collect"} {
		a, b := edits[2].tables(t, hit, 1000)
		effect, err := compare.Tables(a, b, 0)
		require.NoError(t, err)
		require.Equal(t, compare.Changed, effect.Outcome)
		var d, e rules.Decision
		in := 0
		for range 5000 {
			point := gen.Point(r)
			if r.IntN(2) == 0 { // near the edit
				point[0], point[1], point[6] = float64(85+r.IntN(15)), float64(r.IntN(125)), float64(r.IntN(2))
			}
			input := gen.Input(a.Schema(), point)
			a.Decide(input, &d)
			b.Decide(gen.Input(b.Schema(), point), &e)
			differ := answer(a, &d) != answer(b, &e)
			within := slices.ContainsFunc(effect.Regions, func(g compare.Region) bool { return g.Contains(input) })
			require.Equal(t, differ, within, "%s: %v", hit, point)
			if within {
				in++
			}
		}
		require.Greater(t, in, 30, hit)
	}
}

// answer is the words of the rules that answer, each once.
func answer(t *rules.Table, d *rules.Decision) string {
	var words []string
	for _, w := range d.Winners {
		words = append(words, t.Rules()[w].Result.String())
	}
	slices.Sort(words)
	return strings.Join(slices.Compact(words), ",")
}

// BenchmarkOneEdit is the exact difference after one edit, regions and all.
func BenchmarkOneEdit(b *testing.B) {
	for _, e := range edits {
		for _, hit := range []string{"first", "priority", "collect"} {
			was, is := e.tables(b, hit, 1000)
			b.Run(e.name+"/"+hit, func(b *testing.B) {
				b.ReportAllocs()
				var effect compare.Effect
				for b.Loop() {
					effect, _ = compare.Tables(was, is, 0)
				}
				b.ReportMetric(float64(len(effect.Regions)), "regions")
				b.ReportMetric(float64(effect.Steps), "steps")
			})
		}
	}
}

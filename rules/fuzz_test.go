package rules_test

import (
	"errors"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
)

// FuzzLoad gives the loader any bytes as a table file and as a file of cases. It
// must answer with a set or with problems that lie inside the files.
func FuzzLoad(f *testing.F) {
	read := func(name string) string {
		src, err := os.ReadFile(name)
		require.NoError(f, err)
		return string(src)
	}
	hints, readiness := read("testdata/bakery/hints.yaml"), read("testdata/bakery/readiness.yaml")
	heat, worked := read("testdata/bakery/heat.yaml"), read("testdata/bakery/cases/heat.yaml")
	f.Add(heat, worked)
	f.Add(heat, read("testdata/broken/cases/set/cases/heat.yaml"))
	broken, err := filepath.Glob("testdata/broken/*/set/heat.yaml")
	require.NoError(f, err)
	for _, b := range broken {
		f.Add(read(b), worked)
	}
	f.Add("table: heat\nhit: first\nrules:\n  - {id: a, when: >-\n known(oven.steam), then: {oven_c: 150}, because: x}", "table: heat\ncases: []")
	s := bakery(f)
	f.Fuzz(func(t *testing.T, table, cases string) {
		files := map[string]string{"heat.yaml": table, "hints.yaml": hints, "readiness.yaml": readiness, "cases/heat.yaml": cases}
		set, err := rules.Load(filesOf(files), s)
		if err == nil {
			require.Len(t, set.Tables(), 3)
			return
		}
		ps, ok := errors.AsType[rules.Problems](err)
		require.True(t, ok)
		require.Nil(t, set)
		require.NotEmpty(t, ps)
		for _, p := range ps {
			if p.Line == 0 {
				continue
			}
			lines := strings.Split(files[p.File], "\n")
			require.LessOrEqual(t, p.Line, len(lines), "%v", p)
			require.LessOrEqual(t, p.Col, len([]rune(lines[p.Line-1]))+1, "%v", p)
			require.Positive(t, p.Col, "%v", p)
		}
	})
}

// FuzzCondition gives the compiler any text. What it accepts must mean what the
// reference reader says, whenever that reader knows the words.
func FuzzCondition(f *testing.F) {
	s := smallSchema(f)
	w := writer{Rand: rand.New(rand.NewPCG(31, 1)), division: true, knowing: true}
	for range 40 {
		f.Add(w.condition(3).ours)
	}
	for _, src := range []string{
		`a.n in [1, 2.5] and b.have in ["low"]`, "1 < a.n < 3", `"low" <= b.want`, "let.x > 3", "d.on == d.up", "/* x */ d.on // y",
		"a.n * 1e300 * a.n * 1e300 > 1", `b.have == (d.on ? "low" : b.want)`, "((((d.on))))", "+a.n > -a.m", "not not d.on", "0x10 > a.n", ".5 < a.n",
	} {
		f.Add(src)
	}
	f.Fuzz(func(t *testing.T, src string) {
		table, err := rules.BuildTable(s, "t", rules.First, []string{src}, results)
		if err != nil {
			return
		}
		r := rand.New(rand.NewPCG(7, uint64(len(src))))
		for range 20 {
			p := randomPoint(r, 0.3)
			in := p.input(t, s)
			got := table.BoxTruth(in, 0)
			require.Equal(t, got == yes, table.First(in, nil) == 0)
			want, known := safely(src, p)
			if !known || got == no && want == maybe {
				continue
			}
			require.Equal(t, want, got, "%s at %v", src, p)
		}
	})
}

// safely asks the reference; known is false where it does not know a construct.
func safely(src string, p point) (truth string, known bool) {
	defer func() {
		if recover() != nil {
			known = false
		}
	}()
	ref, err := newReference(src)
	if err != nil {
		return "", false
	}
	return ref.truth(p), true
}

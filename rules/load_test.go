package rules_test

import (
	"errors"
	"flag"
	"os"
	"path/filepath"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/cases"
)

var update = flag.Bool("update", false, "rewrite golden files")

func golden(t *testing.T, file, got string) {
	t.Helper()
	if *update {
		require.NoError(t, os.WriteFile(file, []byte(got), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(want), got)
}

func loadBakery(t testing.TB) *rules.Set {
	t.Helper()
	set, err := rules.Load(os.DirFS("testdata/bakery"), bakery(t))
	require.NoError(t, err)
	return set
}

func filesOf(files map[string]string) fstest.MapFS {
	out := fstest.MapFS{}
	for name, src := range files {
		out[name] = &fstest.MapFile{Data: []byte(src)}
	}
	return out
}

func TestLoadReadsAWholeFolder(t *testing.T) {
	set := loadBakery(t)
	require.Len(t, set.Tables(), 3)
	heat, ok := set.Table("heat")
	require.True(t, ok)
	assert.Equal(t, rules.First, heat.Hit())
	rule, ok := heat.Rule("wet-dough")
	require.True(t, ok)
	assert.Equal(t, "heat.yaml", rule.File)
	assert.Equal(t, 10, rule.Line)
	assert.Equal(t, "let.wet > 75", rule.When)
	oven, ok := rule.Result.Number("oven_c")
	assert.True(t, ok)
	assert.Equal(t, 240.0, oven)
	_, ok = rule.Result.Flag("steam")
	assert.False(t, ok, "a field that the rule leaves out is not given")
	assert.Equal(t, []string{"cases/heat.yaml", "cases/hints.yaml", "heat.yaml", "hints.yaml", "readiness.yaml"}, set.Files())
}

func TestTheHashIsThatOfTheFilesThatWereRead(t *testing.T) {
	schema := bakery(t)
	load := func(change func(fstest.MapFS)) string {
		files := fstest.MapFS{}
		require.NoError(t, filepath.WalkDir("testdata/bakery", func(path string, d os.DirEntry, err error) error {
			if err != nil || d.IsDir() {
				return err
			}
			src, err := os.ReadFile(path)
			name, _ := filepath.Rel("testdata/bakery", path)
			files[filepath.ToSlash(name)] = &fstest.MapFile{Data: src}
			return err
		}))
		change(files)
		set, err := rules.Load(files, schema)
		require.NoError(t, err)
		return set.Hash()
	}
	plain := load(func(fstest.MapFS) {})
	assert.Len(t, plain, 64)
	assert.Equal(t, loadBakery(t).Hash(), plain, "from disk and from memory alike")
	assert.Equal(t, plain, load(func(f fstest.MapFS) { f["MORE.md"] = &fstest.MapFile{Data: []byte("x")} }), "notes do not count")
	assert.NotEqual(t, plain, load(func(f fstest.MapFS) { f["heat.yaml"].Data = append(f["heat.yaml"].Data, "\n"...) }))
	assert.NotEqual(t, plain, load(func(f fstest.MapFS) {
		f["cases/other.yaml"] = f["cases/hints.yaml"]
		delete(f, "cases/hints.yaml")
	}), "names count")
}

func TestLoadReportsEveryProblem(t *testing.T) {
	folders, err := filepath.Glob("testdata/broken/*")
	require.NoError(t, err)
	require.NotEmpty(t, folders)
	for _, folder := range folders {
		t.Run(filepath.Base(folder), func(t *testing.T) {
			set, err := rules.Load(os.DirFS(filepath.Join(folder, "set")), bakery(t))
			require.Error(t, err)
			assert.Nil(t, set, "never half a set")
			_, ok := errors.AsType[rules.Problems](err)
			require.True(t, ok)
			golden(t, filepath.Join(folder, "problems.golden"), err.Error()+"\n")
		})
	}
}

func TestDocumentsKeepTheirPlaces(t *testing.T) {
	read := func(name string, _ []byte) (any, error) {
		return nil, rules.Problems{{File: name, Line: 3, Col: 4, Message: "too dear"}}
	}
	_, err := rules.Load(os.DirFS("testdata/bakery"), bakery(t),
		rules.Document{Name: "prices.yaml", Read: read})
	assert.EqualError(t, err, "prices.yaml: the file is missing; every rule folder needs it")
	_, err = rules.Load(fstest.MapFS{"prices.yaml": {}}, bakery(t), rules.Document{Name: "prices.yaml", Read: read})
	assert.ErrorContains(t, err, "prices.yaml:3:4: too dear")
	assert.ErrorContains(t, err, "heat.yaml: no file holds the table heat")
}

func TestProblemsAreCappedAtAHundred(t *testing.T) {
	src := "table: hints\nhit: collect\nrules:\n"
	for range 150 {
		src += "  - {id: A, when: true, then: {say: x}, because: y}\n"
	}
	_, err := rules.Load(fstest.MapFS{"hints.yaml": {Data: []byte(src)}}, bakery(t))
	ps, ok := errors.AsType[rules.Problems](err)
	require.True(t, ok)
	require.Len(t, ps, 101)
	assert.Contains(t, ps[100].Message, "more problems")
}

func TestWorkedCasesOfTheBakery(t *testing.T) {
	report := cases.Run(loadBakery(t))
	for _, r := range report.Results {
		assert.True(t, r.Passed(), "%s", r)
	}
}

func TestWhyReadsLikeASentence(t *testing.T) {
	set := loadBakery(t)
	var text string
	for _, c := range []struct {
		name, table string
		facts       map[string]any
	}{
		{"a cold loaf", "readiness", map[string]any{"dough.core_c": 72.5, "crust.now": "pale", "crust.wish": "golden"}},
		{"nearly done", "readiness", map[string]any{"dough.core_c": 93.0, "crust.now": "dark", "crust.wish": "golden"}},
		{"done", "readiness", map[string]any{"dough.core_c": 96.0, "crust.now": "dark", "crust.wish": "golden"}},
		{"crust not looked at", "readiness", map[string]any{"dough.core_c": 96.0}},
		{"a heavy stone", "heat", map[string]any{"dough.water_pct": 60, "dough.flour": "rye", "oven.stone_kg": 20, "dough.rise_h": 4, "crust.wish": "pale"}},
		{"nothing known", "hints", nil},
	} {
		table, ok := set.Table(c.table)
		require.True(t, ok)
		in := give(t, set.Schema(), c.facts)
		var d rules.Decision
		table.Decide(in, &d)
		text += "# " + c.name + "\n" + table.Why(in, &d).String()
		for i, r := range table.Rules() {
			text += "  " + r.ID + ": " + table.WhyNot(in, i).Text + "\n"
		}
		text += "\n"
	}
	golden(t, "testdata/why.golden", text)
}

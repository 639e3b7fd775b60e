package provenance_test

import (
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/provenance"
	"github.com/glossladder/glossladder/rules/strictyaml"
)

const loaf = "table: loaf\nhit: first\nrules:\n  - {id: one, when: true, then: {crust: thin}, because: invented}\n"

func load(t *testing.T, files fstest.MapFS) *rules.Set {
	t.Helper()
	schema, err := rules.NewSchema(
		[]rules.Fact{{Name: "oven.hot", Kind: rules.Flag}},
		[]rules.ResultType{{Table: "loaf", Fields: []rules.Field{{Name: "crust", Kind: rules.Word, Words: []string{"thin", "thick"}, Required: true}}}},
	)
	require.NoError(t, err)
	set, err := rules.Load(files, schema)
	require.NoError(t, err)
	return set
}

func file(text string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(text)} }

func TestRecordReadsBackAsItWasWritten(t *testing.T) {
	set := load(t, fstest.MapFS{"loaf.yaml": file(loaf)})
	day := time.Date(2026, 11, 25, 17, 3, 0, 0, time.UTC)
	was := provenance.Of(set, provenance.Shipped, "v1.2.3", day)
	is, err := provenance.Parse(rules.BaseFile, was.Bytes())
	require.NoError(t, err)
	assert.Equal(t, was, is)
	assert.Equal(t, set.Hash(), is.Set)
	assert.Equal(t, "2026-11-25", is.Copied.Format("2006-01-02"))
}

func TestRecordIsNoPartOfTheSet(t *testing.T) {
	bare := load(t, fstest.MapFS{"loaf.yaml": file(loaf)})
	record := provenance.Of(bare, provenance.Shipped, "v1", time.Time{})
	with := load(t, fstest.MapFS{"loaf.yaml": file(loaf), rules.BaseFile: file(string(record.Bytes()))})
	assert.Equal(t, bare.Hash(), with.Hash())
	assert.Equal(t, bare.Files(), with.Files())
	assert.Empty(t, record.Changed(with))
}

func TestChangedNamesTheFilesThatDiffer(t *testing.T) {
	record := provenance.Of(load(t, fstest.MapFS{"loaf.yaml": file(loaf), "cases/a.yaml": file("table: loaf\ncases: []\n")}), provenance.Shipped, "v1", time.Time{})
	now := load(t, fstest.MapFS{"loaf.yaml": file("# ours\n" + loaf), "cases/b.yaml": file("table: loaf\ncases: []\n")})
	assert.Equal(t, []string{"cases/a.yaml", "cases/b.yaml", "loaf.yaml"}, record.Changed(now))
}

func TestParseSaysEverythingThatIsWrong(t *testing.T) {
	hash := strings.Repeat("a", 64)
	for _, c := range []struct{ name, src, want string }{
		{"no map", "- a\n", "the record of the base is a map, not"},
		{"no hash", "from: shipped\nset: abc\nversion: v1\ncopied: 2026-11-25\nfiles: {}\n", "2:6: this is no hash"},
		{"no day", "from: shipped\nset: " + hash + "\nversion: v1\ncopied: yesterday\nfiles: {}\n", "4:9: copied is a day; write it like 2026-11-25"},
		{"unknown source", "from: mars\nset: " + hash + "\nversion: v1\ncopied: 2026-11-25\nfiles: {}\n", "1:7: from is shipped"},
		{"something else", "from: shipped\nset: " + hash + "\nversion: v1\ncopied: 2026-11-25\nfiles: {}\nwho: me\n", "6:6: who is no part of the record"},
		{"nothing there", "from: shipped\n", "set is missing"},
		{"files that are no map", "from: shipped\nset: " + hash + "\nversion: v1\ncopied: 2026-11-25\nfiles: a\n", "5:8: files is a map"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := provenance.Parse("base.yaml", []byte(c.src))
			require.ErrorContains(t, err, c.want)
			var problems strictyaml.Problems
			require.ErrorAs(t, err, &problems)
		})
	}
}

func FuzzParse(f *testing.F) {
	f.Add([]byte("from: shipped\nset: \"" + strings.Repeat("0", 64) + "\"\nversion: \"v1\"\ncopied: 2026-11-25\nfiles:\n  \"a.yaml\": \"" + strings.Repeat("1", 64) + "\"\n"))
	f.Add([]byte("from: [a]\nfiles: {a: {}}\n"))
	f.Fuzz(func(t *testing.T, src []byte) {
		record, err := provenance.Parse("base.yaml", src)
		if err != nil {
			return
		}
		again, err := provenance.Parse("base.yaml", record.Bytes())
		require.NoError(t, err)
		require.Equal(t, record, again)
	})
}

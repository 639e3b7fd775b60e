package rulefolder_test

import (
	"io/fs"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules/shipped"
	"github.com/glossladder/glossladder/service/rulefolder"
)

func two() rulefolder.Files {
	return rulefolder.Files{"start.yaml": []byte("a"), "cases/start.yaml": []byte("b")}
}

func TestChangesAreRefusedUnlessTheirAuthorHadReadWhatIsThere(t *testing.T) {
	a, other := rulefolder.Etag([]byte("a")), rulefolder.Etag([]byte("x"))
	for _, c := range []struct {
		name   string
		change rulefolder.Change
		want   error
	}{
		{"the text that was read", rulefolder.Change{Name: "start.yaml", Etag: a, Text: []byte("c")}, nil},
		{"another text", rulefolder.Change{Name: "start.yaml", Etag: other, Text: []byte("c")}, &rulefolder.StaleError{Name: "start.yaml", Etag: a}},
		{"a new file", rulefolder.Change{Name: "limit.yaml", Text: []byte("c")}, nil},
		{"a new file where one is", rulefolder.Change{Name: "start.yaml", Text: []byte("c")}, &rulefolder.ExistsError{Name: "start.yaml", Etag: a}},
		{"a new file where one is in other letters", rulefolder.Change{Name: "Start.yaml", Text: []byte("c")}, &rulefolder.ExistsError{Name: "start.yaml", Etag: a}},
		{"a file that went away", rulefolder.Change{Name: "limit.yaml", Etag: other, Text: []byte("c")}, &rulefolder.NoFileError{Name: "limit.yaml"}},
		{"a slip in the name", rulefolder.Change{Name: "strat.yaml", Etag: a}, &rulefolder.NoFileError{Name: "strat.yaml", Near: "start.yaml"}},
		{"deleting", rulefolder.Change{Name: "start.yaml", Etag: a, Delete: true}, nil},
		{"deleting another text", rulefolder.Change{Name: "start.yaml", Etag: other, Delete: true}, &rulefolder.StaleError{Name: "start.yaml", Etag: a}},
		{"deleting nothing", rulefolder.Change{Name: "limit.yaml", Delete: true}, &rulefolder.NoFileError{Name: "limit.yaml"}},
		{"out of the folder", rulefolder.Change{Name: "../limit.yaml", Text: []byte("c")}, &rulefolder.NameError{Name: "../limit.yaml"}},
		{"hidden", rulefolder.Change{Name: ".limit.yaml", Text: []byte("c")}, &rulefolder.NameError{Name: ".limit.yaml"}},
		{"another ending", rulefolder.Change{Name: "limit.yml", Text: []byte("c")}, &rulefolder.NameError{Name: "limit.yml"}},
		{"deeper", rulefolder.Change{Name: "cases/a/b.yaml", Text: []byte("c")}, &rulefolder.NameError{Name: "cases/a/b.yaml"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			now := two()
			next, err := now.Apply([]rulefolder.Change{c.change}, "")
			assert.Equal(t, two(), now, "what is there stays as it is")
			if c.want != nil {
				require.Equal(t, c.want, err)
				assert.Nil(t, next)
				return
			}
			require.NoError(t, err)
			assert.Equal(t, []string{c.change.Name}, next.Differing(now))
		})
	}
}

func TestAnEditOfAllFilesNeedsAllOfThemAsTheyWereRead(t *testing.T) {
	change := []rulefolder.Change{{Name: "limit.yaml", Text: []byte("c")}}
	next, err := two().Apply(change, two().Etag())
	require.NoError(t, err)
	_, err = next.Apply([]rulefolder.Change{{Name: "policy.yaml", Text: []byte("c")}}, two().Etag())
	require.Equal(t, &rulefolder.StaleError{Etag: next.Etag()}, err)
	_, err = two().Apply(append(change, change...), "")
	require.Equal(t, &rulefolder.NameError{Name: "limit.yaml", Twice: true}, err)
}

func TestFilesReadBackWhatAFolderHolds(t *testing.T) {
	files, err := rulefolder.Read(shipped.Files())
	require.NoError(t, err)
	again, err := rulefolder.Read(files.FS())
	require.NoError(t, err)
	assert.Equal(t, files, again)
	assert.Equal(t, files.Etag(), again.Etag())
	text, err := fs.ReadFile(shipped.Files(), "cases/start.yaml")
	require.NoError(t, err)
	assert.Equal(t, text, files["cases/start.yaml"])
}

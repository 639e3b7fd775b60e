package rulefolder_test

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strconv"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/rulefolder"
)

func folder(t *testing.T) rulefolder.Folder {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, os.CopyFS(dir, two().FS()))
	return rulefolder.Folder(dir)
}

func read(t *testing.T, f rulefolder.Folder) rulefolder.Files {
	t.Helper()
	files, err := rulefolder.Read(f.FS())
	require.NoError(t, err)
	return files
}

func TestAnEditOfSeveralFilesIsDoneAndLeavesNothingElse(t *testing.T) {
	f := folder(t)
	err := f.Edit(context.Background(), func(now rulefolder.Files) ([]rulefolder.Change, error) {
		assert.Equal(t, two(), now)
		return []rulefolder.Change{
			{Name: "start.yaml", Text: []byte("new")}, {Name: "cases/start.yaml", Delete: true}, {Name: "cases/limit.yaml", Text: []byte("more")},
		}, nil
	})
	require.NoError(t, err)
	assert.Equal(t, rulefolder.Files{"start.yaml": []byte("new"), "cases/limit.yaml": []byte("more")}, read(t, f))
	entries, err := os.ReadDir(string(f))
	require.NoError(t, err)
	assert.Len(t, entries, 2, "no journal and no draft stays behind: %v", entries)
}

func TestAnEditThatIsGivenUpWritesNothing(t *testing.T) {
	f := folder(t)
	refused := errors.New("refused")
	err := f.Edit(context.Background(), func(rulefolder.Files) ([]rulefolder.Change, error) {
		return []rulefolder.Change{{Name: "start.yaml", Text: []byte("new")}}, refused
	})
	require.ErrorIs(t, err, refused)
	assert.Equal(t, two(), read(t, f))
}

func TestManyEditorsAtOnceLoseNoEdit(t *testing.T) {
	f := folder(t)
	require.NoError(t, os.WriteFile(filepath.Join(string(f), "start.yaml"), []byte("0"), 0o600))
	var wait sync.WaitGroup
	for range 8 {
		wait.Go(func() {
			for range 10 {
				err := f.Edit(context.Background(), func(now rulefolder.Files) ([]rulefolder.Change, error) {
					n, err := strconv.Atoi(string(now["start.yaml"]))
					next := []byte(strconv.Itoa(n + 1))
					return []rulefolder.Change{{Name: "start.yaml", Text: next}, {Name: "cases/start.yaml", Text: next}}, err
				})
				assert.NoError(t, err)
			}
		})
	}
	wait.Wait()
	assert.Equal(t, rulefolder.Files{"start.yaml": []byte("80"), "cases/start.yaml": []byte("80")}, read(t, f))
}

func TestWhatBeginsWithADotIsNoPartOfTheFolder(t *testing.T) {
	f := folder(t)
	for _, own := range []string{".start.yaml.swp", ".git/config"} {
		path := filepath.Join(string(f), own)
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o700))
		require.NoError(t, os.WriteFile(path, []byte("x"), 0o600))
	}
	assert.Equal(t, two(), read(t, f))
}

func TestAFolderThatCannotBeWrittenSaysSo(t *testing.T) {
	f := rulefolder.Folder(filepath.Join(t.TempDir(), "gone"))
	err := f.Edit(context.Background(), func(rulefolder.Files) ([]rulefolder.Change, error) { return nil, nil })
	var refused *rulefolder.WriteError
	require.ErrorAs(t, err, &refused)
	assert.ErrorContains(t, err, "gone cannot be written to")
}

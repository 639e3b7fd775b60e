package rulefolder

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/durable"
)

// cutShort leaves a folder as a crash does: everything is prepared, and so many of the moves are done.
func cutShort(t *testing.T, done int) (f Folder, before, after Files) {
	t.Helper()
	before = Files{"a.yaml": []byte("a"), "b.yaml": []byte("b"), "cases/c.yaml": []byte("c")}
	f = Folder(t.TempDir())
	require.NoError(t, os.CopyFS(string(f), before.FS()))
	for name := range before {
		require.NoError(t, os.Chmod(f.path(name), 0o600))
	}
	changes := []Change{
		{Name: "a.yaml", Etag: Etag(before["a.yaml"]), Text: []byte("A")},
		{Name: "b.yaml", Etag: Etag(before["b.yaml"]), Delete: true},
		{Name: "cases/d.yaml", Text: []byte("D")},
	}
	after, err := before.Apply(changes, "")
	require.NoError(t, err)
	moves, _, err := f.prepare(before, changes)
	require.NoError(t, err)
	text, err := json.Marshal(moves)
	require.NoError(t, err)
	require.NoError(t, durable.WriteFile(f.path(journalName), text, 0o600))
	for _, m := range moves[:done] {
		require.NoError(t, f.do(m))
	}
	return f, before, after
}

func TestAnEditThatACrashCutShortIsEnded(t *testing.T) {
	for done := range 4 {
		t.Run(fmt.Sprintf("after %d of 3 files", done), func(t *testing.T) {
			f, _, after := cutShort(t, done)
			stuck, err := f.Mend(context.Background())
			require.NoError(t, err)
			assert.Empty(t, stuck)
			now, err := Read(os.DirFS(string(f)))
			require.NoError(t, err)
			assert.Equal(t, after, now, "all of it, and no journal or draft")
			stuck, err = f.Mend(context.Background())
			require.NoError(t, err)
			assert.Empty(t, stuck, "there is nothing left to do")
		})
	}
}

func TestTheNextEditSeesTheOneBeforeItEnded(t *testing.T) {
	f, _, after := cutShort(t, 1)
	require.NoError(t, f.Edit(context.Background(), func(now Files) ([]Change, error) {
		assert.Equal(t, after, now)
		return nil, nil
	}))
}

func TestWhatAPersonChangedAfterACrashIsNotUndone(t *testing.T) {
	f, _, _ := cutShort(t, 1)
	require.NoError(t, os.WriteFile(f.path("b.yaml"), []byte("mine"), 0o600))
	stuck, err := f.Mend(context.Background())
	require.NoError(t, err)
	assert.Equal(t, "b.yaml", stuck)
	now, err := Read(os.DirFS(string(f)))
	require.NoError(t, err)
	assert.Equal(t, Files{"a.yaml": []byte("A"), "b.yaml": []byte("mine"), "cases/c.yaml": []byte("c")}, now)
}

func TestDraftsThatBelongToNoEditGo(t *testing.T) {
	f, before, _ := cutShort(t, 0)
	require.NoError(t, os.Remove(f.path(journalName)))
	require.NoError(t, f.Edit(context.Background(), func(now Files) ([]Change, error) {
		assert.Equal(t, before, now)
		return nil, nil
	}))
	now, err := Read(os.DirFS(string(f)))
	require.NoError(t, err)
	assert.Equal(t, before, now)
}

func TestAJournalCannotReachOutOfItsFolder(t *testing.T) {
	outside := filepath.Join(t.TempDir(), "precious")
	require.NoError(t, os.WriteFile(outside, []byte("x"), 0o600))
	f := Folder(t.TempDir())
	name, err := filepath.Rel(string(f), outside)
	require.NoError(t, err)
	for _, m := range []move{{Name: name, Was: Etag([]byte("x"))}, {Name: "a.yaml", Draft: name, Is: "y"}, {Name: "a.yaml", Draft: "b.yaml", Is: "y"}} {
		text, err := json.Marshal([]move{m})
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(f.path(journalName), text, 0o600))
		_, err = f.Mend(context.Background())
		require.ErrorContains(t, err, "no journal")
	}
	assert.FileExists(t, outside)
}

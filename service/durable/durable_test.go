package durable_test

import (
	"context"
	"os"
	"path/filepath"
	"sync"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/durable"
)

func names(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	out := []string{}
	for _, entry := range entries {
		out = append(out, entry.Name())
	}
	return out
}

func TestAFileIsWrittenWholeAndKeepsItsPermissions(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.yaml")
	require.NoError(t, os.WriteFile(path, []byte("old"), 0o640))
	require.NoError(t, durable.WriteFile(path, []byte("new"), 0o600))
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, "new", string(text))
	info, err := os.Stat(path)
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o640), info.Mode().Perm())
	assert.Equal(t, []string{"a.yaml"}, names(t, dir), "nothing else is left")
}

func TestADraftChangesNothingUntilItIsCommitted(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.yaml")
	require.NoError(t, os.WriteFile(path, []byte("old"), 0o600))
	draft, err := durable.Prepare(path, []byte("new"), 0o600)
	require.NoError(t, err)
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, "old", string(text))
	require.NoError(t, draft.Discard())
	require.NoError(t, draft.Discard(), "twice is harmless")
	assert.Equal(t, []string{"a.yaml"}, names(t, dir))
}

func TestALinkIsNotReplacedByAFile(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "real"), []byte("old"), 0o600))
	require.NoError(t, os.Symlink("real", filepath.Join(dir, "link")))
	require.ErrorContains(t, durable.WriteFile(filepath.Join(dir, "link"), []byte("new"), 0o600), "edit what it points to")
}

func TestSweepTakesAwayOnlyWhatACrashLeft(t *testing.T) {
	dir := t.TempDir()
	_, err := durable.Prepare(filepath.Join(dir, "a.yaml"), []byte("new"), 0o600)
	require.NoError(t, err)
	_, err = durable.MakeDir(filepath.Join(dir, "set"))
	require.NoError(t, err)
	for _, own := range []string{".git", "a.yaml"} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, own), nil, 0o600))
	}
	require.Len(t, names(t, dir), 4)
	require.NoError(t, durable.Sweep(dir))
	assert.Equal(t, []string{".git", "a.yaml"}, names(t, dir))
}

func TestOnlyOneHoldsALockAndWaitingEndsWithTheContext(t *testing.T) {
	dir := t.TempDir()
	var inside, most atomic.Int32
	var wait sync.WaitGroup
	for range 16 {
		wait.Go(func() {
			unlock, err := durable.Lock(context.Background(), dir)
			if !assert.NoError(t, err) {
				return
			}
			if now := inside.Add(1); now > most.Load() {
				most.Store(now)
			}
			inside.Add(-1)
			assert.NoError(t, unlock())
		})
	}
	wait.Wait()
	assert.Equal(t, int32(1), most.Load())

	unlock, err := durable.Lock(context.Background(), dir)
	require.NoError(t, err)
	ended, cancel := context.WithCancel(context.Background())
	cancel()
	_, err = durable.Lock(ended, dir)
	require.ErrorIs(t, err, context.Canceled)
	assert.ErrorContains(t, err, dir)
	require.NoError(t, unlock())
	assert.Empty(t, names(t, dir), "a lock leaves nothing behind")
}

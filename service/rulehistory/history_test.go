package rulehistory_test

import (
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/rulehistory"
)

func set(text string) map[string][]byte {
	return map[string][]byte{"start.yaml": []byte(text), "cases/start.yaml": []byte("case")}
}

func numbers(t *testing.T, h *rulehistory.History, before int) []int {
	t.Helper()
	var out []int
	for e, err := range h.Entries(before) {
		require.NoError(t, err)
		out = append(out, e.Number)
	}
	return out
}

func TestASetComesBackWholeByItsHashOrTheBeginningOfIt(t *testing.T) {
	h := rulehistory.At(filepath.Join(t.TempDir(), "not", "there", "yet"))
	hash, err := h.Keep(set("a"))
	require.NoError(t, err)
	assert.Equal(t, rules.HashOf(set("a")), hash)
	again, err := h.Keep(set("a"))
	require.NoError(t, err)
	assert.Equal(t, hash, again, "keeping twice is harmless")
	for _, name := range []string{hash, hash[:8]} {
		found, files, err := h.Files(name)
		require.NoError(t, err)
		assert.Equal(t, hash, found)
		assert.Equal(t, set("a"), files)
	}
	for _, unknown := range []string{"", "ffffffff", "../sets", "."} {
		_, _, err := h.Files(unknown)
		var none *rulehistory.NoSetError
		require.ErrorAs(t, err, &none, unknown)
	}
}

func TestABeginningThatFitsSeveralSetsIsAmbiguous(t *testing.T) {
	h := rulehistory.At(t.TempDir())
	byFirst := map[byte]bool{}
	for i := 0; ; i++ {
		hash, err := h.Keep(set(fmt.Sprint(i)))
		require.NoError(t, err)
		if byFirst[hash[0]] {
			_, _, err := h.Files(hash[:1])
			require.ErrorIs(t, err, rulehistory.ErrAmbiguous)
			return
		}
		byFirst[hash[0]] = true
	}
}

func TestADamagedSetIsToldAndKeptAnew(t *testing.T) {
	dir := t.TempDir()
	h := rulehistory.At(dir)
	hash, err := h.Keep(set("a"))
	require.NoError(t, err)
	file := filepath.Join(dir, "sets", hash, "start.yaml")
	require.NoError(t, os.Remove(file))
	_, _, err = h.Files(hash)
	require.Equal(t, &rulehistory.DamagedError{RuleSet: hash}, err)
	require.NoError(t, os.WriteFile(file, []byte("b"), 0o600))
	_, _, err = h.Files(hash)
	require.Equal(t, &rulehistory.DamagedError{RuleSet: hash}, err)

	_, err = h.Keep(set("a"))
	require.NoError(t, err)
	_, files, err := h.Files(hash)
	require.NoError(t, err)
	assert.Equal(t, set("a"), files)
}

func TestEntriesComeNewestFirstWhateverTheClockSaid(t *testing.T) {
	h := rulehistory.At(t.TempDir())
	assert.Empty(t, numbers(t, h, 0), "a history that is not there is empty")
	noon := time.Date(2026, 11, 25, 12, 0, 0, 0, time.FixedZone("", 3600))
	for i, folder := range []string{"/a", "/b", "/a"} {
		_, err := h.Add(rulehistory.Entry{RuleSet: fmt.Sprint(i), Folder: folder, Way: rulehistory.Reload, At: noon.Add(-time.Duration(i) * time.Hour), Changed: []string{"start.yaml"}})
		require.NoError(t, err)
	}
	assert.Equal(t, []int{3, 2, 1}, numbers(t, h, 0))
	assert.Equal(t, []int{1}, numbers(t, h, 2))
	last, found, err := h.Last("/a")
	require.NoError(t, err)
	require.True(t, found)
	assert.True(t, noon.Add(-2*time.Hour).Equal(last.At))
	last.At = time.Time{}
	assert.Equal(t, rulehistory.Entry{Number: 3, RuleSet: "2", Folder: "/a", Way: rulehistory.Reload, Changed: []string{"start.yaml"}}, last)
	_, found, err = h.Last("/A")
	require.NoError(t, err)
	assert.False(t, found, "letter case tells folders apart")
}

func TestAnEntryCutShortIsNotThere(t *testing.T) {
	dir := t.TempDir()
	h := rulehistory.At(dir)
	_, err := h.Add(rulehistory.Entry{RuleSet: "a"})
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "entries", "000000000002.json"), []byte(`{"rule_se`), 0o600))
	assert.Equal(t, []int{1}, numbers(t, h, 0))
	next, err := h.Add(rulehistory.Entry{RuleSet: "b"})
	require.NoError(t, err)
	assert.Equal(t, 3, next.Number)
}

func TestManyWritersLoseNothing(t *testing.T) {
	dir := t.TempDir()
	var wait sync.WaitGroup
	for writer := range 10 {
		wait.Go(func() {
			h := rulehistory.At(dir) // each as a process of its own
			for i := range 5 {
				hash, err := h.Keep(set(fmt.Sprint(i)))
				assert.NoError(t, err)
				_, err = h.Add(rulehistory.Entry{RuleSet: hash, Folder: fmt.Sprint(writer)})
				assert.NoError(t, err)
			}
		})
	}
	wait.Wait()
	h := rulehistory.At(dir)
	perFolder := map[string]int{}
	for e, err := range h.Entries(0) {
		require.NoError(t, err)
		perFolder[e.Folder]++
		_, files, err := h.Files(e.RuleSet)
		require.NoError(t, err)
		assert.Len(t, files, 2)
	}
	assert.Len(t, perFolder, 10)
	for folder, n := range perFolder {
		assert.Equal(t, 5, n, folder)
	}
	sets, err := os.ReadDir(filepath.Join(dir, "sets"))
	require.NoError(t, err)
	assert.Len(t, sets, 5, "no draft is left: %v", sets)
}

package app

import (
	"bytes"
	"log/slog"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/rulehistory"
)

// service opens the rules as a service does, and collects its log.
func service(t *testing.T, dir, state string) (*rulebook, *bytes.Buffer, *[]bool, error) {
	t.Helper()
	var log bytes.Buffer
	told := []bool{}
	book, err := openRulebook(rulebookOptions{
		dir: dir, history: rulehistory.At(state), serving: true, log: slog.New(slog.NewTextHandler(&log, nil)),
		onEdit: func(good bool) { told = append(told, good) },
	})
	return book, &log, &told, err
}

func entries(t *testing.T, book *rulebook) []rulehistory.Entry {
	t.Helper()
	var all []rulehistory.Entry
	for e, err := range book.History(0) {
		require.NoError(t, err)
		all = append(all, e)
	}
	return all
}

func TestAServiceWhoseFolderBrokeStartsOnTheLastGoodSetAndSaysSo(t *testing.T) {
	dir, state := shopFolder(t), t.TempDir()
	book, _, _, err := service(t, dir, state)
	require.NoError(t, err)
	edit(t, dir, "start.yaml", softRule, shopsWords)
	require.Empty(t, book.Reload().Problems)
	good := book.Status().RuleSet
	edit(t, dir, "start.yaml", "paint.softness", "paint.sofness")
	require.NotEmpty(t, book.Reload().Problems)
	wrong := book.Status().WrongSince

	again, log, told, err := service(t, dir, state)
	require.NoError(t, err)
	status := again.Status()
	assert.Equal(t, good, status.RuleSet, "the edit before the bad one decides")
	assert.Equal(t, good, again.InForce().Advisor.RuleSet())
	assert.Equal(t, rulehistory.LastGood, status.Way)
	require.NotEmpty(t, status.Problems)
	assert.Equal(t, "start.yaml", status.Problems[0].File)
	assert.Equal(t, status.Problems[0].Error(), status.LastReason)
	assert.True(t, wrong.Equal(status.WrongSince), "since the bad edit, not since the start: %v, %v", wrong, status.WrongSince)
	assert.Zero(t, status.LastSuccess)
	assert.Equal(t, []bool{false}, *told)
	assert.Contains(t, log.String(), "level=ERROR")
	assert.Contains(t, log.String(), "starts on the last set")

	again.look(time.Unix(2_000, 0))
	again.look(time.Unix(2_001, 0))
	assert.Equal(t, []bool{false}, *told, "files that were refused are refused once")
	edit(t, dir, "start.yaml", "paint.sofness", "paint.softness")
	require.Empty(t, again.Reload().Problems)
	assert.Equal(t, []bool{false, true}, *told)
	status = again.Status()
	assert.Equal(t, good, status.RuleSet)
	assert.Zero(t, status.WrongSince)
	assert.NotZero(t, status.LastSuccess)
	assert.NotEmpty(t, status.LastReason, "what was wrong last stays to be read")

	_, _, told, err = service(t, dir, state)
	require.NoError(t, err)
	assert.Empty(t, *told, "an ordinary start")
}

func TestAFirstStartOnABrokenFolderIsRefused(t *testing.T) {
	dir, state := shopFolder(t), t.TempDir()
	edit(t, dir, "start.yaml", "paint.softness", "paint.sofness")
	_, _, _, err := service(t, dir, state)
	var problems rules.Problems
	require.ErrorAs(t, err, &problems)

	// The last good set of another folder is none of this one.
	_, _, _, err = service(t, shopFolder(t), state)
	require.NoError(t, err)
	_, _, _, err = service(t, dir, state)
	require.ErrorAs(t, err, &problems)
}

func TestAHistoryThatWasTamperedWithIsNoFallback(t *testing.T) {
	dir, state := shopFolder(t), t.TempDir()
	book, _, _, err := service(t, dir, state)
	require.NoError(t, err)
	kept := filepath.Join(state, "sets", book.Status().RuleSet, "limit.yaml")
	require.NoError(t, os.Chmod(kept, 0o600))
	require.NoError(t, os.WriteFile(kept, []byte("table: limit\n"), 0o600))
	edit(t, dir, "start.yaml", "paint.softness", "paint.sofness")
	_, log, _, err := service(t, dir, state)
	var problems rules.Problems
	require.ErrorAs(t, err, &problems)
	assert.Contains(t, log.String(), "have been changed or lost")
}

func TestOneShotUsesLeaveNoTraceAndDoNotFallBack(t *testing.T) {
	dir, state := shopFolder(t), t.TempDir()
	oneShot := rulebookOptions{dir: dir, history: rulehistory.At(state), log: slog.New(slog.DiscardHandler), onEdit: func(bool) {}}
	book, err := openRulebook(oneShot)
	require.NoError(t, err)
	assert.Empty(t, entries(t, book))
	_, _, _, err = service(t, dir, state)
	require.NoError(t, err)
	edit(t, dir, "start.yaml", "paint.softness", "paint.sofness")
	_, err = openRulebook(oneShot)
	require.Error(t, err)
}

func TestTheHistoryTellsHowEachSetCameIntoForceAndWhatChanged(t *testing.T) {
	dir, state := shopFolder(t), t.TempDir()
	book, _, _, err := service(t, dir, state)
	require.NoError(t, err)
	first := book.Status().RuleSet
	edit(t, dir, "start.yaml", softRule, shopsWords)
	require.True(t, book.Reload().Changed)
	require.False(t, book.Reload().Changed, "nothing new")
	edit(t, dir, "start.yaml", shopsWords, softRule)
	require.True(t, book.Reload().Changed)
	edit(t, dir, "limit.yaml", "#", "# ")
	_, _, _, err = service(t, dir, state)
	require.NoError(t, err)

	var told []rulehistory.Entry
	for _, e := range entries(t, book) {
		assert.Equal(t, book.place, e.Folder)
		assert.NotZero(t, e.At)
		_, files, err := book.Archived(e.RuleSet[:10])
		require.NoError(t, err)
		assert.Equal(t, e.RuleSet, rules.HashOf(files))
		told = append(told, rulehistory.Entry{Way: e.Way, Changed: e.Changed})
	}
	assert.Equal(t, []rulehistory.Entry{
		{Way: rulehistory.Start, Changed: []string{"limit.yaml"}},
		{Way: rulehistory.Reload, Changed: []string{"start.yaml"}},
		{Way: rulehistory.Reload, Changed: []string{"start.yaml"}},
		{Way: rulehistory.Start},
	}, told)
	assert.Equal(t, first, entries(t, book)[1].RuleSet, "a set that comes back stands there twice")
}

func TestAHistoryThatCannotBeWrittenDoesNotStopTheServiceAndIsTold(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	book, log, _, err := service(t, shopFolder(t), file)
	require.NoError(t, err)
	assert.NotNil(t, book.InForce())
	assert.NotEmpty(t, book.Status().HistoryProblem)
	assert.Contains(t, log.String(), "not in the history")
}

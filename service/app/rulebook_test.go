package app

import (
	"context"
	"log/slog"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules/shipped"
	"github.com/glossladder/glossladder/service/rpc"
	"github.com/glossladder/glossladder/service/rulehistory"
)

// shopFolder is a folder with the shipped rules, to be edited.
func shopFolder(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, os.CopyFS(dir, shipped.Files()))
	return dir
}

func edit(t *testing.T, dir, file, old, with string) {
	t.Helper()
	path := filepath.Join(dir, file)
	require.NoError(t, os.Chmod(path, 0o644))
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Contains(t, string(text), old)
	require.NoError(t, os.WriteFile(path, []byte(strings.Replace(string(text), old, with, 1)), 0o644))
}

const (
	softRule   = "Soft paint corrects with little and hazes with little. The mildest step has a fair chance."
	shopsWords = "Our shop has seen that this paint gives readily."
)

func open(t *testing.T, dir string) (*rulebook, *[]bool) {
	t.Helper()
	var told []bool
	book, err := openRulebook(rulebookOptions{
		dir: dir, history: rulehistory.At(t.TempDir()), serving: true, log: slog.New(slog.DiscardHandler),
		onEdit: func(good bool) { told = append(told, good) },
	})
	require.NoError(t, err)
	return book, &told
}

func TestAnEditIsTakenUpOnceItHasSettled(t *testing.T) {
	dir := shopFolder(t)
	book, told := open(t, dir)
	first := book.Status().RuleSet
	at := time.Unix(1_000, 0)

	edit(t, dir, "start.yaml", softRule, shopsWords)
	book.look(at)
	assert.Equal(t, first, book.Status().RuleSet, "one look may fall between two writes")
	book.look(at.Add(time.Second))
	status := book.Status()
	assert.NotEqual(t, first, status.RuleSet)
	assert.Equal(t, status.RuleSet, book.InForce().Advisor.RuleSet())
	assert.Equal(t, at.Add(time.Second), status.Since)
	assert.Equal(t, []bool{true}, *told)

	book.look(at.Add(2 * time.Second))
	assert.Equal(t, []bool{true}, *told, "nothing changed, so nothing is told")
}

func TestABadEditLeavesTheLastGoodSetInForceAndSaysWhySince(t *testing.T) {
	dir := shopFolder(t)
	book, told := open(t, dir)
	first := book.Status()
	at := time.Unix(1_000, 0)
	edit(t, dir, "start.yaml", "paint.softness", "paint.sofness")
	book.look(at)
	book.look(at.Add(time.Second))
	book.look(at.Add(2 * time.Second))

	status := book.Status()
	assert.Equal(t, first.RuleSet, status.RuleSet)
	assert.Equal(t, first.Since, status.Since)
	assert.Equal(t, at.Add(time.Second), status.WrongSince)
	require.NotEmpty(t, status.Problems)
	assert.Equal(t, "start.yaml", status.Problems[0].File)
	assert.Equal(t, []bool{false}, *told, "told once")
	_, err := openRulebook(rulebookOptions{dir: dir, log: slog.New(slog.DiscardHandler), onEdit: func(bool) {}})
	require.Error(t, err, "a start refuses what a reload refuses")

	edit(t, dir, "start.yaml", "paint.sofness", "paint.softness")
	book.look(at.Add(3 * time.Second))
	book.look(at.Add(4 * time.Second))
	status = book.Status()
	assert.Empty(t, status.Problems)
	assert.Zero(t, status.WrongSince)
	assert.Equal(t, first.Since, status.Since, "the same set was in force all the time")
	assert.Equal(t, []bool{false, true}, *told)
}

func TestAFolderThatGoesAwayIsABadEdit(t *testing.T) {
	dir := shopFolder(t)
	book, _ := open(t, dir)
	require.NoError(t, os.RemoveAll(dir))
	at := time.Unix(1_000, 0)
	book.look(at)
	book.look(at.Add(time.Second))
	require.NotEmpty(t, book.Status().Problems)
	assert.NotNil(t, book.InForce())
}

// Two thousand calls while the rules are taken up a hundred times (fewer in short runs): every answer carries the hash of a set that really was in
// force, and the words of that very set.
func TestCallsDuringReloadsNeverSeeAMixedOrMissingSet(t *testing.T) {
	calls, reloads := 500, 100
	if testing.Short() {
		calls, reloads = 100, 10
	}
	dir := shopFolder(t)
	book, _ := open(t, dir)
	words := map[string]string{book.Status().RuleSet: softRule}
	server := rpc.NewAdvisorServer(book)
	done := make(chan struct{})
	var wait sync.WaitGroup
	type seen struct{ set, because string }
	answers := make([][]seen, 4)
	for worker := range answers {
		wait.Go(func() {
			for range calls {
				resp, err := server.Recommend(context.Background(), &glossladderv1.RecommendRequest{Inspection: softInspection()})
				if !assert.NoError(t, err) {
					return
				}
				r := resp.GetRecommendation()
				answers[worker] = append(answers[worker], seen{r.GetRuleSet(), r.GetPanels()[0].GetDefects()[0].GetReason().GetBecause()})
			}
		})
	}
	go func() { wait.Wait(); close(done) }()
	at := time.Unix(1_000, 0)
	for i := range reloads {
		if i%2 == 0 {
			edit(t, dir, "start.yaml", softRule, shopsWords)
		} else {
			edit(t, dir, "start.yaml", shopsWords, softRule)
		}
		book.look(at)
		book.look(at)
		words[book.Status().RuleSet] = map[bool]string{true: shopsWords, false: softRule}[i%2 == 0]
	}
	<-done
	require.Len(t, words, 2)
	entries := 0
	for entry, err := range book.History(0) {
		require.NoError(t, err)
		require.Contains(t, words, entry.RuleSet)
		entries++
	}
	assert.Equal(t, reloads+1, entries, "the start and every reload are in the history")
	for _, worker := range answers {
		require.Len(t, worker, calls)
		for _, answer := range worker {
			require.Equal(t, words[answer.set], answer.because)
		}
	}
}

// softInspection has everything measured, so that calls are cheap and many fall between two reloads.
func softInspection() *glossladderv1.Inspection {
	number := func(v float64) *float64 { return &v }
	yes, no := true, false
	return &glossladderv1.Inspection{
		Goal:    &glossladderv1.Goal{Level: glossladderv1.GoalLevel_GOAL_LEVEL_CORRECT, Protection: glossladderv1.Protection_PROTECTION_WAX},
		Climate: &glossladderv1.Climate{AirC: number(21), HumidityPct: number(50), PanelC: number(22)},
		Panels: []*glossladderv1.Panel{{
			Id: "bonnet", Substrate: glossladderv1.Substrate_SUBSTRATE_STEEL, Clean: &yes, Taped: &yes, InSun: &no, RepaintKnown: &no,
			SensorBehind: &no, EdgeOrLine: &no,
			Paint: &glossladderv1.Paint{
				System: glossladderv1.PaintSystem_PAINT_SYSTEM_CLEAR_COAT, Softness: glossladderv1.Softness_SOFTNESS_SOFT,
				Shade: glossladderv1.Shade_SHADE_DARK, HazeProne: &no, AgeYears: number(5),
			},
			Film:    []*glossladderv1.FilmSpot{{Spot: "centre", TotalUm: []float64{124, 125, 123}}},
			Gloss:   []*glossladderv1.GlossSpot{{Spot: "a", At60Gu: []float64{84, 85}, At20Gu: []float64{74, 75}}},
			Defects: []*glossladderv1.Defect{{Kind: glossladderv1.DefectKind_DEFECT_KIND_WASH_MARKS, Severity: number(2)}},
		}},
	}
}

package app_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/types/known/fieldmaskpb"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules/shipped"
	"github.com/glossladder/glossladder/service/app"
)

const (
	shippedWords = "Soft paint corrects with little and hazes with little. The mildest step has a fair chance."
	otherWords   = "Our shop has seen that this paint gives readily."
)

// shop serves a folder with the shipped rules.
func shop(t *testing.T) (client glossladderv1.RulesServiceClient, dir string) {
	t.Helper()
	dir = t.TempDir()
	require.NoError(t, os.CopyFS(dir, shipped.Files()))
	return glossladderv1.NewRulesServiceClient(dial(t, app.Options{RulesDir: dir, StateDir: t.TempDir()})), dir
}

func get(t *testing.T, client glossladderv1.RulesServiceClient, name string) *glossladderv1.RuleFile {
	t.Helper()
	file, err := client.GetRuleFile(context.Background(), &glossladderv1.GetRuleFileRequest{Name: name})
	require.NoError(t, err)
	return file
}

// onDisk is everything in the folder, hidden or not.
func onDisk(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(path string, entry os.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		text, err := os.ReadFile(path)
		out[strings.TrimPrefix(path, dir+"/")] = string(text)
		return err
	}))
	return out
}

func inForce(t *testing.T, client glossladderv1.RulesServiceClient) *glossladderv1.GetRulesStatusResponse {
	t.Helper()
	answer, err := client.GetRulesStatus(context.Background(), &glossladderv1.GetRulesStatusRequest{})
	require.NoError(t, err)
	return answer
}

func TestAFileIsReadEditedAndInForceAtOnce(t *testing.T) {
	client, dir := shop(t)
	file := get(t, client, "start.yaml")
	assert.Contains(t, file.GetText(), "# start: ", "comments are part of the text")
	file.Text = strings.Replace(file.GetText(), shippedWords, otherWords, 1)

	tried, err := client.UpdateRuleFile(context.Background(), &glossladderv1.UpdateRuleFileRequest{File: file, ValidateOnly: true})
	require.NoError(t, err)
	assert.True(t, tried.GetValidatedOnly())
	assert.NotEqual(t, tried.GetRuleSet(), inForce(t, client).GetRuleSet(), "trying puts nothing in force")
	assert.NotContains(t, onDisk(t, dir)["start.yaml"], otherWords)

	done, err := client.UpdateRuleFile(context.Background(), &glossladderv1.UpdateRuleFileRequest{File: file})
	require.NoError(t, err)
	assert.Equal(t, tried.GetRuleSet(), done.GetRuleSet())
	assert.Equal(t, file.GetText(), onDisk(t, dir)["start.yaml"], "to the byte")
	now := inForce(t, client)
	assert.Equal(t, done.GetRuleSet(), now.GetRuleSet())
	assert.Equal(t, glossladderv1.RuleSetWay_RULE_SET_WAY_UPDATE, now.GetWay())
	require.Len(t, done.GetFiles(), 1)
	assert.Equal(t, get(t, client, "start.yaml").GetEtag(), done.GetFiles()[0].GetEtag(), "the new etag leads on")
	rule, err := client.GetRule(context.Background(), &glossladderv1.GetRuleRequest{Table: "start", RuleId: "soft-paint-starts-mild"})
	require.NoError(t, err)
	assert.Equal(t, otherWords, rule.GetBecause())
}

func TestASecondEditorIsToldAndLosesNothing(t *testing.T) {
	client, dir := shop(t)
	mine, theirs := get(t, client, "start.yaml"), get(t, client, "start.yaml")
	mine.Text = strings.Replace(mine.GetText(), shippedWords, otherWords, 1)
	_, err := client.UpdateRuleFile(context.Background(), &glossladderv1.UpdateRuleFileRequest{File: mine})
	require.NoError(t, err)
	theirs.Text += "# theirs\n"
	_, err = client.UpdateRuleFile(context.Background(), &glossladderv1.UpdateRuleFileRequest{File: theirs})
	assert.Equal(t, codes.Aborted, status.Code(err))
	assert.Contains(t, status.Convert(err).Message(), "read it again")
	assert.Equal(t, get(t, client, "start.yaml").GetEtag(), reason(t, err).GetMetadata()["etag"])
	assert.Equal(t, mine.GetText(), onDisk(t, dir)["start.yaml"])

	// Somebody at the folder itself counts as well.
	file := get(t, client, "limit.yaml")
	require.NoError(t, os.WriteFile(filepath.Join(dir, "limit.yaml"), []byte(file.GetText()+"# by hand\n"), 0o600))
	file.Text += "# by call\n"
	_, err = client.UpdateRuleFile(context.Background(), &glossladderv1.UpdateRuleFileRequest{File: file})
	assert.Equal(t, codes.Aborted, status.Code(err))
	file.Etag = ""
	_, err = client.UpdateRuleFile(context.Background(), &glossladderv1.UpdateRuleFileRequest{File: file})
	assert.Equal(t, codes.InvalidArgument, status.Code(err))
	assert.Contains(t, violations(t, err)["file.etag"], "nobody else's edit is lost")
}

func reason(t *testing.T, err error) *errdetails.ErrorInfo {
	t.Helper()
	require.Len(t, status.Convert(err).Details(), 1)
	info, ok := status.Convert(err).Details()[0].(*errdetails.ErrorInfo)
	require.True(t, ok)
	return info
}

func TestManyEditorsAtOnceLoseNoEdit(t *testing.T) {
	client, dir := shop(t)
	files := len(onDisk(t, dir))
	var wait sync.WaitGroup
	for editor := range 3 {
		wait.Go(func() {
			for round := range 3 {
				for {
					file, err := client.GetRuleFile(context.Background(), &glossladderv1.GetRuleFileRequest{Name: "start.yaml"})
					if !assert.NoError(t, err) {
						return
					}
					file.Text += fmt.Sprintf("# %d.%d\n", editor, round)
					if _, err = client.UpdateRuleFile(context.Background(), &glossladderv1.UpdateRuleFileRequest{File: file}); err == nil {
						break
					}
					if !assert.Equal(t, codes.Aborted, status.Code(err), "%v", err) {
						return
					}
				}
			}
		})
	}
	wait.Wait()
	text := onDisk(t, dir)["start.yaml"]
	for editor := range 3 {
		for round := range 3 {
			assert.Equal(t, 1, strings.Count(text, fmt.Sprintf("# %d.%d\n", editor, round)))
		}
	}
	assert.Len(t, onDisk(t, dir), files, "nothing else is left")
}

func TestASetThatDoesNotHoldTogetherIsRefusedWithEveryProblem(t *testing.T) {
	client, dir := shop(t)
	before, set := onDisk(t, dir), inForce(t, client).GetRuleSet()
	for _, c := range []struct{ name, file, old, with, says string }{
		{"two slips", "start.yaml", "paint.softness", "paint.sofness", "did you mean paint.softness?"},
		{"a broken safety promise", "limit.yaml", "when: film.after_cut_um < 0", "when: film.after_cut_um < -1", "safety promise film-too-thin-for-a-cut is broken"},
		{"a hole", "ladder.yaml", "when: true", "when: known(paint.shade)", "[gap]"},
	} {
		t.Run(c.name, func(t *testing.T) {
			file := get(t, client, c.file)
			require.Contains(t, file.GetText(), c.old)
			file.Text = strings.ReplaceAll(file.GetText(), c.old, c.with)
			_, err := client.UpdateRuleFile(context.Background(), &glossladderv1.UpdateRuleFileRequest{File: file})
			st := status.Convert(err)
			assert.Equal(t, codes.InvalidArgument, st.Code())
			assert.Contains(t, st.Message(), "nothing was written")
			require.Len(t, st.Details(), 1)
			problems, ok := st.Details()[0].(*glossladderv1.RuleProblems)
			require.True(t, ok)
			var says []string
			for _, p := range problems.GetProblems() {
				says = append(says, p.GetMessage()+"; "+p.GetHint())
			}
			assert.Contains(t, strings.Join(says, "\n"), c.says)
			if c.name == "two slips" {
				assert.Greater(t, len(says), 1, "every one of them")
			}
		})
	}
	assert.Equal(t, before, onDisk(t, dir))
	assert.Equal(t, set, inForce(t, client).GetRuleSet())
	assert.Empty(t, inForce(t, client).GetProblems(), "the folder itself is as good as before")
}

func TestSeveralFilesLandWholeOrNotAtAll(t *testing.T) {
	client, dir := shop(t)
	before := onDisk(t, dir)
	list, err := client.ListRuleFiles(context.Background(), &glossladderv1.ListRuleFilesRequest{})
	require.NoError(t, err)
	start, cases := get(t, client, "start.yaml"), get(t, client, "cases/start.yaml")
	// The table moves to a file of another name: neither half holds together alone.
	edits := []*glossladderv1.RuleFileEdit{
		{Edit: &glossladderv1.RuleFileEdit_Create{Create: &glossladderv1.RuleFile{Name: "begin.yaml", Text: start.GetText()}}},
		{Edit: &glossladderv1.RuleFileEdit_Delete{Delete: &glossladderv1.RuleFile{Name: "start.yaml", Etag: start.GetEtag()}}},
		{Edit: &glossladderv1.RuleFileEdit_Update{Update: &glossladderv1.RuleFile{Name: "cases/start.yaml", Etag: cases.GetEtag(), Text: cases.GetText() + "# moved\n"}}},
	}
	for _, half := range edits[:2] {
		_, err := client.BatchUpdateRuleFiles(context.Background(), &glossladderv1.BatchUpdateRuleFilesRequest{Edits: []*glossladderv1.RuleFileEdit{half}})
		assert.Equal(t, codes.InvalidArgument, status.Code(err))
	}
	stale := slices.Concat(edits[:2], []*glossladderv1.RuleFileEdit{{Edit: &glossladderv1.RuleFileEdit_Update{Update: &glossladderv1.RuleFile{Name: "cases/start.yaml", Etag: start.GetEtag(), Text: "x"}}}})
	_, err = client.BatchUpdateRuleFiles(context.Background(), &glossladderv1.BatchUpdateRuleFilesRequest{Edits: stale})
	assert.Equal(t, codes.Aborted, status.Code(err))
	assert.Equal(t, before, onDisk(t, dir))

	done, err := client.BatchUpdateRuleFiles(context.Background(), &glossladderv1.BatchUpdateRuleFilesRequest{Edits: edits, FolderEtag: list.GetFolderEtag()})
	require.NoError(t, err)
	after := onDisk(t, dir)
	assert.Len(t, after, len(before))
	assert.Equal(t, before["start.yaml"], after["begin.yaml"])
	assert.NotContains(t, after, "start.yaml")
	assert.Len(t, done.GetFiles(), 2, "what was taken away is not among the files")
	assert.Equal(t, done.GetRuleSet(), inForce(t, client).GetRuleSet())

	_, err = client.BatchUpdateRuleFiles(context.Background(), &glossladderv1.BatchUpdateRuleFilesRequest{Edits: edits[:1], FolderEtag: list.GetFolderEtag()})
	assert.Equal(t, codes.Aborted, status.Code(err), "the folder is not what was listed any more")
}

func TestFilesAreMadeAndTakenAway(t *testing.T) {
	client, dir := shop(t)
	note := &glossladderv1.RuleFile{Name: "NOTES.md", Text: "ours\n"}
	done, err := client.CreateRuleFile(context.Background(), &glossladderv1.CreateRuleFileRequest{File: note})
	require.NoError(t, err)
	assert.Equal(t, "ours\n", onDisk(t, dir)["NOTES.md"])
	_, err = client.CreateRuleFile(context.Background(), &glossladderv1.CreateRuleFileRequest{File: note})
	assert.Equal(t, codes.AlreadyExists, status.Code(err))
	_, err = client.CreateRuleFile(context.Background(), &glossladderv1.CreateRuleFileRequest{File: &glossladderv1.RuleFile{Name: "../x.yaml"}})
	assert.Equal(t, codes.InvalidArgument, status.Code(err))
	_, err = client.DeleteRuleFile(context.Background(), &glossladderv1.DeleteRuleFileRequest{Name: "NOTES.md", Etag: done.GetFiles()[0].GetEtag()})
	require.NoError(t, err)
	assert.NotContains(t, onDisk(t, dir), "NOTES.md")
	_, err = client.DeleteRuleFile(context.Background(), &glossladderv1.DeleteRuleFileRequest{Name: "strat.yaml", Etag: "x"})
	assert.Equal(t, codes.NotFound, status.Code(err))
	assert.Contains(t, status.Convert(err).Message(), "did you mean start.yaml?")
}

func TestABrokenFolderIsMendedByACall(t *testing.T) {
	client, dir := shop(t)
	good := get(t, client, "start.yaml")
	require.NoError(t, os.WriteFile(filepath.Join(dir, "start.yaml"), []byte("table: start\n"), 0o600))
	refused, err := client.ReloadRules(context.Background(), &glossladderv1.ReloadRulesRequest{})
	require.NoError(t, err, "files that do not load are an answer")
	require.NotEmpty(t, refused.GetProblems())
	assert.False(t, refused.GetChanged())
	now := inForce(t, client)
	assert.NotEmpty(t, now.GetProblems())
	assert.NotNil(t, now.GetLastFailure())
	assert.NotEmpty(t, now.GetLastFailureReason())

	broken := get(t, client, "start.yaml")
	assert.Equal(t, "table: start\n", broken.GetText(), "the folder as it is, to be mended")
	broken.Text = good.GetText()
	_, err = client.UpdateRuleFile(context.Background(), &glossladderv1.UpdateRuleFileRequest{File: broken})
	require.NoError(t, err)
	assert.Empty(t, inForce(t, client).GetProblems())
}

func TestOneRuleIsChangedWithAllElseInItsFileAsItWas(t *testing.T) {
	client, dir := shop(t)
	before := onDisk(t, dir)["start.yaml"]
	rule, err := client.GetRule(context.Background(), &glossladderv1.GetRuleRequest{Table: "start", RuleId: "soft-paint-starts-mild"})
	require.NoError(t, err)
	assert.Equal(t, "{step: finish}", rule.GetThen())
	rule.Because, rule.When = otherWords, "nonsense that the mask leaves out"
	done, err := client.UpdateRule(context.Background(), &glossladderv1.UpdateRuleRequest{Rule: rule, UpdateMask: &fieldmaskpb.FieldMask{Paths: []string{"because"}}})
	require.NoError(t, err)
	assert.Equal(t, strings.Replace(before, shippedWords, otherWords, 1), onDisk(t, dir)["start.yaml"])
	assert.Equal(t, done.GetRuleSet(), inForce(t, client).GetRuleSet())

	_, err = client.UpdateRule(context.Background(), &glossladderv1.UpdateRuleRequest{Rule: rule})
	assert.Equal(t, codes.Aborted, status.Code(err), "its file has changed since")
	rule, err = client.GetRule(context.Background(), &glossladderv1.GetRuleRequest{Table: "start", RuleId: "soft-paint-starts-mild"})
	require.NoError(t, err)
	for _, c := range []struct {
		name   string
		change func(*glossladderv1.UpdateRuleRequest)
		code   codes.Code
		says   string
	}{
		{"a condition with a slip", func(r *glossladderv1.UpdateRuleRequest) { r.Rule.When = `paint.sofness == "soft"` }, codes.InvalidArgument, "did you mean paint.softness?"},
		{"an answer that is none", func(r *glossladderv1.UpdateRuleRequest) { r.Rule.Then = "finish" }, codes.InvalidArgument, "write it like {step: finish}"},
		{"another field", func(r *glossladderv1.UpdateRuleRequest) {
			r.UpdateMask = &fieldmaskpb.FieldMask{Paths: []string{"rule_id"}}
		}, codes.InvalidArgument, "not rule_id"},
		{"no such rule", func(r *glossladderv1.UpdateRuleRequest) { r.Rule.RuleId = "soft-paint-start-mild" }, codes.NotFound, "did you mean soft-paint-starts-mild?"},
		{"no such table", func(r *glossladderv1.UpdateRuleRequest) { r.Rule.Table = "strat" }, codes.NotFound, "did you mean start?"},
		{"no etag", func(r *glossladderv1.UpdateRuleRequest) { r.Rule.Etag = "" }, codes.InvalidArgument, "nobody else's edit is lost"},
	} {
		t.Run(c.name, func(t *testing.T) {
			request := &glossladderv1.UpdateRuleRequest{Rule: &glossladderv1.Rule{Table: "start", RuleId: rule.GetRuleId(), Etag: rule.GetEtag(), Because: otherWords}}
			c.change(request)
			_, err := client.UpdateRule(context.Background(), request)
			assert.Equal(t, c.code, status.Code(err))
			assert.Contains(t, status.Convert(err).Message(), c.says)
		})
	}
}

func TestTablesRulesAndFilesAreListedByPages(t *testing.T) {
	client, _ := shop(t)
	tables, err := client.ListRuleTables(context.Background(), &glossladderv1.ListRuleTablesRequest{})
	require.NoError(t, err)
	assert.Len(t, tables.GetTables(), 15)
	want := 0
	for _, table := range tables.GetTables() {
		want += int(table.GetRuleCount())
	}
	seen := map[string]bool{}
	request := &glossladderv1.ListRulesRequest{PageSize: 40}
	for {
		page, err := client.ListRules(context.Background(), request)
		require.NoError(t, err)
		assert.LessOrEqual(t, len(page.GetRules()), 40)
		for _, rule := range page.GetRules() {
			assert.NotEmpty(t, rule.GetThen(), rule.GetRuleId())
			seen[rule.GetTable()+"/"+rule.GetRuleId()] = true
		}
		if request.PageToken = page.GetNextPageToken(); request.PageToken == "" {
			break
		}
	}
	assert.Len(t, seen, want)

	one, err := client.ListRules(context.Background(), &glossladderv1.ListRulesRequest{Table: "start", PageSize: 1})
	require.NoError(t, err)
	file := get(t, client, "start.yaml")
	file.Text += "# later\n"
	_, err = client.UpdateRuleFile(context.Background(), &glossladderv1.UpdateRuleFileRequest{File: file})
	require.NoError(t, err)
	_, err = client.ListRules(context.Background(), &glossladderv1.ListRulesRequest{Table: "start", PageSize: 1, PageToken: one.GetNextPageToken()})
	assert.Equal(t, codes.Aborted, status.Code(err), "a list is never half of one set and half of another")
	_, err = client.ListRules(context.Background(), &glossladderv1.ListRulesRequest{PageToken: "what"})
	assert.Equal(t, codes.InvalidArgument, status.Code(err))

	files, err := client.ListRuleFiles(context.Background(), &glossladderv1.ListRuleFilesRequest{PageSize: 5})
	require.NoError(t, err)
	assert.Len(t, files.GetFiles(), 5)
	assert.Empty(t, files.GetFiles()[0].GetText())
	assert.NotEmpty(t, files.GetFiles()[0].GetEtag())
}

func TestTheHistoryGivesOldSetsBack(t *testing.T) {
	client, _ := shop(t)
	first := inForce(t, client).GetRuleSet()
	file := get(t, client, "start.yaml")
	old := file.GetText()
	file.Text = strings.Replace(old, shippedWords, otherWords, 1)
	_, err := client.UpdateRuleFile(context.Background(), &glossladderv1.UpdateRuleFileRequest{File: file})
	require.NoError(t, err)
	newest, err := client.ListRuleSets(context.Background(), &glossladderv1.ListRuleSetsRequest{PageSize: 1})
	require.NoError(t, err)
	require.Len(t, newest.GetRuleSets(), 1)
	assert.True(t, newest.GetRuleSets()[0].GetInForce())
	assert.Equal(t, []string{"start.yaml"}, newest.GetRuleSets()[0].GetChangedFiles())
	older, err := client.ListRuleSets(context.Background(), &glossladderv1.ListRuleSetsRequest{PageToken: newest.GetNextPageToken()})
	require.NoError(t, err)
	require.Len(t, older.GetRuleSets(), 1)
	assert.Empty(t, older.GetNextPageToken())
	assert.Equal(t, first, older.GetRuleSets()[0].GetRuleSet())

	set, err := client.GetRuleSet(context.Background(), &glossladderv1.GetRuleSetRequest{RuleSet: first[:8]})
	require.NoError(t, err)
	assert.Equal(t, first, set.GetRuleSet())
	assert.Equal(t, glossladderv1.RuleSetWay_RULE_SET_WAY_START, set.GetWay())
	texts := map[string]string{}
	for _, f := range set.GetFiles() {
		texts[f.GetName()] = f.GetText()
	}
	assert.Equal(t, old, texts["start.yaml"])
	past, err := client.GetRuleFile(context.Background(), &glossladderv1.GetRuleFileRequest{Name: "start.yaml", RuleSet: first})
	require.NoError(t, err)
	assert.Equal(t, old, past.GetText())
	_, err = client.GetRuleSet(context.Background(), &glossladderv1.GetRuleSetRequest{RuleSet: "00000000"})
	assert.Equal(t, codes.NotFound, status.Code(err))
}

func TestAStrongerAnswerHasToBeAccepted(t *testing.T) {
	client, dir := shop(t)
	before := onDisk(t, dir)
	file := get(t, client, "start.yaml")
	// Soft paint gets a polish where a finish was tried first.
	at := strings.Index(file.GetText(), "id: soft-paint-starts-mild")
	file.Text = file.GetText()[:at] + strings.Replace(file.GetText()[at:], "{step: finish}", "{step: polish}", 1)

	tried, err := client.UpdateRuleFile(context.Background(), &glossladderv1.UpdateRuleFileRequest{File: file, ValidateOnly: true})
	require.NoError(t, err)
	code := tried.GetEffects().GetAcceptStronger()
	require.NotEmpty(t, code)
	_, err = client.UpdateRuleFile(context.Background(), &glossladderv1.UpdateRuleFileRequest{File: file})
	assert.Equal(t, codes.FailedPrecondition, status.Code(err))
	assert.Contains(t, status.Convert(err).Message(), code)
	require.Len(t, status.Convert(err).Details(), 1)
	effects, ok := status.Convert(err).Details()[0].(*glossladderv1.RuleEffects)
	require.True(t, ok)
	require.NotEmpty(t, effects.GetEffects())
	largest := effects.GetEffects()[0]
	assert.Equal(t, "start", largest.GetTable())
	assert.Equal(t, glossladderv1.RuleEffectDirection_RULE_EFFECT_DIRECTION_STRONGER, largest.GetDirection())
	assert.Equal(t, "step: finish", largest.GetBefore())
	assert.Equal(t, "step: polish", largest.GetAfter())
	assert.NotEmpty(t, largest.GetWhere())
	assert.NotEmpty(t, largest.GetExample())
	_, err = client.UpdateRuleFile(context.Background(), &glossladderv1.UpdateRuleFileRequest{File: file, AcceptStronger: "000000000000"})
	assert.Equal(t, codes.FailedPrecondition, status.Code(err))
	assert.Equal(t, before, onDisk(t, dir))

	done, err := client.UpdateRuleFile(context.Background(), &glossladderv1.UpdateRuleFileRequest{File: file, AcceptStronger: code})
	require.NoError(t, err)
	assert.Equal(t, done.GetRuleSet(), inForce(t, client).GetRuleSet())

	// The way back is milder, and a change of words no change of answers.
	file.Etag, file.Text = done.GetFiles()[0].GetEtag(), before["start.yaml"]
	done, err = client.UpdateRuleFile(context.Background(), &glossladderv1.UpdateRuleFileRequest{File: file})
	require.NoError(t, err)
	assert.Equal(t, glossladderv1.RuleEffectDirection_RULE_EFFECT_DIRECTION_MILDER, done.GetEffects().GetEffects()[0].GetDirection())
	file.Etag, file.Text = done.GetFiles()[0].GetEtag(), strings.Replace(file.GetText(), shippedWords, otherWords, 1)
	done, err = client.UpdateRuleFile(context.Background(), &glossladderv1.UpdateRuleFileRequest{File: file})
	require.NoError(t, err)
	assert.Nil(t, done.GetEffects())
}

func TestTheRulesAsShippedAreReadOnly(t *testing.T) {
	client := glossladderv1.NewRulesServiceClient(dial(t, app.Options{}))
	file := get(t, client, "start.yaml")
	file.Text += "# x\n"
	_, err := client.UpdateRuleFile(context.Background(), &glossladderv1.UpdateRuleFileRequest{File: file})
	assert.Equal(t, codes.FailedPrecondition, status.Code(err))
	assert.Contains(t, status.Convert(err).Message(), "glossladder rules copy")
	_, err = client.ListRuleSets(context.Background(), &glossladderv1.ListRuleSetsRequest{})
	assert.Equal(t, codes.FailedPrecondition, status.Code(err), "without a state folder there is no history")
	assert.Contains(t, status.Convert(err).Message(), "--state")
	again, err := client.ReloadRules(context.Background(), &glossladderv1.ReloadRulesRequest{})
	require.NoError(t, err)
	assert.False(t, again.GetChanged())
}

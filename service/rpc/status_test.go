package rpc

import (
	"context"
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/compare"
	"github.com/glossladder/glossladder/rules/edit"
	"github.com/glossladder/glossladder/rules/strictyaml"
	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/rulefolder"
	"github.com/glossladder/glossladder/service/rulehistory"
)

// told is what a caller hears of each error of the adviser, by the name of its type.
var told = map[string]struct {
	err  error
	code codes.Code
	says string
}{
	"InputError": {
		&advisor.InputError{Troubles: []advisor.Trouble{{Field: "panels[0].film", Says: "plastic cannot be read"}, {Field: "panel_id", Says: "unknown"}}},
		codes.InvalidArgument, "inspection.panels[0].film: plastic cannot be read; panel_id: unknown",
	},
	"RulesError": {
		&advisor.RulesError{Reason: advisor.Reason{Table: "ladder", Rule: "wild", File: "ladder.yaml", Line: 4}, Says: "answers too much"},
		codes.FailedPrecondition, "ladder.yaml:4: rule wild: answers too much",
	},
}

// toldOfEdits is the same for what can stand in the way of an edit of rules.
var toldOfEdits = map[string]struct {
	err  error
	code codes.Code
	says string
}{
	"rulefolder.StaleError":    {&rulefolder.StaleError{Name: "start.yaml"}, codes.Aborted, "start.yaml has changed since it was read; read it again"},
	"rulefolder.NoFileError":   {&rulefolder.NoFileError{Name: "strat.yaml", Near: "start.yaml"}, codes.NotFound, "did you mean start.yaml?"},
	"rulefolder.ExistsError":   {&rulefolder.ExistsError{Name: "start.yaml"}, codes.AlreadyExists, "send your change with its etag"},
	"rulefolder.NameError":     {&rulefolder.NameError{Name: "../x"}, codes.InvalidArgument, "a name is start.yaml"},
	"rulefolder.WriteError":    {&rulefolder.WriteError{Folder: "mine", Cause: os.ErrPermission}, codes.FailedPrecondition, "mine cannot be written to: permission denied"},
	"rulehistory.NoSetError":   {&rulehistory.NoSetError{RuleSet: "0123"}, codes.NotFound, "no rule set 0123"},
	"rulehistory.DamagedError": {&rulehistory.DamagedError{RuleSet: "0123"}, codes.DataLoss, "0123"},
	"rulehistory.ErrAmbiguous": {rulehistory.ErrAmbiguous, codes.InvalidArgument, "give more of them"},
	"edit.NoRuleError":         {&edit.NoRuleError{File: "start.yaml", ID: "a"}, codes.NotFound, "start.yaml has no rule a"},
	"edit.FormError":           {&edit.FormError{Field: "then", Says: "no map"}, codes.InvalidArgument, "rule.then: no map"},
	"rpc.StrongerError":        {&StrongerError{Report: &compare.Report{}, Given: "0123"}, codes.FailedPrecondition, "what was accepted as 0123 is something else"},
	"rpc.RequestError":         {&RequestError{Field: "page_token", Says: "no token"}, codes.InvalidArgument, "page_token: no token"},
	"rpc.NotTextError":         {&NotTextError{Name: "a.yaml"}, codes.FailedPrecondition, "save it as UTF-8"},
	"rpc.NoRuleError":          {&NoRuleError{Table: "strat", Near: "start"}, codes.NotFound, "did you mean start?"},
	"rpc.RecordError":          {&RecordError{Cause: os.ErrPermission}, codes.FailedPrecondition, "--data says: permission denied"},
	"rpc.KeptSetError":         {&KeptSetError{RuleSet: "0123456789abcdef", Cause: os.ErrNotExist}, codes.FailedPrecondition, "the rule set 0123456789ab that made the decision cannot be had"},
	"rpc.SentRulesError":       {&SentRulesError{Problems: rules.Problems{{File: "a.yaml", Message: "wrong"}}}, codes.InvalidArgument, "the rules that were sent do not load: a.yaml: wrong"},
	"rpc.ErrShippedRules":      {ErrShippedRules, codes.FailedPrecondition, "glossladder rules copy"},
	"rpc.ErrNoHistory":         {ErrNoHistory, codes.FailedPrecondition, "--state"},
	"rpc.ErrListChanged":       {ErrListChanged, codes.Aborted, "list it again"},
	"rules.Problems":           {rules.Problems{{File: "a.yaml", Line: 1, Col: 2, Message: "wrong"}, {File: "b.yaml", Message: "too"}}, codes.InvalidArgument, "a.yaml:1:2: wrong (and 1 more)"},
	"strictyaml.Problems":      {strictyaml.Problems{{File: "a.yaml", Message: "wrong"}}, codes.FailedPrecondition, "edit it as a whole"},
	"context.DeadlineExceeded": {context.DeadlineExceeded, codes.DeadlineExceeded, ""},
	"context.Canceled":         {context.Canceled, codes.Canceled, ""},
}

func TestEveryErrorOfAnEditHasAStatus(t *testing.T) {
	for name, dir := range map[string]string{"rulefolder": "../rulefolder", "rulehistory": "../rulehistory", "edit": "../../rules/edit", "rpc": "."} {
		for _, e := range exportedErrors(t, dir) {
			assert.Contains(t, toldOfEdits, name+"."+e, "it has no row here and in status.go")
		}
	}
	for name, row := range toldOfEdits {
		for _, err := range []error{row.err, fmt.Errorf("wrapped: %w", row.err)} {
			st := status.Convert(statusOf(err, ""))
			assert.Equal(t, row.code, st.Code(), name)
			assert.Contains(t, st.Message(), row.says, name)
		}
	}
}

func TestEveryErrorOfTheAdviserHasAStatus(t *testing.T) {
	for _, name := range exportedErrors(t, "../advisor") {
		row, ok := told[name]
		require.True(t, ok, "advisor.%s has no row here and in status.go", name)
		for _, err := range []error{row.err, fmt.Errorf("wrapped: %w", row.err)} {
			st := status.Convert(statusOf(err, "inspection"))
			assert.Equal(t, row.code, st.Code(), name)
			assert.Contains(t, st.Message(), row.says)
		}
	}
}

func TestFieldPathsOfTroublesLeadFromTheRequest(t *testing.T) {
	st := status.Convert(statusOf(told["InputError"].err, "inspection"))
	require.Len(t, st.Details(), 1)
	bad, ok := st.Details()[0].(*errdetails.BadRequest)
	require.True(t, ok)
	var fields []string
	for _, v := range bad.GetFieldViolations() {
		fields = append(fields, v.GetField())
	}
	assert.Equal(t, []string{"inspection.panels[0].film", "panel_id"}, fields)
}

func TestAnUnknownErrorTellsTheCallerNothing(t *testing.T) {
	cause := errors.New("the secret of the house")
	err := statusOf(cause, "inspection")
	assert.Equal(t, codes.Internal, status.Code(err))
	assert.Equal(t, "internal error", status.Convert(err).Message())
	assert.ErrorIs(t, err, cause, "the log still has it")
}

// exportedErrors lists the exported types of a package that have an Error method.
func exportedErrors(t *testing.T, dir string) []string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(dir, "*.go"))
	require.NoError(t, err)
	var names []string
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		src, err := os.ReadFile(file)
		require.NoError(t, err)
		tree, err := parser.ParseFile(token.NewFileSet(), file, src, 0)
		require.NoError(t, err)
		for _, decl := range tree.Decls {
			method, ok := decl.(*ast.FuncDecl)
			if !ok || method.Name.Name != "Error" || method.Recv == nil {
				continue
			}
			if pointer, ok := method.Recv.List[0].Type.(*ast.StarExpr); ok {
				if name, ok := pointer.X.(*ast.Ident); ok && name.IsExported() {
					names = append(names, name.Name)
				}
			}
		}
	}
	require.NotEmpty(t, names)
	return names
}

package rpc

import (
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

	"github.com/glossladder/glossladder/service/advisor"
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

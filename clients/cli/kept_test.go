package cli_test

import (
	"context"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"sync/atomic"
	"testing"

	"github.com/jackc/pgx/v5"
	"github.com/rogpeppe/go-internal/testscript"
	"github.com/stretchr/testify/require"
)

// What is kept is told by the same scripts wherever it is kept: DATA is where, STORY the folder of the stories.
// Their golden texts are rewritten by go test ./clients/cli -run TestKept/SQLite -update.

func TestKeptInSQLite(t *testing.T) {
	oneAfterAnother(t)
	kept(t, func(env *testscript.Env) (string, error) { return filepath.Join(env.WorkDir, "jobs.db"), nil })
}

func TestKeptInPostgreSQL(t *testing.T) {
	oneAfterAnother(t)
	server := os.Getenv("GLOSSLADDER_POSTGRES_URL")
	if server == "" {
		t.Skip("NOT TESTED ON POSTGRESQL: set GLOSSLADDER_POSTGRES_URL to the URL of a server")
	}
	var schemas atomic.Int64
	kept(t, func(env *testscript.Env) (string, error) {
		return schemaOf(env, server, fmt.Sprintf("kept_%d_%d", os.Getpid(), schemas.Add(1)))
	})
}

// schemaOf makes a schema of its own for a script, and takes it away at the end.
func schemaOf(env *testscript.Env, server, schema string) (string, error) {
	ctx := context.Background()
	conn, err := pgx.Connect(ctx, server)
	if err != nil {
		return "", err
	}
	env.Defer(func() {
		_, _ = conn.Exec(ctx, "drop schema "+schema+" cascade")
		_ = conn.Close(ctx)
	})
	if _, err := conn.Exec(ctx, "create schema "+schema); err != nil {
		return "", err
	}
	at, err := url.Parse(server)
	if err != nil {
		return "", err
	}
	query := at.Query()
	query.Set("search_path", schema)
	at.RawQuery = query.Encode()
	return at.String(), nil
}

func kept(t *testing.T, where func(*testscript.Env) (string, error)) {
	t.Helper()
	folder, err := filepath.Abs(stories)
	require.NoError(t, err)
	testscript.Run(t, testscript.Params{
		Dir: "testdata/kept", UpdateScripts: *update, RequireExplicitExec: true,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"exits": exits, "replace": replace, "untimed": untimed},
		Setup: func(env *testscript.Env) error {
			data, err := where(env)
			env.Setenv("DATA", data)
			env.Setenv("STORY", folder)
			env.Setenv("XDG_DATA_HOME", filepath.Join(env.WorkDir, "home"))
			env.Setenv("TZ", "UTC")
			return err
		},
	})
}

var clockTime = regexp.MustCompile(`20\d\d-\d\d-\d\d \d\d:\d\d`)

// untimed writes what the last command printed, without the time of day, to a file: untimed FILE.
func untimed(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: untimed FILE")
	}
	text := clockTime.ReplaceAllString(ts.ReadFile("stdout"), "YYYY-MM-DD HH:MM")
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(text), 0o600))
}

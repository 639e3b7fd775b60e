package cli_test

import (
	"errors"
	"flag"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"github.com/glossladder/glossladder/clients/cli"
)

// The scripts read like a terminal session. Their golden texts are rewritten by
// go test ./clients/cli -run TestScripts -update, and read by a person before they are kept.
var update = flag.Bool("update", false, "rewrite the golden texts in the scripts")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"glossladder": func() {
			os.Exit(cli.Run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) //nolint:forbidigo // this is a main
		},
	})
}

// oneAfterAnother leaves a script out of short runs, as the race detector makes them: its commands are processes that run one after
// another, each slowed down ten times. The processes that serve many callers at once have tests of their own.
func oneAfterAnother(t *testing.T) {
	t.Helper()
	if testing.Short() {
		t.Skip("scripts are left to the plain tests")
	}
}

func TestScripts(t *testing.T) {
	oneAfterAnother(t)
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script", UpdateScripts: *update, RequireExplicitExec: true,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"exits": exits, "replace": replace, "served": served},
	})
}

// exits runs a command and checks its exit code: exits 3 glossladder rules check mine. Its output is there for stdout and
// stderr.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE command [argument...]")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		exit, ok := errors.AsType[*exec.ExitError](err)
		if !ok {
			ts.Fatalf("%v", err)
		}
		got = exit.ExitCode()
	}
	if got != want {
		ts.Fatalf("exit code %d, not %d", got, want)
	}
}

// replace edits a file as a shop would: replace FILE OLD NEW. OLD must be there; \n is a line's end.
func replace(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: replace FILE OLD NEW")
	}
	text, lineEnd := ts.ReadFile(args[0]), strings.NewReplacer(`\n`, "\n")
	old := lineEnd.Replace(args[1])
	if !strings.Contains(text, old) {
		ts.Fatalf("%s has no %q", args[0], old)
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(strings.Replace(text, old, lineEnd.Replace(args[2]), 1)), 0o644))
}

package cli_test

import (
	"context"
	"path/filepath"

	"github.com/rogpeppe/go-internal/testscript"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/app"
)

// served starts a service over a rules folder and stops it: served DIR ENV. ENV is then the rule set that it had in force.
func served(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: served DIR ENV")
	}
	service, err := app.New(app.Options{
		Listen: "127.0.0.1:0", RulesDir: ts.MkAbs(args[0]), StateDir: filepath.Join(ts.Getenv("XDG_DATA_HOME"), "glossladder"),
	})
	ts.Check(err)
	connection, err := service.Dial()
	ts.Check(err)
	status, err := glossladderv1.NewRulesServiceClient(connection).GetRulesStatus(context.Background(), &glossladderv1.GetRulesStatusRequest{})
	ts.Check(err)
	ts.Setenv(args[1], status.GetRuleSet()[:12])
	ts.Check(connection.Close())
	ts.Check(service.Close())
}

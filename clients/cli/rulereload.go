package cli

import (
	"context"
	"errors"
	"fmt"

	"github.com/spf13/cobra"
	"google.golang.org/grpc"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

func (p *program) reloadRules() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "reload",
		Short: "Let a running service take up its rules folder now, and say what came of it",
		Long: "Tells a running service to take up the files of its folder as they are now, and waits until it has built them. Without\n" +
			"this it does so by itself a second or two after an edit. Files that do not load are refused with every problem, and the\n" +
			"set in force stays. " + exitCodeHelp,
		Example: "  glossladder rules reload --server 127.0.0.1:7070",
		Args:    noArguments,
		RunE: running(func(cmd *cobra.Command, _ []string) error {
			if p.server == "" {
				return &usageError{"name the service that is to reload: --server 127.0.0.1:7070"}
			}
			var answer *glossladderv1.ReloadRulesResponse
			err := p.reach(cmd.Context(), func(ctx context.Context, connection *grpc.ClientConn) (err error) {
				answer, err = glossladderv1.NewRulesServiceClient(connection).ReloadRules(ctx, &glossladderv1.ReloadRulesRequest{})
				return err
			})
			switch {
			case err != nil:
				return err
			case p.asJSON():
				return p.json(answer)
			}
			return p.printReload(answer)
		}),
	}
	p.outputFlag(cmd)
	p.serverFlags(cmd, "host:port of the running service")
	return cmd
}

func (p *program) printReload(answer *glossladderv1.ReloadRulesResponse) error {
	for _, problem := range answer.GetProblems() {
		fmt.Fprintln(p.out, placed(problem))
	}
	if len(answer.GetProblems()) > 0 {
		return &outcome{code: faultyRules, err: errors.New("the files are refused; rule set " + short(answer.GetRuleSet()) + " stays in force")}
	}
	for _, f := range answer.GetFindings() {
		fmt.Fprintln(p.out, doubt(f))
	}
	if answer.GetChanged() {
		fmt.Fprintf(p.out, "Rule set %s is in force.\n", short(answer.GetRuleSet()))
	} else {
		fmt.Fprintf(p.out, "Nothing changed: rule set %s stays in force.\n", short(answer.GetRuleSet()))
	}
	return nil
}

// doubt is a finding on one line.
func doubt(f *glossladderv1.RuleFinding) string {
	level := "warning"
	switch f.GetLevel() {
	case glossladderv1.RuleFindingLevel_RULE_FINDING_LEVEL_ERROR:
		level = "error"
	case glossladderv1.RuleFindingLevel_RULE_FINDING_LEVEL_ADVICE:
		level = "advice"
	}
	problem := &glossladderv1.RuleProblem{Message: f.GetMessage(), Hint: f.GetMend()}
	if len(f.GetPlaces()) > 0 {
		at := f.GetPlaces()[0]
		problem.File, problem.Line, problem.Column = at.GetFile(), at.GetLine(), at.GetColumn()
	}
	if f.GetExample() != "" {
		problem.Message += ": " + f.GetExample()
	}
	return fmt.Sprintf("%s: %s [%s]", level, placed(problem), f.GetCode())
}

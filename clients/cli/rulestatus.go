package cli

import (
	"context"
	"fmt"
	"time"

	"github.com/spf13/cobra"
	"google.golang.org/grpc"
	"google.golang.org/protobuf/types/known/timestamppb"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

func (p *program) rulesStatus() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "status",
		Short: "Say which rules a running service decides by, and what is wrong with its folder",
		Long: "Asks a running service which rule set is in force and since when, and whether the files of its folder are in force as they\n" +
			"are now. A bad edit leaves the last good set in force: this says so, and why. " + exitCodeHelp,
		Example: "  glossladder rules status --server 127.0.0.1:7070",
		Args:    noArguments,
		RunE: running(func(cmd *cobra.Command, _ []string) error {
			var answer *glossladderv1.GetRulesStatusResponse
			err := p.reach(cmd.Context(), func(ctx context.Context, connection *grpc.ClientConn) (err error) {
				answer, err = glossladderv1.NewRulesServiceClient(connection).GetRulesStatus(ctx, &glossladderv1.GetRulesStatusRequest{})
				return err
			})
			if err != nil {
				return err
			}
			if p.asJSON() {
				return p.json(answer)
			}
			return p.printStatus(answer)
		}),
	}
	p.outputFlag(cmd)
	p.reachable(cmd)
	return cmd
}

// printStatus prints the status; files that are wrong end with the exit code of faulty rules.
func (p *program) printStatus(s *glossladderv1.GetRulesStatusResponse) error {
	folder := s.GetFolder()
	if folder == "" {
		folder = "the rules as shipped"
	}
	fmt.Fprintf(p.out, "In force   rule set %s from %s, since %s\n", s.GetRuleSet()[:12], folder, clock(s.GetInForceSince()))
	if len(s.GetProblems()) == 0 {
		if s.GetFolder() != "" {
			fmt.Fprintf(p.out, "On disk    the same, at the last look %s\n", clock(s.GetLastLook()))
		}
		return nil
	}
	fmt.Fprintf(p.out, "On disk    an edit that is not in force, wrong since %s:\n", clock(s.GetWrongSince()))
	for _, problem := range s.GetProblems() {
		fmt.Fprintf(p.out, "  %s\n", placed(problem))
	}
	return &outcome{code: faultyRules, err: fmt.Errorf("%s does not load as it is now; an earlier set decides", folder)}
}

// placed is a problem as an editor can jump to it.
func placed(problem *glossladderv1.RuleProblem) string {
	text := fmt.Sprintf("%s:%d:%d: %s", problem.GetFile(), problem.GetLine(), problem.GetColumn(), problem.GetMessage())
	if problem.GetHint() != "" {
		text += "; " + problem.GetHint()
	}
	return text
}

func clock(t *timestamppb.Timestamp) string {
	if t == nil {
		return "(not yet)"
	}
	return t.AsTime().Local().Format(time.DateTime)
}

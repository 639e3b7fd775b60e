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
			return p.printStatus(answer, time.Now())
		}),
	}
	p.outputFlag(cmd)
	p.reachable(cmd)
	return cmd
}

// printStatus prints the status; files that are wrong end with the exit code of faulty rules.
func (p *program) printStatus(s *glossladderv1.GetRulesStatusResponse, now time.Time) error {
	folder := s.GetFolder()
	if folder == "" {
		folder = "the rules as shipped"
	}
	fmt.Fprintf(p.out, "In force   rule set %s from %s, since %s\n", short(s.GetRuleSet()), folder, ago(s.GetInForceSince(), now))
	if says := cameBy(s.GetWay()); says != "" {
		fmt.Fprintf(p.out, "           %s\n", says)
	}
	if s.GetHistoryProblem() != "" {
		fmt.Fprintf(p.out, "History    this set is not in it: %s\n", s.GetHistoryProblem())
	}
	if len(s.GetProblems()) == 0 {
		if s.GetFolder() != "" {
			fmt.Fprintf(p.out, "On disk    the same; last loaded %s, last look %s\n", clock(s.GetLastSuccess()), clock(s.GetLastLook()))
		}
		if s.GetLastFailureReason() != "" {
			fmt.Fprintf(p.out, "Last wrong %s: %s\n", clock(s.GetLastFailure()), s.GetLastFailureReason())
		}
		return nil
	}
	fmt.Fprintf(p.out, "On disk    files that are not in force, wrong since %s:\n", ago(s.GetWrongSince(), now))
	for _, problem := range s.GetProblems() {
		fmt.Fprintf(p.out, "  %s\n", placed(problem))
	}
	if s.GetLastSuccess() != nil {
		fmt.Fprintf(p.out, "Last good  %s\n", clock(s.GetLastSuccess()))
	}
	return &outcome{code: faultyRules, err: fmt.Errorf("%s does not load as it is now; an earlier set decides", folder)}
}

// cameBy says how the set came into force where that is not what one expects.
func cameBy(way glossladderv1.RuleSetWay) string {
	switch way {
	case glossladderv1.RuleSetWay_RULE_SET_WAY_RELOAD:
		return "taken up from the folder while the service ran"
	case glossladderv1.RuleSetWay_RULE_SET_WAY_UPDATE:
		return "written by a call"
	case glossladderv1.RuleSetWay_RULE_SET_WAY_LAST_GOOD:
		return "the last good set: the folder did not load when the service started"
	}
	return ""
}

// placed is a problem as an editor can jump to it.
func placed(problem *glossladderv1.RuleProblem) string {
	text := problem.GetFile()
	if problem.GetLine() > 0 {
		text += fmt.Sprintf(":%d:%d", problem.GetLine(), problem.GetColumn())
	}
	text += ": " + problem.GetMessage()
	if problem.GetHint() != "" {
		text += "; " + problem.GetHint()
	}
	return text
}

// short is as much of a hash as tells sets apart.
func short(ruleSet string) string { return ruleSet[:min(len(ruleSet), 12)] }

func clock(t *timestamppb.Timestamp) string {
	if t == nil {
		return "(not yet)"
	}
	return t.AsTime().Local().Format(time.DateTime)
}

// ago is a moment with how long ago it was.
func ago(t *timestamppb.Timestamp, now time.Time) string {
	if t == nil {
		return clock(t)
	}
	return fmt.Sprintf("%s (for %s)", clock(t), span(now.Sub(t.AsTime())))
}

// span is a duration as people say it, in its two largest units.
func span(d time.Duration) string {
	const day = 24 * time.Hour
	d = max(d, 0)
	switch {
	case d < time.Minute:
		return fmt.Sprintf("%d s", int(d.Seconds()))
	case d < time.Hour:
		return fmt.Sprintf("%d min", int(d.Minutes()))
	case d < day:
		return fmt.Sprintf("%d h %d min", d/time.Hour, d%time.Hour/time.Minute)
	}
	return fmt.Sprintf("%d days %d h", d/day, d%day/time.Hour)
}

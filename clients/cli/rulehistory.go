package cli

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"
	"google.golang.org/grpc"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// pastRules is what rules history was asked for.
type pastRules struct {
	*program
	folder string // only sets of this folder; empty: of all
	to     string
	limit  int
}

func (p *program) rulesHistory() *cobra.Command {
	past := &pastRules{program: p}
	cmd := &cobra.Command{
		Use:   "history [RULESET]",
		Short: "List the rule sets that were in force, or bring one back",
		Long: "Lists every time that a rule set came into force in a service on this machine, newest first, with how it did and which\n" +
			"files differ from the set before. RULESET, a rule set's hash or its first eight characters or more, is told with its\n" +
			"files; with --to they are written into a new folder, to be compared, checked or served again.",
		Example: "  glossladder rules history\n  glossladder rules history --rules my-rules\n  glossladder rules history 3f9c2a81 --to old-rules",
		Args: func(_ *cobra.Command, args []string) error {
			switch {
			case len(args) > 1:
				return &usageError{"name one rule set at most"}
			case len(args) == 0 && past.to != "":
				return &usageError{"say which rule set to write to " + past.to + ": rules history RULESET --to " + past.to}
			case len(args) == 1 && len(args[0]) < 8:
				return &usageError{"give at least the first eight characters of the rule set"}
			}
			return nil
		},
		RunE: running(func(cmd *cobra.Command, args []string) error {
			if p.server == "" {
				p.remembering(cmd, &p.stateDir)
			}
			if len(args) == 0 {
				return past.list(cmd.Context())
			}
			return past.one(cmd.Context(), args[0])
		}),
	}
	p.outputFlag(cmd)
	cmd.Flags().StringVar(&past.folder, "rules", "", "only sets of this folder")
	cmd.Flags().StringVar(&past.to, "to", "", "write the files of the rule set into this folder, which must not exist yet or be empty")
	cmd.Flags().IntVar(&past.limit, "limit", 20, "list so many at most")
	cmd.Flags().StringVar(&p.stateDir, "state", "", "folder where services remember rule sets (left out: the user's data folder)")
	p.serverFlags(cmd, "host:port of a running service to ask instead")
	cmd.MarkFlagsMutuallyExclusive("state", "server")
	return cmd
}

func (p *pastRules) ask(ctx context.Context, call func(context.Context, glossladderv1.RulesServiceClient) error) error {
	return p.reach(ctx, func(ctx context.Context, connection *grpc.ClientConn) error {
		return call(ctx, glossladderv1.NewRulesServiceClient(connection))
	})
}

func (p *pastRules) list(ctx context.Context) error {
	if p.limit < 1 || p.limit > 1000 {
		return &usageError{"--limit is from 1 to 1000"}
	}
	request := &glossladderv1.ListRuleSetsRequest{PageSize: int32(p.limit)}
	if p.folder != "" {
		folder, err := filepath.Abs(p.folder)
		if err != nil {
			return err
		}
		request.Folder = folder
	}
	var answer *glossladderv1.ListRuleSetsResponse
	err := p.ask(ctx, func(ctx context.Context, client glossladderv1.RulesServiceClient) (err error) {
		answer, err = client.ListRuleSets(ctx, request)
		return err
	})
	switch {
	case err != nil:
		return err
	case p.asJSON():
		return p.json(answer)
	case len(answer.GetRuleSets()) == 0:
		fmt.Fprintln(p.out, "No rule set has been in force in a service yet. One is remembered as soon as glossladder serve starts.")
		return nil
	}
	for _, set := range answer.GetRuleSets() {
		p.line(set)
	}
	if answer.GetNextPageToken() != "" {
		fmt.Fprintf(p.out, "There are older ones: --limit %d\n", min(p.limit*5, 1000))
	}
	fmt.Fprintln(p.out, "\nLook at one: glossladder rules history RULESET. Bring it back: add --to DIR.")
	return nil
}

// line is one time that a set came into force.
func (p *pastRules) line(set *glossladderv1.RuleSet) {
	fmt.Fprintf(p.out, "%s  %s  %-9s  %s", clock(set.GetInForceSince()), short(set.GetRuleSet()), wayWord(set.GetWay()), origin(set))
	if p.server != "" && set.GetInForce() {
		fmt.Fprint(p.out, "  (the set in force)")
	}
	fmt.Fprintln(p.out)
	if changed := set.GetChangedFiles(); len(changed) > 0 {
		fmt.Fprintf(p.out, "%21schanged: %s\n", "", strings.Join(changed, ", "))
	}
}

func (p *pastRules) one(ctx context.Context, ruleSet string) error {
	if p.to != "" {
		if err := empty(p.to); err != nil {
			return err
		}
	}
	var set *glossladderv1.RuleSet
	err := p.ask(ctx, func(ctx context.Context, client glossladderv1.RulesServiceClient) (err error) {
		set, err = client.GetRuleSet(ctx, &glossladderv1.GetRuleSetRequest{RuleSet: ruleSet})
		return err
	})
	switch {
	case err != nil:
		return err
	case p.to != "":
		return p.write(set)
	case p.asJSON():
		return p.json(set)
	}
	fmt.Fprintf(p.out, "Rule set  %s\n", set.GetRuleSet())
	if set.GetInForceSince() != nil {
		fmt.Fprintf(p.out, "In force  last since %s (%s), from %s\n", clock(set.GetInForceSince()), wayWord(set.GetWay()), origin(set))
	}
	fmt.Fprintf(p.out, "Files     %d:\n", len(set.GetFiles()))
	for _, file := range set.GetFiles() {
		fmt.Fprintf(p.out, "  %-28s %7d bytes\n", file.GetName(), file.GetSizeBytes())
	}
	fmt.Fprintf(p.out, "\nBring it back into a folder: glossladder rules history %s --to old-rules\n", short(set.GetRuleSet()))
	return nil
}

// write puts the files of a set into a folder.
func (p *pastRules) write(set *glossladderv1.RuleSet) error {
	for _, file := range set.GetFiles() {
		if !filepath.IsLocal(filepath.FromSlash(file.GetName())) {
			return fmt.Errorf("the rule set has a file %q, which lies outside of any folder", file.GetName())
		}
		path := filepath.Join(p.to, filepath.FromSlash(file.GetName()))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(path, []byte(file.GetText()), 0o644); err != nil {
			return err
		}
	}
	fmt.Fprintf(p.out, "The %d files of rule set %s are in %[3]s.\nNext: glossladder rules check %[3]s\n", len(set.GetFiles()), short(set.GetRuleSet()), p.to)
	return nil
}

func origin(set *glossladderv1.RuleSet) string {
	if set.GetFolder() == "" {
		return "the rules as shipped"
	}
	return set.GetFolder()
}

func wayWord(way glossladderv1.RuleSetWay) string {
	switch way {
	case glossladderv1.RuleSetWay_RULE_SET_WAY_START:
		return "start"
	case glossladderv1.RuleSetWay_RULE_SET_WAY_RELOAD:
		return "reload"
	case glossladderv1.RuleSetWay_RULE_SET_WAY_UPDATE:
		return "update"
	case glossladderv1.RuleSetWay_RULE_SET_WAY_LAST_GOOD:
		return "last good"
	}
	return "unknown"
}

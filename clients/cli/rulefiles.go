package cli

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"time"

	"github.com/spf13/cobra"

	"github.com/glossladder/glossladder/clients/cli/page"
	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/provenance"
	"github.com/glossladder/glossladder/rules/shipped"
	"github.com/glossladder/glossladder/rules/strictyaml"
)

func (p *program) listFacts() *cobra.Command {
	cmd := &cobra.Command{
		Use:     "facts [PREFIX]",
		Short:   "List the facts that rules may name, and what each table may answer",
		Example: "  glossladder rules facts\n  glossladder rules facts film.",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 1 {
				return &usageError{"name one prefix at most, such as film."}
			}
			return nil
		},
		RunE: running(func(cmd *cobra.Command, args []string) error {
			request := &glossladderv1.ListFactsRequest{}
			if len(args) > 0 {
				request.Prefix = args[0]
			}
			return p.answerFacts(cmd.Context(), request)
		}),
	}
	p.outputFlag(cmd)
	p.reachable(cmd)
	return cmd
}

func (p *program) answerFacts(ctx context.Context, request *glossladderv1.ListFactsRequest) error {
	var answer *glossladderv1.ListFactsResponse
	err := p.ask(ctx, func(ctx context.Context, adviser glossladderv1.AdvisorServiceClient) (err error) {
		answer, err = adviser.ListFacts(ctx, request)
		return err
	})
	switch {
	case err != nil:
		return err
	case p.asJSON():
		return p.json(answer)
	case len(answer.GetFacts()) == 0:
		return p.noSuchFact(ctx, request.GetPrefix())
	}
	return page.Facts(p.out, answer, request.GetPrefix() == "", p.style())
}

// noSuchFact says what the prefix may have been.
func (p *program) noSuchFact(ctx context.Context, prefix string) error {
	var names []string
	err := p.ask(ctx, func(ctx context.Context, adviser glossladderv1.AdvisorServiceClient) error {
		all, err := adviser.ListFacts(ctx, &glossladderv1.ListFactsRequest{})
		for _, fact := range all.GetFacts() {
			names = append(names, fact.GetName())
		}
		return err
	})
	if near := strictyaml.Nearest(prefix, names); near != "" {
		return fmt.Errorf("no fact begins with %q; did you mean %s?", prefix, near)
	}
	return errors.Join(fmt.Errorf("no fact begins with %q; rules facts lists them all", prefix), err)
}

func (p *program) copyRules() *cobra.Command {
	return &cobra.Command{
		Use:   "copy DIR",
		Short: "Write the shipped rules into a new folder, to edit them there",
		Long: "Writes the shipped rules into a new folder, to edit them there. " + rules.BaseFile + " in it records which set they are, so that\n" +
			"rules diff DIR can tell your edits from those of a later version.\n" + exitCodeHelp,
		Args: oneFolder,
		RunE: running(func(_ *cobra.Command, args []string) error {
			dir := args[0]
			if err := empty(dir); err != nil {
				return err
			}
			set, err := p.load(nil)
			if err != nil {
				return err
			}
			if err := os.CopyFS(dir, shipped.Files()); err != nil {
				return fmt.Errorf("copy the rules: %w", err)
			}
			record := provenance.Of(set, provenance.Shipped, buildVersion(), time.Now())
			if err := os.WriteFile(filepath.Join(dir, rules.BaseFile), record.Bytes(), 0o644); err != nil {
				return fmt.Errorf("record what was copied: %w", err)
			}
			fmt.Fprintf(p.out, "The shipped rules are in %[1]s.\nEdit them, then: glossladder rules check %[1]s\n"+
				"See what changes: glossladder rules diff %[1]s\nDecide by them:  glossladder recommend job.yaml --rules %[1]s\n", dir)
			return nil
		}),
	}
}

// empty refuses a folder that holds anything.
func empty(dir string) error {
	entries, err := os.ReadDir(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return err
	case slices.ContainsFunc(entries, func(e fs.DirEntry) bool { return filepath.Ext(e.Name()) == ".yaml" }):
		return fmt.Errorf("%[1]s holds rules already, and nothing was written; see how they differ with glossladder rules diff %[1]s, or name a new folder", dir)
	case len(entries) > 0:
		return fmt.Errorf("%s is not empty; name a folder that does not exist yet", dir)
	}
	return nil
}

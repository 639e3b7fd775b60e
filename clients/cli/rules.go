package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/app"
)

// rules is the group of commands about rule files on this machine.
func (p *program) rules() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "rules",
		Short: "Copy, check and test rule files, and list what they may name",
		Long:  "Rules decide; they are files of a folder that a shop edits. " + exitCodeHelp,
		Args:  noArguments,
		RunE: func(cmd *cobra.Command, _ []string) error {
			names := []string{}
			for _, c := range cmd.Commands() {
				names = append(names, c.Name())
			}
			return &usageError{"say what to do with the rules: " + strings.Join(names, ", ")}
		},
	}
	cmd.AddCommand(p.checkRules(), p.testRules(), p.listFacts(), p.copyRules(), p.rulesStatus())
	return cmd
}

// noArguments refuses words behind a command that takes none, and says which it could have been.
func noArguments(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	cmd.SuggestionsMinimumDistance = 2
	says := fmt.Sprintf("%s does not take %q", cmd.CommandPath(), args[0])
	if near := cmd.SuggestionsFor(args[0]); len(near) > 0 {
		says += "; did you mean " + near[0] + "?"
	}
	return &usageError{says}
}

// oneFolder accepts the name of one folder.
func oneFolder(cmd *cobra.Command, args []string) error {
	if len(args) != 1 {
		return &usageError{fmt.Sprintf("name one folder: %s DIR", cmd.CommandPath())}
	}
	return nil
}

// upToOneFolder accepts the name of a folder, or none for the rules as shipped.
func upToOneFolder(cmd *cobra.Command, args []string) error {
	if len(args) > 1 {
		return &usageError{fmt.Sprintf("name one folder at most: %s [DIR]", cmd.CommandPath())}
	}
	return nil
}

// load reads the rule set of the folder in args, or the shipped one.
func (p *program) load(args []string) (*rules.Set, error) {
	if len(args) > 0 {
		p.rulesDir = args[0]
	}
	if err := (app.Options{RulesDir: p.rulesDir}).Validate(); err != nil {
		return nil, err
	}
	return app.LoadRules(p.rulesDir)
}

func (p *program) checkRules() *cobra.Command {
	return &cobra.Command{
		Use:   "check [DIR]",
		Short: "Report every problem of a rule folder, with its place",
		Long:  "Loads a rule folder and reports every problem at once, one a line. Without DIR: the rules as shipped.\n" + exitCodeHelp,
		Args:  upToOneFolder,
		RunE: running(func(_ *cobra.Command, args []string) error {
			set, err := p.load(args)
			if err != nil {
				return err
			}
			if err := p.findings(set); err != nil {
				return err
			}
			count := 0
			for _, table := range set.Tables() {
				count += len(table.Rules())
			}
			fmt.Fprintf(p.out, "No problems: %d tables, %d rules, %d worked cases in %d files. Rule set %s.\n",
				len(set.Tables()), count, len(set.Cases()), len(set.Files()), set.Hash()[:12])
			if len(args) > 0 {
				fmt.Fprintf(p.out, "Next: glossladder rules test %s\n", args[0])
			}
			return nil
		}),
	}
}

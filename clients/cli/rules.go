package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/check"
	"github.com/glossladder/glossladder/service/app"
)

// rules is the group of commands about rule files on this machine.
func (p *program) rules() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "rules",
		Short: "Copy, check, test and compare rule files, and list what they may name",
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
	cmd.AddCommand(p.checkRules(), p.testRules(), p.listFacts(), p.copyRules(), p.diffRules(), p.replayRules(), p.rulesSchema(), p.rulesStatus(), p.reloadRules(), p.rulesHistory())
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
	steps := 0
	cmd := &cobra.Command{
		Use:   "check [DIR]",
		Short: "Report every problem of a rule folder, and what is proved about each table",
		Long: "Loads a rule folder and reports every problem at once, one a line. Of a set that loads it finds inputs that no rule\n" +
			"answers, rules that disagree or are of no use, and numbers that no reading can have, each with the inputs for which it\n" +
			"is so and a way out; and it says for each table what is proved for every input. Without DIR: the rules as shipped.\n" + exitCodeHelp,
		Example: "  glossladder rules check my-rules\n  glossladder rules check my-rules --output json",
		Args:    upToOneFolder,
		RunE: running(func(_ *cobra.Command, args []string) error {
			if steps < 1 {
				return &usageError{"--steps takes a number from 1"}
			}
			return p.checkFolder(args, steps)
		}),
	}
	cmd.Flags().IntVar(&steps, "steps", check.DefaultBudget, "how many steps one question may take before it is not decided")
	cmd.Flags().VarP(&p.output, "output", "o", "text for people, json for programs")
	return cmd
}

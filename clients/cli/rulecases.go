package cli

import (
	"fmt"
	"os"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"github.com/glossladder/glossladder/rules/cases"
)

// caseTest is what rules test was asked for.
type caseTest struct {
	*program
	only, junit string
	coverage    bool
	mutate      bool
	atLeast     float64 // percent; below zero when not asked for
	suggest     string  // a rule, missing for all that lack a case, or empty
}

// missing stands for every rule that lacks a case.
const missing = "missing"

func (p *program) testRules() *cobra.Command {
	t := &caseTest{program: p}
	cmd := &cobra.Command{
		Use:   "test [DIR]",
		Short: "Run the worked cases of a rule folder, and say how good they are",
		Long: "Runs the worked cases under cases/ and says which came out otherwise and why, and which rules no case speaks of.\n" +
			"Without DIR: the rules as shipped.\n\n" +
			"With --coverage: which bounds of the rules no case tests on both sides, with the cases that would.\n" +
			"With --mutate: small mistakes are made in the rules, one at a time; those that no case and no promise notices are\n" +
			"listed, each with the case that would catch it.\n" +
			"With --suggest: writes cases for a rule, one that it wins and one that just misses it, to paste into cases/.\n" + exitCodeHelp,
		Example: "  glossladder rules test my-rules --coverage\n" +
			"  glossladder rules test my-rules --mutate --at-least 95\n" +
			"  glossladder rules test my-rules --suggest start/no-mark\n" +
			"  glossladder rules test my-rules --suggest            # for every rule that lacks a case",
		Args: func(_ *cobra.Command, args []string) error { return t.arguments(args) },
		RunE: running(func(_ *cobra.Command, args []string) error { return t.run(args) }),
	}
	flags := cmd.Flags()
	flags.StringVar(&t.only, "run", "", "only cases whose table or name has this text in it")
	flags.StringVar(&t.junit, "junit", "", "also write how the cases came out to this file, in the XML that build servers read")
	flags.BoolVar(&t.coverage, "coverage", false, "tell what the cases cover, and the bounds that none tests on both sides")
	flags.BoolVar(&t.mutate, "mutate", false, "make small mistakes in the rules and tell which ones nothing notices")
	flags.Float64Var(&t.atLeast, "at-least", -1, "with --mutate: the least share of mistakes to be caught, in percent")
	flags.Lookup("at-least").DefValue = "0" // so that help shows no default
	flags.StringVar(&t.suggest, "suggest", "", "write cases for this rule, ID or TABLE/ID; without one, for all rules that lack a case")
	flags.Lookup("suggest").NoOptDefVal = missing
	flags.VarP(&p.output, "output", "o", "text for people, json for programs")
	return cmd
}

// arguments accepts a folder, and behind --suggest a rule, in either order.
func (t *caseTest) arguments(args []string) error {
	most := 1
	if t.suggest == missing {
		most = 2
	}
	alone := 0
	for _, asked := range []bool{t.coverage, t.mutate, t.suggest != ""} {
		if asked {
			alone++
		}
	}
	switch {
	case len(args) > most:
		return &usageError{"name one folder at most: glossladder rules test [DIR]"}
	case alone > 1:
		return &usageError{"ask for one of --coverage, --mutate and --suggest"}
	case t.atLeast >= 0 && !t.mutate:
		return &usageError{"--at-least goes with --mutate"}
	case t.atLeast > 100:
		return &usageError{fmt.Sprintf("--at-least is a percentage, 0 to 100, not %v", t.atLeast)}
	case (t.only != "" || t.junit != "") && alone > 0:
		return &usageError{"--run and --junit are about the cases alone; leave out --coverage, --mutate and --suggest"}
	}
	return nil
}

func (t *caseTest) run(args []string) error {
	if t.suggest == missing {
		args = t.ruleAmong(args)
	}
	set, err := t.load(args)
	if err != nil {
		return err
	}
	if t.suggest != "" {
		return t.suggestions(set)
	}
	report := cases.Run(set)
	if t.junit != "" {
		if err := saveJUnit(t.junit, report.Results, t.only); err != nil {
			return err
		}
	}
	wrong, err := t.outcome(report)
	if err != nil {
		return err
	}
	switch {
	case t.mutate && wrong == nil:
		return t.mutation(set)
	case t.asJSON():
		if err := t.casesJSON(set, report); err != nil {
			return err
		}
		return orNothing(wrong)
	}
	t.failures(report)
	if wrong != nil {
		return wrong
	}
	return t.told(set, report)
}

// ruleAmong takes the name of a rule out of arguments: the one that is no folder.
func (t *caseTest) ruleAmong(args []string) []string {
	return slices.DeleteFunc(slices.Clone(args), func(arg string) bool {
		info, err := os.Stat(arg)
		if err == nil && info.IsDir() || t.suggest != missing || strings.ContainsAny(arg, `.\`) {
			return false
		}
		t.suggest = arg
		return true
	})
}

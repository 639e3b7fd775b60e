package cli

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"github.com/glossladder/glossladder/rules/cases"
)

func (p *program) testRules() *cobra.Command {
	var only, junit string
	cmd := &cobra.Command{
		Use:   "test [DIR]",
		Short: "Run the worked cases of a rule folder",
		Long: "Runs the worked cases under cases/ and says which came out otherwise and why, and which rules no case speaks of.\n" +
			"Without DIR: the rules as shipped.\n" + exitCodeHelp,
		Args: upToOneFolder,
		RunE: running(func(_ *cobra.Command, args []string) error {
			set, err := p.load(args)
			if err != nil {
				return err
			}
			report := cases.Run(set)
			if junit != "" {
				if err := saveJUnit(junit, report.Results, only); err != nil {
					return err
				}
			}
			return p.reportCases(report, only)
		}),
	}
	cmd.Flags().StringVar(&only, "run", "", "only cases whose table or name has this text in it")
	cmd.Flags().StringVar(&junit, "junit", "", "also write how the cases came out to this file, in the XML that build servers read")
	return cmd
}

// saveJUnit writes the cases that are asked for to a file.
func saveJUnit(name string, results []cases.Result, only string) error {
	asked := slices.DeleteFunc(slices.Clone(results), func(r cases.Result) bool { return !concerns(r, only) })
	var text bytes.Buffer
	if err := writeJUnit(&text, asked); err != nil {
		return err
	}
	return os.WriteFile(name, text.Bytes(), 0o644)
}

func (p *program) reportCases(report cases.Report, only string) error {
	run, wrong := 0, 0
	for _, result := range report.Results {
		if !concerns(result, only) {
			continue
		}
		run++
		if !result.Passed() {
			wrong++
			result.Case.File = filepath.Join(p.rulesDir, filepath.FromSlash(result.Case.File))
			fmt.Fprintln(p.out, result)
		}
	}
	switch {
	case run == 0 && only != "":
		return fmt.Errorf("no case has %q in its table or name", only)
	case run == 0:
		return fmt.Errorf("there are no worked cases; put some under %s", filepath.Join(p.rulesDir, "cases"))
	}
	if only == "" {
		p.uncovered("no case wins", report.Unwon())
		p.uncovered("no case just misses", report.Unmissed())
	}
	if wrong > 0 {
		return &outcome{code: failedCases, err: fmt.Errorf("%d of %d cases came out otherwise", wrong, run)}
	}
	fmt.Fprintf(p.out, "All %d cases came out as expected.\n", run)
	return nil
}

func concerns(result cases.Result, only string) bool {
	text := strings.ToLower(result.Case.Table + " " + result.Case.Name)
	return strings.Contains(text, strings.ToLower(only))
}

// uncovered lists rules that the cases leave open. That is a remark, not a failure.
func (p *program) uncovered(how string, rules []cases.Coverage) {
	for _, rule := range rules {
		fmt.Fprintf(p.out, "%s:%d: %s rule %s\n", filepath.Join(p.rulesDir, filepath.FromSlash(rule.File)), rule.Line, how, rule.Rule)
	}
}

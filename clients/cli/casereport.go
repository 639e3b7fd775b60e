package cli

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/glossladder/glossladder/clients/cli/page"
	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/cases"
)

// orNothing keeps a nil outcome from becoming an error that is not nil.
func orNothing(wrong *outcome) error {
	if wrong == nil {
		return nil
	}
	return wrong
}

// outcome says that cases failed, or that there are none to run.
func (t *caseTest) outcome(report cases.Report) (*outcome, error) {
	run, wrong := 0, 0
	for _, result := range report.Results {
		if !concerns(result, t.only) {
			continue
		}
		run++
		if !result.Passed() {
			wrong++
		}
	}
	switch {
	case run == 0 && t.only != "":
		return nil, fmt.Errorf("no case has %q in its table or name", t.only)
	case run == 0:
		return nil, fmt.Errorf("there are no worked cases; put some under %s", filepath.Join(t.rulesDir, "cases"))
	case wrong > 0:
		return &outcome{code: failedCases, err: fmt.Errorf("%d of %d cases came out otherwise", wrong, run)}, nil
	}
	return nil, nil
}

// failures prints every case that came out otherwise.
func (t *caseTest) failures(report cases.Report) {
	for _, result := range report.Failed() {
		if concerns(result, t.only) {
			result.Case.File = t.path(result.Case.File)
			fmt.Fprintln(t.out, result)
		}
	}
}

// told says what is good about cases that all came out as expected, and what is missing.
func (t *caseTest) told(set *rules.Set, report cases.Report) error {
	if t.only != "" {
		run := 0
		for _, result := range report.Results {
			if concerns(result, t.only) {
				run++
			}
		}
		fmt.Fprintf(t.out, "All %d cases came out as expected.\n", run)
		return nil
	}
	t.uncovered("no case wins", report.Unwon())
	t.uncovered("no case just misses", report.Unmissed())
	tables := cases.Cover(set, report)
	if t.coverage {
		return page.Coverage(t.out, tables, set.Schema(), t.path, t.style())
	}
	fmt.Fprintf(t.out, "All %d cases came out as expected.\n%s\n", len(report.Results), page.CoverageLine(tables))
	return nil
}

// path is a file of the rule folder as an editor can open it.
func (p *program) path(file string) string {
	return filepath.Join(p.rulesDir, filepath.FromSlash(file))
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

func concerns(result cases.Result, only string) bool {
	text := strings.ToLower(result.Case.Table + " " + result.Case.Name)
	return strings.Contains(text, strings.ToLower(only))
}

// uncovered lists rules that the cases leave open. That is a remark, not a failure.
func (p *program) uncovered(how string, rules []cases.Coverage) {
	for _, rule := range rules {
		fmt.Fprintf(p.out, "%s:%d: %s rule %s\n", p.path(rule.File), rule.Line, how, rule.Rule)
	}
}

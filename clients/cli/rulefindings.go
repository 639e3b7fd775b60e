package cli

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"text/tabwriter"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/check"
	"github.com/glossladder/glossladder/rules/promise"
)

// brokenPromise is the code of a promise of the set's own that is not kept.
const brokenPromise check.Code = "promise"

// checked is what rules check finds out about a set that loads.
type checked struct {
	set      *rules.Set
	report   check.Report
	verdicts []promise.Verdict
	findings []check.Finding // those that the files do not accept, then promises that are not kept
}

// check looks at a set that loads. Promises about safety were settled when it was loaded.
func (p *program) check(set *rules.Set, steps int) (checked, error) {
	c := checked{set: set, report: check.Run(set, steps)}
	c.findings = c.report.Open()
	src, ok := set.Source(promise.File)
	if !ok {
		return c, nil
	}
	own, err := promise.Parse(promise.File, src)
	if err != nil {
		return c, err
	}
	if c.verdicts, err = promise.Verify(set, own, 0); err != nil {
		return c, err
	}
	for _, v := range c.verdicts {
		if v.Outcome == promise.Kept {
			continue
		}
		at := v.Problem()
		c.findings = append(c.findings, check.Finding{
			Code: brokenPromise, Level: check.Warning, Message: at.Message, Mend: at.Hint,
			Places: []check.Place{{Rule: at.Rule, File: at.File, Line: at.Line, Col: at.Col}},
		})
	}
	return c, nil
}

// count is the number of findings of a level.
func (c checked) count(level check.Level) int {
	n := 0
	for _, f := range c.findings {
		if f.Level == level {
			n++
		}
	}
	return n
}

// problems are the findings that are wrong for certain.
func (c checked) problems() rules.Problems {
	var wrong rules.Problems
	for _, f := range c.findings {
		if f.Level != check.Error {
			continue
		}
		at := f.Places[0]
		problem := rules.Problem{File: at.File, Line: at.Line, Col: at.Col, Rule: at.Rule, Message: f.Message, Hint: f.Mend}
		if f.Example != "" {
			problem.Message += ": " + f.Example
		}
		problem.Message += " [" + string(f.Code) + "]"
		wrong = append(wrong, problem)
	}
	return wrong
}

// findings prints what is worth a look, and of every table what is proved.
func (p *program) findings(c checked) {
	for _, f := range c.findings {
		if f.Level != check.Error {
			f.Places = slices.Clone(f.Places)
			f.Places[0].File = filepath.Join(p.rulesDir, filepath.FromSlash(f.Places[0].File))
			fmt.Fprintf(p.out, "%s: %s\n", f.Level, f)
		}
	}
	if len(c.findings) > c.count(check.Error) {
		fmt.Fprintln(p.out)
	}
	p.proofs(c.report.Tables)
	kept := 0
	for _, v := range c.verdicts {
		if v.Outcome == promise.Kept {
			kept++
		}
	}
	if len(c.verdicts) > 0 {
		fmt.Fprintf(p.out, "Of %s, %d are proved to be kept for every input.\n", plural(len(c.verdicts), "promise", "promises"), kept)
	}
	if accepted := len(c.report.Findings) - len(c.report.Open()); accepted > 0 {
		fmt.Fprintf(p.out, "The files accept %s: the lines that begin with # accept.\n", plural(accepted, "finding", "findings"))
	}
}

// proofs prints a line for every table: nothing passes in silence.
func (p *program) proofs(tables []check.TableReport) {
	w := tabwriter.NewWriter(p.out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, "table\trules\thit\tevery input answered\trules agree\tevery rule can answer")
	for _, t := range tables {
		fmt.Fprintf(w, "%s\t%d\t%s\t%s\t%s\t%s\n", t.Table, t.Rules, t.Hit, proof(t.Answers), proof(t.Agrees), proof(t.Wins))
	}
	if err := w.Flush(); err != nil {
		return // a terminal that is gone
	}
	fmt.Fprintln(p.out)
}

// proof is an outcome in one word.
func proof(o check.Outcome) string {
	switch o {
	case check.Refuted:
		return "no"
	case check.NotAsked:
		return "-"
	}
	return string(o)
}

// sum says in one line what came of it.
func (c checked) sum() string {
	count := 0
	for _, table := range c.set.Tables() {
		count += len(table.Rules())
	}
	found := "No problems"
	if warnings, advice := c.count(check.Warning), c.count(check.Advice); warnings+advice > 0 {
		var parts []string
		if warnings > 0 {
			parts = append(parts, plural(warnings, "warning", "warnings"))
		}
		if advice > 0 {
			parts = append(parts, plural(advice, "piece of advice", "pieces of advice"))
		}
		found = "No errors, " + strings.Join(parts, ", ")
	}
	return fmt.Sprintf("%s: %d tables, %d rules, %d worked cases in %d files. Rule set %s.",
		found, len(c.set.Tables()), count, len(c.set.Cases()), len(c.set.Files()), c.set.Hash()[:12])
}

// checkFolder is rules check.
func (p *program) checkFolder(args []string, steps int) error {
	set, err := p.load(args)
	if problems, ok := errors.AsType[rules.Problems](err); ok && p.asJSON() {
		return p.problemsJSON(problems)
	}
	if err != nil {
		return err
	}
	c, err := p.check(set, steps)
	if err != nil {
		return err
	}
	if p.asJSON() {
		return p.checkedJSON(c)
	}
	p.findings(c)
	if wrong := c.problems(); len(wrong) > 0 {
		return wrong
	}
	fmt.Fprintln(p.out, c.sum())
	if len(args) > 0 {
		fmt.Fprintf(p.out, "Next: glossladder rules test %s\n", args[0])
	}
	return nil
}

// plural is a number with its noun.
func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

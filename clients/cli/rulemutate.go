package cli

import (
	"bytes"
	"fmt"
	"io/fs"

	"github.com/glossladder/glossladder/clients/cli/page"
	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/mutate"
	"github.com/glossladder/glossladder/rules/promise"
	"github.com/glossladder/glossladder/rules/shipped"
)

// mutation makes small mistakes in the rules and tells which ones nothing notices.
func (t *caseTest) mutation(set *rules.Set) error {
	promises, err := binding(set)
	if err != nil {
		return err
	}
	report, err := mutate.Run(set, promises, 0)
	if err != nil {
		return err
	}
	if t.asJSON() {
		err = t.mutationJSON(set, report)
	} else {
		var tables []string
		for _, table := range set.Tables() {
			tables = append(tables, table.Name())
		}
		err = page.Mutation(t.out, report, tables, t.path, t.style())
	}
	if err != nil {
		return err
	}
	if score := report.All().Score(); score < t.atLeast {
		return &outcome{code: failedCases, err: fmt.Errorf("%.2f %% of the mistakes are caught, less than %v %%", score, t.atLeast)}
	}
	return nil
}

// binding are the promises that a set must keep: its own, and the shipped ones about safety.
func binding(set *rules.Set) ([]promise.Promise, error) {
	var out []promise.Promise
	own, _ := set.Source(promise.File)
	if own != nil {
		read, err := promise.Parse(promise.File, own)
		if err != nil {
			return nil, err
		}
		out = read
	}
	src, err := fs.ReadFile(shipped.Files(), promise.File)
	if err != nil || bytes.Equal(src, own) {
		return out, err
	}
	read, err := promise.Parse("shipped "+promise.File, src)
	for _, p := range read {
		if p.Safety {
			out = append(out, p)
		}
	}
	return out, err
}

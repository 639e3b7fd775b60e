package mutate

import (
	"fmt"
	"runtime"
	"slices"
	"strings"
	"sync"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/cases"
	"github.com/glossladder/glossladder/rules/internal/region"
	"github.com/glossladder/glossladder/rules/promise"
)

// DefaultBudget is the number of steps that the proof of one mutant takes when asked for none.
const DefaultBudget = 20_000

// Run makes every small mistake in every table of a set, one at a time, and tells
// which of them the set's worked cases or the promises notice. Promises that the set
// does not keep cannot notice anything. A case that does not come out as expected is
// an error: with it nothing could be told. A budget of 0 is [DefaultBudget] steps.
//
// The report does not depend on how many processors there are.
func Run(set *rules.Set, promises []promise.Promise, budget int) (Report, error) {
	if failed := cases.Run(set).Failed(); len(failed) > 0 {
		return Report{}, fmt.Errorf("%d cases do not come out as expected; mend them first", len(failed))
	}
	if budget <= 0 {
		budget = DefaultBudget
	}
	kept, err := keptBy(set, promises)
	if err != nil {
		return Report{}, err
	}
	var out Report
	for _, t := range set.Tables() {
		mutants := mistakes(set, t)
		found := make([]Finding, len(mutants))
		work(len(mutants), func() func(int) {
			j := judge{set: set, table: t, promises: about(t.Name(), kept), budget: budget}
			return func(i int) { found[i] = j.judge(mutants[i]) }
		})
		out.Findings = append(out.Findings, found...)
	}
	return out, nil
}

// work calls one function for every number below n, on all processors; each has a
// function of its own.
func work(n int, start func() func(int)) {
	next := make(chan int)
	var wg sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		wg.Go(func() {
			do := start()
			for i := range next {
				do(i)
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	wg.Wait()
}

// keptBy are the promises that a set keeps.
func keptBy(set *rules.Set, promises []promise.Promise) ([]promise.Promise, error) {
	verdicts, err := promise.Verify(set, promises, 0)
	if err != nil {
		return nil, err
	}
	var kept []promise.Promise
	for _, v := range verdicts {
		if v.Outcome == promise.Kept {
			kept = append(kept, v.Promise)
		}
	}
	return kept, nil
}

// judge is what one processor needs.
type judge struct {
	set      *rules.Set
	table    *rules.Table
	promises []promise.Promise
	budget   int
	d        rules.Decision
}

func (j *judge) judge(m Mutant) Finding {
	f := Finding{Mutant: m, Outcome: Refused}
	changed, err := j.set.WithTable(m.Table, m.source)
	if err != nil {
		return f
	}
	now, _ := changed.Table(m.Table)
	c := compare(j.table, now)
	answer := j.difference(c)
	if answer.Outcome == region.Proved {
		f.Outcome = Same
		return f
	}
	if f.By = j.notices(changed, now); f.By != "" {
		f.Outcome = Caught
		return f
	}
	f.Outcome = Survived
	if f.Undecided = answer.Outcome == region.Undecided; !f.Undecided {
		f.Case = j.wouldCatch(c, &f.Mutant, answer.Point)
	}
	return f
}

// difference looks for an input that both tables answer differently, first among the
// worked cases.
func (j *judge) difference(c *comparison) region.Answer {
	var near []*rules.Input
	for i := range j.set.Cases() {
		worked := &j.set.Cases()[i]
		if worked.Table != j.table.Name() {
			continue
		}
		if c.differ(worked.Given) {
			return region.Answer{Outcome: region.Refuted, Point: worked.Given.Codes()}
		}
		near = append(near, worked.Given)
	}
	return c.search(near, j.budget)
}

// notices names the first case that comes out otherwise, or the first promise that is
// not kept any more; empty when there is none.
func (j *judge) notices(changed *rules.Set, now *rules.Table) string {
	for i := range changed.Cases() {
		worked := &changed.Cases()[i]
		if worked.Table != now.Name() {
			continue
		}
		if answer, misses := cases.Passes(now, worked, &j.d); !answer || !misses {
			return "case " + worked.Name
		}
	}
	for i := range j.promises {
		verdicts, err := promise.Verify(changed, j.promises[i:i+1], 0)
		if err == nil && verdicts[0].Outcome != promise.Kept {
			return "promise " + verdicts[0].Promise.ID
		}
	}
	return ""
}

// about are the promises that name a table: the others cannot notice an edit of it.
func about(table string, promises []promise.Promise) []promise.Promise {
	return slices.DeleteFunc(slices.Clone(promises), func(p promise.Promise) bool {
		says := []string{p.Says, p.NeverFalls, p.NeverRises, p.Keeps, p.Moves}
		return p.Says != table && !slices.ContainsFunc(says, func(s string) bool { return strings.Contains(s, table+".") })
	})
}

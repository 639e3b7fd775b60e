package cases

import (
	"slices"

	"github.com/glossladder/glossladder/rules"
)

// Report is what running a set's cases showed.
type Report struct {
	Results []Result   // in the order of the set's cases
	Rules   []Coverage // every rule of every table, in order
}

// Coverage says which cases speak of a rule.
type Coverage struct {
	Table, Rule string
	File        string
	Line        int
	Matched     []string // passed cases in which its condition is true
	Won         []string // passed cases that it wins
	Missed      []string // passed cases that just miss it
}

// Failed are the cases that did not come out as expected.
func (r Report) Failed() []Result {
	var out []Result
	for _, c := range r.Results {
		if !c.Passed() {
			out = append(out, c)
		}
	}
	return out
}

// Unwon are the rules that no passed case wins.
func (r Report) Unwon() []Coverage {
	return slices.DeleteFunc(slices.Clone(r.Rules), func(c Coverage) bool { return len(c.Won) > 0 })
}

// Unmissed are the rules that no passed case says it just misses.
func (r Report) Unmissed() []Coverage {
	return slices.DeleteFunc(slices.Clone(r.Rules), func(c Coverage) bool { return len(c.Missed) > 0 })
}

// Run decides every case of the set.
func Run(set *rules.Set) Report {
	var out Report
	at := map[string]int{}
	for _, t := range set.Tables() {
		for _, r := range t.Rules() {
			at[t.Name()+" "+r.ID] = len(out.Rules)
			out.Rules = append(out.Rules, Coverage{Table: t.Name(), Rule: r.ID, File: r.File, Line: r.Line})
		}
	}
	var d rules.Decision
	var sc rules.Scratch
	for _, c := range set.Cases() {
		table, _ := set.Table(c.Table) // Load checked it
		table.Decide(c.Given, &d)
		r := check(table, &c, &d)
		out.Results = append(out.Results, r)
		if !r.Passed() {
			continue
		}
		for i, r := range table.Rules() {
			if table.Holds(c.Given, i, &sc) {
				cov := &out.Rules[at[c.Table+" "+r.ID]]
				cov.Matched = append(cov.Matched, c.Name)
			}
		}
		for _, w := range d.Winners {
			cov := &out.Rules[at[c.Table+" "+table.Rules()[w].ID]]
			cov.Won = append(cov.Won, c.Name)
		}
		for _, id := range c.Misses {
			cov := &out.Rules[at[c.Table+" "+id]]
			cov.Missed = append(cov.Missed, c.Name)
		}
	}
	return out
}

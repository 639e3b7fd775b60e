package cases

import (
	"fmt"
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules"
)

// Report is what running a set's cases showed.
type Report struct {
	Results []Result   // in the order of the set's cases
	Rules   []Coverage // every rule of every table, in order
}

// Result is how one case came out.
type Result struct {
	Case     rules.Case
	Failures []string // what differs, empty when it passed
	Got      string   // the answer in words
	Why      string   // why that answer, in one line
}

// Passed reports whether the case came out as expected.
func (r Result) Passed() bool { return len(r.Failures) == 0 }

// String is a failure in words with its place, or "ok".
func (r Result) String() string {
	at := fmt.Sprintf("%s:%d: %s", r.Case.File, r.Case.Line, r.Case.Name)
	if r.Passed() {
		return at + ": ok"
	}
	return at + "\n  " + strings.Join(r.Failures, "\n  ") + "\n  got " + r.Got + "\n  because " + r.Why
}

// Coverage says which cases speak of a rule.
type Coverage struct {
	Table, Rule string
	File        string
	Line        int
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
	for _, c := range set.Cases() {
		table, _ := set.Table(c.Table) // Load checked it
		table.Decide(c.Given, &d)
		r := check(table, c, &d)
		out.Results = append(out.Results, r)
		if !r.Passed() {
			continue
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

func check(t *rules.Table, c rules.Case, d *rules.Decision) Result {
	r := Result{Case: c, Got: got(t, d), Why: why(t, c, d)}
	fail := func(format string, args ...any) { r.Failures = append(r.Failures, fmt.Sprintf(format, args...)) }
	winners := ids(t, d.Winners)
	if c.Rule != "" && !slices.Contains(winners, c.Rule) {
		i := slices.IndexFunc(t.Rules(), func(r rules.Rule) bool { return r.ID == c.Rule })
		fail("expected rule %s: %s", c.Rule, t.WhyNot(c.Given, i).Text)
	}
	if c.Rules != nil && !slices.Equal(winners, c.Rules) {
		fail("expected rules %s", strings.Join(c.Rules, ", "))
	}
	if c.None && d.Outcome != rules.NoRule {
		fail("expected that no rule holds")
	}
	if !c.None && d.Outcome == rules.Conflict {
		fail("expected an answer")
	}
	for _, f := range c.Then.Fields() {
		if !gives(t, d, f) {
			fail("expected %s: %s", f.Field.Name, f.Value)
		}
	}
	for _, id := range c.Misses {
		if reason := notJustMissed(t, c.Given, id); reason != "" {
			fail("expected to just miss %s: %s", id, reason)
		}
	}
	return r
}

// gives says whether some winner's result has the value.
func gives(t *rules.Table, d *rules.Decision, want rules.FieldValue) bool {
	for _, w := range d.Winners {
		for _, f := range t.Rules()[w].Result.Fields() {
			if f.Field.Name == want.Field.Name && f.Value == want.Value {
				return true
			}
		}
	}
	return false
}

// notJustMissed is empty when the rule fails on exactly one thing, or holds and
// another was preferred; else it says what is the matter.
func notJustMissed(t *rules.Table, in *rules.Input, id string) string {
	i := slices.IndexFunc(t.Rules(), func(r rules.Rule) bool { return r.ID == id })
	not := t.WhyNot(in, i)
	switch {
	case not.Won:
		return "it wins"
	case not.Holds:
		return ""
	case len(not.Failed)+len(not.Waiting) != 1:
		return fmt.Sprintf("it misses by %d things: %s", len(not.Failed)+len(not.Waiting), not.Text)
	}
	return ""
}

func ids(t *rules.Table, places []int32) []string {
	out := []string{}
	for _, p := range places {
		out = append(out, t.Rules()[p].ID)
	}
	return out
}

func got(t *rules.Table, d *rules.Decision) string {
	switch d.Outcome {
	case rules.NoRule:
		return "no rule"
	case rules.Conflict:
		return "a conflict of " + strings.Join(ids(t, d.Conflict), ", ")
	}
	var parts []string
	for _, w := range d.Winners {
		r := t.Rules()[w]
		parts = append(parts, r.ID+" ("+r.Result.String()+")")
	}
	return strings.Join(parts, "; ")
}

// why is the explanation in one line.
func why(t *rules.Table, c rules.Case, d *rules.Decision) string {
	e := t.Why(c.Given, d)
	var parts []string
	for _, w := range append(e.Winners, e.Conflict...) {
		for _, cond := range w.Conditions {
			parts = append(parts, cond.Text)
		}
		if len(w.Conditions) == 0 {
			parts = append(parts, w.Rule+" always holds")
		}
	}
	for _, w := range e.Waiting {
		parts = append(parts, w.Rule+" "+w.Text)
	}
	if len(parts) == 0 {
		return "nothing it asks for holds"
	}
	return strings.Join(parts, "; ")
}

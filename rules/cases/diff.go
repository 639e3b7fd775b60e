package cases

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/glossladder/glossladder/rules"
)

// Result is how one case came out.
type Result struct {
	Case     rules.Case
	Failures []string // what differs, empty when it passed
	Diff     []Difference
	Notes    []string // of a failed case: why the rules that it names did not do as expected
	Got      string   // the answer in words, of a failed case
	Why      string   // why that answer, in one line, of a failed case
}

// Difference is one thing that a case says and what came out.
type Difference struct {
	What string // rule, a field of the result, or misses
	Want string // empty where nothing was expected
	Got  string // empty where nothing came
	Same bool   // it came out as expected
}

// Passed reports whether the case came out as expected.
func (r Result) Passed() bool { return len(r.Failures) == 0 }

// String is a failure as a small table with its place, or "ok".
func (r Result) String() string {
	at := fmt.Sprintf("%s:%d: %s", r.Case.File, r.Case.Line, r.Case.Name)
	if r.Passed() {
		return at + ": ok"
	}
	lines := []string{at}
	what, want := 0, width("expected")
	for _, d := range r.Diff {
		what, want = max(what, width(d.What)), max(want, width(shown(d.Want)))
	}
	row := func(mark, what1, want1, got string) {
		line := fmt.Sprintf("  %s %s  %s  %s", mark, pad(what1, what), pad(want1, want), got)
		lines = append(lines, strings.TrimRight(line, " "))
	}
	row(" ", "", "expected", "got")
	for _, d := range r.Diff {
		mark := "!"
		if d.Same {
			mark = " "
		}
		row(mark, d.What, shown(d.Want), shown(d.Got))
	}
	for _, n := range r.Notes {
		lines = append(lines, "    "+n)
	}
	return strings.Join(append(lines, "    got this because "+r.Why), "\n")
}

func shown(text string) string {
	if text == "" {
		return "-"
	}
	return text
}

func width(text string) int { return utf8.RuneCountInString(text) }

func pad(text string, to int) string { return text + strings.Repeat(" ", max(to-width(text), 0)) }

// check compares a decision with what a case expects.
func check(t *rules.Table, c *rules.Case, d *rules.Decision) Result {
	r := Result{Case: *c}
	r.rules(t, d)
	for _, want := range thens(c) {
		r.then(t, d, want)
	}
	r.misses(t)
	for _, diff := range r.Diff {
		if !diff.Same {
			r.Failures = append(r.Failures, fmt.Sprintf("%s: expected %s, got %s", diff.What, shown(diff.Want), shown(diff.Got)))
		}
	}
	if !r.Passed() {
		r.Got, r.Why = got(t, d), why(t, c, d)
	}
	return r
}

func (r *Result) add(what, want, got string, same bool) {
	r.Diff = append(r.Diff, Difference{What: what, Want: want, Got: got, Same: same})
}

// rules compares which rules answer.
func (r *Result) rules(t *rules.Table, d *rules.Decision) {
	c := &r.Case
	answer := placed(t, d.Winners)
	if d.Outcome == rules.Conflict {
		answer = "a conflict of " + placed(t, d.Conflict)
	}
	switch {
	case c.None:
		r.add("rule", "no rule", orNone(answer), d.Outcome == rules.NoRule)
	case c.Rules != nil:
		r.several(t, d)
	case c.Rule != "":
		won := slices.Contains(ids(t, d.Winners), c.Rule)
		r.add("rule", c.Rule, orNone(answer), won)
		if !won {
			r.whyNot(t, c.Rule)
		}
	default:
		r.add("rule", "", orNone(answer), d.Outcome != rules.Conflict)
	}
}

func orNone(answer string) string {
	if answer == "" {
		return "no rule"
	}
	return answer
}

// several compares the rules of a table that collects, one a line.
func (r *Result) several(t *rules.Table, d *rules.Decision) {
	winners := ids(t, d.Winners)
	for _, id := range r.Case.Rules {
		if !slices.Contains(winners, id) {
			r.add("rule", id, "", false)
			r.whyNot(t, id)
		}
	}
	for i, id := range winners {
		if !slices.Contains(r.Case.Rules, id) {
			r.add("rule", "", placed(t, d.Winners[i:i+1]), false)
		}
	}
	switch {
	case len(r.Diff) == 0 && slices.Equal(winners, r.Case.Rules):
		r.add("rules", fmt.Sprintf("%d rules", len(winners)), "the same", true)
	case len(r.Diff) == 0:
		r.add("order", strings.Join(r.Case.Rules, ", "), strings.Join(winners, ", "), false)
	}
}

// whyNot notes why a rule is not the answer.
func (r *Result) whyNot(t *rules.Table, id string) {
	i := slices.IndexFunc(t.Rules(), func(r rules.Rule) bool { return r.ID == id })
	if i < 0 {
		return
	}
	rule := &t.Rules()[i]
	r.Notes = append(r.Notes, fmt.Sprintf("not %s (%s:%d): %s", id, rule.File, rule.Line, t.WhyNot(r.Case.Given, i).Text))
}

// placed names rules with their places.
func placed(t *rules.Table, places []int32) string {
	var parts []string
	for _, p := range places {
		rule := &t.Rules()[p]
		parts = append(parts, fmt.Sprintf("%s (%s:%d)", rule.ID, rule.File, rule.Line))
	}
	return strings.Join(parts, ", ")
}

// then compares one expected result, field by field, with what the rule gives that
// comes nearest to it.
func (r *Result) then(t *rules.Table, d *rules.Decision, want rules.Result) {
	nearest, most := rules.Result{}, -1
	for _, w := range d.Winners {
		given := t.Rules()[w].Result
		n := 0
		for _, f := range want.Fields() {
			if value(given, f.Field.Name) == f.Value {
				n++
			}
		}
		if n > most {
			nearest, most = given, n
		}
	}
	for _, f := range want.Fields() {
		came := value(nearest, f.Field.Name)
		r.add(f.Field.Name, f.Value, came, came == f.Value)
	}
}

func value(r rules.Result, field string) string {
	for _, f := range r.Fields() {
		if f.Field.Name == field {
			return f.Value
		}
	}
	return ""
}

// misses compares which rules are just missed.
func (r *Result) misses(t *rules.Table) {
	for _, id := range r.Case.Misses {
		if reason := notJustMissed(t, r.Case.Given, id); reason != "" {
			r.add("misses", id, reason, false)
		}
	}
}

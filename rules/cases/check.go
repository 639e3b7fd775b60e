package cases

import (
	"fmt"
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules"
)

// Passes says whether a table answers a case as expected: with the rules and results
// that it names, and by just missing the rules that it says it misses. It is the
// verdict of [Run] without its words. The decision is room to work in.
func Passes(t *rules.Table, c *rules.Case, d *rules.Decision) (answer, misses bool) {
	t.Decide(c.Given, d)
	if !answers(t, c, d) {
		return false, false
	}
	for _, id := range c.Misses {
		if notJustMissed(t, c.Given, id) != "" {
			return true, false
		}
	}
	return true, true
}

// answers says whether a decision is what a case expects.
func answers(t *rules.Table, c *rules.Case, d *rules.Decision) bool {
	switch {
	case c.None && d.Outcome != rules.NoRule,
		!c.None && d.Outcome == rules.Conflict,
		c.Rule != "" && !slices.ContainsFunc(d.Winners, func(w int32) bool { return t.Rules()[w].ID == c.Rule }),
		c.Rules != nil && !slices.EqualFunc(d.Winners, c.Rules, func(w int32, id string) bool { return t.Rules()[w].ID == id }):
		return false
	}
	for _, then := range thens(c) {
		if giver(t, d, then) < 0 {
			return false
		}
	}
	return true
}

// thens are the results that a case expects, each of one rule.
func thens(c *rules.Case) []rules.Result {
	if len(c.Then.Fields()) == 0 {
		return c.Thens
	}
	return append([]rules.Result{c.Then}, c.Thens...)
}

// giver is the place among the winners of one that gives all fields of a result, or -1.
func giver(t *rules.Table, d *rules.Decision, want rules.Result) int {
	return slices.IndexFunc(d.Winners, func(w int32) bool {
		return want.Within(t.Rules()[w].Result)
	})
}

// notJustMissed is empty when the rule fails on exactly one thing, or holds and
// another was preferred; else it says what is the matter.
func notJustMissed(t *rules.Table, in *rules.Input, id string) string {
	i := slices.IndexFunc(t.Rules(), func(r rules.Rule) bool { return r.ID == id })
	if i < 0 {
		return "there is no such rule"
	}
	not := t.WhyNot(in, i)
	switch {
	case not.Won:
		return "it wins"
	case not.Holds:
		return ""
	case len(not.Failed)+len(not.Waiting) == 0:
		return not.Text
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

// got is the answer in words.
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
func why(t *rules.Table, c *rules.Case, d *rules.Decision) string {
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

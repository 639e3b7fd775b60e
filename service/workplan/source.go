package workplan

import (
	"fmt"

	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/plan"
)

// Source is where figures come from: a text that they name, and the rule behind it, if it is one.
type Source struct {
	Text   plan.Source
	Reason *advisor.Reason
}

// trail keeps every source that a plan names, in the order of first use.
type trail struct {
	list  []Source
	known map[plan.Source]bool
}

func newTrail() *trail { return &trail{known: map[plan.Source]bool{}} }

// Measured is the source of what the caller measured.
const measured plan.Source = "measured"

// rule names a rule with its place.
func (t *trail) rule(r advisor.Reason) plan.Source {
	return t.add(Source{Text: plan.Source(fmt.Sprintf("rule %s/%s, %s:%d", r.Table, r.Rule, r.File, r.Line)), Reason: &r})
}

func (t *trail) text(s plan.Source) plan.Source { return t.add(Source{Text: s}) }

func (t *trail) add(s Source) plan.Source {
	if !t.known[s.Text] {
		t.known[s.Text] = true
		t.list = append(t.list, s)
	}
	return s.Text
}

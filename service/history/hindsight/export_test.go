package hindsight

import (
	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/history"
)

// Retell asks a set again about the sheets of one panel.
func Retell(now, was *rules.Set, sheets []history.FactSheet) (old, is Said) {
	r := retelling{now: newAsker(now), over: map[string]any{}}
	if was != nil {
		r.was = newBefore(was, now)
	}
	r.panel(sheets)
	return r.old, r.new
}

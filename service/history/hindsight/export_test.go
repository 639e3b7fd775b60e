package hindsight

import (
	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/trace"
)

// Retell asks a set again about the sheets of one panel.
func Retell(now, was *rules.Set, sheets []history.FactSheet) (old, is Said) {
	words := trace.NewWords()
	r := newRetelling(now, words)
	if was != nil {
		r.was = newBefore(was, now, words)
	}
	reader, facts := trace.NewReader(words), trace.NewFacts(words)
	if _, err := reader.Decision(trace.Of(&history.Decision{Sheets: sheets}), facts); err != nil {
		panic(err)
	}
	r.begin()
	var sheet trace.Sheet
	for reader.Sheet(&sheet, facts) {
		r.sheet(&sheet, facts)
	}
	if err := reader.Err(); err != nil {
		panic(err)
	}
	return r.old, r.new
}

package app

import (
	"context"
	"errors"
	"io/fs"
	"log/slog"
	"sync/atomic"
	"testing/fstest"
	"time"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/rpc"
)

// lookEvery is how often the folder of a shop's own rules is looked at.
const lookEvery = time.Second

// rulebook is the rules in force. A call takes them once; an edit on disk takes their place in one step, or not at all.
type rulebook struct {
	dir    string // "" for the rules as shipped, which do not change
	log    *slog.Logger
	onEdit func(good bool) // told when an edit was taken up or refused

	inForce atomic.Pointer[rpc.Rules]
	status  atomic.Pointer[rpc.RulesStatus]

	// The watcher's own: the last look at the folder, and the edit that was refused.
	seen, refused string
}

// openRulebook loads the rules that a start needs.
func openRulebook(dir string, log *slog.Logger, onEdit func(good bool)) (*rulebook, error) {
	// The look comes before the load: an edit in between is seen by the next look, not missed.
	seen, _ := fingerprint(rulesIn(dir))
	first, err := compile(rulesIn(dir))
	if err != nil {
		return nil, err
	}
	b := &rulebook{dir: dir, log: log, onEdit: onEdit, seen: seen, refused: seen}
	b.inForce.Store(first)
	b.status.Store(&rpc.RulesStatus{RuleSet: first.Advisor.RuleSet(), Folder: dir, Since: time.Now()})
	return b, nil
}

// InForce is the rules that decide now.
func (b *rulebook) InForce() *rpc.Rules { return b.inForce.Load() }

// Status tells which set decides and what is wrong with the folder.
func (b *rulebook) Status() rpc.RulesStatus { return *b.status.Load() }

// Check looks at a set that is not on disk and puts nothing in force.
func (b *rulebook) Check(files map[string]string) (ruleSet string, err error) {
	folder := fstest.MapFS{}
	for name, text := range files {
		if !fs.ValidPath(name) {
			return "", rules.Problems{{File: name, Message: "this is no name of a file", Hint: "a name is start.yaml or cases/start.yaml"}}
		}
		folder[name] = &fstest.MapFile{Data: []byte(text)}
	}
	compiled, err := compile(folder)
	if err != nil {
		return "", err
	}
	return compiled.Advisor.RuleSet(), nil
}

// watch looks at the folder until ctx ends.
func (b *rulebook) watch(ctx context.Context) {
	if b.dir == "" {
		return
	}
	tick := time.NewTicker(lookEvery)
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case now := <-tick.C:
			b.look(now)
		}
	}
}

// look takes an edit up once it has settled: two looks in a row see the same files. A single look may fall between an
// editor's writes.
func (b *rulebook) look(now time.Time) {
	print, err := fingerprint(rulesIn(b.dir))
	if err != nil {
		print = "unreadable: " + err.Error()
	}
	settled := print == b.seen
	b.seen = print
	if settled && print != b.refused {
		b.refused = print
		b.takeUp(now)
	}
	status := b.Status()
	status.LastLook = now
	b.status.Store(&status)
}

// takeUp compiles the folder aside and swaps it in, or keeps the set in force and says why.
func (b *rulebook) takeUp(now time.Time) {
	status := b.Status()
	next, err := compile(rulesIn(b.dir))
	if err == nil {
		if next.Advisor.RuleSet() != status.RuleSet {
			status.Since = now
		}
		status.RuleSet, status.Problems, status.WrongSince = next.Advisor.RuleSet(), nil, time.Time{}
		b.inForce.Store(next)
		b.log.Info("rules taken up", slog.String("rule_set", status.RuleSet))
	} else {
		status.Problems = problemsOf(err)
		if status.WrongSince.IsZero() {
			status.WrongSince = now
		}
		b.log.Warn("rules refused, the set in force stays",
			slog.String("rule_set", status.RuleSet), slog.Int("problems", len(status.Problems)), slog.String("first", status.Problems[0].Error()))
	}
	b.status.Store(&status)
	b.onEdit(err == nil)
}

// problemsOf is an error of a load as problems: files that cannot be read at all are one.
func problemsOf(err error) rules.Problems {
	if problems, ok := errors.AsType[rules.Problems](err); ok && len(problems) > 0 {
		return problems
	}
	return rules.Problems{{File: ".", Message: err.Error()}}
}

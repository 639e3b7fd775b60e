package app

import (
	"context"
	"log/slog"
	"time"

	"github.com/glossladder/glossladder/rules/check"
	"github.com/glossladder/glossladder/service/rpc"
	"github.com/glossladder/glossladder/service/rulehistory"
)

// lookEvery is how often the folder of a shop's own rules is looked at.
const lookEvery = time.Second

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
	b.building.Lock()
	defer b.building.Unlock()
	print := b.fingerprint()
	settled := print == b.seen
	b.seen = print
	if settled && print != b.judged {
		b.judged = print
		b.takeUp(now)
	}
	status := b.Status()
	status.LastLook = now
	b.status.Store(&status)
}

// Reload takes up the folder as it is now, settled or not, or says why not.
func (b *rulebook) Reload() rpc.RulesReloaded {
	b.building.Lock()
	defer b.building.Unlock()
	before := b.Status().RuleSet
	b.seen = b.fingerprint()
	b.judged = b.seen
	now := time.Now()
	doubts := b.takeUp(now)
	status := b.Status()
	if b.dir != "" {
		status.LastLook = now
		b.status.Store(&status)
	}
	return rpc.RulesReloaded{RuleSet: status.RuleSet, Changed: status.RuleSet != before, Problems: status.Problems, Findings: doubts}
}

// takeUp compiles the folder aside and swaps it in, or keeps the set in force and says why. It returns what is doubtful in
// the new set.
func (b *rulebook) takeUp(now time.Time) []check.Finding {
	next, err := compileIn(b.dir)
	if err != nil {
		b.refuse(err, now)
		return nil
	}
	b.counts.takenUp.Add(1)
	doubts := doubtsOf(next.Advisor.Set())
	b.accept(next, doubts, rulehistory.Reload, now)
	return doubts
}

// accept puts in force what the folder holds.
func (b *rulebook) accept(next *rpc.Rules, doubts []check.Finding, way rulehistory.Way, now time.Time) {
	b.putInForce(next, way, now)
	status := b.Status()
	status.Problems, status.WrongSince, status.LastSuccess = nil, time.Time{}, now
	b.status.Store(&status)
	b.mended()
	b.log.Info("rules taken up", slog.String("rule_set", status.RuleSet), slog.String("way", string(way)),
		slog.Int("findings", len(doubts)))
	b.onEdit(true)
}

// refuse leaves the set in force and says why.
func (b *rulebook) refuse(err error, now time.Time) {
	b.counts.refused.Add(1)
	status := b.Status()
	status.Problems, status.LastFailure = problemsOf(err), now
	status.LastReason = status.Problems[0].Error()
	if status.WrongSince.IsZero() {
		status.WrongSince = b.wrongSince(now)
	}
	b.status.Store(&status)
	b.log.Warn("rules refused, the set in force stays", slog.String("rule_set", status.RuleSet),
		slog.Int("problems", len(status.Problems)), slog.String("first", status.LastReason))
	b.onEdit(false)
}

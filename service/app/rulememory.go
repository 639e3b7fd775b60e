package app

import (
	"fmt"
	"iter"
	"log/slog"
	"time"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/rpc"
	"github.com/glossladder/glossladder/service/rulefolder"
	"github.com/glossladder/glossladder/service/rulehistory"
)

// remember keeps a set that comes into force. What stands in the way of it is told, and does not keep the set from deciding.
func (b *rulebook) remember(before, next *rpc.Rules, way rulehistory.Way, now time.Time) (problem string) {
	if b.history == nil || before == nil && !b.serving {
		return ""
	}
	err := b.keep(before, next, way, now)
	if err == nil {
		return ""
	}
	b.log.Error("the rule set in force is not in the history, so a later start could not fall back on it",
		slog.String("rule_set", next.Advisor.RuleSet()), slog.String("error", err.Error()))
	return err.Error()
}

func (b *rulebook) keep(before, next *rpc.Rules, way rulehistory.Way, now time.Time) error {
	files := sourcesOf(next.Advisor.Set())
	ruleSet, err := b.history.Keep(files)
	if err != nil {
		return err
	}
	was, err := b.filesBefore(before)
	if err != nil {
		return err
	}
	entry := rulehistory.Entry{RuleSet: ruleSet, Folder: b.place, Way: way, At: now}
	if was != nil {
		entry.Changed = files.Differing(was)
	}
	_, err = b.history.Add(entry)
	return err
}

// filesBefore are the files of the set of this folder that was in force before, also before this service started; nil when
// there was none, or it cannot be told any more.
func (b *rulebook) filesBefore(before *rpc.Rules) (rulefolder.Files, error) {
	if before != nil {
		return sourcesOf(before.Advisor.Set()), nil
	}
	last, found, err := b.history.Last(b.place)
	if err != nil || !found {
		return nil, err
	}
	_, files, err := b.history.Files(last.RuleSet)
	if err != nil {
		b.log.Warn("the set that was in force before cannot be told", slog.String("rule_set", last.RuleSet), slog.String("error", err.Error()))
		return nil, nil
	}
	return files, nil
}

// openLastGood starts on the last set of the folder that was in force, since the folder does not load. A first start, and a
// program that serves nobody, refuse with the reason.
func (b *rulebook) openLastGood(reason error, now time.Time) error {
	if b.dir == "" || b.history == nil || !b.serving {
		return reason
	}
	last, good, err := b.lastGood()
	if err != nil {
		b.log.Error("the rules folder does not load, and the last good set of it cannot be used",
			slog.String("folder", b.dir), slog.String("error", err.Error()))
	}
	if good == nil {
		return reason
	}
	problems := problemsOf(reason)
	b.status.Store(&rpc.RulesStatus{
		Folder: b.dir, Problems: problems, WrongSince: b.wrongSince(now), LastFailure: now, LastReason: problems[0].Error(),
	})
	b.counts.refused.Add(1)
	b.putInForce(good, rulehistory.LastGood, now)
	b.log.Error("the rules folder does not load; the service starts on the last set of it that was in force",
		slog.String("folder", b.dir), slog.String("rule_set", last.RuleSet), slog.Time("in_force_since", last.At),
		slog.Int("problems", len(problems)), slog.String("first", problems[0].Error()))
	b.onEdit(false)
	return nil
}

// lastGood is the last set of the folder that was in force; nil when there was none.
func (b *rulebook) lastGood() (last rulehistory.Entry, good *rpc.Rules, err error) {
	last, found, err := b.history.Last(b.place)
	if err != nil || !found {
		return last, nil, err
	}
	_, files, err := b.history.Files(last.RuleSet)
	if err != nil {
		return last, nil, err
	}
	if good, err = compile(rulefolder.Files(files).FS()); err != nil {
		return last, nil, fmt.Errorf("rule set %s, which was in force last, does not load any more: %w", last.RuleSet[:8], err)
	}
	return last, good, nil
}

// wrongSince is when the folder became wrong, also before this service started, and notes it for the next start.
func (b *rulebook) wrongSince(now time.Time) time.Time {
	if b.history == nil || !b.serving {
		return now
	}
	since, err := b.history.WrongSince(b.place, now)
	if err != nil {
		b.log.Warn("since when the rules are wrong is not noted for the next start", slog.String("error", err.Error()))
		return now
	}
	return since
}

// mended forgets since when the folder was wrong.
func (b *rulebook) mended() {
	if b.history == nil || !b.serving {
		return
	}
	if err := b.history.Mended(b.place); err != nil {
		b.log.Warn("that the rules are mended is not noted for the next start", slog.String("error", err.Error()))
	}
}

// History gives every time that a set came into force, newest first.
func (b *rulebook) History(before int) iter.Seq2[rulehistory.Entry, error] {
	if b.history == nil {
		return func(yield func(rulehistory.Entry, error) bool) { yield(rulehistory.Entry{}, rpc.ErrNoHistory) }
	}
	return b.history.Entries(before)
}

// Archived gives a set by its hash or the beginning of it.
func (b *rulebook) Archived(begins string) (ruleSet string, files rulefolder.Files, err error) {
	if b.history == nil {
		return "", nil, rpc.ErrNoHistory
	}
	return b.history.Files(begins)
}

// sourcesOf are the files of a set.
func sourcesOf(set *rules.Set) rulefolder.Files {
	files := rulefolder.Files{}
	for _, name := range set.Files() {
		files[name], _ = set.Source(name)
	}
	return files
}

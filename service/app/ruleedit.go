package app

import (
	"context"
	"slices"
	"time"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/check"
	"github.com/glossladder/glossladder/rules/compare"
	"github.com/glossladder/glossladder/service/rpc"
	"github.com/glossladder/glossladder/service/rulefolder"
	"github.com/glossladder/glossladder/service/rulehistory"
)

// Files are those of the folder as they are now.
func (b *rulebook) Files() (rulefolder.Files, error) {
	files, err := rulefolder.Read(rulesIn(b.dir))
	if err != nil {
		return nil, problemsOf(err)
	}
	return files, nil
}

// Edit does an edit of the folder whole or not at all. The new set is built before anything is written, kept in the history,
// written, and put in force.
func (b *rulebook) Edit(ctx context.Context, edit rpc.RulesEdit) (rpc.RulesEdited, error) {
	if b.dir == "" {
		return rpc.RulesEdited{}, rpc.ErrShippedRules
	}
	b.building.Lock()
	defer b.building.Unlock()
	var out rpc.RulesEdited
	var next *rpc.Rules
	err := rulefolder.Folder(b.dir).Edit(ctx, func(now rulefolder.Files) ([]rulefolder.Change, error) {
		changes, err := edit.Change(now)
		if err != nil {
			return nil, err
		}
		if out.Files, err = now.Apply(changes, edit.FolderEtag); err != nil {
			return nil, err
		}
		if next, out.Findings, err = tryOut(now, out.Files); err != nil {
			return nil, err
		}
		out.RuleSet = next.Advisor.RuleSet()
		for _, c := range changes {
			out.Changed = append(out.Changed, c.Name)
		}
		if out.Effects, err = b.effects(next); err != nil {
			return nil, err
		}
		if edit.ValidateOnly {
			return nil, nil
		}
		if needs := out.Effects.Acceptance(); needs != "" && needs != edit.AcceptStronger {
			return nil, &rpc.StrongerError{Report: out.Effects, Given: edit.AcceptStronger}
		}
		// What is about to come into force is safe in the history first: a crash from here on can lose nothing.
		if b.history != nil {
			if _, err := b.history.Keep(sourcesOf(next.Advisor.Set())); err != nil {
				return nil, err
			}
		}
		return changes, nil
	})
	if err != nil || edit.ValidateOnly {
		return out, err
	}
	b.seen = out.Files.Etag()
	b.judged = b.seen
	b.counts.edits.Add(1)
	b.accept(next, out.Findings, rulehistory.Update, time.Now())
	return out, nil
}

// effects is what a set does to answers, against the one in force.
func (b *rulebook) effects(next *rpc.Rules) (*compare.Report, error) {
	return compare.Sets(b.InForce().Advisor.Set(), next.Advisor.Set(), 0)
}

// tryOut builds the files after an edit. An edit may not add a finding that is certainly wrong; one that was there before
// does not keep other edits out.
func tryOut(before, after rulefolder.Files) (*rpc.Rules, []check.Finding, error) {
	next, err := compile(after.FS())
	if err != nil {
		return nil, nil, err
	}
	found := doubtsOf(next.Advisor.Set())
	wrong := errorsIn(found)
	if len(wrong) == 0 {
		return next, found, nil
	}
	var had []check.Finding
	if was, err := compile(before.FS()); err == nil {
		had = errorsIn(doubtsOf(was.Advisor.Set()))
	}
	var problems rules.Problems
	for _, f := range wrong {
		if !slices.ContainsFunc(had, func(old check.Finding) bool { return alike(old, f) }) {
			problems = append(problems, problemOf(f))
		}
	}
	if len(problems) > 0 {
		return nil, nil, problems
	}
	return next, found, nil
}

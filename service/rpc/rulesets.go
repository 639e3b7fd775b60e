package rpc

import (
	"context"
	"errors"
	"iter"
	"strconv"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/rulefolder"
	"github.com/glossladder/glossladder/service/rulehistory"
)

// ErrNoHistory says that the service keeps no history of rule sets.
var ErrNoHistory = errors.New("this service keeps no history of rule sets; start it with --state and a folder for it")

// RulesArchive gives the sets that came into force. Without a history both methods give [ErrNoHistory].
type RulesArchive interface {
	// History gives every time that a set came into force, newest first, below the number before unless that is 0.
	History(before int) iter.Seq2[rulehistory.Entry, error]
	// Archived gives a set by its hash or the beginning of it.
	Archived(begins string) (ruleSet string, files rulefolder.Files, err error)
}

// ListRuleSets lists the sets that came into force, newest first.
func (s *RulesServer) ListRuleSets(_ context.Context, req *glossladderv1.ListRuleSetsRequest) (*glossladderv1.ListRuleSetsResponse, error) {
	before := 0
	if token := req.GetPageToken(); token != "" {
		var err error
		if before, err = strconv.Atoi(token); err != nil || before < 1 {
			return nil, statusOf(tokenError(), "")
		}
	}
	inForce := s.desk.InForce().Advisor.RuleSet()
	out := &glossladderv1.ListRuleSetsResponse{}
	last := 0
	for e, err := range s.desk.History(before) {
		switch {
		case err != nil:
			return nil, statusOf(err, "")
		case req.GetFolder() != "" && e.Folder != req.GetFolder():
			continue
		case len(out.GetRuleSets()) == pageSize(req):
			out.NextPageToken = strconv.Itoa(last)
			return out, nil
		}
		last = e.Number
		out.RuleSets = append(out.RuleSets, ruleSetOut(e, inForce))
	}
	return out, nil
}

// GetRuleSet gives a set out of the history, whole.
func (s *RulesServer) GetRuleSet(_ context.Context, req *glossladderv1.GetRuleSetRequest) (*glossladderv1.RuleSet, error) {
	ruleSet, files, err := s.desk.Archived(req.GetRuleSet())
	if err != nil {
		return nil, statusOf(err, "rule_set")
	}
	entry := rulehistory.Entry{RuleSet: ruleSet}
	for e, err := range s.desk.History(0) {
		if err != nil {
			return nil, statusOf(err, "")
		}
		if e.RuleSet == ruleSet {
			entry = e
			break
		}
	}
	out := ruleSetOut(entry, s.desk.InForce().Advisor.RuleSet())
	for _, name := range files.Names() {
		out.Files = append(out.Files, fileOut(name, files[name], true))
	}
	return out, nil
}

func ruleSetOut(e rulehistory.Entry, inForce string) *glossladderv1.RuleSet {
	return &glossladderv1.RuleSet{
		RuleSet: e.RuleSet, InForceSince: timeOut(e.At), Way: wayOut(e.Way), Folder: e.Folder, ChangedFiles: e.Changed, InForce: e.RuleSet == inForce,
	}
}

package rpc

import (
	"context"
	"errors"
	"time"

	"google.golang.org/protobuf/types/known/timestamppb"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/check"
	"github.com/glossladder/glossladder/rules/compare"
	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/catalogue"
	"github.com/glossladder/glossladder/service/rulehistory"
)

// Rules is one rule set in force, with its catalogue and the instruments of that.
type Rules struct {
	Advisor     *advisor.Advisor
	Instruments Instruments
	Shop        *catalogue.Catalogue
}

// RulesStatus is which set decides and what is wrong with the files on disk. Times that are zero have not come.
type RulesStatus struct {
	RuleSet, Folder             string
	Way                         rulehistory.Way
	Since, LastLook, WrongSince time.Time
	Problems                    rules.Problems
	LastSuccess, LastFailure    time.Time
	LastReason                  string // of the last failure, mended or not
	HistoryProblem              string // why the set is not in the history; empty when it is, or none is kept
}

// RulesReloaded is what came of taking up the folder.
type RulesReloaded struct {
	RuleSet  string
	Changed  bool
	Problems rules.Problems // why the files are not in force; nil when they are
	Findings []check.Finding
}

// RulesChecked is what a look at a set that loads found.
type RulesChecked struct {
	RuleSet string
	Doubts  []check.Finding
	Effects *compare.Report // nil when it was not asked for
}

// RulesKeeper knows the rules in force and can look at others.
type RulesKeeper interface {
	Status() RulesStatus
	// Check gives the content hash of a set and what is doubtful in it, or its problems as [rules.Problems]; with effects also
	// what it does to answers, against the set in force.
	Check(files map[string]string, effects bool) (RulesChecked, error)
	// LoadSent loads a set that a caller sent, as strictly as one that comes into force. The error is [rules.Problems] when the
	// files are at fault.
	LoadSent(files map[string]string) (*rules.Set, error)
	// Reload takes up the folder as it is now, or says why not.
	Reload() RulesReloaded
}

// RulesDesk is everything that RulesService is served from.
type RulesDesk interface {
	Rulebook
	RulesKeeper
	RulesEditor
	RulesArchive
}

// RulesServer serves RulesService.
type RulesServer struct {
	glossladderv1.UnimplementedRulesServiceServer
	desk RulesDesk
}

// NewRulesServer serves from a desk.
func NewRulesServer(desk RulesDesk) *RulesServer { return &RulesServer{desk: desk} }

// GetRulesStatus tells which set decides, since when, and why a later edit is not in force.
func (s *RulesServer) GetRulesStatus(context.Context, *glossladderv1.GetRulesStatusRequest) (*glossladderv1.GetRulesStatusResponse, error) {
	status := s.desk.Status()
	return &glossladderv1.GetRulesStatusResponse{
		RuleSet: status.RuleSet, Folder: status.Folder, InForceSince: timeOut(status.Since), LastLook: timeOut(status.LastLook),
		Problems: problemsOut(status.Problems), WrongSince: timeOut(status.WrongSince), Way: wayOut(status.Way),
		LastSuccess: timeOut(status.LastSuccess), LastFailure: timeOut(status.LastFailure), LastFailureReason: status.LastReason,
		HistoryProblem: status.HistoryProblem,
	}, nil
}

// CheckRules tells every problem of a set and puts nothing in force. A faulty set is an answer, not an error.
func (s *RulesServer) CheckRules(_ context.Context, req *glossladderv1.CheckRulesRequest) (*glossladderv1.CheckRulesResponse, error) {
	checked, err := s.desk.Check(req.GetFiles(), req.GetWithEffects())
	if problems, ok := errors.AsType[rules.Problems](err); ok {
		return &glossladderv1.CheckRulesResponse{Problems: problemsOut(problems)}, nil
	}
	if err != nil {
		return nil, statusOf(err, "files")
	}
	return &glossladderv1.CheckRulesResponse{
		RuleSet: checked.RuleSet, Findings: findingsOut(checked.Doubts), Effects: effectsOut(checked.Effects),
	}, nil
}

// ReloadRules takes up the folder as it is now. A folder that does not load is an answer, not an error.
func (s *RulesServer) ReloadRules(context.Context, *glossladderv1.ReloadRulesRequest) (*glossladderv1.ReloadRulesResponse, error) {
	done := s.desk.Reload()
	return &glossladderv1.ReloadRulesResponse{
		RuleSet: done.RuleSet, Changed: done.Changed, Problems: problemsOut(done.Problems), Findings: findingsOut(done.Findings),
	}, nil
}

func problemsOut(problems rules.Problems) []*glossladderv1.RuleProblem {
	var out []*glossladderv1.RuleProblem
	for _, p := range problems {
		out = append(out, &glossladderv1.RuleProblem{
			File: p.File, Line: int32(p.Line), Column: int32(p.Col), RuleId: p.Rule, Message: p.Message, Hint: p.Hint,
		})
	}
	return out
}

func wayOut(way rulehistory.Way) glossladderv1.RuleSetWay {
	switch way {
	case rulehistory.Start:
		return glossladderv1.RuleSetWay_RULE_SET_WAY_START
	case rulehistory.Reload:
		return glossladderv1.RuleSetWay_RULE_SET_WAY_RELOAD
	case rulehistory.Update:
		return glossladderv1.RuleSetWay_RULE_SET_WAY_UPDATE
	case rulehistory.LastGood:
		return glossladderv1.RuleSetWay_RULE_SET_WAY_LAST_GOOD
	}
	return glossladderv1.RuleSetWay_RULE_SET_WAY_UNSPECIFIED
}

func timeOut(t time.Time) *timestamppb.Timestamp {
	if t.IsZero() {
		return nil
	}
	return timestamppb.New(t)
}

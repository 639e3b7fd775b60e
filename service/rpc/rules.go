package rpc

import (
	"context"
	"errors"
	"time"

	"google.golang.org/protobuf/types/known/timestamppb"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/service/advisor"
)

// Rules is one rule set in force, with the instruments of its catalogue.
type Rules struct {
	Advisor     *advisor.Advisor
	Instruments Instruments
}

// RulesStatus is which set decides and what is wrong with the files on disk. Times that are zero have not come.
type RulesStatus struct {
	RuleSet, Folder             string
	Since, LastLook, WrongSince time.Time
	Problems                    rules.Problems
}

// RulesKeeper knows the rules in force and can look at others.
type RulesKeeper interface {
	Status() RulesStatus
	// Check gives the content hash of a set, or its problems as [rules.Problems].
	Check(files map[string]string) (ruleSet string, err error)
}

// RulesServer serves RulesService.
type RulesServer struct {
	glossladderv1.UnimplementedRulesServiceServer
	keeper RulesKeeper
}

// NewRulesServer serves from a keeper of rules.
func NewRulesServer(keeper RulesKeeper) *RulesServer { return &RulesServer{keeper: keeper} }

// GetRulesStatus tells which set decides, since when, and why a later edit is not in force.
func (s *RulesServer) GetRulesStatus(context.Context, *glossladderv1.GetRulesStatusRequest) (*glossladderv1.GetRulesStatusResponse, error) {
	status := s.keeper.Status()
	return &glossladderv1.GetRulesStatusResponse{
		RuleSet: status.RuleSet, Folder: status.Folder, InForceSince: timeOut(status.Since), LastLook: timeOut(status.LastLook),
		Problems: problemsOut(status.Problems), WrongSince: timeOut(status.WrongSince),
	}, nil
}

// CheckRules tells every problem of a set and puts nothing in force. A faulty set is an answer, not an error.
func (s *RulesServer) CheckRules(_ context.Context, req *glossladderv1.CheckRulesRequest) (*glossladderv1.CheckRulesResponse, error) {
	ruleSet, err := s.keeper.Check(req.GetFiles())
	if problems, ok := errors.AsType[rules.Problems](err); ok {
		return &glossladderv1.CheckRulesResponse{Problems: problemsOut(problems)}, nil
	}
	if err != nil {
		return nil, statusOf(err, "files")
	}
	return &glossladderv1.CheckRulesResponse{RuleSet: ruleSet}, nil
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

func timeOut(t time.Time) *timestamppb.Timestamp {
	if t.IsZero() {
		return nil
	}
	return timestamppb.New(t)
}

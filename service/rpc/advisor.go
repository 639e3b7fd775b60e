package rpc

import (
	"context"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// Rulebook gives the rules in force. It is asked once a call, so that a call never sees two rule sets.
type Rulebook interface {
	InForce() *Rules
}

// AdvisorServer serves AdvisorService from the rules in force.
type AdvisorServer struct {
	glossladderv1.UnimplementedAdvisorServiceServer
	book Rulebook
}

// NewAdvisorServer serves from a rulebook.
func NewAdvisorServer(book Rulebook) *AdvisorServer { return &AdvisorServer{book: book} }

// Recommend gives the ladder worth trying first for every panel of an inspection.
func (s *AdvisorServer) Recommend(_ context.Context, req *glossladderv1.RecommendRequest) (*glossladderv1.RecommendResponse, error) {
	rules := s.book.InForce()
	said, err := rules.Advisor.Recommend(rules.Instruments.inspection(req.GetInspection()))
	if err != nil {
		return nil, statusOf(err, "inspection")
	}
	return &glossladderv1.RecommendResponse{Recommendation: recommendationOut(said)}, nil
}

// JudgeTrial gives the verdict on the last of a panel's trials and the next move.
func (s *AdvisorServer) JudgeTrial(_ context.Context, req *glossladderv1.JudgeTrialRequest) (*glossladderv1.JudgeTrialResponse, error) {
	rules := s.book.InForce()
	said, err := rules.Advisor.JudgeTrial(rules.Instruments.inspection(req.GetInspection()), req.GetPanelId(), trialsIn(req.GetTrials()))
	if err != nil {
		return nil, statusOf(err, "inspection")
	}
	return &glossladderv1.JudgeTrialResponse{Verdict: verdictOut(said)}, nil
}

// ListFacts gives the vocabulary of rules.
func (s *AdvisorServer) ListFacts(_ context.Context, req *glossladderv1.ListFactsRequest) (*glossladderv1.ListFactsResponse, error) {
	return factsOut(s.book.InForce().Advisor.Set(), req.GetPrefix()), nil
}

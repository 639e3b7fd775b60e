package rpc

import (
	"context"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/advisor"
)

// Rulebook gives the adviser in force. It is asked once a call, so that a call never sees two rule sets.
type Rulebook interface {
	Advisor() *advisor.Advisor
}

// AdvisorServer serves AdvisorService from the rules in force.
type AdvisorServer struct {
	glossladderv1.UnimplementedAdvisorServiceServer
	book        Rulebook
	instruments Instruments
}

// NewAdvisorServer serves from a rulebook. Instruments stand in where an inspection names none.
func NewAdvisorServer(book Rulebook, instruments Instruments) *AdvisorServer {
	return &AdvisorServer{book: book, instruments: instruments}
}

// Recommend gives the ladder worth trying first for every panel of an inspection.
func (s *AdvisorServer) Recommend(_ context.Context, req *glossladderv1.RecommendRequest) (*glossladderv1.RecommendResponse, error) {
	said, err := s.book.Advisor().Recommend(s.inspection(req.GetInspection()))
	if err != nil {
		return nil, statusOf(err, "inspection")
	}
	return &glossladderv1.RecommendResponse{Recommendation: recommendationOut(said)}, nil
}

// JudgeTrial gives the verdict on the last of a panel's trials and the next move.
func (s *AdvisorServer) JudgeTrial(_ context.Context, req *glossladderv1.JudgeTrialRequest) (*glossladderv1.JudgeTrialResponse, error) {
	said, err := s.book.Advisor().JudgeTrial(s.inspection(req.GetInspection()), req.GetPanelId(), trialsIn(req.GetTrials()))
	if err != nil {
		return nil, statusOf(err, "inspection")
	}
	return &glossladderv1.JudgeTrialResponse{Verdict: verdictOut(said)}, nil
}

// ListFacts gives the vocabulary of rules.
func (s *AdvisorServer) ListFacts(_ context.Context, req *glossladderv1.ListFactsRequest) (*glossladderv1.ListFactsResponse, error) {
	return factsOut(s.book.Advisor().Set(), req.GetPrefix()), nil
}

package rpc

import (
	"errors"

	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// hindsightStatus maps what can stand in the way of holding rules against the record; nil for all else.
func hindsightStatus(err error) error {
	if sent, ok := errors.AsType[*SentRulesError](err); ok {
		st, err := status.New(codes.InvalidArgument, sent.Error()).WithDetails(&glossladderv1.RuleProblems{Problems: problemsOut(sent.Problems)})
		if err != nil {
			return status.Error(codes.InvalidArgument, sent.Error())
		}
		return st.Err()
	}
	if kept, ok := errors.AsType[*KeptSetError](err); ok {
		return status.Error(codes.FailedPrecondition, kept.Error())
	}
	return nil
}

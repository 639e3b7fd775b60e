package rpc

import (
	"errors"
	"strings"

	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	"github.com/glossladder/glossladder/service/advisor"
)

// statusOf maps every error of the rooms behind the door to a status. Under says which field of the request holds what
// an [advisor.InputError] speaks of. An error without a row here is a fault of ours: the caller is told no more than that,
// and the log interceptor has the rest.
func statusOf(err error, under string) error {
	if input, ok := errors.AsType[*advisor.InputError](err); ok {
		return badRequest(input, under)
	}
	if faulty, ok := errors.AsType[*advisor.RulesError](err); ok {
		return status.Error(codes.FailedPrecondition, "the rule set in force cannot answer: "+faulty.Error())
	}
	return &internalError{cause: err}
}

// internalError tells the caller nothing and keeps its cause for the log.
type internalError struct{ cause error }

func (e *internalError) Error() string { return e.cause.Error() }
func (e *internalError) Unwrap() error { return e.cause }
func (e *internalError) GRPCStatus() *status.Status {
	return status.New(codes.Internal, "internal error")
}

// badRequest lists every trouble by the field path of the request.
func badRequest(input *advisor.InputError, under string) error {
	details := &errdetails.BadRequest{}
	for _, trouble := range input.Troubles {
		field := trouble.Field
		if strings.HasPrefix(field, "panels[") {
			field = under + "." + field
		}
		details.FieldViolations = append(details.FieldViolations, &errdetails.BadRequest_FieldViolation{
			Field: field, Description: trouble.Says, Reason: "CANNOT_RECKON",
		})
	}
	return invalid(details)
}

func invalid(details *errdetails.BadRequest) error {
	lines := make([]string, len(details.FieldViolations))
	for i, v := range details.FieldViolations {
		lines[i] = v.GetField() + ": " + v.GetDescription()
	}
	st, err := status.New(codes.InvalidArgument, "request is not valid: "+strings.Join(lines, "; ")).WithDetails(details)
	if err != nil {
		return status.Error(codes.InvalidArgument, strings.Join(lines, "; "))
	}
	return st.Err()
}

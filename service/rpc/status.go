package rpc

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/edit"
	"github.com/glossladder/glossladder/rules/strictyaml"
	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/rulefolder"
	"github.com/glossladder/glossladder/service/rulehistory"
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
	if st := hindsightStatus(err); st != nil {
		return st
	}
	if st := recordStatus(err); st != nil {
		return st
	}
	if st := editStatus(err); st != nil {
		return st
	}
	if st := planStatus(err); st != nil {
		return st
	}
	return &internalError{cause: err}
}

// editStatus maps what can stand in the way of an edit of rules, or of a look at their history; nil for all else.
func editStatus(err error) error {
	if problems, ok := errors.AsType[rules.Problems](err); ok {
		return refusedSet(problems)
	}
	if field, ok := errors.AsType[*RequestError](err); ok {
		return invalid(field.details())
	}
	if form, ok := errors.AsType[*edit.FormError](err); ok {
		return invalid((&RequestError{Field: "rule." + form.Field, Says: form.Says}).details())
	}
	if unreadable, ok := errors.AsType[strictyaml.Problems](err); ok {
		return status.Error(codes.FailedPrecondition, "the file cannot be read as it is, so edit it as a whole: "+unreadable[0].Error())
	}
	if stale, ok := errors.AsType[*rulefolder.StaleError](err); ok {
		return withReason(codes.Aborted, stale.Error(), "STALE_ETAG", map[string]string{"name": stale.Name, "etag": stale.Etag})
	}
	if stronger, ok := errors.AsType[*StrongerError](err); ok {
		return unaccepted(stronger)
	}
	if exists, ok := errors.AsType[*rulefolder.ExistsError](err); ok {
		return withReason(codes.AlreadyExists, exists.Error(), "FILE_EXISTS", map[string]string{"name": exists.Name, "etag": exists.Etag})
	}
	for _, row := range [...]struct {
		fits bool
		code codes.Code
	}{
		{is[*rulefolder.NoFileError](err) || is[*edit.NoRuleError](err) || is[*NoRuleError](err) || is[*rulehistory.NoSetError](err), codes.NotFound},
		{is[*rulefolder.NameError](err) || errors.Is(err, rulehistory.ErrAmbiguous), codes.InvalidArgument},
		{is[*rulefolder.WriteError](err) || is[*NotTextError](err) || errors.Is(err, ErrShippedRules) || errors.Is(err, ErrNoHistory), codes.FailedPrecondition},
		{is[*rulehistory.DamagedError](err), codes.DataLoss},
		{errors.Is(err, ErrListChanged), codes.Aborted},
		{errors.Is(err, context.DeadlineExceeded), codes.DeadlineExceeded},
		{errors.Is(err, context.Canceled), codes.Canceled},
	} {
		if row.fits {
			return status.Error(row.code, err.Error())
		}
	}
	return nil
}

func is[E error](err error) bool {
	_, ok := errors.AsType[E](err)
	return ok
}

// withReason is a status whose reason and values a program can read.
func withReason(code codes.Code, says, reason string, values map[string]string) error {
	st, err := status.New(code, says).WithDetails(&errdetails.ErrorInfo{Reason: reason, Domain: "glossladder", Metadata: values})
	if err != nil {
		return status.Error(code, says)
	}
	return st.Err()
}

// unaccepted tells every answer that would get stronger, and the code that accepts them.
func unaccepted(stronger *StrongerError) error {
	st, err := status.New(codes.FailedPrecondition, stronger.Error()).WithDetails(effectsOut(stronger.Report))
	if err != nil {
		return status.Error(codes.FailedPrecondition, stronger.Error())
	}
	return st.Err()
}

// refusedSet tells every problem of a set that an edit would have left.
func refusedSet(problems rules.Problems) error {
	says := "nothing was written, since the rules would not load: " + problems[0].Error()
	if more := len(problems) - 1; more > 0 {
		says += fmt.Sprintf(" (and %d more)", more)
	}
	st, err := status.New(codes.InvalidArgument, says).WithDetails(&glossladderv1.RuleProblems{Problems: problemsOut(problems)})
	if err != nil {
		return status.Error(codes.InvalidArgument, says)
	}
	return st.Err()
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
		if strings.HasPrefix(field, "panels[") || strings.HasPrefix(field, "shop[") {
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

package rpc

import (
	"context"
	"errors"
	"strconv"
	"strings"
	"time"

	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/transcript"
)

// recordStatus maps what can stand in the way of keeping vehicles and jobs; nil for all else.
func recordStatus(err error) error {
	if _, ok := errors.AsType[wireError](err); ok {
		return err // what the connection says of itself
	}
	if input := inputErrors(err); len(input) > 0 {
		details := &errdetails.BadRequest{}
		for _, e := range input {
			details.FieldViolations = append(details.FieldViolations, &errdetails.BadRequest_FieldViolation{
				Field: e.Field, Description: e.Says, Reason: "DOES_NOT_FIT",
			})
		}
		return invalid(details)
	}
	if token, ok := errors.AsType[*history.PageTokenError](err); ok {
		return invalid((&RequestError{"page_token", token.Says + "; leave it out to begin with the first page"}).details())
	}
	if line, ok := errors.AsType[*transcript.LineError](err); ok {
		return invalid((&RequestError{"line", line.Error()}).details())
	}
	if stale, ok := errors.AsType[*history.ConflictError](err); ok {
		return withReason(codes.Aborted, stale.Error(), "STALE_ETAG", map[string]string{"name": stale.What + "s/" + stale.ID, "etag": etagOf(stale.Have)})
	}
	if stage, ok := errors.AsType[*history.StageError](err); ok {
		says := strings.ReplaceAll(err.Error(), "\n", "; ") // of several, every one
		return withReason(codes.FailedPrecondition, says, "STAGE", map[string]string{"stage": string(stage.Stage), "what": string(stage.Kind)})
	}
	if taken, ok := errors.AsType[*history.BayTakenError](err); ok {
		return withReason(codes.FailedPrecondition, taken.Error(), "BAY_TAKEN", takenOut(taken))
	}
	if resting, ok := errors.AsType[*history.CorrectionError](err); ok {
		return withReason(codes.FailedPrecondition, resting.Error(), "RESTS_ON_IT", map[string]string{"sequence": strconv.FormatInt(resting.Sequence, 10)})
	}
	if store, ok := errors.AsType[*history.StoreError](err); ok {
		return storeStatus(err, store)
	}
	if errors.Is(err, ErrStopping) {
		return withReason(codes.Unavailable, err.Error(), "STOPPING", nil)
	}
	for _, row := range [...]struct {
		fits bool
		code codes.Code
	}{
		{is[*history.NotFoundError](err) || errors.Is(err, ErrNoLink), codes.NotFound},
		{is[*history.ExistsError](err) || is[*history.RequestReusedError](err) || is[*transcript.DiffersError](err), codes.AlreadyExists},
		{is[*history.InUseError](err) || is[*RecordError](err) || errors.Is(err, ErrNoRecord), codes.FailedPrecondition},
		{is[*history.UnreadableError](err), codes.DataLoss},
	} {
		if row.fits {
			return status.Error(row.code, err.Error())
		}
	}
	return nil
}

// takenOut tells a program who holds bay time: the first stretch in the way, how many there are, and from when on it is free.
func takenOut(e *history.BayTakenError) map[string]string {
	first := e.InTheWay[0]
	return map[string]string{
		"bay": bays + "/" + e.Bay, "job": jobs + "/" + first.Job, "start_time": first.Start.UTC().Format(time.RFC3339Nano),
		"end_time": first.End.UTC().Format(time.RFC3339Nano), "free_time": e.Free.UTC().Format(time.RFC3339Nano), "in_the_way": strconv.Itoa(len(e.InTheWay)),
	}
}

// wireError is an error of gRPC's own.
type wireError interface {
	error
	GRPCStatus() *status.Status
}

// storeStatus tells why a store cannot do its work. A caller who gave up, or whose time is over, is told that instead.
func storeStatus(err error, store *history.StoreError) error {
	if !store.Unknown && (errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded)) {
		return nil
	}
	code, reason := codes.Unavailable, "STORE_AWAY"
	switch store.Fault {
	case history.Full:
		code, reason = codes.ResourceExhausted, "STORE_FULL"
	case history.ReadOnly:
		reason = "STORE_READ_ONLY"
	case history.Damaged:
		code, reason = codes.DataLoss, "STORE_DAMAGED"
	case history.Newer:
		code, reason = codes.FailedPrecondition, "STORE_NEWER"
	case history.Foreign:
		code, reason = codes.FailedPrecondition, "STORE_FOREIGN"
	case history.Away:
	}
	if store.Unknown {
		reason = "OUTCOME_UNKNOWN"
	}
	return withReason(code, store.Error(), reason, nil)
}

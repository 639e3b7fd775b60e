package rpc

import (
	"context"
	"errors"
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/transcript"
)

func stored(fault history.Fault) error { return &history.StoreError{Fault: fault, Where: "jobs.db"} }

// toldOfJobs is what a caller hears of what can stand in the way of keeping vehicles and jobs.
var toldOfJobs = map[string]struct {
	err  error
	code codes.Code
	says string
}{
	"history.NotFoundError":      {&history.NotFoundError{What: "job", ID: "spring"}, codes.NotFound, "there is no job spring on record"},
	"history.ExistsError":        {&history.ExistsError{What: "job", ID: "spring"}, codes.AlreadyExists, "choose another id"},
	"history.InUseError":         {&history.InUseError{Vehicle: "estate"}, codes.FailedPrecondition, "vehicle estate has jobs"},
	"history.ConflictError":      {&history.ConflictError{What: "job", ID: "spring", Expected: 3, Have: 4}, codes.Aborted, "read it again"},
	"history.RequestReusedError": {&history.RequestReusedError{ID: "r1"}, codes.AlreadyExists, "a new request needs an id of its own"},
	"history.StageError": {
		&history.StageError{Job: "spring", Stage: history.StageBooked, Kind: history.KindTrial, Says: "inspect first"},
		codes.FailedPrecondition, "job spring is booked: inspect first",
	},
	"history.BayTakenError": {
		&history.BayTakenError{
			Bay: "bay-1", Free: time.Date(2026, 3, 30, 10, 0, 0, 0, time.UTC),
			InTheWay: []history.Held{{Job: "spring", Start: time.Date(2026, 3, 30, 8, 0, 0, 0, time.UTC), End: time.Date(2026, 3, 30, 10, 0, 0, 0, time.UTC)}},
		},
		codes.FailedPrecondition,
		"bay-1 is taken: job spring holds it from 2026-03-30 08:00 UTC to 2026-03-30 10:00 UTC; it is free for this from 2026-03-30 10:00 UTC on",
	},
	"history.CorrectionError": {&history.CorrectionError{Sequence: 7, Says: "no plan"}, codes.FailedPrecondition, "withdraw event 7 first"},
	"history.InputError":      {&history.InputError{Field: "progress[0].note", Says: "is missing"}, codes.InvalidArgument, "progress[0].note: is missing"},
	"history.PageTokenError":  {&history.PageTokenError{Says: "was not given by any list"}, codes.InvalidArgument, "page_token: was not given by any list"},
	"history.UnreadableError": {&history.UnreadableError{Job: "spring", Sequence: 2, Says: "version 9"}, codes.DataLoss, "event 2 of job spring"},
	"history.StoreError":      {stored(history.Away), codes.Unavailable, "does not answer; nothing was recorded"},
	"a full store":            {stored(history.Full), codes.ResourceExhausted, "no room left; nothing was recorded"},
	"a store not to write to": {stored(history.ReadOnly), codes.Unavailable, "give it write permission"},
	"a damaged store":         {stored(history.Damaged), codes.DataLoss, "bring back a backup"},
	"a store of later":        {stored(history.Newer), codes.FailedPrecondition, "use that version"},
	"a file of another":       {stored(history.Foreign), codes.FailedPrecondition, "holds something else"},
	"a store lost in between": {
		&history.StoreError{Fault: history.Away, Where: "db", Unknown: true, Err: context.DeadlineExceeded},
		codes.Unavailable, "send it again with the same request id",
	},
	"a caller who gave up":    {&history.StoreError{Fault: history.Away, Where: "db", Err: context.Canceled}, codes.Canceled, ""},
	"a caller without time":   {errors.Join(context.DeadlineExceeded, stored(history.Away)), codes.DeadlineExceeded, ""},
	"transcript.LineError":    {&transcript.LineError{Line: 3, Says: "no event"}, codes.InvalidArgument, "line 3: no event"},
	"transcript.DiffersError": {&transcript.DiffersError{Job: "spring", Sequence: 4}, codes.AlreadyExists, "went another way from event 4 on"},
	"rpc.ErrNoLink":           {ErrNoLink, codes.NotFound, "ask the shop for a new one"},
	"rpc.ErrNoRecord":         {ErrNoRecord, codes.FailedPrecondition, "--data"},
	"rpc.ErrStopping":         {ErrStopping, codes.Unavailable, "watch again"},
}

func TestEveryErrorOfJobsHasAStatus(t *testing.T) {
	for name, dir := range map[string]string{"history": "../history", "transcript": "../history/transcript"} {
		for _, e := range exportedErrors(t, dir) {
			assert.Contains(t, toldOfJobs, name+"."+e, "it has no row here and in jobstatus.go")
		}
	}
	for name, row := range toldOfJobs {
		for _, err := range []error{row.err, fmt.Errorf("wrapped: %w", row.err)} {
			st := status.Convert(statusOf(err, ""))
			assert.Equal(t, row.code, st.Code(), "%s: %v", name, st.Message())
			assert.Contains(t, st.Message(), row.says, name)
		}
	}
}

func TestEveryFaultOfAJobsInputIsToldByItsField(t *testing.T) {
	err := errors.Join(&history.InputError{Field: "job.label", Says: "is too long"},
		fmt.Errorf("also: %w", errors.Join(&history.InputError{Field: "name", Says: "is no name"})))
	st := status.Convert(statusOf(err, ""))
	assert.Equal(t, codes.InvalidArgument, st.Code())
	require.Len(t, st.Details(), 1)
	bad, ok := st.Details()[0].(*errdetails.BadRequest)
	require.True(t, ok)
	require.Len(t, bad.GetFieldViolations(), 2)
	assert.Equal(t, "job.label", bad.GetFieldViolations()[0].GetField())
	assert.Equal(t, "name", bad.GetFieldViolations()[1].GetField())
}

func TestAProgramCanReadWhyAJobIsRefused(t *testing.T) {
	for name, reason := range map[string]string{
		"history.ConflictError": "STALE_ETAG", "history.StageError": "STAGE", "history.CorrectionError": "RESTS_ON_IT",
		"a full store": "STORE_FULL", "a store lost in between": "OUTCOME_UNKNOWN",
	} {
		st := status.Convert(statusOf(toldOfJobs[name].err, ""))
		require.Len(t, st.Details(), 1, name)
		info, ok := st.Details()[0].(*errdetails.ErrorInfo)
		require.True(t, ok, name)
		assert.Equal(t, reason, info.GetReason(), name)
	}
}

package rpc

import (
	"context"
	"errors"
	"sync"
	"time"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/history"
)

// ErrNoRecord says that the service keeps no vehicles and jobs.
var ErrNoRecord = errors.New("this service keeps no vehicles and jobs; start it with --data and a file or a database to keep them in")

// RecordError says why vehicles and jobs cannot be kept where the service was told to keep them. It does not mend by itself.
type RecordError struct{ Cause error }

func (e *RecordError) Error() string {
	return "vehicles and jobs cannot be kept where --data says: " + e.Cause.Error()
}

func (e *RecordError) Unwrap() error { return e.Cause }

// JobRecord is where vehicles and jobs are kept.
type JobRecord interface {
	// Open gives the store and the book over it, the same ones with every call. It is asked once a call, so that a store that
	// was away is found again. The error is [ErrNoRecord], a [*RecordError] or a
	// [*history.StoreError].
	Open(ctx context.Context) (history.Store, *history.Book, error)
}

// JobServer serves JobService: it converts, asks the book, and converts back.
type JobServer struct {
	glossladderv1.UnimplementedJobServiceServer
	rules   Rulebook
	record  JobRecord
	now     func() time.Time
	bell    bell
	archive sync.Map // hashes of the rule sets that are in the archive

	stopping chan struct{}
	stopOnce sync.Once
}

// NewJobServer serves from the rules in force and a record.
func NewJobServer(rules Rulebook, record JobRecord) *JobServer {
	return &JobServer{rules: rules, record: record, now: time.Now, stopping: make(chan struct{})}
}

// WhenRecorded lets somebody know of every job that something was recorded in. It is told before the call answers, must not wait,
// and is set before the server serves.
func (s *JobServer) WhenRecorded(tell func(job string)) { s.bell.always = tell }

// Stop ends every watch, which would otherwise go on for as long as its caller likes. Other calls go on.
func (s *JobServer) Stop() { s.stopOnce.Do(func() { close(s.stopping) }) }

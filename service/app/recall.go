package app

import (
	"context"
	"errors"
	"log/slog"
	"sync"
	"time"

	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/history/lessons"
	"github.com/glossladder/glossladder/service/rpc"
)

// recall keeps what the shop has learned from its record at hand. The record is read whole when it is first asked for; after
// that only jobs in which this program recorded something are read again, and all of it now and then for what others recorded.
type recall struct {
	record *record
	log    *slog.Logger

	// told are jobs that something was recorded in since.
	told   sync.Mutex
	behind map[string]bool

	// One call at a time reads and learns.
	turn    sync.Mutex
	records *lessons.Records // nil until read
	readAt  time.Time
	triedAt time.Time
	by      *advisor.Advisor // whose expectations were learned from
	learned advisor.Lessons
}

// How often the whole record is read again, and how soon one that could not be read is tried again.
const (
	readAgain = 15 * time.Minute
	tryAgain  = 30 * time.Second
)

func newRecall(record *record, log *slog.Logger) *recall {
	return &recall{record: record, log: log, behind: map[string]bool{}}
}

// heard notes that something was recorded in a job. It waits for nobody who reads.
func (r *recall) heard(job string) {
	r.told.Lock()
	defer r.told.Unlock()
	r.behind[job] = true
}

// lessons is what the shop has learned, as an adviser expects things to be; nil where no record is kept, and where it cannot be
// read: then panels are decided as if nothing were on record.
func (r *recall) lessons(by *advisor.Advisor) advisor.Lessons {
	if !r.record.begun() {
		return nil
	}
	r.turn.Lock()
	defer r.turn.Unlock()
	changed, err := r.read()
	if err == nil && (changed || by != r.by) {
		var all *lessons.Lessons
		if all, err = lessons.Learn(r.records, lessons.ByMark(), rpc.Expecting(by)); err == nil {
			r.by, r.learned = by, rpc.Learned{Lessons: all}
		}
	}
	if err != nil {
		r.log.Warn("what the shop has learned cannot be read from its record", slog.String("error", err.Error()))
		return nil
	}
	return r.learned
}

// errResting says that a record that could not be read a moment ago is left alone for now.
var errResting = errors.New("it could not be read a moment ago")

// read brings the outcomes up to date and says whether any is otherwise than before.
func (r *recall) read() (changed bool, err error) {
	now := time.Now()
	if r.records == nil && now.Sub(r.triedAt) < tryAgain {
		return false, errResting
	}
	ctx, cancel := context.WithTimeout(context.Background(), openTime)
	defer cancel()
	store, book, err := r.record.Open(ctx)
	if err != nil {
		r.triedAt = now
		return false, err
	}
	behind := r.take()
	if r.records == nil || now.Sub(r.readAt) > readAgain {
		whole := lessons.NewRecords()
		if err := whole.Read(store.Scan(ctx, history.ScanQuery{Kinds: lessons.Kinds(), Lean: true})); err != nil {
			r.triedAt = now
			return false, err
		}
		r.records, r.readAt = whole, now
		return true, nil
	}
	for job := range behind {
		found, err := book.Job(ctx, job)
		if err != nil {
			r.heard(job)
			return false, err
		}
		changed = r.records.Put(job, found.Events()) || changed
	}
	return changed, nil
}

// take gives the jobs that are behind, and forgets them.
func (r *recall) take() map[string]bool {
	r.told.Lock()
	defer r.told.Unlock()
	out := r.behind
	r.behind = map[string]bool{}
	return out
}

package baytime

import (
	"context"
	"iter"
	"slices"
	"strings"
	"time"

	"github.com/glossladder/glossladder/service/history"
)

// Record is where the events of all jobs are.
type Record interface {
	Scan(ctx context.Context, query history.ScanQuery) iter.Seq2[history.Event, error]
}

// In gives the entries in one bay that end after since, by start and name. An entry that moved to another bay is no longer in
// this one; one that was cancelled stays in its last.
func In(ctx context.Context, record Record, bay string, since time.Time) ([]Entry, error) {
	var out []Entry
	var job []history.Event
	add := func() {
		for _, entry := range Follow(job) {
			if entry.Bay == bay && entry.End.After(since) {
				out = append(out, entry)
			}
		}
		job = job[:0]
	}
	kinds := []history.Kind{history.KindBooked, history.KindDetails, history.KindCancelled, history.KindCorrection}
	for e, err := range record.Scan(ctx, history.ScanQuery{Kinds: kinds}) {
		if err != nil {
			return nil, err
		}
		if len(job) > 0 && job[0].Job != e.Job {
			add()
		}
		job = append(job, e)
	}
	add()
	slices.SortFunc(out, func(a, b Entry) int {
		if n := a.Start.Compare(b.Start); n != 0 {
			return n
		}
		return strings.Compare(a.UID, b.UID)
	})
	return out, nil
}

package history

import (
	"context"
	"encoding/json"
	"errors"
	"time"
)

// Book is how jobs are read and recorded in. All it holds is in the store; it may be used by several goroutines at once.
type Book struct {
	store Store
	turns turns
}

// NewBook reads from and records in a store.
func NewBook(store Store) *Book { return &Book{store: store} }

// Entry is what comes with everything that is recorded.
type Entry struct {
	// Now is the time of recording.
	Now time.Time
	// RequestID and Print make a repeated call safe, as in [Request].
	RequestID, Print string
	// OwnID says that nobody gave the request id: it was made up so that a store that loses its connection may send the call
	// again. Events do not carry it.
	OwnID bool
	// Expected is the sequence of the job as the caller knows it. Zero: whatever else was recorded meanwhile.
	Expected int64
	// HappenedAt is when it happened. Zero: now.
	HappenedAt time.Time
	// By is who records it.
	By string
	// TryOnly checks everything and records nothing.
	TryOnly bool
	// Overlap lets the job have bay time that other jobs hold too.
	Overlap bool
}

// Draft is an event to be.
type Draft struct {
	Body     Body
	Document json.RawMessage
	// Diary is that of the bay by which details were laid into it: when somebody books there first, they are laid anew. Nil: the
	// bay time was chosen without it.
	Diary *Diary
}

// Recorded is what was recorded and how the job stands.
type Recorded struct {
	// Events are the new events or, of a request that was done before, those that it made then.
	Events []Event
	Job    *Job
	// Before is true when the request was done before.
	Before bool
}

// tries is how often a record is tried again when somebody else was quicker: each try loses only to a writer that won.
const tries = 100

// Create makes a job by its first event. Errors are those of [Job.Allows] and of [Jobs.Append], or a [*BayTakenError].
func (b *Book) Create(ctx context.Context, id string, booked Booked, entry Entry) (*Recorded, error) {
	if err := errors.Join(CheckID("job_id", id), entry.check()); err != nil {
		return nil, err
	}
	request := Request{Scope: "jobs", ID: entry.RequestID, Print: entry.Print}
	if done, err := b.done(ctx, request, entry); done != nil || err != nil {
		return done, err
	}
	if _, err := b.store.Vehicle(ctx, booked.Vehicle); err != nil {
		return nil, err
	}
	drafts := []Draft{{Body: &booked}}
	batch, job, err := write(&Job{}, id, drafts, entry)
	if err != nil {
		return nil, err
	}
	var lost error
	for range tries {
		if batch.Claim, err = b.claim(ctx, &Job{}, job, drafts, entry); err != nil {
			return nil, err
		}
		done, err := b.append(ctx, batch, job, request, entry)
		if !raced(err, "bay") {
			return done, err
		}
		lost = err
	}
	return nil, lost
}

// Record adds to a job what decide makes of it as it stands. When somebody else records at the same time and the entry expects
// no sequence, decide is asked again with the job as it then stands. Errors are those of decide, of [Job.Allows] and of
// [Jobs.Append].
func (b *Book) Record(ctx context.Context, id string, entry Entry, decide func(*Job) ([]Draft, error)) (*Recorded, error) {
	if err := entry.check(); err != nil {
		return nil, err
	}
	request := Request{Scope: "jobs/" + id, ID: entry.RequestID, Print: entry.Print}
	if done, err := b.done(ctx, request, entry); done != nil || err != nil {
		return done, err
	}
	end, err := b.turns.take(ctx, id)
	if err != nil {
		return nil, err
	}
	defer end()
	var lost error
	for range tries {
		job, err := b.Job(ctx, id)
		if err != nil {
			return nil, err
		}
		if entry.Expected != 0 && entry.Expected != job.Sequence {
			return nil, &ConflictError{What: "job", ID: id, Expected: entry.Expected, Have: job.Sequence}
		}
		drafts, err := decide(job)
		if err != nil {
			return nil, err
		}
		batch, after, err := write(job, id, drafts, entry)
		if err != nil {
			return nil, err
		}
		if batch.Claim, err = b.claim(ctx, job, after, drafts, entry); err != nil {
			return nil, err
		}
		done, err := b.append(ctx, batch, after, request, entry)
		if !raced(err, "bay") && (!raced(err, "job") || entry.Expected != 0) {
			return done, err
		}
		lost = err
	}
	return nil, lost
}

// Job gives a job as it stands, or a [*NotFoundError].
func (b *Book) Job(ctx context.Context, id string) (*Job, error) {
	var events []Event
	for {
		page, err := b.store.Events(ctx, id, int64(len(events)), MostOnPage)
		if err != nil {
			return nil, err
		}
		events = append(events, page...)
		if len(page) < MostOnPage {
			return Replay(events), nil
		}
	}
}

// Life adds up what jobs of a vehicle took off it. The job named is left out, so that the answer is what the others took; ""
// leaves none out.
func (b *Book) Life(ctx context.Context, vehicle, but string) ([]PanelLife, error) {
	if _, err := b.store.Vehicle(ctx, vehicle); err != nil {
		return nil, err
	}
	query := JobQuery{Vehicle: vehicle, Limit: MostOnPage}
	var jobs []*Job
	for {
		page, err := b.store.ListJobs(ctx, query)
		if err != nil {
			return nil, err
		}
		for _, summary := range page {
			if summary.ID == but {
				continue
			}
			job, err := b.Job(ctx, summary.ID)
			if err != nil {
				return nil, err
			}
			jobs = append(jobs, job)
		}
		if len(page) < query.Limit {
			return Life(jobs), nil
		}
		query.After = &JobKey{CreatedAt: page[len(page)-1].CreatedAt, ID: page[len(page)-1].ID}
	}
}

func (e *Entry) check() error {
	return errors.Join(checkText("entry.recorded_by", e.By, 60), checkText("entry.request_id", e.RequestID, 100))
}

func (e *Entry) givenID() string {
	if e.OwnID {
		return ""
	}
	return e.RequestID
}

// done gives what a request did before; nil when it never came.
func (b *Book) done(ctx context.Context, request Request, entry Entry) (*Recorded, error) {
	if request.ID == "" || entry.OwnID {
		return nil, nil
	}
	receipt, err := b.store.Receipt(ctx, request.Scope, request.ID)
	if err != nil || receipt == nil {
		return nil, err
	}
	return b.again(ctx, request, receipt)
}

func (b *Book) again(ctx context.Context, request Request, receipt *Receipt) (*Recorded, error) {
	if receipt.Print != request.Print {
		return nil, &RequestReusedError{ID: request.ID}
	}
	job, err := b.Job(ctx, receipt.Target)
	if err != nil {
		return nil, err
	}
	return &Recorded{Events: job.events[receipt.First-1 : receipt.Last], Job: job, Before: true}, nil
}

// append stores a batch, or only says what storing it would give.
func (b *Book) append(ctx context.Context, batch Batch, after *Job, request Request, entry Entry) (*Recorded, error) {
	if entry.TryOnly || len(batch.Events) == 0 {
		return &Recorded{Events: batch.Events, Job: after}, nil
	}
	batch.Request = request
	earlier, err := b.store.Append(ctx, batch)
	if err != nil {
		return nil, err
	}
	if earlier != nil {
		return b.again(ctx, request, earlier)
	}
	return &Recorded{Events: batch.Events, Job: after}, nil
}

// write makes events of drafts, each allowed by the job as the one before leaves it.
func write(job *Job, id string, drafts []Draft, entry Entry) (Batch, *Job, error) {
	batch := Batch{Expected: job.Sequence}
	at := Moment(entry.Now)
	if at.Before(job.UpdatedAt) {
		at = job.UpdatedAt // the clock was set back; time stands still until it has caught up
	}
	for _, draft := range drafts {
		if err := job.Allows(draft.Body); err != nil {
			return Batch{}, nil, err
		}
		e := Event{
			Job: id, Sequence: job.Sequence + 1, RecordedAt: at, HappenedAt: Moment(entry.HappenedAt), By: entry.By,
			RequestID: entry.givenID(), Body: draft.Body, Document: draft.Document,
		}
		batch.Events = append(batch.Events, e)
		job = Replay(append(job.events[:len(job.events):len(job.events)], e))
	}
	batch.After = job.Summary
	return batch, job, nil
}

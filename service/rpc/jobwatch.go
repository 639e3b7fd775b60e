package rpc

import (
	"context"
	"errors"
	"sync"
	"time"

	"google.golang.org/grpc"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/history"
)

// ErrStopping ends a watch of a service that stops.
var ErrStopping = errors.New("the service is stopping; watch again from the last sequence number seen")

// lookEvery is how often a watch looks for what other programs recorded; what this one records it hears of at once.
const lookEvery = 2 * time.Second

// ListJobEvents gives what happened in a job, in order.
func (s *JobServer) ListJobEvents(ctx context.Context, req *glossladderv1.ListJobEventsRequest) (*glossladderv1.ListJobEventsResponse, error) {
	var wrong faults
	id := wrong.id("parent", jobs, req.GetParent())
	if err := wrong.asError(); err != nil {
		return nil, statusOf(err, "")
	}
	question, after := []any{"events", id}, int64(0)
	if _, err := history.ReadPage(req.GetPageToken(), question, &after); err != nil {
		return nil, statusOf(err, "")
	}
	_, book, err := s.record.Open(ctx)
	if err != nil {
		return nil, statusOf(err, "")
	}
	job, err := book.Job(ctx, id)
	if err != nil {
		return nil, statusOf(err, "")
	}
	all := job.Events()
	from := min(max(after, 0), int64(len(all)))
	to := min(from+int64(history.PageSize(int(req.GetPageSize()))), int64(len(all)))
	out := &glossladderv1.ListJobEventsResponse{}
	if out.Events, err = eventsOut(all[from:to], all); err != nil {
		return nil, statusOf(err, "")
	}
	out.Events = fitting(out.GetEvents(), mostAnswered)
	slim(out.GetEvents(), mostAnswered)
	to = from + int64(len(out.GetEvents()))
	if to < int64(len(all)) {
		if out.NextPageToken, err = history.NextPage(question, to); err != nil {
			return nil, statusOf(err, "")
		}
	}
	return out, nil
}

// WatchJob gives what happened after a sequence number, and goes on with what happens.
func (s *JobServer) WatchJob(req *glossladderv1.WatchJobRequest, stream grpc.ServerStreamingServer[glossladderv1.WatchJobResponse]) error {
	ctx := stream.Context()
	id, store, book, err := s.open(ctx, req.GetName())
	if err != nil {
		return statusOf(err, "")
	}
	rung, hangUp := s.bell.listen(id) // before the first look, so that nothing is missed in between
	defer hangUp()
	job, err := book.Job(ctx, id)
	if err != nil {
		return statusOf(err, "")
	}
	if req.GetAfterSequence() > job.Sequence {
		return statusOf(&RequestError{"after_sequence", "the job has no such event yet; send the last sequence number that you saw of this job"}, "")
	}
	w := watch{store: store, id: id, stream: stream, events: job.Events()}
	if err := w.send(req.GetAfterSequence()); err != nil {
		return statusOf(err, "")
	}
	clock := time.NewTicker(lookEvery)
	defer clock.Stop()
	for !w.stage.Ended() {
		select {
		case <-ctx.Done():
			return statusOf(ctx.Err(), "")
		case <-s.stopping:
			return statusOf(ErrStopping, "")
		case <-rung:
		case <-clock.C:
		}
		if err := w.look(ctx); err != nil {
			return statusOf(err, "")
		}
	}
	return nil
}

// watch is one caller who follows a job.
type watch struct {
	store  history.Store
	id     string
	stream grpc.ServerStreamingServer[glossladderv1.WatchJobResponse]
	events []history.Event
	stage  history.Stage
}

// look sends what is new, if anything.
func (w *watch) look(ctx context.Context) error {
	seen := int64(len(w.events))
	for {
		page, err := w.store.Events(ctx, w.id, int64(len(w.events)), history.MostOnPage)
		if err != nil {
			return err
		}
		w.events = append(w.events, page...)
		if len(page) < history.MostOnPage {
			break
		}
	}
	if int64(len(w.events)) == seen {
		return nil
	}
	return w.send(seen)
}

// send sends the events after a sequence number, and then that there are no more for now.
func (w *watch) send(after int64) error {
	said, err := eventsOut(w.events[after:], w.events)
	if err != nil {
		return err
	}
	for i, event := range said {
		slim(said[i:i+1], mostAnswered)
		stage := history.Replay(w.events[:after+int64(i)+1]).Stage
		if err := w.stream.Send(&glossladderv1.WatchJobResponse{Event: event, Stage: word[glossladderv1.JobStage](string(stage))}); err != nil {
			return err
		}
	}
	w.stage = history.Replay(w.events).Stage
	if w.stage.Ended() {
		return nil
	}
	return w.stream.Send(&glossladderv1.WatchJobResponse{Stage: word[glossladderv1.JobStage](string(w.stage))})
}

// bell tells those who watch a job that something was recorded in it. The zero bell is ready.
type bell struct {
	// always is told of every ring. Nil: nobody is.
	always func(job string)

	mu    sync.Mutex
	hears map[string]map[chan struct{}]bool
}

// listen gives a channel that holds something after each ring, and the way to leave.
func (b *bell) listen(job string) (rung <-chan struct{}, hangUp func()) {
	mine := make(chan struct{}, 1)
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.hears == nil {
		b.hears = map[string]map[chan struct{}]bool{}
	}
	if b.hears[job] == nil {
		b.hears[job] = map[chan struct{}]bool{}
	}
	b.hears[job][mine] = true
	return mine, func() {
		b.mu.Lock()
		defer b.mu.Unlock()
		delete(b.hears[job], mine)
		if len(b.hears[job]) == 0 {
			delete(b.hears, job)
		}
	}
}

// ring waits for nobody.
func (b *bell) ring(job string) {
	if b.always != nil {
		b.always(job)
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	for mine := range b.hears[job] {
		select {
		case mine <- struct{}{}:
		default: // it has rung already
		}
	}
}

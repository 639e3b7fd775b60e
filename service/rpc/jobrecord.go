package rpc

import (
	"context"
	"errors"

	"google.golang.org/protobuf/proto"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/history"
)

// recording is a request that records something in a job.
type recording interface {
	proto.Message
	GetName() string
	GetEntry() *glossladderv1.Entry
}

// jobCall is a call at work on one job.
type jobCall struct {
	id    string
	store history.Store
	book  *history.Book
	entry history.Entry
	// asked are the rules that this call asked; nil before.
	asked *Rules
}

// begin reads what every recording request has in common.
func (s *JobServer) begin(ctx context.Context, req recording) (*jobCall, error) {
	var wrong faults
	j := &jobCall{id: wrong.id("name", jobs, req.GetName())}
	wrong.time("entry.happen_time", req.GetEntry().GetHappenTime())
	expected := wrong.etag("entry.etag", req.GetEntry().GetEtag())
	if err := wrong.asError(); err != nil {
		return nil, err
	}
	j.entry = s.entryOf(req, req.GetEntry())
	j.entry.Expected = expected
	var err error
	j.store, j.book, err = s.record.Open(ctx)
	return j, err
}

// write is the head of every recording method: what to record is decided by the job as it stands.
func (s *JobServer) write(ctx context.Context, req recording, decide func(*jobCall, *history.Job) ([]draft, error)) (*glossladderv1.RecordResponse, error) {
	j, err := s.begin(ctx, req)
	if err != nil {
		return nil, statusOf(err, "")
	}
	done, err := j.book.Record(ctx, j.id, j.entry, func(now *history.Job) ([]history.Draft, error) {
		drafts, err := decide(j, now)
		if err != nil {
			return nil, err
		}
		if err := s.keepAsked(ctx, j, drafts); err != nil {
			return nil, err
		}
		return checked(drafts)
	})
	if err != nil {
		return nil, statusOf(err, "")
	}
	if !j.entry.TryOnly {
		s.bell.ring(j.id)
	}
	out := &glossladderv1.RecordResponse{}
	if out.Events, err = eventsOut(done.Events, done.Job.Events()); err != nil {
		return nil, statusOf(err, "")
	}
	slim(out.GetEvents(), mostAnswered)
	out.Job, err = jobOut(ctx, j.store, done.Job)
	return out, err
}

// checked complains about all drafts at once, by the fields of the request.
func checked(drafts []draft) ([]history.Draft, error) {
	var wrong []error
	var out []history.Draft
	for _, d := range drafts {
		if err := history.Check(d.Body); err != nil && d.place != nil {
			wrong = append(wrong, under(err, d.place))
		}
		out = append(out, d.Draft)
	}
	return out, errors.Join(wrong...)
}

// ask prepares to ask the rules in force about the job.
func (s *JobServer) ask(ctx context.Context, j *jobCall, brought func(panel, rest string) string) (*asking, error) {
	v, err := s.visitOf(ctx, j.store, j.book, j.id)
	if err != nil {
		return nil, err
	}
	j.asked = v.rules
	return &asking{visit: v, brought: brought}, nil
}

// keepAsked archives the rules that answered before any of their answers is recorded.
func (s *JobServer) keepAsked(ctx context.Context, j *jobCall, drafts []draft) error {
	if j.entry.TryOnly || j.asked == nil {
		return nil
	}
	for _, d := range drafts {
		if d.Body.Kind() == history.KindDecision {
			return s.keepRules(ctx, j.store, j.asked)
		}
	}
	return nil
}

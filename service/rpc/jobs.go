package rpc

import (
	"context"
	"strings"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/history"
)

// CreateJob books a job for a vehicle.
func (s *JobServer) CreateJob(ctx context.Context, req *glossladderv1.CreateJobRequest) (*glossladderv1.Job, error) {
	var wrong faults
	vehicle := wrong.id("job.vehicle", vehicles, req.GetJob().GetVehicle())
	details := detailsIn(req.GetJob(), &wrong)
	if err := wrong.asError(); err != nil {
		return nil, statusOf(err, "")
	}
	store, book, err := s.record.Open(ctx)
	if err != nil {
		return nil, statusOf(err, "")
	}
	entry := s.entryOf(req, &glossladderv1.Entry{RequestId: req.GetRequestId(), RecordedBy: req.GetRecordedBy()})
	var made *history.Recorded
	err = withNewID(req.GetJobId(), func(id string) error {
		var err error
		made, err = book.Create(ctx, id, history.Booked{Vehicle: vehicle, Details: details}, entry)
		return err
	})
	if err != nil {
		return nil, statusOf(under(err, atJob), "")
	}
	return jobOut(ctx, store, made.Job)
}

// GetJob gives one.
func (s *JobServer) GetJob(ctx context.Context, req *glossladderv1.GetJobRequest) (*glossladderv1.Job, error) {
	id, store, book, err := s.open(ctx, req.GetName())
	if err != nil {
		return nil, statusOf(err, "")
	}
	if req.GetView() == glossladderv1.JobView_JOB_VIEW_BASIC {
		if req.GetWithWorkPlan() {
			return nil, statusOf(&history.InputError{Field: "with_work_plan", Says: "is true, and the basic view has no plan; ask for the full view, or leave one of them out"}, "")
		}
		return basic(ctx, store, id)
	}
	job, err := book.Job(ctx, id)
	if err != nil {
		return nil, statusOf(err, "")
	}
	out, err := jobOut(ctx, store, job)
	if err != nil || !req.GetWithWorkPlan() {
		return out, err
	}
	out.WorkPlan, err = s.planIfAny(ctx, store, book, job)
	return out, err
}

// open finds the job that a request names, and the record.
func (s *JobServer) open(ctx context.Context, name string) (id string, store history.Store, book *history.Book, err error) {
	var wrong faults
	id = wrong.id("name", jobs, name)
	if err := wrong.asError(); err != nil {
		return "", nil, nil, err
	}
	store, book, err = s.record.Open(ctx)
	return id, store, book, err
}

// ListJobs gives them without panels, the newest first.
func (s *JobServer) ListJobs(ctx context.Context, req *glossladderv1.ListJobsRequest) (*glossladderv1.ListJobsResponse, error) {
	var wrong faults
	query := history.JobQuery{Limit: history.PageSize(int(req.GetPageSize()))}
	if req.GetVehicle() != "" {
		query.Vehicle = wrong.id("vehicle", vehicles, req.GetVehicle())
	}
	if err := wrong.asError(); err != nil {
		return nil, statusOf(err, "")
	}
	for _, stage := range req.GetStages() {
		query.Stages = append(query.Stages, stageIn(stage))
	}
	question := []any{jobs, query.Vehicle, query.Stages}
	var after history.JobKey
	more, err := history.ReadPage(req.GetPageToken(), question, &after)
	if err != nil {
		return nil, statusOf(err, "")
	}
	if more {
		query.After = &after
	}
	store, _, err := s.record.Open(ctx)
	if err != nil {
		return nil, statusOf(err, "")
	}
	found, next, err := onePage(&query.Limit, question, func() ([]history.Listed, error) { return store.ListJobs(ctx, query) },
		func(last *history.Listed) any { return history.JobKey{CreatedAt: last.CreatedAt, ID: last.ID} })
	if err != nil {
		return nil, statusOf(err, "")
	}
	out := &glossladderv1.ListJobsResponse{NextPageToken: next}
	for i := range found {
		out.Jobs = append(out.Jobs, summaryOut(&found[i].Summary, found[i].VehicleLabel))
	}
	return out, nil
}

// basic is the outside of a job.
func basic(ctx context.Context, store history.Store, id string) (*glossladderv1.Job, error) {
	summary, err := store.Job(ctx, id)
	if err != nil {
		return nil, statusOf(err, "")
	}
	vehicle, err := store.Vehicle(ctx, summary.Vehicle)
	if err != nil {
		return nil, statusOf(err, "")
	}
	return summaryOut(&summary, vehicle.Label), nil
}

// onePage asks for one more than the page holds, to know whether another follows, and makes its token.
func onePage[T any](limit *int, question any, list func() ([]T, error), key func(*T) any) (page []T, next string, err error) {
	size := *limit
	*limit = size + 1
	page, err = list()
	if err != nil || len(page) <= size {
		return page, "", err
	}
	page = page[:size]
	next, err = history.NextPage(question, key(&page[size-1]))
	return page, next, err
}

// UpdateJob changes a job's details.
func (s *JobServer) UpdateJob(ctx context.Context, req *glossladderv1.UpdateJobRequest) (*glossladderv1.Job, error) {
	var wrong faults
	id := wrong.id("job.name", jobs, req.GetJob().GetName())
	given := detailsIn(req.GetJob(), &wrong)
	change := wrong.mask(req.GetUpdateMask(), map[string]bool{
		"label": given.Label != "", "notes": given.Notes != "", "book_time": req.GetJob().GetBookTime() != nil, "bay": given.Bay != nil,
	})
	entry := s.entryOf(req, &glossladderv1.Entry{RequestId: req.GetRequestId(), RecordedBy: req.GetRecordedBy()})
	entry.Expected = wrong.etag("job.etag", req.GetJob().GetEtag())
	if err := wrong.asError(); err != nil {
		return nil, statusOf(err, "")
	}
	store, book, err := s.record.Open(ctx)
	if err != nil {
		return nil, statusOf(err, "")
	}
	done, err := book.Record(ctx, id, entry, func(job *history.Job) ([]history.Draft, error) {
		details := job.Details
		if change["label"] {
			details.Label = given.Label
		}
		if change["notes"] {
			details.Notes = given.Notes
		}
		if change["book_time"] {
			details.BookedFor = given.BookedFor
		}
		if change["bay"] {
			details.Bay = given.Bay
		}
		if details.Same(&job.Details) {
			return nil, nil
		}
		return []history.Draft{{Body: &details}}, nil
	})
	if err != nil {
		return nil, statusOf(under(err, atJob), "")
	}
	s.bell.ring(id)
	return jobOut(ctx, store, done.Job)
}

// atJob leads from a field of a job's details to that of the request.
func atJob(field string) string {
	if strings.HasPrefix(field, "bay.") {
		return "job." + field
	}
	switch field {
	case "label", "notes", "vehicle":
		return "job." + field
	case "entry.recorded_by", "entry.request_id":
		return field[len("entry."):]
	}
	return field
}

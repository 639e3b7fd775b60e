package rpc

import (
	"context"
	"slices"
	"strings"

	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/proto"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/history"
)

// eitherWay is a request that brings an inspection, or names a job whose record has it.
type eitherWay interface {
	planned
	GetJob() string
}

// planned is what a request wants planned: itself or, where it names a job, what is on record of it.
func (s *PlanServer) planned(ctx context.Context, req eitherWay, wrong *violationList) (planned, *onRecord, error) {
	switch {
	case req.GetJob() != "" && req.GetInspection() != nil:
		wrong.add("job", "comes with an inspection; a plan is of one or the other, so leave inspection or job out")
		return req, nil, nil
	case req.GetJob() == "" && req.GetInspection() == nil:
		wrong.add("inspection", "is missing; say what to plan: send an inspection, or name a job of the record in job")
		return req, nil, nil
	case req.GetJob() == "":
		return req, nil, nil
	}
	on, err := s.recorded(ctx, req)
	if err != nil {
		return nil, nil, err
	}
	if on.unseen() {
		return nil, nil, statusOf(on.refuse(history.KindPlan, "nobody can tell yet what the work takes; inspect the vehicle first, or ask for an estimate"), "")
	}
	return on, on, nil
}

// unseen reports whether no panel was inspected that could be planned.
func (o *onRecord) unseen() bool { return len(o.inspection.GetPanels()) == 0 }

// planIfAny is the plan of a job as PlanJob gives it for the job by its name; nil where PlanJob would say why it gives none.
func (s *JobServer) planIfAny(ctx context.Context, store history.Store, book *history.Book, job *history.Job) (*glossladderv1.WorkPlan, error) {
	on, err := s.onRecord(ctx, store, book, job)
	if err != nil {
		return nil, statusOf(err, "")
	}
	if on.unseen() {
		return nil, nil
	}
	on.areas = on.measured(nil)
	on.staffed(nil)
	rules := s.rules.InForce()
	made, err := makePlan(rules, on, on, &violationList{})
	if err != nil {
		return nil, unlessRefused(err)
	}
	return workPlanOut(rules, made), nil
}

// unlessRefused is an error that is not about what is on record.
func unlessRefused(err error) error {
	if code := status.Code(err); code == codes.FailedPrecondition || code == codes.InvalidArgument {
		return nil
	}
	return err
}

// recorded is what is on record of the job that a request names, with what the request says beside it.
func (s *PlanServer) recorded(ctx context.Context, req eitherWay) (*onRecord, error) {
	var wrong faults
	id := wrong.id("job", jobs, req.GetJob())
	if err := wrong.asError(); err != nil {
		return nil, statusOf(err, "")
	}
	store, book, err := s.jobs.record.Open(ctx)
	if err != nil {
		return nil, statusOf(err, "")
	}
	job, err := book.Job(ctx, id)
	if err != nil {
		return nil, statusOf(err, "")
	}
	on, err := s.jobs.onRecord(ctx, store, book, job, req.GetLadders()...)
	if err != nil {
		return nil, statusOf(err, "")
	}
	on.areas = append(slices.Clone(req.GetAreas()), on.measured(req.GetAreas())...)
	if req, ok := req.(crewed); ok {
		on.staffed(req.GetCrew())
	}
	return on, nil
}

// estimated is what is on record of the job that a request names; nil when it names none.
func (s *PlanServer) estimated(ctx context.Context, req *glossladderv1.EstimateJobRequest, wrong *violationList) (*onRecord, error) {
	switch {
	case req.GetJob() == "":
		return nil, nil
	case req.GetInspection() != nil:
		wrong.add("job", "comes with an inspection; an estimate is of one or the other, so leave inspection or job out")
		return nil, nil
	}
	return s.recorded(ctx, req)
}

// request is a request for an estimate with what is on record in place of the job. What the request says of the vehicle fills in
// what the record leaves open.
func (o *onRecord) request(req *glossladderv1.EstimateJobRequest) *glossladderv1.EstimateJobRequest {
	if o == nil {
		return req
	}
	vehicle := &glossladderv1.Vehicle{}
	proto.Merge(vehicle, req.GetVehicle())
	proto.Merge(vehicle, o.vehicle)
	return &glossladderv1.EstimateJobRequest{
		Vehicle: vehicle, Goal: req.GetGoal(), Inspection: o.inspection, Ladders: o.ladders, Areas: o.areas,
		OnlyInspected: req.GetOnlyInspected() || o.settled,
	}
}

// atMost are the panels that may get less than is on record where hours are short: those on which no work has begun, and whose
// ladder the request did not settle.
func (o *onRecord) atMost() map[string]bool {
	out := map[string]bool{}
	if o != nil {
		for _, l := range o.ladders[o.said:] {
			out[l.GetPanelId()] = !o.begun[l.GetPanelId()]
		}
	}
	return out
}

// called is what a calendar calls the job or, without one, the vehicle of an inspection.
func (o *onRecord) called(in *glossladderv1.Inspection) string {
	if o != nil {
		return calledJob(o.job)
	}
	if label := strings.TrimSpace(in.GetVehicle().GetLabel()); label != "" {
		return label
	}
	return "Vehicle"
}

func calledJob(job *history.Job) string {
	if job.Label != "" {
		return job.Label
	}
	return "job " + job.ID
}

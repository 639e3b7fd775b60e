package rpc

import (
	"context"
	"fmt"
	"time"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/workplan"
)

// PlanServer serves PlanService from the rules in force, and plans the jobs of a [JobServer].
type PlanServer struct {
	glossladderv1.UnimplementedPlanServiceServer
	book Rulebook
	jobs *JobServer
	now  func() time.Time
}

// NewPlanServer serves from a rulebook and the record of a server of jobs. The clock is for the time stamps of calendars.
func NewPlanServer(book Rulebook, jobs *JobServer, now func() time.Time) *PlanServer {
	return &PlanServer{book: book, jobs: jobs, now: now}
}

// EstimateJob gives hours and price of a vehicle at any time.
func (s *PlanServer) EstimateJob(ctx context.Context, req *glossladderv1.EstimateJobRequest) (*glossladderv1.EstimateJobResponse, error) {
	wrong := &violationList{}
	on, err := s.estimated(ctx, req, wrong)
	if err != nil {
		return nil, err
	}
	question, err := estimateIn(s.book.InForce(), on.request(req), wrong)
	if err != nil {
		return nil, statusOf(on.told(err, history.KindPlan), "")
	}
	said, err := workplan.Guess(question)
	if err != nil {
		return nil, statusOf(err, "inspection")
	}
	return &glossladderv1.EstimateJobResponse{Estimate: estimateOut(said)}, nil
}

// PlanJob gives the plan of an inspected vehicle.
func (s *PlanServer) PlanJob(ctx context.Context, req *glossladderv1.PlanJobRequest) (*glossladderv1.PlanJobResponse, error) {
	rules := s.book.InForce()
	wrong := &violationList{}
	bay := bayIn(rules.Shop, req.GetBay(), wrong)
	what, on, err := s.planned(ctx, req, wrong)
	if err != nil {
		return nil, err
	}
	made, err := makePlan(rules, what, on, wrong)
	if err != nil {
		return nil, err
	}
	out := &glossladderv1.PlanJobResponse{Plan: workPlanOut(rules, made)}
	if bay != nil {
		out.Bay, err = bay.lay(made, on.called(req.GetInspection()), req, s.now())
	}
	return out, err
}

// makePlan is the plan of what is wanted planned; on is nil where no record says it. What was found wrong before is told with the rest.
func makePlan(rules *Rules, what planned, on *onRecord, wrong *violationList) (*workplan.Plan, error) {
	job, err := jobIn(rules, what, wrong)
	if err != nil {
		return nil, statusOf(on.told(err, history.KindPlan), "")
	}
	made, err := workplan.Make(job)
	if err != nil {
		return nil, statusOf(err, "inspection")
	}
	on.begin(&made)
	return &made, nil
}

// FitHours gives the best use of fixed hours or a fixed price.
func (s *PlanServer) FitHours(ctx context.Context, req *glossladderv1.FitHoursRequest) (*glossladderv1.FitHoursResponse, error) {
	rules := s.book.InForce()
	wrong := &violationList{}
	price := moneyIn(rules.Shop.Currency(), req.GetPrice(), "price", wrong)
	what, on, err := s.planned(ctx, req, wrong)
	if err != nil {
		return nil, err
	}
	job, err := jobIn(rules, what, wrong)
	if err == nil {
		job.AtMost = on.atMost()
		err = graded(&job.Work)
	}
	if err != nil {
		return nil, statusOf(on.told(err, history.KindPlan), "")
	}
	var fit workplan.Fit
	if req.GetPrice() != nil {
		fit, err = workplan.ForPrice(job, price)
	} else {
		fit, err = workplan.InHours(job, req.GetHours()*60)
	}
	if err != nil {
		return nil, statusOf(err, "inspection")
	}
	return fitOut(rules, &fit), nil
}

// graded refuses marks without a grade: what leaving them costs could not be told.
func graded(work *advisor.Work) error {
	wrong := &violationList{}
	for i := range work.Panels {
		for _, k := range work.Panels[i].Ungraded() {
			wrong.add(fmt.Sprintf("inspection.panels[%d].defects[%d].severity", i, k), "the marks are not graded, so nobody can tell what leaving them costs; grade them from 0 to 5")
		}
	}
	return wrong.asError()
}

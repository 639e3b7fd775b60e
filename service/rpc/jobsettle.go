package rpc

import (
	"context"
	"errors"
	"fmt"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/history"
)

// RecordPlan settles which panel gets which ladder.
func (s *JobServer) RecordPlan(ctx context.Context, req *glossladderv1.RecordPlanRequest) (*glossladderv1.RecordResponse, error) {
	return s.write(ctx, req, func(_ *jobCall, now *history.Job) ([]draft, error) {
		plan := planIn(req.GetPlan())
		if len(plan.Panels) == 0 {
			var err error
			if plan.Panels, err = proven(now); err != nil {
				return nil, err
			}
		}
		return []draft{{Draft: history.Draft{Body: plan}, place: asItIs}}, nil
	})
}

func asItIs(field string) string { return field }

// proven are the panels of a plan by what is on record: of each panel the ladder that its trials have proven or, without trials, the one
// advised.
func proven(job *history.Job) (out []history.PlannedPanel, err error) {
	var errs []error
	for _, p := range job.Panels {
		if p.FoundAt == 0 {
			continue // its inspection was withdrawn
		}
		ladder, missing := settled(p)
		if missing != "" {
			errs = append(errs, &history.StageError{Job: job.ID, Stage: job.Stage, Kind: history.KindPlan, Says: missing})
			continue
		}
		out = append(out, history.PlannedPanel{Panel: p.ID, Ladder: ladder})
	}
	if len(job.Panels) == 0 {
		errs = append(errs, job.Allows(&history.Plan{Panels: []history.PlannedPanel{{Panel: "none", Ladder: "none"}}}))
	}
	return out, errors.Join(errs...)
}

// settled is the ladder that a panel gets by what is on record, or what is missing.
func settled(p *history.Panel) (ladder, missing string) {
	switch {
	case len(p.Trials) == 0 && p.Advice == nil:
		return "", fmt.Sprintf("no advice that still holds is on record for panel %s; ask for advice, or name its ladder", p.ID)
	case len(p.Trials) == 0:
		return p.Advice.Ladder, ""
	case p.Verdict == nil:
		return "", fmt.Sprintf("panel %s was tried, and no verdict that still holds is on record; ask for advice, or name its ladder", p.ID)
	case p.Verdict.Proven || p.Verdict.Verdict == advisor.StopWork:
		return p.Verdict.Ladder, ""
	}
	return "", fmt.Sprintf("the trials on panel %s have proven no ladder yet; go on trying, or name its ladder", p.ID)
}

// RecordProgress records work on panels.
func (s *JobServer) RecordProgress(ctx context.Context, req *glossladderv1.RecordProgressRequest) (*glossladderv1.RecordResponse, error) {
	return s.write(ctx, req, func(*jobCall, *history.Job) ([]draft, error) {
		var out []draft
		for i, m := range req.GetProgress() {
			d, err := draftOf(progressIn(m), m, listed("progress", i))
			if err != nil {
				return nil, err
			}
			out = append(out, d)
		}
		return out, nil
	})
}

// FinishJob says that the work is done.
func (s *JobServer) FinishJob(ctx context.Context, req *glossladderv1.FinishJobRequest) (*glossladderv1.RecordResponse, error) {
	return s.end(ctx, req, &history.Finished{Closing: closingIn(req.GetClosing())})
}

// HandOverJob says that the owner has the vehicle.
func (s *JobServer) HandOverJob(ctx context.Context, req *glossladderv1.HandOverJobRequest) (*glossladderv1.RecordResponse, error) {
	return s.end(ctx, req, &history.HandedOver{Closing: closingIn(req.GetClosing())})
}

// CancelJob ends a job early.
func (s *JobServer) CancelJob(ctx context.Context, req *glossladderv1.CancelJobRequest) (*glossladderv1.RecordResponse, error) {
	return s.end(ctx, req, &history.Cancelled{Closing: closingIn(req.GetClosing())})
}

func (s *JobServer) end(ctx context.Context, req recording, body history.Body) (*glossladderv1.RecordResponse, error) {
	return s.write(ctx, req, func(*jobCall, *history.Job) ([]draft, error) {
		return []draft{{Draft: history.Draft{Body: body}, place: asItIs}}, nil
	})
}

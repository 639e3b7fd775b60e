package rpc

import (
	"context"
	"fmt"
	"strings"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/history"
)

// notBrought is for requests that bring nothing that the adviser could complain of.
func notBrought(string, string) string { return "" }

// RecordInspection records what was found, with the advice on it.
func (s *JobServer) RecordInspection(ctx context.Context, req *glossladderv1.RecordInspectionRequest) (*glossladderv1.RecordResponse, error) {
	return s.write(ctx, req, func(j *jobCall, now *history.Job) ([]draft, error) {
		m := req.GetInspection()
		a, err := s.ask(ctx, j, inspectionField(m, "inspection"))
		if err != nil {
			return nil, err
		}
		if err := a.checkOwn(m, "inspection"); err != nil {
			return nil, err
		}
		first, err := draftOf(foundIn(m, a.rules.Instruments, &a.vehicle), m, func(field string) string { return "inspection." + field })
		if err != nil {
			return nil, err
		}
		if err := allowed(now, first); err != nil {
			return nil, err
		}
		advice, err := a.recommend(now.With(first.Draft), stillToWork)
		return append([]draft{first}, advice...), err
	})
}

// inspectionField leads from a panel of an inspection to its field in the request.
func inspectionField(m *glossladderv1.Inspection, at string) func(panel, rest string) string {
	return func(panel, rest string) string {
		for i, p := range m.GetPanels() {
			if p.GetId() == panel {
				return fmt.Sprintf("%s.panels[%d]%s", at, i, rest)
			}
		}
		return ""
	}
}

// allowed asks the job before the rules are asked: what may not come needs no advice.
func allowed(now *history.Job, d draft) error {
	if err := history.Check(d.Body); err != nil {
		return under(err, d.place)
	}
	return now.Allows(d.Body)
}

// RecordReadings records readings outside inspection and trial.
func (s *JobServer) RecordReadings(ctx context.Context, req *glossladderv1.RecordReadingsRequest) (*glossladderv1.RecordResponse, error) {
	return s.write(ctx, req, func(j *jobCall, now *history.Job) ([]draft, error) {
		var out []draft
		after := now
		before := map[string]bool{}
		for i, m := range req.GetReadings() {
			d, err := draftOf(readingsIn(m, s.rules.InForce().Instruments), m, listed("readings", i))
			if err != nil {
				return nil, err
			}
			out, after = append(out, d), after.With(d.Draft)
			if m.GetTime() == glossladderv1.ReadingsTime_READINGS_TIME_BEFORE {
				before[m.GetPanelId()] = true
			}
		}
		if _, err := checked(out); err != nil || len(before) == 0 {
			return out, err
		}
		// What was read before the work is what later advice rests on, so the adviser has to be able to reckon with it.
		a, err := s.ask(ctx, j, readingsField(req.GetReadings()))
		if err != nil {
			return nil, err
		}
		_, err = a.recommend(after, func(p *history.Panel) bool { return before[p.ID] })
		return out, err
	})
}

// listed leads from a field of a body to the n-th of a list.
func listed(list string, n int) func(string) string {
	return func(field string) string {
		_, rest, more := strings.Cut(field, ".")
		at := fmt.Sprintf("%s[%d]", list, n)
		if more {
			at += "." + rest
		}
		return at
	}
}

// readingsField leads from a panel to its last readings from before the work. Spots are named by their place in what all
// readings together say, so only the kind of reading is told.
func readingsField(all []*glossladderv1.Readings) func(panel, rest string) string {
	return func(panel, rest string) string {
		for i := len(all) - 1; i >= 0; i-- {
			if all[i].GetPanelId() == panel && all[i].GetTime() == glossladderv1.ReadingsTime_READINGS_TIME_BEFORE {
				kind, _, _ := strings.Cut(strings.TrimPrefix(rest, "."), "[")
				return fmt.Sprintf("readings[%d].%s", i, kind)
			}
		}
		return ""
	}
}

// RecordTrial records a test spot with the verdict on it.
func (s *JobServer) RecordTrial(ctx context.Context, req *glossladderv1.RecordTrialRequest) (*glossladderv1.RecordResponse, error) {
	return s.write(ctx, req, func(j *jobCall, now *history.Job) ([]draft, error) {
		m := req.GetTrial()
		first, err := draftOf(trialIn(m), m, func(field string) string { return "trial." + field })
		if err != nil {
			return nil, err
		}
		if err := allowed(now, first); err != nil {
			return nil, err
		}
		after := now.With(first.Draft)
		p := after.Panel(m.GetPanelId())
		a, err := s.ask(ctx, j, trialField(len(p.Trials)-1, "trial.trial"))
		if err != nil {
			return nil, err
		}
		verdict, err := a.judge(after, p)
		return []draft{first, verdict}, err
	})
}

// trialField leads from the n-th trial of a panel to the field of the request.
func trialField(n int, at string) func(panel, rest string) string {
	mine := fmt.Sprintf("trials[%d]", n)
	return func(panel, rest string) string {
		if field, ok := strings.CutPrefix(rest, mine); ok && panel == "" {
			return at + field
		}
		return ""
	}
}

// Advise asks the rules now in force about the job's panels again: what to do, and the verdict where a panel was tried.
func (s *JobServer) Advise(ctx context.Context, req *glossladderv1.AdviseRequest) (*glossladderv1.RecordResponse, error) {
	return s.write(ctx, req, func(j *jobCall, now *history.Job) ([]draft, error) {
		a, err := s.ask(ctx, j, notBrought)
		if err != nil {
			return nil, err
		}
		if err := now.Allows(&history.Decision{RuleSet: a.rules.Advisor.RuleSet()}); err != nil {
			return nil, err
		}
		return a.again(now, everyPanel)
	})
}

// again asks for advice on panels, and for the verdict on those of them that were tried.
func (a *asking) again(job *history.Job, which func(*history.Panel) bool) ([]draft, error) {
	out, err := a.recommend(job, which)
	if err != nil {
		return nil, err
	}
	for _, p := range job.Panels {
		if !which(p) || p.FoundAt == 0 || len(p.Trials) == 0 {
			continue
		}
		verdict, err := a.judge(job, p)
		if err != nil {
			return nil, err
		}
		out = append(out, verdict)
	}
	return out, nil
}

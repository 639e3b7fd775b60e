package rpc

import (
	"context"
	"strings"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/history"
)

// CorrectEvent puts something else in the place of an earlier event, or withdraws it. What the rules said on the strength of
// the event no longer holds, so they are asked again about the panels that it is about.
func (s *JobServer) CorrectEvent(ctx context.Context, req *glossladderv1.CorrectEventRequest) (*glossladderv1.RecordResponse, error) {
	return s.write(ctx, req, func(j *jobCall, now *history.Job) ([]draft, error) {
		a, err := s.ask(ctx, j, notBrought)
		if err != nil {
			return nil, err
		}
		first, err := a.correctionIn(req.GetCorrection())
		if err != nil {
			return nil, err
		}
		if err := allowed(now, first); err != nil {
			return nil, err
		}
		after := now.With(first.Draft)
		a.brought = correctedField(req.GetCorrection(), after)
		about := unsettled(now, after, req.GetCorrection().GetSequence())
		again, err := a.again(after, func(p *history.Panel) bool { return about[p.ID] })
		if err != nil {
			return nil, err
		}
		out := []draft{first}
		for _, d := range again {
			if after.Allows(d.Body) == nil { // a job that is done takes no more advice
				out = append(out, d)
			}
		}
		return out, nil
	})
}

// correctionIn turns a correction into a draft.
func (a *asking) correctionIn(m *glossladderv1.Correction) (draft, error) {
	c := &history.Correction{Sequence: m.GetSequence(), Why: m.GetWhy()}
	switch instead := m.GetInstead().(type) {
	case *glossladderv1.Correction_Inspection:
		if err := a.checkOwn(instead.Inspection, "correction.inspection"); err != nil {
			return draft{}, err
		}
		c.Instead = foundIn(instead.Inspection, a.rules.Instruments, &a.vehicle)
		return draftOf(c, instead.Inspection, correctionField("correction.inspection."))
	case *glossladderv1.Correction_Readings:
		c.Instead = readingsIn(instead.Readings, a.rules.Instruments)
		return draftOf(c, instead.Readings, correctionField("correction."))
	case *glossladderv1.Correction_Trial:
		c.Instead = trialIn(instead.Trial)
		return draftOf(c, instead.Trial, correctionField("correction.trial."))
	case *glossladderv1.Correction_Progress:
		c.Instead = progressIn(instead.Progress)
		return draftOf(c, instead.Progress, correctionField("correction."))
	}
	return draft{Draft: history.Draft{Body: c}, place: asItIs}, nil
}

// correctionField leads from a field of a correction to the request: its own are named whole, those of what holds instead are not.
func correctionField(instead string) func(string) string {
	return func(field string) string {
		if strings.HasPrefix(field, "correction.") {
			return field
		}
		return instead + field
	}
}

// correctedField leads from what the adviser complains of to what the correction brings.
func correctedField(m *glossladderv1.Correction, after *history.Job) func(panel, rest string) string {
	switch instead := m.GetInstead().(type) {
	case *glossladderv1.Correction_Inspection:
		return inspectionField(instead.Inspection, "correction.inspection")
	case *glossladderv1.Correction_Trial:
		p := after.Panel(instead.Trial.GetPanelId())
		for n, made := range p.Trials {
			if made.Sequence == m.GetSequence() {
				return trialField(n, "correction.trial.trial")
			}
		}
	case *glossladderv1.Correction_Readings:
		at := readingsField([]*glossladderv1.Readings{instead.Readings})
		return func(panel, rest string) string {
			return strings.Replace(at(panel, rest), "readings[0]", "correction.readings", 1)
		}
	}
	return notBrought
}

// unsettled are the panels whose advice or verdict no longer holds after a correction. One of the work itself unsettles none.
func unsettled(now, after *history.Job, corrected int64) map[string]bool {
	out := map[string]bool{}
	for _, e := range now.Events() {
		if e.Sequence != corrected {
			continue
		}
		switch e.Body.Kind() {
		case history.KindInspection, history.KindReadings, history.KindTrial:
			for _, p := range after.Panels {
				out[p.ID] = p.FoundAt > 0 && (p.Advice == nil || len(p.Trials) > 0 && p.Verdict == nil)
			}
		default:
		}
	}
	return out
}

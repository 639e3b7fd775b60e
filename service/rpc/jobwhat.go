package rpc

import (
	"encoding/json"
	"fmt"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/history"
)

// whatOut says what happened: by the document where there is one, by the body otherwise.
func whatOut(out *glossladderv1.JobEvent, e *history.Event) (err error) {
	switch body := e.Body.(type) {
	case *history.Booked:
		booked := detailsOut(&body.Details)
		booked.Vehicle = vehicles + "/" + body.Vehicle
		out.What = &glossladderv1.JobEvent_Booked{Booked: booked}
	case *history.Details:
		out.What = &glossladderv1.JobEvent_Details{Details: detailsOut(body)}
	case *history.Inspection:
		what := &glossladderv1.JobEvent_Inspection{}
		what.Inspection, err = documentInto(e.Document, &glossladderv1.Inspection{})
		out.What = what
	case *history.Readings:
		what := &glossladderv1.JobEvent_Readings{}
		what.Readings, err = documentInto(e.Document, &glossladderv1.Readings{})
		out.What = what
	case *history.Trial:
		what := &glossladderv1.JobEvent_Trial{}
		what.Trial, err = documentInto(e.Document, &glossladderv1.TrialRecord{})
		out.What = what
	case *history.Decision:
		what := &glossladderv1.JobEvent_Decision{}
		what.Decision, err = decisionKept(body, e.Document)
		out.What = what
	case *history.Progress:
		what := &glossladderv1.JobEvent_Progress{}
		what.Progress, err = documentInto(e.Document, &glossladderv1.Progress{})
		out.What = what
	case *history.Correction:
		what := &glossladderv1.JobEvent_Correction{}
		what.Correction, err = correctionOut(body, e.Document)
		out.What = what
	default:
		err = settledOut(out, e.Body)
	}
	return err
}

// settledOut is for bodies that hold everything.
func settledOut(out *glossladderv1.JobEvent, body history.Body) error {
	switch body := body.(type) {
	case *history.Plan:
		out.What = &glossladderv1.JobEvent_Plan{Plan: planOut(body)}
	case *history.Finished:
		out.What = &glossladderv1.JobEvent_Finished{Finished: &glossladderv1.Closing{Note: body.Note}}
	case *history.HandedOver:
		out.What = &glossladderv1.JobEvent_HandedOver{HandedOver: &glossladderv1.Closing{Note: body.Note}}
	case *history.Cancelled:
		out.What = &glossladderv1.JobEvent_Cancelled{Cancelled: &glossladderv1.Closing{Note: body.Note}}
	default:
		return fmt.Errorf("%s is no kind of event that the contract has", body.Kind())
	}
	return nil
}

func detailsOut(d *history.Details) *glossladderv1.JobDetails {
	return &glossladderv1.JobDetails{Label: d.Label, Notes: d.Notes, BookTime: timeOut(d.BookedFor), Bay: bayBookedOut(d.Bay)}
}

func planOut(p *history.Plan) *glossladderv1.Plan {
	out := &glossladderv1.Plan{Note: p.Note, Crew: crewOut(p.Crew)}
	if p.Measured != nil {
		out.Measured = &glossladderv1.MeasuredAreas{}
		for _, area := range p.Measured.Areas {
			out.Measured.Areas = append(out.Measured.Areas, &glossladderv1.PanelArea{PanelId: area.Panel, AreaM2: area.M2})
		}
	}
	for _, panel := range p.Panels {
		out.Panels = append(out.Panels, &glossladderv1.PlannedPanel{PanelId: panel.Panel, Ladder: word[glossladderv1.Ladder](panel.Ladder)})
	}
	return out
}

func correctionOut(c *history.Correction, instead json.RawMessage) (*glossladderv1.Correction, error) {
	out := &glossladderv1.Correction{Sequence: c.Sequence, Why: c.Why}
	var err error
	switch c.Instead.(type) {
	case *history.Inspection:
		what := &glossladderv1.Correction_Inspection{}
		what.Inspection, err = documentInto(instead, &glossladderv1.Inspection{})
		out.Instead = what
	case *history.Readings:
		what := &glossladderv1.Correction_Readings{}
		what.Readings, err = documentInto(instead, &glossladderv1.Readings{})
		out.Instead = what
	case *history.Trial:
		what := &glossladderv1.Correction_Trial{}
		what.Trial, err = documentInto(instead, &glossladderv1.TrialRecord{})
		out.Instead = what
	case *history.Progress:
		what := &glossladderv1.Correction_Progress{}
		what.Progress, err = documentInto(instead, &glossladderv1.Progress{})
		out.Instead = what
	}
	return out, err
}

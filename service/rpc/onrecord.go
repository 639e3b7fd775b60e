package rpc

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/proto"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/history"
)

// onRecord is a job as PlanService would be asked to plan it.
type onRecord struct {
	job        *history.Job
	vehicle    *glossladderv1.Vehicle
	inspection *glossladderv1.Inspection
	// ladders are those of the request, if any, and then those on record.
	ladders []*glossladderv1.ChosenLadder
	said    int // how many of the ladders are the request's
	areas   []*glossladderv1.PanelArea
	crew    *glossladderv1.Crew
	// begun are the panels on which work has begun, and settled says that the job has a plan.
	begun   map[string]bool
	settled bool
}

func (o *onRecord) GetInspection() *glossladderv1.Inspection  { return o.inspection }
func (o *onRecord) GetLadders() []*glossladderv1.ChosenLadder { return o.ladders }
func (o *onRecord) GetAreas() []*glossladderv1.PanelArea      { return o.areas }
func (o *onRecord) GetCrew() *glossladderv1.Crew              { return o.crew }

// onRecord gathers what is on record of a job: the panels of its plan or, before there is one, all that were inspected, and their
// ladders. What the request says beside goes before it.
func (s *JobServer) onRecord(ctx context.Context, store history.Store, book *history.Book, job *history.Job, said ...*glossladderv1.ChosenLadder) (*onRecord, error) {
	visit, err := s.visitOf(ctx, store, book, job.ID)
	if err != nil {
		return nil, err
	}
	out := &onRecord{job: job, vehicle: visit.known(), ladders: slices.Clone(said), said: len(said), begun: map[string]bool{}}
	out.settled = slices.ContainsFunc(job.Panels, func(p *history.Panel) bool { return p.Ladder != "" })
	seen, err := visit.seen(job, func(p *history.Panel) bool { return !out.settled || p.Ladder != "" })
	if err != nil || len(seen) == 0 {
		return out, err
	}
	out.inspection = seen[0]
	for _, more := range seen[1:] { // read with other instruments, which is nothing to the hours
		out.inspection.Panels = append(out.inspection.Panels, more.GetPanels()...)
	}
	out.fill()
	for _, p := range job.Panels {
		ladder, proven := ladderOnRecord(p)
		if ladder != "" && panelOf(out.inspection, p.ID) != nil && !out.says(p.ID) {
			out.ladders = append(out.ladders, &glossladderv1.ChosenLadder{PanelId: p.ID, Ladder: word[glossladderv1.Ladder](ladder), Proven: proven})
		}
		out.begun[p.ID] = p.Begun()
	}
	return out, nil
}

// known is what is on record of the vehicle, as an inspection would say it.
func (v *visit) known() *glossladderv1.Vehicle {
	return &glossladderv1.Vehicle{Label: v.vehicle.Label, Size: word[glossladderv1.VehicleSize](v.vehicle.Size), Paint: v.paint(nil, nil)}
}

// fill adds what the vehicle's record knows and the inspection leaves open. Panels have their paint from it already.
func (o *onRecord) fill() {
	if o.inspection.GetVehicle() == nil {
		o.inspection.Vehicle = &glossladderv1.Vehicle{}
	}
	into := o.inspection.GetVehicle()
	if into.GetSize() == glossladderv1.VehicleSize_VEHICLE_SIZE_UNSPECIFIED {
		into.Size = o.vehicle.GetSize()
	}
	if into.GetLabel() == "" {
		into.Label = o.vehicle.GetLabel()
	}
}

// measured are the areas on record of the panels to plan, but for those of which the request says one.
func (o *onRecord) measured(said []*glossladderv1.PanelArea) (out []*glossladderv1.PanelArea) {
	for _, p := range o.job.Panels {
		unsaid := !slices.ContainsFunc(said, func(a *glossladderv1.PanelArea) bool { return a.GetPanelId() == p.ID })
		if p.AreaM2 != nil && unsaid && panelOf(o.inspection, p.ID) != nil {
			out = append(out, &glossladderv1.PanelArea{PanelId: p.ID, AreaM2: *p.AreaM2})
		}
	}
	return out
}

// staffed is worked by the crew of a request and, in what that leaves open, by the one on record.
func (o *onRecord) staffed(said *glossladderv1.Crew) {
	o.crew = &glossladderv1.Crew{}
	for _, crew := range []*glossladderv1.Crew{crewOut(o.job.Crew), said} {
		if crew != nil {
			proto.Merge(o.crew, crew)
		}
	}
}

// says reports whether the request settled the ladder of a panel.
func (o *onRecord) says(panel string) bool {
	return slices.ContainsFunc(o.ladders[:o.said], func(l *glossladderv1.ChosenLadder) bool { return l.GetPanelId() == panel })
}

// ladderOnRecord is the ladder of the plan or the one that trials have proven; "" where the rules are to say.
func ladderOnRecord(p *history.Panel) (ladder string, proven bool) {
	said := p.Verdict != nil && p.Verdict.Proven
	if p.Ladder != "" {
		return p.Ladder, said && p.Verdict.Ladder == p.Ladder
	}
	if said {
		return p.Verdict.Ladder, true
	}
	return "", false
}

func (o *onRecord) refuse(kind history.Kind, says string) error {
	return &history.StageError{Job: o.job.ID, Stage: o.job.Stage, Kind: kind, Says: says}
}

// told turns complaints about what is on record, which are no fault of the request, into one about the job. Complaints about the
// request itself go before them, and stay.
func (o *onRecord) told(err error, kind history.Kind) error {
	st, ok := status.FromError(err)
	if o == nil || !ok || st.Code() != codes.InvalidArgument {
		return err
	}
	own := &violationList{}
	var kept []string
	for _, detail := range st.Details() {
		bad, _ := detail.(*errdetails.BadRequest)
		for _, v := range bad.GetFieldViolations() {
			if says, on := o.onRecord(v); on {
				kept = append(kept, says)
			} else {
				own.found = append(own.found, v)
			}
		}
	}
	if len(own.found) > 0 {
		return own.asError()
	}
	return o.refuse(kind, "what is on record of it cannot be planned: "+strings.Join(kept, "; "))
}

// onRecord tells a complaint about what is on record by the panel; false for one about the request.
func (o *onRecord) onRecord(v *errdetails.BadRequest_FieldViolation) (says string, on bool) {
	if at, _, ok := indexIn(v.GetField(), "ladders["); ok {
		return v.GetDescription(), at >= o.said
	}
	if at, rest, ok := indexIn(v.GetField(), "inspection.panels["); ok && at < len(o.inspection.GetPanels()) {
		return fmt.Sprintf("panel %s, %s: %s", o.inspection.GetPanels()[at].GetId(), strings.TrimPrefix(rest, "."), v.GetDescription()), true
	}
	return v.GetField() + ": " + v.GetDescription(), strings.HasPrefix(v.GetField(), "inspection")
}

// indexIn reads the index that follows on a prefix, and what comes after it.
func indexIn(field, prefix string) (at int, rest string, ok bool) {
	tail, ok := strings.CutPrefix(field, prefix)
	if !ok {
		return 0, "", false
	}
	digits, rest, _ := strings.Cut(tail, "]")
	at, err := strconv.Atoi(digits)
	return at, rest, err == nil
}

package rpc

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/catalogue"
	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/plan"
	"github.com/glossladder/glossladder/service/workplan"
)

// BookingServer serves BookingService over the jobs of a [JobServer].
type BookingServer struct {
	glossladderv1.UnimplementedBookingServiceServer
	jobs *JobServer
}

// NewBookingServer serves from the same record and rules as the server of jobs.
func NewBookingServer(jobs *JobServer) *BookingServer { return &BookingServer{jobs: jobs} }

// BookBay lays the work of a job into the hours of a bay, or books blocks as they are given.
func (s *BookingServer) BookBay(ctx context.Context, req *glossladderv1.BookBayRequest) (*glossladderv1.RecordResponse, error) {
	return s.jobs.write(ctx, req, func(j *jobCall, now *history.Job) ([]draft, error) {
		if now.Stage.Ended() {
			return nil, &history.StageError{Job: now.ID, Stage: now.Stage, Kind: history.KindDetails, Says: "it needs no bay time any more; book a new job"}
		}
		details := now.Details
		var err error
		if details.Bay, err = s.booked(ctx, j, now, req); err != nil {
			return nil, err
		}
		if details.Same(&now.Details) {
			return nil, nil
		}
		return []draft{{Draft: history.Draft{Body: &details}, place: atBookBay}}, nil
	})
}

// atBookBay leads from a field of the details to that of the request.
func atBookBay(field string) string {
	if rest, ok := strings.CutPrefix(field, "bay.blocks"); ok {
		return "blocks.blocks" + rest
	}
	return strings.TrimPrefix(field, "bay.")
}

func (s *BookingServer) booked(ctx context.Context, j *jobCall, now *history.Job, req *glossladderv1.BookBayRequest) (*history.Bay, error) {
	out := &history.Bay{ID: req.GetBay()}
	if req.GetWork() == nil {
		var wrong faults
		out.Blocks = blocksIn(req.GetBlocks().GetBlocks(), "blocks.blocks", &wrong)
		return out, wrong.asError()
	}
	rules := s.jobs.rules.InForce()
	hours, err := hoursIn(rules.Shop, req.GetWork())
	if err != nil {
		return nil, err
	}
	made, err := s.planOf(ctx, j, now, rules, req.GetWork().GetCrew())
	if err != nil {
		return nil, err
	}
	laid, err := workplan.Bay(made, hours.start, hours.opening)
	if errors.Is(err, plan.ErrClosed) {
		return nil, &history.InputError{Field: "work.opening", Says: "leaves the bay closed for a year"}
	}
	if err != nil {
		return nil, err
	}
	for _, block := range laid.Blocks {
		out.Blocks = append(out.Blocks, history.BayBlock{Piece: block.Piece, Start: history.Moment(block.Start), End: history.Moment(block.End)})
	}
	return out, nil
}

// hoursIn is when the work may start and when the bay is open: as the request says or, where it does not, the shop's catalogue.
func hoursIn(shop *catalogue.Catalogue, m *glossladderv1.BayWork) (*bay, error) {
	wrong := &violationList{}
	asked := m.GetOpening()
	opening, known := shop.Opening()
	if asked == nil && !known {
		return nil, &history.InputError{Field: "work.opening", Says: "is missing, and the shop's catalogue has no opening hours; send them, or add the section opening to catalogue.yaml"}
	}
	if asked == nil {
		asked = &glossladderv1.OpeningHours{Zone: "UTC"} // only the start is read
	}
	out := bayIn(&glossladderv1.BayRequest{StartTime: m.GetStartTime(), Opening: asked}, wrong)
	for _, v := range wrong.found {
		v.Field = strings.Replace(v.GetField(), "bay.", "work.", 1)
	}
	if m.GetOpening() == nil {
		var err error
		if out.opening, err = openingOf(opening); err != nil {
			return nil, err
		}
	}
	return out, wrong.asError()
}

// openingOf is the catalogue's opening hours as plans take them. Its zone was looked up when the rules were loaded.
func openingOf(o catalogue.Opening) (plan.Opening, error) {
	zone, err := time.LoadLocation(o.Zone)
	if err != nil {
		return plan.Opening{}, fmt.Errorf("opening hours of the catalogue: %w", err)
	}
	out := plan.Opening{Zone: zone, Closed: slices.Clone(o.Closed)}
	for day, hours := range o.Week {
		for _, h := range hours {
			out.Week[day] = append(out.Week[day], plan.Hours{FromMin: h.FromMin, ToMin: h.ToMin})
		}
	}
	return out, nil
}

// onRecord is a job as PlanService would be asked to plan it.
type onRecord struct {
	inspection *glossladderv1.Inspection
	ladders    []*glossladderv1.ChosenLadder
	crew       *glossladderv1.Crew
}

func (o *onRecord) GetInspection() *glossladderv1.Inspection  { return o.inspection }
func (o *onRecord) GetLadders() []*glossladderv1.ChosenLadder { return o.ladders }
func (o *onRecord) GetAreas() []*glossladderv1.PanelArea      { return nil }
func (o *onRecord) GetCrew() *glossladderv1.Crew              { return o.crew }

// planOf plans what is on record of a job: the panels of its plan or, before there is one, all that were inspected.
func (s *BookingServer) planOf(ctx context.Context, j *jobCall, now *history.Job, rules *Rules, crew *glossladderv1.Crew) (*workplan.Plan, error) {
	refuse := func(says string) error {
		return &history.StageError{Job: now.ID, Stage: now.Stage, Kind: history.KindDetails, Says: says}
	}
	visit, err := s.jobs.visitOf(ctx, j.store, j.book, j.id)
	if err != nil {
		return nil, err
	}
	settled := slices.ContainsFunc(now.Panels, func(p *history.Panel) bool { return p.Ladder != "" })
	seen, err := visit.seen(now, func(p *history.Panel) bool { return !settled || p.Ladder != "" })
	if err != nil {
		return nil, err
	}
	if len(seen) == 0 {
		return nil, refuse("nobody can tell yet how long the work takes; inspect the vehicle first, or give the blocks")
	}
	ask := &onRecord{inspection: seen[0], crew: crew}
	for _, more := range seen[1:] { // read with other instruments, which is nothing to the hours
		ask.inspection.Panels = append(ask.inspection.Panels, more.GetPanels()...)
	}
	for _, p := range now.Panels {
		if ladder, proven := ladderOnRecord(p); ladder != "" && panelOf(ask.inspection, p.ID) != nil {
			ask.ladders = append(ask.ladders, &glossladderv1.ChosenLadder{PanelId: p.ID, Ladder: word[glossladderv1.Ladder](ladder), Proven: proven})
		}
	}
	job, err := jobIn(rules, ask, &violationList{})
	if status.Code(err) == codes.InvalidArgument {
		return nil, refuse("what is on record of it cannot be planned: " + strings.TrimPrefix(status.Convert(err).Message(), "request is not valid: "))
	}
	if err != nil {
		return nil, err
	}
	made, err := workplan.Make(job)
	if err != nil {
		return nil, err
	}
	if made.WorkMin.Likely <= 0 {
		return nil, refuse("its plan leaves nothing to work")
	}
	return &made, nil
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

// keepPast is how long what is over stays in the calendar of a bay.
const keepPast = 92 * 24 * time.Hour

// GetJobCalendar gives the bay time of a job as an iCalendar file.
func (s *BookingServer) GetJobCalendar(ctx context.Context, req *glossladderv1.GetJobCalendarRequest) (*glossladderv1.Calendar, error) {
	id, _, book, err := s.jobs.open(ctx, req.GetName())
	if err != nil {
		return nil, statusOf(err, "")
	}
	job, err := book.Job(ctx, id)
	if err != nil {
		return nil, statusOf(err, "")
	}
	name := job.Label
	if name == "" {
		name = fmt.Sprintf("job %s", id)
	}
	return calendarOf(name, ofJob(job))
}

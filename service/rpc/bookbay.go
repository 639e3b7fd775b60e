package rpc

import (
	"context"
	"errors"
	"strings"
	"time"

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
		var diary *history.Diary
		if details.Bay, diary, err = s.booked(ctx, j, now, req); err != nil {
			return nil, err
		}
		if details.Same(&now.Details) {
			return nil, nil
		}
		return []draft{{Draft: history.Draft{Body: &details, Diary: diary}, place: atBookBay}}, nil
	})
}

// atBookBay leads from a field of the details to that of the request.
func atBookBay(field string) string {
	if rest, ok := strings.CutPrefix(field, "bay.blocks"); ok {
		return "blocks.blocks" + rest
	}
	return strings.TrimPrefix(field, "bay.")
}

// booked is the bay time that a request asks for, with the diary that it was laid by.
func (s *BookingServer) booked(ctx context.Context, j *jobCall, now *history.Job, req *glossladderv1.BookBayRequest) (*history.Bay, *history.Diary, error) {
	out := &history.Bay{ID: req.GetBay()}
	if req.GetWork() == nil {
		var wrong faults
		out.Blocks = blocksIn(req.GetBlocks().GetBlocks(), "blocks.blocks", &wrong)
		return out, nil, wrong.asError()
	}
	rules := s.jobs.rules.InForce()
	hours, err := hoursIn(rules.Shop, req.GetWork())
	if err != nil {
		return nil, nil, err
	}
	made, err := s.planOf(ctx, j, now, rules, req.GetWork().GetCrew())
	if err != nil {
		return nil, nil, err
	}
	diary := &history.Diary{}
	if !req.GetAllowOverlap() {
		if diary, err = j.store.Diary(ctx, out.ID, hours.start); err != nil {
			return nil, nil, err
		}
	}
	laid, err := workplan.Bay(made, hours.start, hours.opening, taken(diary, now.ID, rules.Shop, req.GetWork()))
	if errors.Is(err, plan.ErrClosed) {
		return nil, nil, &history.InputError{Field: "work.opening", Says: "leaves the bay closed for a year"}
	}
	if err != nil {
		return nil, nil, err
	}
	for _, block := range laid.Blocks {
		out.Blocks = append(out.Blocks, history.BayBlock{Piece: block.Piece, Start: history.Moment(block.Start), End: history.Moment(block.End)})
	}
	return out, diary, nil
}

// planOf plans what is on record of a job, which has to leave something to work.
func (s *BookingServer) planOf(ctx context.Context, j *jobCall, now *history.Job, rules *Rules, crew *glossladderv1.Crew) (*workplan.Plan, error) {
	on, err := s.jobs.onRecord(ctx, j.store, j.book, now)
	if err != nil {
		return nil, err
	}
	on.areas = on.measured(nil)
	on.staffed(crew)
	if len(on.inspection.GetPanels()) == 0 {
		return nil, on.refuse(history.KindDetails, "nobody can tell yet how long the work takes; inspect the vehicle first, or give the blocks")
	}
	job, err := jobIn(rules, on, &violationList{})
	if err != nil {
		return nil, on.told(err, history.KindDetails)
	}
	made, err := workplan.Make(job)
	if err != nil {
		return nil, err
	}
	if made.WorkMin.Likely <= 0 {
		return nil, on.refuse(history.KindDetails, "its plan leaves nothing to work")
	}
	on.begin(&made)
	return &made, nil
}

// hoursIn is when the work may start and when the bay is open.
func hoursIn(shop *catalogue.Catalogue, m *glossladderv1.BayWork) (*bay, error) {
	wrong := &violationList{}
	out := bayIn(shop, &glossladderv1.BayRequest{StartTime: m.GetStartTime(), Opening: m.GetOpening()}, wrong)
	for _, v := range wrong.found {
		v.Field = strings.Replace(v.GetField(), "bay.", "work.", 1)
	}
	return out, wrong.asError()
}

// taken is what others hold of a bay from the start on, as work is laid around it.
func taken(diary *history.Diary, job string, shop *catalogue.Catalogue, m *glossladderv1.BayWork) plan.Taken {
	out := plan.Taken{Shortest: shortestStay(shop)}
	if m.ShortestMin != nil {
		out.Shortest = time.Duration(m.GetShortestMin()) * time.Minute
	}
	for _, h := range diary.Others(job) {
		out.Stretches = append(out.Stretches, plan.Stretch{Start: h.Start, End: h.End})
	}
	return out
}

// shortestStay is how long a bay has to be free for a vehicle to be brought in, as the shop says.
func shortestStay(shop *catalogue.Catalogue) time.Duration {
	if shop == nil {
		return 0
	}
	opening, _ := shop.Opening()
	return time.Duration(opening.ShortestMin * float64(time.Minute))
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
	return calendarOf(calledJob(job), ofJob(job))
}

package rpc

import (
	"crypto/sha256"
	"fmt"
	"slices"
	"strings"
	"time"

	"google.golang.org/protobuf/types/known/timestamppb"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/calendar"
	"github.com/glossladder/glossladder/service/catalogue"
	"github.com/glossladder/glossladder/service/plan"
	"github.com/glossladder/glossladder/service/workplan"
)

// bay is when the work may start and when the bay is open.
type bay struct {
	start   time.Time
	opening plan.Opening
}

// bayIn reads a request for bay time; nil when there is none. Where it does not say when the bay is open, the shop's catalogue does.
func bayIn(shop *catalogue.Catalogue, m *glossladderv1.BayRequest, wrong *violationList) *bay {
	if m == nil {
		return nil
	}
	out := &bay{}
	if err := m.GetStartTime().CheckValid(); err != nil {
		wrong.add("bay.start_time", "this is no time")
	}
	out.start = m.GetStartTime().AsTime()
	beforeIn(m, wrong)
	if m.GetOpening() == nil {
		out.usual(shop, wrong)
		return out
	}
	zone, err := time.LoadLocation(m.GetOpening().GetZone())
	if err != nil {
		wrong.add("bay.opening.zone", fmt.Sprintf("%q is not a time zone of the IANA database, such as Europe/Berlin", m.GetOpening().GetZone()))
		zone = time.UTC
	}
	out.opening.Zone = zone
	out.week(m.GetOpening().GetWeek(), wrong)
	for i, text := range m.GetOpening().GetClosed() {
		day, err := time.ParseInLocation(time.DateOnly, text, zone)
		if err != nil {
			wrong.add(fmt.Sprintf("bay.opening.closed[%d]", i), fmt.Sprintf("%q is not a day of the calendar; write it as 2026-12-24", text))
			continue
		}
		out.opening.Closed = append(out.opening.Closed, day)
	}
	return out
}

// usual takes the opening hours of the shop's catalogue. Their zone was looked up when the rules were loaded.
func (b *bay) usual(shop *catalogue.Catalogue, wrong *violationList) {
	hours, known := shop.Opening()
	zone, err := time.LoadLocation(hours.Zone)
	if !known || err != nil {
		wrong.add("bay.opening", "is missing, and the shop's catalogue has no opening hours; send them, or add the section opening to catalogue.yaml")
		return
	}
	b.opening = plan.Opening{Zone: zone, Closed: slices.Clone(hours.Closed)}
	for day, stretches := range hours.Week {
		for _, h := range stretches {
			b.opening.Week[day] = append(b.opening.Week[day], plan.Hours{FromMin: h.FromMin, ToMin: h.ToMin})
		}
	}
}

// beforeIn checks the blocks of an earlier answer.
func beforeIn(m *glossladderv1.BayRequest, wrong *violationList) {
	if len(m.GetBefore()) == 0 {
		return
	}
	if m.GetUid() == "" {
		wrong.add("bay.uid", "is missing; blocks of before are those of the answers under one uid")
	}
	if m.GetSequence() == 0 {
		wrong.add("bay.sequence", "0 is that of the first answer; with blocks of before, send a higher one than theirs")
	}
	for i, block := range m.GetBefore() {
		start, end := block.GetStartTime(), block.GetEndTime()
		if start.CheckValid() != nil || end.CheckValid() != nil || !end.AsTime().After(start.AsTime()) {
			wrong.add(fmt.Sprintf("bay.before[%d]", i), "has no start_time and a later end_time; send the block as the answer gave it")
		}
	}
}

func (b *bay) week(stretches []*glossladderv1.OpenStretch, wrong *violationList) {
	if len(stretches) == 0 {
		for day := range b.opening.Week {
			b.opening.Week[day] = []plan.Hours{{ToMin: 24 * 60}}
		}
		return
	}
	for i, s := range stretches {
		day := int(s.GetDay()) % 7 // Sunday is the seventh day of ISO 8601 and the first of the week of time.Weekday
		hours := plan.Hours{FromMin: int(s.GetFromMin()), ToMin: int(s.GetToMin())}
		if hours.ToMin <= hours.FromMin {
			wrong.add(fmt.Sprintf("bay.opening.week[%d].to_min", i), fmt.Sprintf("%d is not after from_min, which is %d", hours.ToMin, hours.FromMin))
			continue
		}
		if known := b.opening.Week[day]; len(known) > 0 && hours.FromMin < known[len(known)-1].ToMin {
			wrong.add(fmt.Sprintf("bay.opening.week[%d].from_min", i), "stretches of one day stand in order and apart")
			continue
		}
		b.opening.Week[day] = append(b.opening.Week[day], hours)
	}
}

// lay puts a plan into the bay's hours and writes its calendar.
func (b *bay) lay(made *workplan.Plan, called string, req *glossladderv1.PlanJobRequest, now time.Time) (*glossladderv1.BayTime, error) {
	laid, err := workplan.Bay(made, b.start, b.opening, plan.Taken{})
	if err != nil {
		return nil, statusOf(err, "inspection")
	}
	out := &glossladderv1.BayTime{ReadyTime: timestamppb.New(laid.Ready)}
	for _, block := range laid.Blocks {
		out.Blocks = append(out.Blocks, &glossladderv1.BayBlock{
			What: block.Piece, StartTime: timestamppb.New(block.Start), EndTime: timestamppb.New(block.End),
		})
	}
	ics, err := calendar.Encode(oneLine(called), entriesOf(laid.Blocks, called, req, now))
	if err != nil {
		return nil, statusOf(err, "inspection")
	}
	out.Calendar = string(ics)
	return out, nil
}

// entriesOf are the stretches as entries, named by their place among them. Those of before that are no more are cancelled.
func entriesOf(blocks []plan.Block, called string, req *glossladderv1.PlanJobRequest, now time.Time) []calendar.Entry {
	uid := req.GetBay().GetUid()
	if uid == "" {
		sum := sha256.Sum256([]byte(req.GetJob() + req.GetInspection().GetVehicle().GetLabel() + req.GetBay().GetStartTime().String()))
		uid = fmt.Sprintf("plan-%x", sum[:8])
	}
	name, domain, _ := strings.Cut(uid, "@")
	if domain == "" {
		domain = "glossladder"
	}
	var out []calendar.Entry
	add := func(piece string, start, end time.Time, cancelled bool) {
		out = append(out, calendar.Entry{
			UID: fmt.Sprintf("%s-%d@%s", name, len(out)+1, domain), Sequence: int(req.GetBay().GetSequence()), Changed: now.UTC().Truncate(time.Second),
			Start: start, End: end, Summary: oneLine(called) + ": " + piece, Location: req.GetBay().GetLocation(), Cancelled: cancelled,
		})
	}
	for _, block := range blocks {
		add(block.Piece, block.Start, block.End, false)
	}
	for _, gone := range req.GetBay().GetBefore()[min(len(blocks), len(req.GetBay().GetBefore())):] {
		add(oneLine(gone.GetWhat()), gone.GetStartTime().AsTime(), gone.GetEndTime().AsTime(), true)
	}
	return out
}

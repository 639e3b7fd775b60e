package rpc

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"google.golang.org/genproto/googleapis/rpc/errdetails"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/catalogue"
	"github.com/glossladder/glossladder/service/plan"
	"github.com/glossladder/glossladder/service/vocabulary"
	"github.com/glossladder/glossladder/service/workplan"
)

// violationList gathers what is wrong with a request beyond the bounds of its fields.
type violationList struct {
	found []*errdetails.BadRequest_FieldViolation
}

func (l *violationList) add(field, says string) {
	l.found = append(l.found, &errdetails.BadRequest_FieldViolation{Field: field, Description: says, Reason: "DOES_NOT_FIT"})
}

func (l *violationList) asError() error {
	if len(l.found) == 0 {
		return nil
	}
	return invalid(&errdetails.BadRequest{FieldViolations: l.found})
}

// planned is a request that says which panels are worked how.
type planned interface {
	GetInspection() *glossladderv1.Inspection
	GetLadders() []*glossladderv1.ChosenLadder
	GetAreas() []*glossladderv1.PanelArea
}

// crewed is one that also says who works.
type crewed interface{ GetCrew() *glossladderv1.Crew }

// jobIn asks the tables about an inspected vehicle. Everything that is wrong with the request comes back at once, with what was
// found wrong before.
func jobIn(rules *Rules, req planned, wrong *violationList) (*workplan.Job, error) {
	job := &workplan.Job{
		Shop: rules.Shop, Crew: plan.Crew{People: 1, DayHours: 8},
		AreasM2: map[string]float64{}, Settled: map[string]string{}, Proven: map[string]bool{},
	}
	if req, ok := req.(crewed); ok {
		job.Crew = crewIn(req.GetCrew())
	}
	panels := req.GetInspection().GetPanels()
	known := func(id string) bool {
		return slices.ContainsFunc(panels, func(p *glossladderv1.Panel) bool { return p.GetId() == id })
	}
	for i, l := range req.GetLadders() {
		if !known(l.GetPanelId()) {
			wrong.add(fmt.Sprintf("ladders[%d].panel_id", i), notAPanel(l.GetPanelId()))
			continue
		}
		job.Settled[l.GetPanelId()] = vocabulary.WordOf(l.GetLadder())
		if l.GetProven() {
			job.Proven[l.GetPanelId()] = true
		}
	}
	for i, a := range req.GetAreas() {
		if !known(a.GetPanelId()) {
			wrong.add(fmt.Sprintf("areas[%d].panel_id", i), notAPanel(a.GetPanelId()))
			continue
		}
		job.AreasM2[a.GetPanelId()] = a.GetAreaM2()
	}
	if len(panels) == 0 {
		return job, wrong.asError()
	}
	var err error
	job.Work, err = rules.Advisor.Work(rules.Instruments.inspection(req.GetInspection()), job.Settled)
	if input, ok := errors.AsType[*advisor.InputError](err); ok {
		wrong.troubles(input, req.GetLadders())
		err = nil
	}
	if err == nil {
		err = wrong.asError()
	} else {
		err = statusOf(err, "inspection")
	}
	return job, err
}

func notAPanel(id string) string { return fmt.Sprintf("%q is not a panel of the inspection", id) }

// troubles adds what the adviser found, by the field path of the request.
func (l *violationList) troubles(input *advisor.InputError, ladders []*glossladderv1.ChosenLadder) {
	for _, trouble := range input.Troubles {
		field := trouble.Field
		if panel, ok := strings.CutPrefix(field, "ladders."); ok {
			at := slices.IndexFunc(ladders, func(c *glossladderv1.ChosenLadder) bool { return c.GetPanelId() == panel })
			field = fmt.Sprintf("ladders[%d].ladder", at)
		} else if strings.HasPrefix(field, "panels[") || strings.HasPrefix(field, "shop[") {
			field = "inspection." + field
		}
		l.found = append(l.found, &errdetails.BadRequest_FieldViolation{Field: field, Description: trouble.Says, Reason: "CANNOT_RECKON"})
	}
}

func crewIn(m *glossladderv1.Crew) plan.Crew {
	out := plan.Crew{People: 1, DayHours: 8}
	if m != nil && m.People != nil {
		out.People = int(m.GetPeople())
	}
	if m != nil && m.DayHours != nil {
		out.DayHours = m.GetDayHours()
	}
	return out
}

// estimateIn asks the tables about a vehicle, seen or not. The inspection goes before what is said beside it. Everything that is
// wrong with the request comes back at once, with what was found wrong before.
func estimateIn(rules *Rules, req *glossladderv1.EstimateJobRequest, wrong *violationList) (workplan.Question, error) {
	seen := req.GetInspection()
	if req.GetOnlyInspected() && len(seen.GetPanels()) == 0 {
		wrong.add("only_inspected", "there is no inspection whose panels could be the only ones; leave it out, or send one")
	}
	job, err := jobIn(rules, req, wrong)
	if err != nil {
		return workplan.Question{}, err
	}
	said, seenVehicle := wholeVehicleIn(req.GetVehicle()), wholeVehicleIn(seen.GetVehicle())
	vehicle := advisor.Vehicle{
		Size: first(seenVehicle.Size, said.Size), Kept: first(seenVehicle.Kept, said.Kept),
		Paint: paintIn(seen.GetVehicle().GetPaint(), req.GetVehicle().GetPaint()),
	}
	goal := goalIn(req.GetGoal())
	seenGoal := goalIn(seen.GetGoal())
	goal = advisor.Goal{Level: first(seenGoal.Level, goal.Level), Protection: first(seenGoal.Protection, goal.Protection)}
	unseen, err := rules.Advisor.Unseen(vehicle, goal)
	if err != nil {
		return workplan.Question{}, statusOf(err, "inspection")
	}
	return workplan.Question{Job: *job, Unseen: unseen, OnlyInspected: req.GetOnlyInspected(), Vehicle: vehicle, Goal: goal}, nil
}

// moneyIn turns an amount into the smallest unit of the catalogue's currency, exactly.
func moneyIn(currency catalogue.Currency, m *glossladderv1.Money, field string, wrong *violationList) catalogue.Money {
	if m == nil {
		return 0
	}
	if code := m.GetCurrencyCode(); code != "" && code != currency.Code() {
		wrong.add(field+".currency_code", fmt.Sprintf("%q is not the currency of the catalogue, which is %s", code, currency.Code()))
	}
	perUnit, nanos := minorPerUnit(currency), int64(m.GetNanos())
	perMinor := nanosPerUnit / perUnit
	if nanos%perMinor != 0 {
		wrong.add(field+".nanos", fmt.Sprintf("%d is less than the smallest unit of %s, which is %d nanos", nanos%perMinor, currency.Code(), perMinor))
	}
	return catalogue.Money(m.GetUnits()*perUnit + nanos/perMinor)
}

const nanosPerUnit = 1_000_000_000

// minorPerUnit is how many of the smallest unit make one.
func minorPerUnit(currency catalogue.Currency) int64 {
	n := int64(1)
	for range currency.Places() {
		n *= 10
	}
	return n
}

func moneyOut(currency catalogue.Currency, m catalogue.Money) *glossladderv1.Money {
	perUnit := minorPerUnit(currency)
	return &glossladderv1.Money{
		CurrencyCode: currency.Code(), Units: int64(m) / perUnit, Nanos: int32(int64(m) % perUnit * (nanosPerUnit / perUnit)),
	}
}

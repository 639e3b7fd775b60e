package rpc

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/types/known/timestamppb"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/shipped"
	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/catalogue"
	"github.com/glossladder/glossladder/service/film"
	"github.com/glossladder/glossladder/service/history"
	"github.com/glossladder/glossladder/service/plan"
	"github.com/glossladder/glossladder/service/vocabulary"
	"github.com/glossladder/glossladder/service/workplan"
)

// shelf is a rulebook with one set on it.
type shelf struct{ rules *Rules }

func (s shelf) InForce() *Rules { return s.rules }

// noRecord keeps nothing.
type noRecord struct{}

func (noRecord) Open(context.Context) (history.Store, *history.Book, error) {
	return nil, nil, ErrNoRecord
}

func planner(t *testing.T) *PlanServer {
	t.Helper()
	schema, err := vocabulary.Schema()
	require.NoError(t, err)
	set, err := rules.Load(shipped.Files(), schema, rules.Document{Name: "catalogue.yaml", Read: catalogue.Read})
	require.NoError(t, err)
	found, _ := set.Document("catalogue.yaml")
	shop, ok := found.(*catalogue.Catalogue)
	require.True(t, ok)
	adviser, err := advisor.New(set, shop)
	require.NoError(t, err)
	own := Instruments{
		Gloss: advisor.GlossMeter{AccuracyGU: 1, ResolutionGU: 0.1, ResolutionHU: 0.1},
		Film:  film.Gauge{Kind: film.Combined, Accuracy: film.Accuracy{FixedUm: 1, Percent: 1}, StepUm: 0.1},
	}
	book := shelf{&Rules{Advisor: adviser, Instruments: own, Shop: shop}}
	return NewPlanServer(book, NewJobServer(book, noRecord{}), func() time.Time {
		return time.Date(2026, 11, 25, 15, 0, 0, 0, time.UTC)
	})
}

// twoPanels is an invented inspection of a bonnet and a door.
func twoPanels() *glossladderv1.Inspection {
	each := func(id string, part glossladderv1.PanelPart) *glossladderv1.Panel {
		return &glossladderv1.Panel{
			Id: id, Part: part, Substrate: glossladderv1.Substrate_SUBSTRATE_STEEL, Clean: ptr(true),
			Film:    []*glossladderv1.FilmSpot{{Spot: "a", TotalUm: []float64{130, 131, 130}}, {Spot: "b", TotalUm: []float64{128, 129, 128}}},
			Defects: []*glossladderv1.Defect{{Kind: glossladderv1.DefectKind_DEFECT_KIND_WASH_MARKS, Severity: ptr(3.0)}},
		}
	}
	return &glossladderv1.Inspection{
		Vehicle: &glossladderv1.Vehicle{Label: "invented", Size: glossladderv1.VehicleSize_VEHICLE_SIZE_MEDIUM, Paint: &glossladderv1.Paint{
			System: glossladderv1.PaintSystem_PAINT_SYSTEM_CLEAR_COAT, Softness: glossladderv1.Softness_SOFTNESS_MEDIUM,
		}},
		Goal:   &glossladderv1.Goal{Level: glossladderv1.GoalLevel_GOAL_LEVEL_CORRECT},
		Panels: []*glossladderv1.Panel{each("bonnet", glossladderv1.PanelPart_PANEL_PART_BONNET), each("door", glossladderv1.PanelPart_PANEL_PART_DOOR)},
	}
}

// fieldsOf lists the fields that a refused request is told of.
func fieldsOf(t *testing.T, err error) map[string]string {
	t.Helper()
	st := status.Convert(err)
	require.Equal(t, codes.InvalidArgument, st.Code(), "%v", err)
	require.Len(t, st.Details(), 1)
	bad, ok := st.Details()[0].(*errdetails.BadRequest)
	require.True(t, ok)
	out := map[string]string{}
	for _, v := range bad.GetFieldViolations() {
		out[v.GetField()] = v.GetDescription()
	}
	return out
}

func TestAPlanOfThePublishedFigures(t *testing.T) {
	got, err := planner(t).PlanJob(context.Background(), &glossladderv1.PlanJobRequest{
		Inspection: twoPanels(), Areas: []*glossladderv1.PanelArea{{PanelId: "bonnet", AreaM2: 1.62}},
	})
	require.NoError(t, err)
	p := got.GetPlan()
	require.Len(t, p.GetPanels(), 2)
	assert.Equal(t, "bonnet", p.GetPanels()[0].GetPanelId(), "from the top down")
	assert.Equal(t, "measured", p.GetPanels()[0].GetAreaSource())
	assert.InDelta(t, 1.62, p.GetPanels()[0].GetAreaM2().GetHigh(), 0)
	assert.True(t, strings.HasPrefix(p.GetPanels()[1].GetAreaSource(), "rule area/door, area.yaml:"), p.GetPanels()[1].GetAreaSource())
	assert.Equal(t, "EUR", p.GetCost().GetTotal().GetLikely().GetCurrencyCode())
	assert.Nil(t, got.GetBay())
	known := map[string]bool{}
	for _, s := range p.GetSources() {
		known[s.GetText()] = true
	}
	for _, line := range p.GetLines() {
		for _, s := range line.GetSources() {
			assert.True(t, known[s], s)
		}
	}
	total := 0.0
	for _, line := range p.GetLines() {
		total += line.GetMinutes().GetLikely()
	}
	assert.InDelta(t, p.GetWorkMin().GetLikely(), total, 1e-6, "the lines are the whole")
}

func TestEverythingThatIsWrongWithAPlanIsToldAtOnce(t *testing.T) {
	req := &glossladderv1.PlanJobRequest{
		Inspection: twoPanels(),
		Ladders: []*glossladderv1.ChosenLadder{
			{PanelId: "roof", Ladder: glossladderv1.Ladder_LADDER_FINISH},
			{PanelId: "door", Ladder: glossladderv1.Ladder_LADDER_CUT_POLISH_FINISH},
		},
		Areas: []*glossladderv1.PanelArea{{PanelId: "wing", AreaM2: 1}},
		Bay: &glossladderv1.BayRequest{StartTime: timestamppb.New(time.Unix(1e9, 0)), Opening: &glossladderv1.OpeningHours{
			Zone: "Nowhere/Town", Closed: []string{"2026-02-30"},
			Week: []*glossladderv1.OpenStretch{
				{Day: glossladderv1.Weekday_WEEKDAY_MONDAY, FromMin: 600, ToMin: 500},
				{Day: glossladderv1.Weekday_WEEKDAY_SUNDAY, FromMin: 600, ToMin: 700},
				{Day: glossladderv1.Weekday_WEEKDAY_SUNDAY, FromMin: 650, ToMin: 800},
			},
		}},
	}
	for _, p := range req.GetInspection().GetPanels() {
		p.Film = nil // nothing was measured, so nothing stronger than a polish may be settled
	}
	_, err := planner(t).PlanJob(context.Background(), req)
	fields := fieldsOf(t, err)
	assert.Contains(t, fields["ladders[0].panel_id"], `"roof" is not a panel`)
	assert.Contains(t, fields["ladders[1].ladder"], "is stronger than panel door allows, which is at most a polish")
	assert.Contains(t, fields["areas[0].panel_id"], `"wing" is not a panel`)
	assert.Contains(t, fields["bay.opening.zone"], "Europe/Berlin")
	assert.Contains(t, fields["bay.opening.closed[0]"], "2026-02-30")
	assert.Contains(t, fields["bay.opening.week[0].to_min"], "not after")
	assert.Contains(t, fields["bay.opening.week[2].from_min"], "apart")
	assert.Len(t, fields, 7)
}

func TestBayTimeComesWithItsCalendar(t *testing.T) {
	start := time.Date(2026, 12, 5, 9, 0, 0, 0, time.UTC) // a Saturday
	got, err := planner(t).PlanJob(context.Background(), &glossladderv1.PlanJobRequest{
		Inspection: twoPanels(),
		Bay: &glossladderv1.BayRequest{
			StartTime: timestamppb.New(start), Uid: "visit-7@shop.example", Sequence: 3, Location: "bay 2",
			Opening: &glossladderv1.OpeningHours{Zone: "UTC", Week: []*glossladderv1.OpenStretch{{Day: glossladderv1.Weekday_WEEKDAY_MONDAY, FromMin: 480, ToMin: 1020}}},
		},
	})
	require.NoError(t, err)
	blocks := got.GetBay().GetBlocks()
	require.NotEmpty(t, blocks)
	assert.Equal(t, time.Date(2026, 12, 7, 8, 0, 0, 0, time.UTC), blocks[0].GetStartTime().AsTime(), "the bay opens on Monday")
	ics := got.GetBay().GetCalendar()
	assert.Equal(t, len(blocks), strings.Count(ics, "BEGIN:VEVENT\r\n"))
	for i := range blocks {
		assert.Contains(t, ics, fmt.Sprintf("UID:visit-7-%d@shop.example\r\n", i+1))
	}
	assert.Contains(t, ics, "SEQUENCE:3\r\n")
	assert.Contains(t, ics, "LOCATION:bay 2\r\n")
	assert.Contains(t, ics, "DTSTAMP:20261125T150000Z\r\n")
}

func TestHoursThatAreShortAndMarksThatNobodyGraded(t *testing.T) {
	s := planner(t)
	fit := func(in *glossladderv1.Inspection, hours float64) (*glossladderv1.FitHoursResponse, error) {
		return s.FitHours(context.Background(), &glossladderv1.FitHoursRequest{Inspection: in, Fixed: &glossladderv1.FitHoursRequest_Hours{Hours: hours}})
	}
	got, err := fit(twoPanels(), 2.2)
	require.NoError(t, err)
	assert.LessOrEqual(t, got.GetPlan().GetWorkMin().GetLikely(), 2.2*60)
	assert.Less(t, got.GetResultPct(), 100.0)
	assert.Greater(t, got.GetFullWorkMin(), 2.2*60)

	_, err = fit(twoPanels(), 0.2)
	assert.Contains(t, fieldsOf(t, err)["hours"], "0.2 h are too few")

	in := twoPanels()
	in.Panels[1].Defects[0].Severity = nil
	_, err = fit(in, 2)
	assert.Contains(t, fieldsOf(t, err)["inspection.panels[1].defects[0].severity"], "grade them")
}

func TestAPriceIsExactAndInTheCurrencyOfTheCatalogue(t *testing.T) {
	s := planner(t)
	fit := func(m *glossladderv1.Money) error {
		_, err := s.FitHours(context.Background(), &glossladderv1.FitHoursRequest{Inspection: twoPanels(), Fixed: &glossladderv1.FitHoursRequest_Price{Price: m}})
		return err
	}
	require.NoError(t, fit(&glossladderv1.Money{Units: 150, Nanos: 10_000_000}))
	fields := fieldsOf(t, fit(&glossladderv1.Money{CurrencyCode: "JPY", Units: 150, Nanos: 5}))
	assert.Contains(t, fields["price.currency_code"], "which is EUR")
	assert.Contains(t, fields["price.nanos"], "smallest unit")
	assert.Contains(t, fieldsOf(t, fit(&glossladderv1.Money{CurrencyCode: "EUR", Units: 1}))["price"], "1.00 EUR is too little")
}

// ISO 4217: EUR has two minor units, JPY none, BHD three (from memory).
func TestMoneyGoesOverTheWireAndBackExactly(t *testing.T) {
	for code, perUnit := range map[string]int64{"EUR": 100, "JPY": 1, "BHD": 1000} {
		currency, err := catalogue.CurrencyOf(code)
		require.NoError(t, err)
		for _, amount := range []catalogue.Money{0, 1, 99, 6850, 123456789} {
			m := moneyOut(currency, amount)
			assert.Equal(t, int64(amount)/perUnit, m.GetUnits(), code)
			wrong := &violationList{}
			assert.Equal(t, amount, moneyIn(currency, m, "price", wrong), code)
			assert.NoError(t, wrong.asError())
		}
	}
}

func TestAnEstimateOfAVehicleThatNobodySawAndOfOneThatWasInspected(t *testing.T) {
	s := planner(t)
	unseen, err := s.EstimateJob(context.Background(), &glossladderv1.EstimateJobRequest{Vehicle: &glossladderv1.Vehicle{Size: glossladderv1.VehicleSize_VEHICLE_SIZE_MEDIUM}})
	require.NoError(t, err)
	assert.Equal(t, glossladderv1.EstimateStage_ESTIMATE_STAGE_UNSEEN, unseen.GetEstimate().GetStage())
	partly, err := s.EstimateJob(context.Background(), &glossladderv1.EstimateJobRequest{Inspection: twoPanels()})
	require.NoError(t, err)
	assert.Equal(t, glossladderv1.EstimateStage_ESTIMATE_STAGE_PARTLY_INSPECTED, partly.GetEstimate().GetStage())
	for _, p := range partly.GetEstimate().GetPanels() {
		if p.GetPart() == glossladderv1.PanelPart_PANEL_PART_DOOR && p.GetPanelId() == "" {
			assert.EqualValues(t, 3, p.GetPieces(), "one of four doors was inspected")
		}
	}
	only, err := s.EstimateJob(context.Background(), &glossladderv1.EstimateJobRequest{Inspection: twoPanels(), OnlyInspected: true})
	require.NoError(t, err)
	assert.Equal(t, glossladderv1.EstimateStage_ESTIMATE_STAGE_INSPECTED, only.GetEstimate().GetStage())
	assert.Len(t, only.GetEstimate().GetPanels(), 2)

	_, err = s.EstimateJob(context.Background(), &glossladderv1.EstimateJobRequest{OnlyInspected: true})
	assert.Contains(t, fieldsOf(t, err), "only_inspected")
}

// toldOfPlans is what a caller hears of what can stand in the way of a plan.
var toldOfPlans = map[string]struct {
	err  error
	code codes.Code
	says string
}{
	"plan.NoRoomError":    {&plan.NoRoomError{Minutes: 30, Least: 90}, codes.InvalidArgument, "hours: 0.5 h are too few: the least that these panels need is 1.5 h"},
	"plan.FieldError":     {&plan.FieldError{Field: "panels[0].area_m2", Value: 0, Allowed: "0.001 to 60 m²"}, codes.FailedPrecondition, "panels[0].area_m2"},
	"plan.CandidateError": {&plan.CandidateError{Panel: "roof", Choice: -1, Says: "too many"}, codes.FailedPrecondition, "panel roof: too many"},
	"plan.LimitError":     {&plan.LimitError{Field: "minutes", Value: 9999, Max: 6000}, codes.FailedPrecondition, "minutes is 9999"},
	"plan.ErrClosed":      {plan.ErrClosed, codes.InvalidArgument, "the bay does not open within a year"},
	"workplan.ShopError":  {&workplan.ShopError{Class: "wool", Kind: "pad", Step: "cut"}, codes.FailedPrecondition, "no pad of class wool"},
	"workplan.DearError":  {&workplan.DearError{Price: "1.00 EUR", Least: "90.00 EUR"}, codes.InvalidArgument, "price: 1.00 EUR is too little"},
}

func TestEveryErrorOfAPlanHasAStatus(t *testing.T) {
	for room, dir := range map[string]string{"plan": "../plan", "workplan": "../workplan"} {
		for _, name := range exportedErrors(t, dir) {
			assert.Contains(t, toldOfPlans, room+"."+name, "it has no row here and in planstatus.go")
		}
	}
	for name, row := range toldOfPlans {
		for _, err := range []error{row.err, fmt.Errorf("wrapped: %w", row.err)} {
			st := status.Convert(statusOf(err, ""))
			assert.Equal(t, row.code, st.Code(), name)
			assert.Contains(t, st.Message(), row.says, name)
		}
	}
}

func TestAPlanIsOfAnInspectionOrOfAJob(t *testing.T) {
	s := planner(t)
	ctx := context.Background()
	_, err := s.PlanJob(ctx, &glossladderv1.PlanJobRequest{})
	assert.Contains(t, fieldsOf(t, err)["inspection"], "name a job of the record in job")
	_, err = s.FitHours(ctx, &glossladderv1.FitHoursRequest{Fixed: &glossladderv1.FitHoursRequest_Hours{Hours: 2}})
	assert.Contains(t, fieldsOf(t, err)["inspection"], "name a job of the record in job")

	both := &glossladderv1.PlanJobRequest{Inspection: twoPanels(), Job: "jobs/spring", Areas: []*glossladderv1.PanelArea{{PanelId: "wing", AreaM2: 1}}}
	_, err = s.PlanJob(ctx, both)
	fields := fieldsOf(t, err)
	assert.Contains(t, fields["job"], "one or the other")
	assert.Contains(t, fields["areas[0].panel_id"], `"wing" is not a panel`, "all that is wrong is told at once")
	_, err = s.EstimateJob(ctx, &glossladderv1.EstimateJobRequest{Inspection: twoPanels(), Job: "jobs/spring"})
	assert.Contains(t, fieldsOf(t, err)["job"], "one or the other")

	_, err = s.PlanJob(ctx, &glossladderv1.PlanJobRequest{Job: "spring"})
	assert.Contains(t, fieldsOf(t, err)["job"], `"spring" is no name; it is jobs/ and an id`)
	_, err = s.PlanJob(ctx, &glossladderv1.PlanJobRequest{Job: "jobs/spring"})
	assert.Equal(t, codes.FailedPrecondition, status.Code(err))
	require.ErrorContains(t, err, "--data")
}

func TestBayTimeKeepsToTheCataloguesHoursWhereTheRequestSaysNone(t *testing.T) {
	start := time.Date(2026, 12, 24, 9, 0, 0, 0, time.UTC) // closed, as the three days after it are
	got, err := planner(t).PlanJob(context.Background(), &glossladderv1.PlanJobRequest{
		Inspection: twoPanels(), Bay: &glossladderv1.BayRequest{StartTime: timestamppb.New(start)},
	})
	require.NoError(t, err)
	assert.Equal(t, time.Date(2026, 12, 28, 7, 0, 0, 0, time.UTC), got.GetBay().GetBlocks()[0].GetStartTime().AsTime(), "eight on Monday in Berlin")
}

func TestWhatANewPlanNoLongerHasIsStruckOut(t *testing.T) {
	s := planner(t)
	ask := func(start time.Time, sequence int32, before []*glossladderv1.BayBlock) *glossladderv1.BayTime {
		got, err := s.PlanJob(context.Background(), &glossladderv1.PlanJobRequest{Inspection: twoPanels(), Bay: &glossladderv1.BayRequest{
			StartTime: timestamppb.New(start), Uid: "visit-7", Sequence: sequence, Before: before,
		}})
		require.NoError(t, err)
		return got.GetBay()
	}
	// Begun a quarter of an hour before the bay closes, there is a stretch more.
	first := ask(time.Date(2026, 11, 27, 15, 45, 0, 0, time.UTC), 0, nil)
	again := ask(time.Date(2026, 11, 30, 7, 0, 0, 0, time.UTC), 1, first.GetBlocks())
	require.Less(t, len(again.GetBlocks()), len(first.GetBlocks()))
	events := strings.Split(again.GetCalendar(), "BEGIN:VEVENT")[1:]
	require.Len(t, events, len(first.GetBlocks()), "every entry of before is there")
	for i, event := range events {
		assert.Contains(t, event, fmt.Sprintf("UID:visit-7-%d@glossladder\r\n", i+1))
		assert.Contains(t, event, "SEQUENCE:1\r\n")
		assert.Equal(t, i >= len(again.GetBlocks()), strings.Contains(event, "STATUS:CANCELLED"), "entry %d", i+1)
	}
	last := first.GetBlocks()[len(first.GetBlocks())-1]
	assert.Contains(t, events[len(events)-1], last.GetStartTime().AsTime().Format("DTSTART:20060102T150405Z"))

	_, err := s.PlanJob(context.Background(), &glossladderv1.PlanJobRequest{Inspection: twoPanels(), Bay: &glossladderv1.BayRequest{
		StartTime: timestamppb.New(time.Unix(1e9, 0)), Before: []*glossladderv1.BayBlock{{What: "polish", StartTime: last.GetEndTime(), EndTime: last.GetStartTime()}},
	}})
	fields := fieldsOf(t, err)
	assert.Contains(t, fields["bay.uid"], "is missing")
	assert.Contains(t, fields["bay.sequence"], "send a higher one")
	assert.Contains(t, fields["bay.before[0]"], "later end_time")
}

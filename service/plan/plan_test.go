package plan_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/catalogue"
	"github.com/glossladder/glossladder/service/plan"
)

// workshop is the catalogue that a shop starts from.
func workshop(t testing.TB) *catalogue.Catalogue {
	t.Helper()
	src, err := os.ReadFile("../../rules/shipped/catalogue.yaml")
	require.NoError(t, err)
	shop, problems := catalogue.Parse("catalogue.yaml", src)
	require.Empty(t, problems)
	return shop
}

func minutes(low, likely, high float64) plan.Span {
	return plan.Span{Low: low, Likely: likely, High: high}
}

// handling is invented, in the usual size.
var handling = plan.Handling{
	PrimeMin: minutes(1, 1, 2), SwapMin: minutes(1, 1, 2), CleanMin: minutes(0.2, 0.25, 0.5), WipeMin: minutes(0.3, 0.4, 0.6),
	PadSections: 30, EdgePct: minutes(0, 5, 10), Pace: minutes(0.9, 1, 1.3), From: "rule effort/usual",
}

func polish() plan.Step {
	return plan.Step{
		Step: "polish", MachineID: "large-panel-orbital", PadID: "polishing-foam-large", LiquidID: "middle-polish", PadMm: 140,
		Passes: 4, OverlapPct: 50, ArmCmS: 5, SectionPadAreas: 6, CleanEvery: 1, SettingsFrom: "rule settings/polish",
		RemovalUm: minutes(1, 2, 3),
	}
}

func finish() plan.Step {
	s := polish()
	s.Step, s.PadID, s.LiquidID, s.RemovalUm = "finish", "finishing-foam-large", "fine-finisher", minutes(0.2, 0.5, 1)
	return s
}

func cut() plan.Step {
	s := polish()
	s.Step, s.PadID, s.LiquidID, s.RemovalUm = "cut", "cutting-foam-large", "coarse-cut", minutes(2, 4, 6)
	return s
}

// midSize is a vehicle of thirteen panels and 9.7 m² (areas common practice, no source).
func midSize(t testing.TB, steps ...plan.Step) plan.Vehicle {
	t.Helper()
	usable := 12.0
	v := plan.Vehicle{
		Steps: map[string]plan.Handling{"cut": handling, "polish": handling, "finish": handling},
		Shop:  workshop(t),
		Whole: plan.Whole{PrepareMin: minutes(45, 60, 90), TrialMin: minutes(10, 15, 25), FinalMin: minutes(15, 20, 30)},
		Crew:  plan.Crew{People: 1, DayHours: 8},
	}
	for i, row := range []struct {
		id   string
		area float64
	}{
		{"roof", 1.5},
		{"bonnet", 1.3},
		{"boot lid", 0.6},
		{"left front wing", 0.4},
		{"left front door", 0.8},
		{"left rear door", 0.75},
		{"left rear wing", 0.7},
		{"right front wing", 0.4},
		{"right front door", 0.8},
		{"right rear door", 0.75},
		{"right rear wing", 0.7},
		{"front bumper", 0.5},
		{"rear bumper", 0.5},
	} {
		v.Panels = append(v.Panels, plan.Panel{
			ID: row.id, AreaM2: plan.Exactly(row.area), AreaFrom: "measured", Rank: i, Steps: steps, UsableUm: &usable,
			Around: plan.Around{TapeMin: minutes(1, 1.5, 3), LightMin: minutes(0.3, 0.5, 1), InspectMin: minutes(0.5, 1, 2), RecheckMin: minutes(0.5, 0.7, 2)},
		})
	}
	return v
}

func made(t testing.TB, v plan.Vehicle) plan.Plan {
	t.Helper()
	out, err := plan.Make(v)
	require.NoError(t, err)
	return out
}

// Derived from rate = width · (1 - overlap) · arm speed: 125 mm at half overlap and 5 cm/s cover 0.003125 m²/s, so a pass over a square
// metre takes 320 s.
func TestMinutesAndPathOfAPass(t *testing.T) {
	assert.InDelta(t, 320.0/60, plan.MinutesPerM2(125, 50, 5), 1e-9)
	assert.InDelta(t, 16, plan.PathMetres(1, 125, 50, 1), 1e-9)
	assert.InDelta(t, 0.012272, plan.PadAreaM2(125), 5e-7)
}

// Quotients that are whole in decimals are whole, whatever their binary digits: 1.12/0.16 is 7.000000000000001 as floats.
func TestSections(t *testing.T) {
	for _, row := range []struct {
		area, section float64
		want          int
	}{{1.44, 0.16, 9}, {1.45, 0.16, 10}, {1.12, 0.16, 7}, {1.08, 0.12, 9}, {0.27, 0.09, 3}, {0.01, 0.16, 1}} {
		assert.Equal(t, row.want, plan.Sections(row.area, row.section), "%v m² in sections of %v", row.area, row.section)
	}
}

// A mid-size vehicle takes about 4 to 7 hours with one step and about 12 to 20 with three (from memory, common practice).
func TestHoursThatATechnicianBelieves(t *testing.T) {
	one := made(t, midSize(t, polish()))
	assert.Greater(t, one.WorkMin.Likely/60, 4.0)
	assert.Less(t, one.WorkMin.Likely/60, 7.0)
	three := made(t, midSize(t, cut(), polish(), finish()))
	assert.Greater(t, three.WorkMin.Likely/60, 12.0)
	assert.Less(t, three.WorkMin.Likely/60, 20.0)
	t.Logf("one step %.1f h, three %.1f h", one.WorkMin.Likely/60, three.WorkMin.Likely/60)
}

// By hand: 1 m² with a 140 mm pad, half overlap, 5 cm/s and 4 passes takes 4/(0.07·0.05) = 1142.9 s of running; a section
// of six pad faces is 0.09236 m², so there are 11 of them.
func TestOnePanelByHand(t *testing.T) {
	v := midSize(t, polish())
	v.Panels = v.Panels[:1]
	v.Panels[0].AreaM2 = plan.Exactly(1)
	out := made(t, v)
	step := out.Panels[0].Steps[0]
	assert.Equal(t, 11, step.Sections)
	assert.InDelta(t, 1142.857/60*1.05, step.MachineMin.Likely, 1e-3, "edges take 5 % more")
	assert.InDelta(t, 1142.857/60*0.9, step.MachineMin.Low, 1e-3)
	assert.InDelta(t, 1142.857/60*1.1*1.3, step.MachineMin.High, 1e-3)
	assert.InDelta(t, 11*0.4, step.WipeMin.Likely, 1e-9)
	assert.InDelta(t, 11*0.25, step.CleanMin.Likely, 1e-9)
	assert.InDelta(t, 4/0.07, step.PathM, 1e-9)
	assert.Equal(t, []plan.Source{"measured", "rule settings/polish", "rule effort/usual"}, step.From)
	assert.Equal(t, 1, out.Steps[0].Pads[0].Pads, "one panel, one pad")

	// 6 ml to prime and 2.5 ml for each of eleven sections, 32.00 a litre: 33.5 ml for 1.07.
	require.Equal(t, "middle-polish", out.Materials[1].ID)
	assert.InDelta(t, 33.5, out.Materials[1].Quantity, 1e-9)
	assert.Equal(t, catalogue.Money(107), out.Materials[1].Price)
}

func TestRecordsOfTheShopGoBeforeThePath(t *testing.T) {
	v := midSize(t, polish())
	past := minutes(20, 25, 30)
	v.Panels = v.Panels[:1]
	v.Panels[0].Steps = []plan.Step{polish()}
	v.Panels[0].Steps[0].PastMinPerM2, v.Panels[0].Steps[0].PastFrom = &past, "this shop's last 23 panels"
	step := made(t, v).Panels[0].Steps[0]
	assert.InDelta(t, 1.5*25, step.Minutes().Likely, 1e-9)
	assert.Contains(t, step.From, plan.Source("this shop's last 23 panels"))
}

func TestOrderOfWork(t *testing.T) {
	v := midSize(t, polish())
	v.Panels[0].InSun, v.Panels[4].Tried = true, true
	v.Panels[2].Steps = nil
	out := made(t, v)
	var ids []string
	for _, p := range out.Panels {
		ids = append(ids, p.Panel.ID)
	}
	assert.Equal(t, []string{"left front door", "bonnet", "boot lid", "left front wing", "left rear door"}, ids[:5])
	assert.Equal(t, "roof", ids[12], "what stands in the sun comes last")
}

func TestPads(t *testing.T) {
	v := midSize(t, polish(), finish())
	v.Panels[3].Steps = []plan.Step{{
		Step: "polish", MachineID: "small-part-orbital", PadID: "polishing-foam-small", LiquidID: "middle-polish", PadMm: 85,
		Passes: 4, OverlapPct: 50, ArmCmS: 4, SectionPadAreas: 3, CleanEvery: 1,
	}}
	out := made(t, v)
	polishing := out.Steps[0]
	require.Equal(t, "polish", polishing.Step)
	require.Len(t, polishing.Pads, 2, "each kind of pad is counted by itself")
	large := polishing.Pads[0]
	assert.Equal(t, int(math.Ceil(float64(large.Sections)/30)), large.Pads, "a loaded pad is changed")
	assert.Len(t, large.ChangeAt, large.Pads-1)
	assert.Equal(t, 1, polishing.Pads[1].Pads, "one panel, one pad")

	few := handling
	few.PadSections = 1000
	v.Steps["polish"], v.Steps["finish"] = few, few
	out = made(t, v)
	assert.Equal(t, 2, out.Steps[0].Pads[0].Pads, "a fresh pad half-way round at the latest")
	assert.Equal(t, []string{"left rear door"}, out.Steps[0].Pads[0].ChangeAt)
}

func TestFilmThatGoesAndThatIsLeft(t *testing.T) {
	out := made(t, midSize(t, cut(), polish(), finish()))
	assert.InDelta(t, 6.5, out.Panels[0].TakesUm.Likely, 1e-9)
	require.NotNil(t, out.Panels[0].LeftUm)
	assert.InDelta(t, 2, out.Panels[0].LeftUm.Low, 1e-9, "12 µm less the most that goes")
	assert.InDelta(t, 8.8, out.Panels[0].LeftUm.High, 1e-9)
}

func TestCostIsExact(t *testing.T) {
	out := made(t, midSize(t, polish()))
	var sum catalogue.Money
	for _, m := range out.Materials {
		sum += m.Price
		assert.Positive(t, int64(m.Price), m.ID)
		assert.NotEmpty(t, m.From, m.ID)
	}
	assert.Equal(t, sum, out.Cost.Materials)
	assert.Equal(t, out.Cost.Labour.Likely+sum, out.Cost.Total.Likely)
	hours := out.WorkMin.Likely / 60
	assert.InDelta(t, 6400*hours, float64(out.Cost.Labour.Likely), 1)
	assert.Equal(t, "EUR", out.Cost.Currency.Code())
}

// A day with long machine times is called, and what it takes to spread it.
func TestDaysOfATechnician(t *testing.T) {
	v := midSize(t, cut(), polish(), finish())
	day := made(t, v).Days[0]
	assert.Equal(t, 3, day.Days, "sixteen hours and a little")
	require.NotNil(t, day.Vibration)
	assert.Greater(t, day.VibrationHigh.A8Ms2, day.Vibration.A8Ms2)
	assert.InDelta(t, 8*math.Sqrt(day.HandsMin/480), day.Vibration.A8Ms2, 1e-6, "one machine of 8 m/s²")
	require.NotNil(t, day.Noise)
	assert.Empty(t, day.UnknownVibration)

	v.Crew.People = 4
	four := made(t, v).Days[0]
	assert.Equal(t, 1, four.Days)
	assert.Less(t, four.HandsMin, day.HandsMin)
}

func TestWaitsOnlyWhereNothingElseIsLeft(t *testing.T) {
	v := midSize(t, polish(), finish())
	for i := range v.Panels {
		v.Panels[i].CoolMin = minutes(2, 5, 10)
	}
	assert.Zero(t, made(t, v).WaitMin)
	v.Panels = v.Panels[:2]
	assert.Equal(t, minutes(4, 10, 20), made(t, v).WaitMin)
}

// The lines come to the whole, the panels and steps are within it, and spans stay in order, whatever the vehicle.
func TestAnyVehicleAddsUp(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	all := []plan.Step{cut(), polish(), finish()}
	for range 300 {
		v := midSize(t)
		v.Panels = v.Panels[:1+r.IntN(len(v.Panels))]
		for i := range v.Panels {
			v.Panels[i].AreaM2 = minutes(0.3+r.Float64(), 1.4, 1.4+r.Float64())
			v.Panels[i].Steps = all[r.IntN(4):]
			v.Panels[i].InSun = r.IntN(2) == 0
		}
		out := made(t, v)
		var lines, parts plan.Span
		for _, line := range out.Lines {
			lines = lines.Plus(line.Min)
			require.LessOrEqual(t, line.Min.Low, line.Min.Likely, line.What)
			require.LessOrEqual(t, line.Min.Likely, line.Min.High, line.What)
		}
		require.InDelta(t, lines.Likely, out.WorkMin.Likely, 1e-6)
		parts = v.Whole.PrepareMin.Plus(v.Whole.TrialMin).Plus(v.Whole.FinalMin)
		for _, p := range out.Panels {
			parts = parts.Plus(p.Minutes)
			for _, s := range p.Steps {
				parts = parts.Plus(plan.Span{Low: -s.Minutes().Low, Likely: -s.Minutes().Likely, High: -s.Minutes().High})
			}
		}
		for _, s := range out.Steps {
			parts = parts.Plus(s.Minutes)
		}
		require.InDelta(t, out.WorkMin.Low, parts.Low, 1e-6)
		require.InDelta(t, out.WorkMin.Likely, parts.Likely, 1e-6)
		require.InDelta(t, out.WorkMin.High, parts.High, 1e-6)
	}
}

func TestVehiclesThatCannotBePlanned(t *testing.T) {
	for _, row := range []struct {
		change func(*plan.Vehicle)
		says   string
	}{
		{func(v *plan.Vehicle) { v.Panels = nil }, "panels is 0 panels, allowed is 1 to 60"},
		{func(v *plan.Vehicle) { v.Crew.People = 0 }, "crew.people is 0, allowed is 1 to 20 people"},
		{func(v *plan.Vehicle) { v.Panels[1].AreaM2 = minutes(2, 1, 3) }, "panels[1].area_m2 is 2, 1, 3, allowed is three figures of m² from 0 that rise"},
		{func(v *plan.Vehicle) { v.Panels[0].Steps[0].ArmCmS = 0 }, "panels[0].steps[0].arm_cm_s is 0, allowed is 0.1 to 100 cm/s"},
		{func(v *plan.Vehicle) { v.Panels[0].Steps[0].Step = "sand" }, "panels[0].steps[0].step is sand, allowed is a step whose handling is known"},
		{func(v *plan.Vehicle) { v.Panels[0].Steps[0].PadID = "gone" }, "panels[0].steps[0] is gone, allowed is an id of the shop's catalogue"},
	} {
		v := midSize(t, polish())
		v.Panels[0].Steps = []plan.Step{polish()}
		row.change(&v)
		_, err := plan.Make(v)
		require.ErrorContains(t, err, row.says)
		var field *plan.FieldError
		require.ErrorAs(t, err, &field)
	}

	v := midSize(t, polish())
	v.Crew.People, v.Whole.TrialMin = 0, minutes(3, 2, 1)
	_, err := plan.Make(v)
	require.ErrorContains(t, err, "crew.people")
	require.ErrorContains(t, err, "whole.trial_min", "every fault at once")
}

func BenchmarkMake(b *testing.B) {
	v := midSize(b, cut(), polish(), finish())
	b.ReportAllocs()
	for b.Loop() {
		if _, err := plan.Make(v); err != nil {
			b.Fatal(fmt.Errorf("plan: %w", err))
		}
	}
}

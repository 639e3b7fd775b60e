package workplan_test

import (
	"cmp"
	"maps"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/advisor"
	"github.com/glossladder/glossladder/service/catalogue"
	"github.com/glossladder/glossladder/service/plan"
	"github.com/glossladder/glossladder/service/workplan"
)

// invented is a small vehicle whose panels differ in all that a plan depends on: marks, paint, part, sun, so that pads, handling and
// test spots differ.
func invented(r *rand.Rand, panels int) advisor.Inspection {
	in := random(r, panels)
	in.Climate.AirC = ptr(8 + 25*r.Float64())
	for i := range in.Panels {
		p := &in.Panels[i]
		p.Paint.Softness = []string{"very-soft", "soft", "medium", "hard"}[r.IntN(4)]
		p.Paint.System = []string{"clear-coat", "clear-coat", "single-stage"}[r.IntN(3)]
		p.InSun = ptr(r.IntN(3) == 0)
		for k := range p.Defects {
			p.Defects[k].Severity = ptr(float64(r.IntN(400)) / 100)
		}
	}
	return in
}

// planned is one choice of ladders and what the plan of it comes to.
type planned struct {
	ladders map[string]string
	seen    int // result in hundredths of a grade, by panel to the nearest
	minutes float64
	price   catalogue.Money
}

// everyPlan plans every choice of ladders in earnest.
func everyPlan(t *testing.T, j *workplan.Job) (out []planned) {
	t.Helper()
	picks := map[string]string{}
	var try func(at, seen int)
	try = func(at, seen int) {
		if at < len(j.Work.Panels) {
			p := &j.Work.Panels[at]
			for _, ladder := range p.Ladders {
				picks[p.Panel.ID] = ladder.Ladder
				try(at+1, seen+int(math.Round(100*float64(p.Area.Seen)*ladder.Grades())))
			}
			return
		}
		each := *j
		each.Settled = maps.Clone(picks)
		made, err := workplan.Make(&each)
		require.NoError(t, err)
		out = append(out, planned{each.Settled, seen, made.WorkMin.Likely, made.Cost.Total.Likely})
	}
	try(0, 0)
	return out
}

// bestOf is the plan with the greatest result among those that fit, of equals the one that costs least by the same measure.
func bestOf(all []planned, limit float64, measure func(planned) float64) (best planned, found bool) {
	for _, p := range all {
		if m := measure(p); m <= limit && (!found || p.seen > best.seen || p.seen == best.seen && m < measure(best)) {
			best, found = p, true
		}
	}
	return best, found
}

// The best use of hours and of a price is what planning every choice in earnest finds, to the cent and the millionth of a minute. Each
// vehicle is asked for two limits of each sort, some of which a plan just fits. GLOSSLADDER_VEHICLES=1000 takes about a minute.
func TestTheBestFitIsWhatPlanningEverythingFinds(t *testing.T) {
	const digits = 2e-6 // of a minute
	inMinutes := func(p planned) float64 { return p.minutes }
	inCents := func(p planned) float64 { return float64(p.price) }
	r := rand.New(rand.NewPCG(11, 4))
	a, things := shop(t)
	left, none := 0, 0
	vehicles := 100
	if all, err := strconv.Atoi(os.Getenv("GLOSSLADDER_VEHICLES")); err == nil {
		vehicles = all
	}
	for n := range vehicles {
		work, err := a.Work(invented(r, 1+r.IntN(3)), nil)
		require.NoError(t, err)
		j := &workplan.Job{Work: work, Shop: things, Crew: plan.Crew{People: 1, DayHours: 8}}
		all := everyPlan(t, j)
		most, _ := bestOf(all, math.Inf(1), inMinutes)
		for range 2 {
			any := all[r.IntN(len(all))]
			minutes, price := any.minutes-float64(r.IntN(2))*5*r.Float64(), any.price-catalogue.Money(r.IntN(2)*r.IntN(300))

			want, found := bestOf(all, minutes+digits/2, inMinutes)
			fit, err := workplan.InHours(j, minutes)
			if found {
				require.NoError(t, err)
				assert.Equal(t, want.seen, seenOf(all, fit.Plan.Ladders), "vehicle %d in %v minutes", n, minutes)
				assert.InDelta(t, want.minutes, fit.Plan.WorkMin.Likely, digits, "vehicle %d in %v minutes", n, minutes)
			} else {
				var room *plan.NoRoomError
				require.ErrorAs(t, err, &room, "vehicle %d in %v minutes", n, minutes)
			}

			want, found = bestOf(all, float64(price), inCents)
			fit, err = workplan.ForPrice(j, price)
			if found {
				require.NoError(t, err)
				assert.Equal(t, want.seen, seenOf(all, fit.Plan.Ladders), "vehicle %d for %v", n, price)
				assert.Equal(t, want.price, fit.Plan.Cost.Total.Likely, "vehicle %d for %v", n, price)
				assert.InDelta(t, fit.ResultPct, fit.MostPct, 1e-9)
			} else {
				none++
				var dear *workplan.DearError
				require.ErrorAs(t, err, &dear, "vehicle %d for %v", n, price)
				assert.Equal(t, j.Shop.Currency().Format(cheapest(all)), dear.Least)
			}
			if found && want.seen < most.seen {
				left++
			}
		}
	}
	assert.Greater(t, left, vehicles/4, "the price must bind in many")
	assert.Positive(t, none, "some prices must be too low")
}

func seenOf(all []planned, ladders map[string]string) int {
	at := slices.IndexFunc(all, func(p planned) bool { return maps.Equal(p.ladders, ladders) })
	return all[at].seen
}

func cheapest(all []planned) catalogue.Money {
	return slices.MinFunc(all, func(a, b planned) int { return cmp.Compare(a.price, b.price) }).price
}

// The whole answer for 25 panels: the search, the curve and the plans.
func BenchmarkFit25Panels(b *testing.B) {
	r := rand.New(rand.NewPCG(5, 9))
	in := random(r, 13)
	for _, p := range random(r, 12).Panels {
		p.ID += "-lower"
		in.Panels = append(in.Panels, p)
	}
	j := job(b, in, nil)
	full, err := workplan.Make(j)
	require.NoError(b, err)
	b.Run("hours", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			_, err := workplan.InHours(j, 0.7*full.WorkMin.Likely)
			require.NoError(b, err)
		}
	})
	b.Run("price", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			_, err := workplan.ForPrice(j, full.Cost.Total.Likely*7/10)
			require.NoError(b, err)
		}
	})
}

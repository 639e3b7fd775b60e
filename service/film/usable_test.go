package film_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/film"
)

// measureTop is a panel whose clear reads exactly this, by a gauge too good to matter.
func measureTop(t *testing.T, um film.Microns) film.Measured {
	t.Helper()
	gauge := film.Gauge{Kind: film.Ultrasonic, Accuracy: faultless.Accuracy}
	return measure(t, gauge, film.Panel{Name: "top", Substrate: film.Steel, Layer: film.Top, Spots: []film.Spot{flat("", um)}}, 95)
}

func measureTotal(t *testing.T, um film.Microns) film.Measured {
	t.Helper()
	return measure(t, faultless, steel(flat("", um)), 95)
}

// taken is a removal that is known exactly.
func taken(um film.Microns) film.Removal { return film.Removal{LowUm: um, LikelyUm: um, HighUm: um} }

func usable(t *testing.T, p film.Policy, m film.Measured, gone film.Removal) film.Budget {
	t.Helper()
	b, err := p.Usable(&m, gone)
	require.NoError(t, err)
	require.NotNil(t, b)
	return *b
}

// exact allows for the rounding of a few sums and for the faultless gauge, no more.
const exact = 1e-9

func TestUsableOfThePublishedLimits(t *testing.T) {
	rows := readRows(t, "allowance.csv")
	require.Len(t, rows, 9)
	for _, row := range rows {
		clear, allowed := film.Microns(row[0]), row[1]
		b := usable(t, usual, measureTop(t, clear), film.Removal{})
		assert.InDelta(t, allowed, float64(b.UsableUm), exact, "clear %s", clear)
		assert.False(t, b.ByShare)
	}
}

// The same rows after an earlier visit: the gauge now reads the clear as first applied less what was taken, and the
// allowance is the row's less what was taken.
func TestUsableAfterAnEarlierVisit(t *testing.T) {
	for _, row := range readRows(t, "allowance.csv") {
		for _, gone := range []film.Microns{0.4, 2, 5, 12.7, 20} {
			first, allowed := film.Microns(row[0]), film.Microns(row[1])
			b := usable(t, usual, measureTop(t, first-gone), taken(gone))
			assert.InDelta(t, float64(max(0, allowed-gone)), float64(b.UsableUm), exact, "clear %s first, %s taken", first, gone)
			assert.InDelta(t, float64(first), float64(b.ClearFirstUm), exact)
			assert.InDelta(t, float64(first-gone), float64(b.ClearUm), exact)
		}
	}
}

// The reading's own uncertainty comes off first, read or reckoned by share.
func TestUsableStartsFromTheLowerBound(t *testing.T) {
	spots := []film.Spot{spot("a", 48, 50, 51), spot("b", 52, 50, 53)}
	gauge := film.Gauge{Kind: film.Ultrasonic, Accuracy: ordinary.Accuracy}
	top := measure(t, gauge, film.Panel{Substrate: film.Steel, Layer: film.Top, Spots: spots}, 95)
	require.Less(t, top.LowestBoundUm, top.LowestUm-1)
	read := usable(t, quarter, top, film.Removal{})
	assert.Equal(t, top.LowestBoundUm, read.ClearUm)
	assert.InDelta(t, float64(top.LowestBoundUm)-30, float64(read.FloorUm), exact)

	total := measure(t, gauge, steel(spots...), 95)
	assert.InDelta(t, 0.4*float64(total.LowestBoundUm), float64(usable(t, quarter, total, film.Removal{}).ClearUm), exact)
}

// Quarter of the clear and 30 µm to stay: common practice, no source.
var quarter = film.Policy{ClearSharePct: 40, ClearFloorUm: 30, TakeSharePct: 25, TakeMostUm: 10, ThinUm: 80, RepaintUm: 180, FillerUm: 500, NeighbourUm: 40}

func TestUsableTakesTheTightestLimit(t *testing.T) {
	for name, tt := range map[string]struct {
		clear, gone        film.Microns
		floor, share, most float64
		usable             float64
		binding            film.Bound
	}{
		"thin clear, floor binds":            {34, 0, 4, 8.5, 10, 4, film.Floor},
		"thick clear, most binds":            {60, 0, 30, 15, 10, 10, film.Most},
		"earlier visits used up most of it":  {50, 9, 20, 5.75, 1, 1, film.Most},
		"floor binds after an earlier visit": {38, 1.2, 8, 8.6, 8.8, 8, film.Floor},
		"nothing left":                       {50, 12, 20, 3.5, -2, 0, film.Most},
		"already under the floor":            {25, 0, -5, 6.25, 10, 0, film.Floor},
	} {
		t.Run(name, func(t *testing.T) {
			b := usable(t, quarter, measureTop(t, tt.clear), taken(tt.gone))
			assert.InDelta(t, tt.floor, float64(b.FloorUm), exact)
			assert.InDelta(t, tt.share, float64(b.ShareUm), exact)
			assert.InDelta(t, tt.most, float64(b.MostUm), exact)
			assert.InDelta(t, tt.usable, float64(b.UsableUm), exact)
			assert.Equal(t, tt.binding, b.Binding)
		})
	}
}

func TestShareOverLifeBindsBetweenFloorAndMost(t *testing.T) {
	tenth := quarter
	tenth.TakeSharePct = 10
	b := usable(t, tenth, measureTop(t, 48), taken(2))
	assert.InDelta(t, 3, float64(b.UsableUm), exact) // a tenth of 50, less 2
	assert.Equal(t, film.Share, b.Binding)
}

func TestUsableOfATotalReadingIsTheThinEndShare(t *testing.T) {
	b := usable(t, quarter, measureTotal(t, 90), film.Removal{})
	assert.True(t, b.ByShare)
	assert.InDelta(t, 36, float64(b.ClearUm), exact) // 40 % of 90
	assert.InDelta(t, 6, float64(b.UsableUm), exact)
	assert.Equal(t, film.Floor, b.Binding)
}

// What was taken was all clear, so the share is of the film as it first was: 40 % of 95 is 38 of clear, of which 5 went.
// 40 % of today's 90 would claim 36 where 33 are left.
func TestShareIsOfTheFilmAsFirstApplied(t *testing.T) {
	b := usable(t, quarter, measureTotal(t, 90), taken(5))
	assert.InDelta(t, 38, float64(b.ClearFirstUm), exact)
	assert.InDelta(t, 33, float64(b.ClearUm), exact)
	assert.InDelta(t, 3, float64(b.UsableUm), exact)
}

// Much film on a repainted panel is no promise of much clear.
func TestShareIsNotTrustedAboveTheRepaintThreshold(t *testing.T) {
	at := usable(t, quarter, measureTotal(t, 180), film.Removal{})
	over := usable(t, quarter, measureTotal(t, 600), film.Removal{})
	assert.InDelta(t, 72, float64(at.ClearUm), exact)
	assert.InDelta(t, 72, float64(over.ClearUm), exact)
	assert.Equal(t, at.UsableUm, over.UsableUm)
}

// A modern clear of 35 to 40 µm in a film of 80 to 95 µm (Polymers 2021, 13(22), 3933) leaves 0 to 4.44 µm under the
// published limits: the figure worth telling.
func TestModernFactoryFilmLeavesNextToNothing(t *testing.T) {
	assert.Zero(t, usable(t, usual, measureTop(t, 35), film.Removal{}).UsableUm)
	assert.InDelta(t, 4.44, float64(usable(t, usual, measureTop(t, 40), film.Removal{}).UsableUm), exact)
	assert.Zero(t, usable(t, usual, measure(t, ordinary, steel(flat("", 95)), 95), film.Removal{}).UsableUm, "total only, thin end")
}

func TestSingleStagePaintIsAPolicyOfItsOwn(t *testing.T) {
	colour := quarter
	colour.ClearSharePct, colour.ClearFloorUm, colour.TakeMostUm = 100, 60, 8 // invented figures
	b := usable(t, colour, measureTotal(t, 75), film.Removal{})
	assert.InDelta(t, 75, float64(b.ClearUm), exact)
	assert.InDelta(t, 8, float64(b.UsableUm), exact)
}

func TestUnknownFilmIsNoBudget(t *testing.T) {
	b, err := usual.Usable(nil, film.Removal{})
	require.NoError(t, err)
	assert.Nil(t, b)
}

func TestZeroPolicyAllowsNothing(t *testing.T) {
	assert.Zero(t, usable(t, film.Policy{}, measureTotal(t, 140), film.Removal{}).UsableUm)
}

func TestUsableCountsTheHighEndOfWhatWasTaken(t *testing.T) {
	m := measureTop(t, 60)
	guess := usable(t, usual, m, film.Removal{LowUm: 1, LikelyUm: 2, HighUm: 5})
	assert.Equal(t, usable(t, usual, m, taken(5)), guess)
	assert.Equal(t, film.Microns(5), guess.TakenUm)
}

func TestUsableRefusesARemovalOutOfOrder(t *testing.T) {
	m := measureTop(t, 60)
	_, err := usual.Usable(&m, film.Removal{LowUm: 3, LikelyUm: 2, HighUm: 5})
	var order *film.OutOfOrderError
	require.ErrorAs(t, err, &order)
	assert.EqualError(t, err, "removal is low_um 3, likely_um 2, high_um 5; they must rise from low to high")
}

func drawPolicy(random *rand.Rand) film.Policy {
	um := func(most float64) film.Microns { return film.Microns(most * random.Float64()) }
	return film.Policy{
		ClearSharePct: 100 * random.Float64(), ClearFloorUm: um(45), TakeSharePct: 100 * random.Float64(), TakeMostUm: um(15),
		ThinUm: um(100), RepaintUm: 150 + um(100), FillerUm: 500, NeighbourUm: 40,
	}
}

// Each property draws a policy, a panel read either way and a removal, changes one thing, and compares.
func TestUsableMovesTheSafeWay(t *testing.T) {
	type drawn struct {
		policy film.Policy
		gauge  film.Gauge
		panel  film.Panel
		gone   film.Removal
	}
	changes := map[string]func(*rand.Rand, *drawn){
		"more taken before": func(r *rand.Rand, d *drawn) { d.gone.HighUm += film.Microns(5 * r.Float64()) },
		"less film": func(r *rand.Rand, d *drawn) {
			less := film.Microns(20 * r.Float64())
			layer := d.panel.Layer
			d.panel = shifted(d.panel, func(um film.Microns) film.Microns { return um - less })
			d.panel.Layer = layer
		},
		"a worse gauge":         func(r *rand.Rand, d *drawn) { d.gauge.Accuracy.FixedUm += film.Microns(3 * r.Float64()) },
		"a higher floor":        func(r *rand.Rand, d *drawn) { d.policy.ClearFloorUm += film.Microns(5 * r.Float64()) },
		"a smaller share taken": func(r *rand.Rand, d *drawn) { d.policy.TakeSharePct *= r.Float64() },
		"a lower most":          func(r *rand.Rand, d *drawn) { d.policy.TakeMostUm *= film.Microns(r.Float64()) },
		"a smaller clear share": func(r *rand.Rand, d *drawn) { d.policy.ClearSharePct *= r.Float64() },
	}
	for name, change := range changes {
		t.Run(name, func(t *testing.T) {
			random := rand.New(rand.NewPCG(3, 1))
			above := 0
			for range 1000 {
				d := drawn{policy: drawPolicy(random), gauge: film.Gauge{Kind: film.Ultrasonic, Accuracy: ordinary.Accuracy}, panel: draw(random)}
				d.gone.HighUm = film.Microns(4 * random.Float64())
				if random.IntN(2) == 0 {
					d.panel.Layer = film.Top
				}
				before := usable(t, d.policy, measure(t, d.gauge, d.panel, 95), d.gone)
				change(random, &d)
				after := usable(t, d.policy, measure(t, d.gauge, d.panel, 95), d.gone)
				require.GreaterOrEqual(t, float64(after.UsableUm), 0.0)
				require.LessOrEqual(t, float64(after.UsableUm), float64(before.UsableUm)+exact, "%+v", d)
				require.LessOrEqual(t, float64(after.UsableUm), float64(after.ClearUm)+exact, "more usable than there is")
				if before.UsableUm > 0 {
					above++
				}
			}
			assert.Greater(t, above, 200, "too few draws had anything to lose")
		})
	}
}

// Splitting a removal over visits must not change what is left, however often the panel is measured in between.
func TestBudgetRunsOverTheLifeOfTheVehicle(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 2))
	for range 300 {
		policy := drawPolicy(random)
		first := film.Microns(40 + 40*random.Float64())
		whole := usable(t, policy, measureTop(t, first), film.Removal{})
		var gone film.Microns
		for range 4 {
			gone += film.Microns(3 * random.Float64())
			now := usable(t, policy, measureTop(t, first-gone), taken(gone))
			require.InDelta(t, float64(max(0, whole.UsableUm-gone)), float64(now.UsableUm), exact)
		}
	}
}

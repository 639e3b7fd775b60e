package plan

import (
	"cmp"
	"math"
	"slices"

	"github.com/glossladder/glossladder/service/catalogue"
)

// Open is a vehicle whose ladders are still to be chosen.
type Open struct {
	Panels []OpenPanel
	// Whole is what the vehicle takes once, test spots aside.
	Whole Whole
	// SpotMin is one test spot.
	SpotMin Span
	Shop    *catalogue.Catalogue
	// Make plans a whole choice in earnest: a pick for every panel, as places in its ways.
	Make func(picks []int) (Plan, error)
}

// OpenPanel is a panel with every ladder that it may get.
type OpenPanel struct {
	Ways []OpenWay
	// Spot is the test spot that has to be worked before the panel; "" where none has to.
	Spot string
}

// OpenWay is a panel with one ladder.
type OpenWay struct {
	Panel Panel
	Worth int // what an owner sees of it
}

// Handled says how each step is handled over a vehicle: as the largest panel asks for that gets it, the first of equals.
func Handled(panels []Panel) map[string]Handling {
	out, largest := map[string]Handling{}, map[string]float64{}
	for _, p := range panels {
		for _, s := range p.Steps {
			if s.How != nil && p.AreaM2.Likely > largest[s.Step] {
				largest[s.Step], out[s.Step] = p.AreaM2.Likely, *s.How
			}
		}
	}
	return out
}

// ByMinutes is the pool whose limit is minutes of work, in millionths. The true cost is the plan's likely minutes.
func (o *Open) ByMinutes() *Pool {
	return o.pool(pricing{}, func(p *Plan) int64 { return Micros(p.WorkMin.Likely) })
}

// ByPrice is the pool whose limit is money, in millionths of the currency's smallest unit. The true cost is the plan's likely total, of
// which each amount is rounded for itself; Rounding allows for that.
func (o *Open) ByPrice() *Pool {
	return o.pool(pricing{o.Shop, true}, func(p *Plan) int64 { return Millionths(p.Cost.Total.Likely) })
}

const million = 1_000_000

// Millionths is money in millionths of the smallest unit.
func Millionths(m catalogue.Money) int64 { return int64(m) * million }

// Micros is minutes in millionths, to the nearest.
func Micros(minutes float64) int64 { return int64(math.Round(minutes * million)) }

// opening gathers a pool.
type opening struct {
	open   *Open
	price  pricing
	pool   *Pool
	steps  []string
	things []sharedThing
	kinds  [][]handled // by step
}

// handled is what of a handling decides how many pads a step takes and how long they take: minutes in millionths, and sections.
type handled struct {
	prime, swap int64
	holds       float64
}

// sharedThing is what a thing of a pool stands for: a pair of pad and liquid in a step, or a test spot.
type sharedThing struct{ step, pad, liquid, spot string }

func (o *Open) pool(price pricing, cost func(*Plan) int64) *Pool {
	b := &opening{open: o, price: price, pool: &Pool{Rounding: price.rounding()}}
	b.pool.Fixed = price.work(Micros(o.Whole.PrepareMin.Likely + o.Whole.TrialMin.Likely + o.Whole.FinalMin.Likely))
	for i := range o.Panels {
		b.pool.Order = append(b.pool.Order, i)
		b.pool.Fixed += price.work(Micros(o.Panels[i].inspect()))
		b.addPanel(&o.Panels[i])
	}
	// The largest panel decides how a step is handled, and in a pool the first.
	slices.SortStableFunc(b.pool.Order, func(a, b int) int { return cmp.Compare(o.Panels[b].area(), o.Panels[a].area()) })
	b.closeKinds()
	b.pool.True = func(picks []int) (int64, error) {
		made, err := o.Make(picks)
		return cost(&made), err
	}
	return b.pool
}

func (p *OpenPanel) area() float64 {
	if len(p.Ways) == 0 {
		return 0
	}
	return p.Ways[0].Panel.AreaM2.Likely
}

func (p *OpenPanel) inspect() float64 {
	if len(p.Ways) == 0 {
		return 0
	}
	return p.Ways[0].Panel.InspectMin.Likely
}

func (b *opening) addPanel(p *OpenPanel) {
	var out PoolPanel
	for _, way := range p.Ways {
		panel := way.Panel
		alone := Vehicle{Steps: Handled([]Panel{panel})}
		work := alone.panelWork(&panel)
		w := Way{
			Worth: way.Worth, TakesNm: int(math.Round(1000 * work.TakesUm.High)),
			Micros: Micros(max(0, work.Minutes.Likely-panel.InspectMin.Likely)),
		}
		w.Own = b.price.work(w.Micros) + b.price.around(len(panel.Steps))
		for k, s := range panel.Steps {
			w.Own += b.price.sections(s.LiquidID, work.Sections[k])
			w.Uses = b.use(w.Uses, sharedThing{step: s.Step, pad: s.PadID, liquid: s.LiquidID}, work.Sections[k], s.How)
		}
		if p.Spot != "" && len(panel.Steps) > 0 {
			w.Uses = b.use(w.Uses, sharedThing{spot: p.Spot}, 1, nil)
		}
		out.Ways = append(out.Ways, w)
	}
	b.pool.Panels = append(b.pool.Panels, out)
}

// use adds the use of a thing, which may be new.
func (b *opening) use(uses []Use, what sharedThing, sections int, how *Handling) []Use {
	at := slices.Index(b.things, what)
	if at < 0 {
		at = len(b.things)
		b.things = append(b.things, what)
		b.pool.Things = append(b.pool.Things, Thing{Step: b.step(what), Twice: what.spot == ""})
	}
	return append(uses, Use{Thing: at, Sections: sections, Kind: b.kind(at, how)})
}

// step is the place of a thing's step; every test spot is one of its own.
func (b *opening) step(what sharedThing) int {
	name := what.step
	if what.spot != "" {
		name = "test spot " + what.spot
	}
	at := slices.Index(b.steps, name)
	if at < 0 {
		at, b.steps, b.kinds = len(b.steps), append(b.steps, name), append(b.kinds, nil)
	}
	return at
}

// kind is the place of a handling among those that panels ask for in a step.
func (b *opening) kind(thing int, how *Handling) int {
	asked := handled{}
	if how != nil {
		asked = handled{Micros(how.PrimeMin.Likely), Micros(how.SwapMin.Likely), how.PadSections}
	}
	step := b.pool.Things[thing].Step
	at := slices.Index(b.kinds[step], asked)
	if at < 0 {
		at, b.kinds[step] = len(b.kinds[step]), append(b.kinds[step], asked)
	}
	return at
}

// closeKinds says, when all panels are known, what the pieces of each thing cost.
func (b *opening) closeKinds() {
	for i, what := range b.things {
		t := &b.pool.Things[i]
		for _, how := range b.kinds[t.Step] {
			kind := Kind{Each: b.price.work(how.prime+how.swap) + b.price.piece(what.pad, what.liquid), Off: b.price.work(how.swap), Holds: how.holds}
			if what.spot != "" {
				// One spot proves all the panels of its group.
				kind = Kind{Each: b.price.work(Micros(b.open.SpotMin.Likely)), Holds: float64(b.users(i))}
			}
			t.Kinds = append(t.Kinds, kind)
		}
	}
}

// users is how many panels have a way that uses a thing.
func (b *opening) users(thing int) (n int) {
	for i := range b.pool.Panels {
		if slices.Contains(b.pool.Panels[i].things(), thing) {
			n++
		}
	}
	return n
}

package plan

import "math"

// bound says what the panels from one place on cost at least when they are to bring a worth. It is exact but for what is shared:
// shares counts each section as its share of a piece, and free counts nothing for what is shared.
type bound struct {
	scale  int // units of worth to a level
	shares [][]int64
	free   [][]int64
}

const (
	// levels is into how many steps of worth a bound looks at most; finer ones are put together upwards, which keeps it a bound.
	levels = 4096
	// never is a cost that nothing reaches.
	never = math.MaxInt64 / 4
	// digit keeps what is reckoned in floats on the safe side.
	digit = 1e-9
)

func newBound(p *Pool) *bound {
	n := len(p.Panels)
	b := &bound{scale: p.scale(), shares: make([][]int64, n+1), free: make([][]int64, n+1)}
	b.shares[n], b.free[n] = []int64{0}, []int64{0}
	for i := n - 1; i >= 0; i-- {
		b.shares[i] = b.grow(b.shares[i+1], &p.Panels[i], p.share)
		b.free[i] = b.grow(b.free[i+1], &p.Panels[i], func(Use) int64 { return 0 })
	}
	return b
}

// scale is a divisor of all worths, or more where that would be too many levels.
func (p *Pool) scale() int {
	common, sum := 0, 0
	for i := range p.Panels {
		most := 0
		for _, w := range p.Panels[i].Ways {
			common, most = divisor(common, w.Worth), max(most, w.Worth)
		}
		sum += most
	}
	common = max(common, 1)
	return common * max(1, (sum/common+levels-1)/levels)
}

func divisor(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// share is what a use costs at least when other panels wear the same pieces.
func (p *Pool) share(u Use) int64 {
	least := int64(never)
	for i := range p.Things[u.Thing].Kinds {
		least = min(least, p.Things[u.Thing].Kinds[i].share(u.Sections))
	}
	return least
}

func (k *Kind) share(sections int) int64 {
	return int64(float64(k.Each) / k.Holds * float64(sections) * (1 - digit))
}

// grow puts a panel in front of the rest.
func (b *bound) grow(rest []int64, panel *PoolPanel, part func(Use) int64) []int64 {
	most := 0
	for _, w := range panel.Ways {
		most = max(most, b.level(w.Worth))
	}
	out := make([]int64, len(rest)+most)
	for i := range out {
		out[i] = never
	}
	for _, w := range panel.Ways {
		cost, at := w.Own, b.level(w.Worth)
		for _, u := range w.Uses {
			cost += part(u)
		}
		for k, c := range rest {
			out[k+at] = min(out[k+at], c+cost)
		}
	}
	for k := len(out) - 2; k >= 0; k-- {
		out[k] = min(out[k], out[k+1]) // more than was asked for is as good
	}
	return out
}

func (b *bound) level(worth int) int { return (max(worth, 0) + b.scale - 1) / b.scale }

// least is what a start comes to at least when the panels from a place on bring so much worth more.
func (b *bound) least(h *head, from, worth int) int64 { return b.at(h, from, b.level(worth)) }

func (b *bound) at(h *head, from, level int) int64 {
	if level >= len(b.free[from]) {
		return never
	}
	return max(h.paid+b.free[from][level], h.shared+b.shares[from][level])
}

// most is the greatest worth that a start may still come to within a limit.
func (b *bound) most(h *head, from int, limit int64) int {
	low, high := 0, len(b.free[from])-1
	for low < high {
		if mid := (low + high + 1) / 2; b.at(h, from, mid) <= limit {
			low = mid
		} else {
			high = mid - 1
		}
	}
	return h.worth + low*b.scale
}

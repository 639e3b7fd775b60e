package gen

import (
	"fmt"
	"math/rand/v2"
)

// Parted is the conditions of a table that answers every input exactly once: the
// numbers g.f0 and g.f1 are parted into n pieces, again and again at a random place.
// Two conditions more are for the numbers that are missing.
func Parted(n int) []string {
	r := rand.New(rand.NewPCG(1, uint64(n)))
	type piece struct{ lo, hi [2]int } // in steps of their facts
	pieces := []piece{{hi: [2]int{400, 200}}}
	for len(pieces) < n {
		i := r.IntN(len(pieces))
		p := pieces[i]
		axis := 0
		if p.hi[1]-p.lo[1] > (p.hi[0]-p.lo[0])/2 {
			axis = 1
		}
		if p.hi[axis]-p.lo[axis] < 1 {
			continue
		}
		at := p.lo[axis] + r.IntN(p.hi[axis]-p.lo[axis])
		q := p
		p.hi[axis], q.lo[axis] = at, at+1
		pieces[i] = p
		pieces = append(pieces, q)
	}
	out := make([]string, 0, n+2)
	for _, p := range pieces {
		out = append(out, fmt.Sprintf("g.f0 in %v..%v && g.f1 in %d..%d", float64(p.lo[0])/2, float64(p.hi[0])/2, p.lo[1], p.hi[1]))
	}
	return append(out, "not known(g.f0)", "known(g.f0) && not known(g.f1)")
}

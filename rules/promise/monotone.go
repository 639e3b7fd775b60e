package promise

import (
	"slices"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/cond"
	"github.com/glossladder/glossladder/rules/internal/region"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// pair asks a table twice: with a lower and with a higher value of one fact, all
// else equal. The higher value has an axis of its own behind the facts.
type pair struct {
	*verifier
	rt     *resultTable
	axis   int32
	boxes  []space.Box // of the lower, then of the higher
	higher int32       // the first box of the higher

	at    int  // the field among the table's axes; -1 for keeps
	falls bool // falling breaks it, else rising does
	keeps []bool

	notch bool  // the higher is the very next value
	most  int32 // under notch: the places that the result may move
}

// twice settles the promises that compare what a table says to two inputs.
func (v *verifier) twice(out *Verdict) {
	p, ok := v.pair()
	if !ok {
		return
	}
	for copied := range 2 {
		for i := range p.rt.geometry.Boxes {
			b := p.rt.geometry.Boxes[i]
			if copied == 1 {
				b.Dims = slices.Clone(b.Dims)
				for k := range b.Dims {
					if b.Dims[k].Axis == p.axis {
						b.Dims[k].Axis = v.facts
					}
				}
			}
			p.boxes = append(p.boxes, b)
		}
	}
	p.higher = int32(len(p.rt.geometry.Boxes))
	axes := append(slices.Clone(v.axes[:v.facts]), v.axes[p.axis])
	within := region.Whole(axes)
	within[p.axis].Missing, within[v.facts].Missing = false, false
	s := region.Search{
		Axes: axes, Boxes: p.boxes, Within: within, Budget: v.budget, Judge: p.judge, Breaks: p.breaks,
		Also: p.also,
	}
	answer := s.Run()
	out.Steps = answer.Steps
	switch answer.Outcome {
	case region.Proved:
		out.Outcome = Kept
	case region.Refuted:
		out.Outcome, out.Example = Broken, p.say(answer.Point)
	}
}

// also is a point of a part at which the higher value is above the lower one.
func (p *pair) also(part region.Region) []int32 {
	codes := part.Point()
	codes[p.facts] = part[p.facts].Last()
	if p.notch {
		codes[p.axis], _ = neighbours(&part[p.axis], &part[p.facts])
		codes[p.facts] = codes[p.axis] + 1
	}
	return codes
}

// pair reads a monotone or a step promise; ok is false after a complaint.
func (v *verifier) pair() (p pair, ok bool) {
	p = pair{
		verifier: v, at: -1, falls: v.promise.NeverFalls != "",
		notch: v.promise.Kind == Step, most: int32(v.promise.AtMost),
	}
	axis, found := v.space.Find(v.promise.Rises)
	if !found || axis >= v.facts {
		v.complain(v.promise.Rises+" is not a fact", "")
		return p, false
	}
	p.axis = axis
	if a := &v.axes[axis]; a.Kind == space.Word && !a.Ordered {
		v.complain(v.promise.Rises+" has no order", "name a number or an ordered word")
		return p, false
	}
	if v.promise.Keeps != "" {
		ok = v.keeps(&p)
		return p, ok
	}
	name := v.promise.NeverFalls + v.promise.NeverRises + v.promise.Moves
	p.rt, p.at, ok = v.result(name)
	if !ok {
		v.complain(name+" is no result of one value", "write table.field")
		return p, false
	}
	v.names = []int32{p.rt.axes[p.at]}
	if a := &v.axes[v.names[0]]; a.Kind == space.Word && !a.Ordered || p.rt.table.Hit() == "collect" {
		hint := "use keeps for what a table collects"
		if p.notch {
			hint = "name an ordered word or a number that one rule answers"
		}
		v.complain(name+" has no order", hint)
		return p, false
	}
	return p, true
}

// keeps reads a condition on one table's results and marks the rules that meet it.
func (v *verifier) keeps(p *pair) bool {
	c, clauses, ok := v.compile(v.promise.Keeps, false)
	if !ok {
		return false
	}
	tables := v.asked(&c)
	if len(tables) != 1 || c.Reads[0] < v.facts {
		v.complain("keeps is about the results of one table", "")
		return false
	}
	p.rt = tables[0]
	p.keeps = v.meeting(p.rt, &c, clauses)
	return true
}

// meeting marks the rules whose result meets a condition.
func (v *verifier) meeting(rt *resultTable, c *cond.Condition, clauses *cond.Clauses) []bool {
	out := make([]bool, len(rt.codes))
	codes := make([]int32, len(v.axes))
	for i := range codes {
		codes[i] = space.Missing
	}
	for r := range rt.codes {
		for i, a := range rt.axes {
			codes[a] = rt.codes[r][i]
		}
		out[r] = v.holds(c, clauses, codes)
	}
	return out
}

func (p *pair) judge(part region.Region, in, open []int32) (region.Verdict, []int32) {
	low, high := &part[p.axis], &part[p.facts]
	if low.First() >= high.Last() { // nowhere is the one below the other
		return region.Safe, nil
	}
	if _, next := neighbours(low, high); p.notch && !next {
		return region.Safe, nil
	}
	if p.keeps != nil {
		return p.judgeKeeps(in, open)
	}
	a, b := p.rt.candidates(0, in, open), p.rt.candidates(p.higher, in, open)
	low1, high1, any1 := p.ranks(&a)
	low2, high2, any2 := p.ranks(&b)
	live := append(slices.Clone(a.open), b.open...)
	if p.notch {
		sure := !a.none && !b.none && len(live) == 0
		return p.judgeNotch(any1 && any2, sure, max(high1-low2, high2-low1), max(low1-high2, low2-high1)), live
	}
	if !p.falls { // the same with the order turned round
		low1, high1, low2, high2 = -high1, -low1, -high2, -low2
	}
	switch {
	case !any1 || !any2 || high1 <= low2:
		return region.Safe, nil
	case low1 > high2 && !a.none && !b.none && len(live) == 0:
		return region.Broken, nil
	}
	return region.Split, live
}

// ranks are the least and greatest result that candidates give.
func (p *pair) ranks(c *candidates) (least, most int32, given bool) {
	for _, r := range c.rules {
		k := p.rt.codes[r][p.at]
		if k == space.Missing {
			continue
		}
		if !given {
			least, most, given = k, k, true
		}
		least, most = min(least, k), max(most, k)
	}
	return least, most, given
}

func (p *pair) judgeKeeps(in, open []int32) (region.Verdict, []int32) {
	var live []int32
	var sure, may [2]bool
	for i, list := range [2][]int32{in, open} {
		for _, b := range list {
			side := 0
			if b >= p.higher {
				side = 1
			}
			if !p.keeps[p.rt.geometry.Owner[b-int32(side)*p.higher]] {
				continue
			}
			may[side] = true
			if i == 0 {
				sure[side] = true
			} else {
				live = append(live, b)
			}
		}
	}
	switch {
	case !may[0], sure[1]:
		return region.Safe, nil
	case sure[0] && !may[1]:
		return region.Broken, nil
	}
	return region.Split, live
}

// breaks asks the table for real.
func (p *pair) breaks(codes []int32) bool {
	if codes[p.axis] >= codes[p.facts] || codes[p.axis] < 0 {
		return false
	}
	if p.notch && codes[p.facts] != codes[p.axis]+1 {
		return false
	}
	low, lowHas := p.ask(codes)
	up := slices.Clone(codes)
	up[p.axis] = codes[p.facts]
	high, highHas := p.ask(up)
	switch {
	case p.keeps != nil:
		return lowHas && !highHas
	case !lowHas || !highHas:
		return false
	case p.notch:
		return max(low-high, high-low) > p.most
	case p.falls:
		return low > high
	}
	return low < high
}

// ask is the rank of what the table answers, or whether a rule that keeps holds.
func (p *pair) ask(codes []int32) (rank int32, has bool) {
	p.rt.table.Decide(p.set.Schema().InputAt(codes[:p.facts]), &p.d)
	if p.keeps != nil {
		return 0, slices.ContainsFunc(p.d.Winners, func(r int32) bool { return p.keeps[r] })
	}
	if len(p.d.Winners) == 0 {
		return 0, false
	}
	rank = p.rt.codes[p.d.Winners[0]][p.at]
	return rank, rank != space.Missing
}

// say tells both inputs and what the table answers for each.
func (p *pair) say(point []int32) string {
	higher := point[p.facts]
	breaks := func(facts []int32) bool { return p.breaks(append(slices.Clone(facts), higher)) }
	var tables []*resultTable
	if p.keeps == nil {
		tables = []*resultTable{p.rt}
	}
	text, codes := p.verifier.say(point, p.rt.geometry.Boxes, tables, []int32{p.axis}, breaks)
	codes[p.axis] = higher
	up := p.set.Schema().InputAt(codes)
	text += ", and at " + up.Value(rules.FactID(p.axis))
	if p.keeps != nil {
		return text + " no rule of " + p.rt.table.Name() + " gives " + p.promise.Keeps + " any more"
	}
	return text + ": " + p.answers(p.rt, up)
}

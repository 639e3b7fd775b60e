package promise

import (
	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// candidates are the rules that may answer somewhere in a part of the space.
type candidates struct {
	rules []int32
	none  bool    // it may be that no rule answers
	open  []int32 // boxes, as the search numbers them, that are still to be settled
}

// candidates reads them off the boxes of a table, which the search numbers from
// offset on. In and open are rising.
func (rt *resultTable) candidates(offset int32, in, open []int32) candidates {
	end := offset + int32(len(rt.geometry.Boxes))
	hit := rt.table.Hit()
	one := hit == rules.First || hit == rules.Priority
	c := candidates{none: true}
	stop := end
	var sure []int32
	for _, b := range in {
		if b < offset || b >= end {
			continue
		}
		c.none = false
		sure = append(sure, rt.geometry.Owner[b-offset])
		if one {
			stop = b
			break
		}
	}
	for _, b := range open {
		if b >= offset && b < stop {
			c.rules = append(c.rules, rt.geometry.Owner[b-offset])
			c.open = append(c.open, b)
		}
	}
	c.rules = append(c.rules, sure...)
	if !one {
		c.quarrel(rt, sure)
	}
	return c
}

// quarrel is what unique and any make of several rules: no answer.
func (c *candidates) quarrel(rt *resultTable, sure []int32) {
	unlike := func(rs []int32) bool {
		for _, r := range rs {
			if r != rs[0] && (rt.table.Hit() == rules.Unique || rt.geometry.Class[r] != rt.geometry.Class[rs[0]]) {
				return true
			}
		}
		return false
	}
	switch {
	case unlike(sure):
		c.rules, c.open, c.none = nil, nil, true
	case unlike(c.rules):
		c.none = true
	}
}

// fit says whether some candidate, or every one, gives what a box of a
// condition asks of the results of the table.
func (c *candidates) fit(rt *resultTable, b *space.Box) (some, every bool) {
	every = true
	ask := func(code func(at int) int32) {
		good := true
		for at, axis := range rt.axes {
			if d := b.Dim(axis); d != nil && d.Truth(code(at)) != space.True {
				good = false
			}
		}
		some, every = some || good, every && good
	}
	for _, r := range c.rules {
		ask(func(at int) int32 { return rt.codes[r][at] })
	}
	if c.none {
		ask(func(int) int32 { return space.Missing })
	}
	return some, every
}

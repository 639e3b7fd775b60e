package check

import (
	"encoding/binary"
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/example"
	"github.com/glossladder/glossladder/rules/internal/region"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// side is a rule of one box, seen along one axis: rules that agree in all else can be
// one rule where their values join.
type side struct {
	rule, box int32
	dim       *space.Dim
}

// mergeable looks for rules with the same answer and the same reason that one rule
// could say, with no answer changed. Two reasons are two rules: people read them.
func (c *checker) mergeable() {
	groups := map[string][]side{}
	var order []string
	var key []byte
	for r := range c.t.Rules() {
		if len(c.boxesOf[r]) != 1 {
			continue
		}
		b := c.boxesOf[r][0]
		box := &c.geometry.Boxes[b]
		for i := range box.Dims {
			d := &box.Dims[i]
			key = binary.AppendVarint(key[:0], int64(c.geometry.Class[r]))
			key = binary.AppendVarint(key, int64(d.Axis))
			key = appendBox(key, box, d.Axis)
			if _, ok := groups[string(key)]; !ok {
				order = append(order, string(key))
			}
			groups[string(key)] = append(groups[string(key)], side{int32(r), b, d})
		}
	}
	before := len(c.found)
	for _, k := range order {
		if len(groups[k]) > 1 {
			c.runs(groups[k])
		}
	}
	c.shorten(before, Mergeable, "groups of rules could be one rule each")
}

// runs parts the sides of one axis into runs whose values join, and tells of each.
func (c *checker) runs(sides []side) {
	byReason := map[string][]side{}
	var reasons []string
	for _, s := range sides {
		reason := strings.Join(strings.Fields(c.rule(s.rule).Because), " ")
		if byReason[reason] == nil {
			reasons = append(reasons, reason)
		}
		byReason[reason] = append(byReason[reason], s)
	}
	for _, reason := range reasons {
		run := byReason[reason]
		slices.SortStableFunc(run, func(a, b side) int { return int(a.dim.Lo) - int(b.dim.Lo) })
		for len(run) > 1 {
			n := joined(run)
			c.tellRun(run[:n])
			run = run[n:]
		}
	}
}

// joined is how many sides from the first one on have values that join.
func joined(run []side) int {
	n, hi := 1, run[0].dim.Hi
	for ; n < len(run); n++ {
		d := run[n].dim
		if d.Mask == 0 && d.Lo <= d.Hi && run[0].dim.Lo <= run[0].dim.Hi && d.Lo > hi+1 {
			break
		}
		hi = max(hi, d.Hi)
	}
	return n
}

// tellRun tells of a run, or of neighbours in it, that one rule could say.
func (c *checker) tellRun(run []side) {
	switch {
	case len(run) < 2:
	case c.safe(run):
		c.merge(run)
	case len(run) > 2:
		for i := range run[1:] {
			c.tellRun(run[i : i+2])
		}
	}
}

// safe says whether one rule in the place of the first or of the last of a run leaves
// every answer as it is.
func (c *checker) safe(run []side) bool {
	hit := c.t.Hit()
	if hit == rules.Collect {
		for i := range run {
			for j := range run[:i] {
				if region.Together(&c.geometry.Boxes[run[i].box], &c.geometry.Boxes[run[j].box]) {
					return false // now it answers twice
				}
			}
		}
	}
	if hit == rules.Unique || hit == rules.Any {
		return true
	}
	return c.moves(run, true) || c.moves(run, false)
}

// moves says whether the boxes of a run can all move to the first of them, or to the
// last, past nothing that they meet and that answers otherwise.
func (c *checker) moves(run []side, up bool) bool {
	from, to := run[0].box, run[0].box
	for _, s := range run {
		from, to = min(from, s.box), max(to, s.box)
	}
	for _, s := range run {
		if c.blocked(run, s, up, from, to) {
			return false
		}
	}
	return true
}

// blocked says whether something stands in the way of a side of a run that moves to
// the first box of it, or to the last.
func (c *checker) blocked(run []side, s side, up bool, from, to int32) bool {
	c.row = c.meetings.With(&c.geometry.Boxes[s.box], c.row)
	for e := range region.Bits(c.row) {
		between := up && from < e && e < s.box || !up && s.box < e && e < to
		other := c.geometry.Class[c.geometry.Owner[e]] != c.geometry.Class[s.rule] || c.t.Hit() == rules.Collect
		if between && other && !slices.ContainsFunc(run, func(o side) bool { return o.box == e }) {
			return true
		}
	}
	return false
}

func (c *checker) merge(run []side) {
	a := &c.geometry.Axes[run[0].dim.Axis]
	all := region.Cell{Lo: 1}
	var names, olds []string
	var rs []int32
	slices.SortFunc(run, func(a, b side) int { return int(a.rule - b.rule) })
	for _, s := range run {
		cell := region.Cell{Lo: s.dim.Lo, Hi: s.dim.Hi, Mask: s.dim.Mask, Missing: s.dim.Missing == space.True}
		switch {
		case cell.Lo > cell.Hi:
		case all.Lo > all.Hi:
			all.Lo, all.Hi = cell.Lo, cell.Hi
		default:
			all.Lo, all.Hi = min(all.Lo, cell.Lo), max(all.Hi, cell.Hi)
		}
		all.Mask, all.Missing = all.Mask|cell.Mask, all.Missing || cell.Missing
		names, olds, rs = append(names, c.rule(s.rule).ID), append(olds, example.Clause(a, &cell)), append(rs, s.rule)
	}
	one := example.Clause(a, &all)
	if all.Whole(a) {
		one = "nothing about " + a.Name
	}
	c.add(Finding{
		Code: Mergeable, Level: Advice, Places: c.places(rs), Subject: strings.Join(names, " "),
		Message: list(names) + " give the same for the same reason and could be one rule",
		Effect:  "none; one rule has one place to edit", Mend: "ask for " + one + " in place of " + list(olds),
	})
}

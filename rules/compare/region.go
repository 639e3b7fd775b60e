package compare

import (
	"slices"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/cond"
	"github.com/glossladder/glossladder/rules/internal/region"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// Region is a block of input in which the two tables say different things, the same
// two things throughout. What rules hold that come first is no part of it.
type Region struct {
	// Share is the size of the region as a share of all input, where a fact is not
	// known in half of the input and evenly spread over its values in the other half,
	// and a clause is false, unknown and true in equal parts. What rules that come first
	// take of it is estimated.
	Share float64
	// Direction is that of the step from A's answer to B's.
	Direction Direction
	// Certain says that some input lies in the region. It is false where clauses bound
	// the region and no input was found at which they come out so.
	Certain bool
	// A and B are what the tables say. Under collect they are what only A says and what
	// only B says, and either may be empty.
	A, B Answer

	finding finding
	joint   *joint
}

// Answer is what a table says.
type Answer struct {
	Outcome rules.Outcome
	Results []rules.Result // one, or under collect any number
}

func (f *finder) region(found finding) Region {
	out := Region{Share: f.size(&found), Certain: found.point != nil, finding: found, joint: f.joint}
	out.A, out.B = f.answer(found.says[0]), f.answer(found.says[1])
	out.Direction = f.direction(&out)
	return out
}

func (j *joint) answer(s said) Answer {
	out := Answer{Outcome: s.outcome}
	for _, c := range s.classes {
		out.Results = append(out.Results, j.results[c])
	}
	return out
}

// Contains says whether an input lies in the region. The input must be of the schema of A's table.
func (r *Region) Contains(in *rules.Input) bool {
	var p prober
	return r.joint.contains(&r.finding, in.Codes(), &p)
}

// prober is the room to ask clauses of one input after another.
type prober struct{ memos map[*cond.Clauses]*cond.Memo }

// contains says whether an input lies in a finding.
func (j *joint) contains(f *finding, codes []int32, p *prober) bool {
	return j.has(f.cells, codes, p) && !slices.ContainsFunc(f.except, func(b int32) bool { return j.in(b, codes, p) })
}

// in says whether an input lies in a box.
func (j *joint) in(b int32, codes []int32, p *prober) bool {
	for _, d := range j.boxes[b].Dims {
		var truth space.Truth
		if d.Axis < j.facts {
			truth = d.Truth(codes[d.Axis])
		} else {
			truth = d.Truth(int32(j.truth(int(d.Axis-j.facts), codes, p)))
		}
		if truth != space.True {
			return false
		}
	}
	return true
}

// has says whether an input lies in a block.
func (j *joint) has(cells region.Region, codes []int32, p *prober) bool {
	for a, code := range codes {
		if !holds(&cells[a], code) {
			return false
		}
	}
	for i := range j.clauses {
		if cell := &cells[int(j.facts)+i]; cell.Mask != 1<<clauseValues-1 && !holds(cell, int32(j.truth(i, codes, p))) {
			return false
		}
	}
	return true
}

func holds(c *region.Cell, code int32) bool {
	switch {
	case code == space.Missing:
		return c.Missing
	case c.Mask != 0:
		return c.Mask>>code&1 == 1
	}
	return c.Lo <= code && code <= c.Hi
}

func (j *joint) truth(i int, codes []int32, p *prober) space.Truth {
	c := &j.clauses[i]
	if p.memos == nil {
		p.memos = map[*cond.Clauses]*cond.Memo{}
	}
	memo := p.memos[c.from]
	if memo == nil {
		memo = &cond.Memo{}
		p.memos[c.from] = memo
	}
	memo.Reset(c.from)
	return c.from.Truth(c.at, codes, memo)
}

package compare

import (
	"slices"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/example"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// Example is one input of a region and what the two tables say to it.
type Example struct {
	// Words name the facts that matter: with other values the answers would not differ so.
	Words string
	// Input is the input as the two tables take it, all that does not matter missing.
	Input *rules.Input
	// A and B are the rules that give the answers, or that are in conflict. Under
	// collect they are those that say what only one of the tables says.
	A, B []rules.Rule
}

// Example makes the smallest input of the region that it finds; ok is false when none is known.
func (r *Region) Example() (out Example, ok bool) {
	if r.finding.point == nil {
		return Example{}, false
	}
	j := r.joint
	t := teller{joint: j}
	inside := func(codes []int32) bool { return j.contains(&r.finding, codes, &t.room) }
	alike := func(codes []int32) bool { return t.differ(codes, &r.finding) }
	boxes := r.near()
	small, matter := example.Smallest(j.axes[:j.facts], boxes, r.finding.point, nil, alike)
	if !inside(small) { // it became an example of another region
		small, matter = example.Smallest(j.axes[:j.facts], boxes, r.finding.point, nil, inside)
	}
	out.Input = j.tables[0].Schema().InputAt(small)
	out.Words = example.Words(out.Input, matter)
	out.A, out.B = t.rules(0, small, &r.finding), t.rules(1, small, &r.finding)
	return out, true
}

// near are the boxes that have to do with the region, as far as they ask for facts.
func (r *Region) near() []space.Box {
	j := r.joint
	var out []space.Box
	for b := range j.boxes {
		if r.finding.cells.Meets(&j.boxes[b]) || j.differs[b] {
			facts := func(d space.Dim) bool { return d.Axis >= j.facts }
			out = append(out, space.Box{Dims: slices.DeleteFunc(slices.Clone(j.boxes[b].Dims), facts)})
		}
	}
	return out
}

// teller asks the tables themselves.
type teller struct {
	*joint
	room     prober
	decision rules.Decision
}

// differ says whether the tables answer an input in the two ways of a finding.
func (t *teller) differ(codes []int32, f *finding) bool {
	says := [2]said{t.says(0, codes), t.says(1, codes)}
	if t.hit[0] == rules.Collect && t.hit[1] == rules.Collect {
		says[0].classes, says[1].classes = without(says[0].classes, says[1].classes), without(says[1].classes, says[0].classes)
		return slices.Equal(says[0].classes, f.says[0].classes) && slices.Equal(says[1].classes, f.says[1].classes)
	}
	return says[0].equal(f.says[0]) && says[1].equal(f.says[1])
}

// says is what a table answers.
func (t *teller) says(side int, codes []int32) said {
	table := t.tables[side]
	table.Answer(table.Schema().InputAt(codes), &t.decision)
	out := said{outcome: t.decision.Outcome}
	if out.outcome == rules.NoRule || out.outcome == rules.Conflict {
		return out
	}
	for _, w := range t.decision.Winners {
		out.classes = append(out.classes, t.ofRule[side][w])
	}
	slices.Sort(out.classes)
	out.classes = slices.Compact(out.classes)
	return out
}

// rules are those that answer, as far as the finding speaks of their answers.
func (t *teller) rules(side int, codes []int32, f *finding) []rules.Rule {
	table := t.tables[side]
	table.Answer(table.Schema().InputAt(codes), &t.decision)
	var out []rules.Rule
	for _, c := range t.decision.Conflict {
		out = append(out, table.Rules()[c])
	}
	for _, w := range t.decision.Winners {
		if slices.Contains(f.says[side].classes, t.ofRule[side][w]) {
			out = append(out, table.Rules()[w])
		}
	}
	return out
}

func without(a, b []int32) []int32 {
	return slices.DeleteFunc(slices.Clone(a), func(c int32) bool { return slices.Contains(b, c) })
}

package cases

import (
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/example"
)

// Suggestion is a worked case that could be written: an input with what the table
// answers to it as it is.
type Suggestion struct {
	Table  string
	Name   string // the facts that matter, in words
	Given  *rules.Input
	Rules  []string // that answer; none: no rule does
	Many   bool     // the table collects, so the case names all of them
	Then   string   // part of the answer, as the file writes it; empty when not said
	Misses []string
}

// Expect is the case that holds a table to what it answers to an input now. The facts
// that matter give it its name. Of a long result it names the fields in which the
// nearest rule with another result differs.
func Expect(t *rules.Table, in *rules.Input, matter []rules.FactID) Suggestion {
	var d rules.Decision
	t.Decide(in, &d)
	s := Suggestion{Table: t.Name(), Given: in.Clone(), Rules: ids(t, d.Winners), Many: t.Hit() == rules.Collect, Name: inWords(in, matter)}
	if len(d.Winners) > 0 && !s.Many {
		winner := int(d.Winners[0])
		s.Tell(t, winner, telling(t, winner, Neighbour(t, winner)))
	}
	return s
}

// Tell makes the case name fields of the result of one rule, by its place.
func (s *Suggestion) Tell(t *rules.Table, rule int, fields []string) {
	r := t.Rules()[rule].Result
	var parts []string
	for _, f := range r.Fields() {
		if slices.Contains(fields, f.Field.Name) {
			parts = append(parts, f.Field.Name+": "+fieldText(r, f))
		}
	}
	s.Then = "{" + strings.Join(parts, ", ") + "}"
}

// Neighbour is the place of the nearest rule that answers something else than a rule
// does: the next such one in the file, or from its start; -1 when all answer the same.
func Neighbour(t *rules.Table, rule int) int {
	all := t.Rules()
	for k := 1; k < len(all); k++ {
		if o := (rule + k) % len(all); !all[o].Result.Equal(all[rule].Result) {
			return o
		}
	}
	return -1
}

// maxTelling is how many fields of a result a case names, as a rule.
const maxTelling = 3

// telling are the fields of a rule's result that another rule's result has not, at
// most a few.
func telling(t *rules.Table, rule, other int) []string {
	var out []string
	for _, f := range t.Rules()[rule].Result.Fields() {
		if other >= 0 && value(t.Rules()[other].Result, f.Field.Name) == f.Value || len(out) == maxTelling {
			continue
		}
		out = append(out, f.Field.Name)
	}
	return out
}

// inWords tells the facts that matter: "defect wash-marks, severity 2".
func inWords(in *rules.Input, matter []rules.FactID) string {
	axes := make([]int32, len(matter))
	for i, id := range matter {
		axes[i] = int32(id)
	}
	return example.Words(in, axes)
}

// knownFacts are the facts that an input gives.
func knownFacts(in *rules.Input) []rules.FactID {
	var out []rules.FactID
	for i := range in.Schema().Facts() {
		if in.Known(rules.FactID(i)) {
			out = append(out, rules.FactID(i))
		}
	}
	return out
}

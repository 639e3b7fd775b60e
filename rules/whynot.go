package rules

import (
	"fmt"
	"math"

	"github.com/glossladder/glossladder/rules/internal/index"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// Refusal says why a rule did not give the answer.
type Refusal struct {
	Rule    string
	File    string
	Line    int
	Because string
	Result  Result

	// Holds says that the rule's condition is true all the same: then another rule
	// was preferred by the hit policy (Preferred), or it is one of the winners.
	Holds     bool
	Won       bool
	Preferred string

	// Failed are the things that keep the condition from holding, of the line of
	// the condition that needs the fewest changes.
	Failed []Failure
	// Waiting are the missing facts that keep it undecided, of the same line.
	Waiting []FactID
	Text    string // the whole in one line
}

// Failure is one thing that a rule asked and did not get.
type Failure struct {
	Fact FactID // -1 when it is no bound on a single fact
	// Off is how far a number lies from what would do, in the fact's unit; for an
	// ordered word the number of words; 0 for the rest.
	Off float64
	// Short says that a number lies below what would do.
	Short bool
	Now   string // its value in words; empty when it is no bound on a single fact
	Must  string // what would do, in words: "at least 30 µm"
	Text  string
}

// WhyNot says why a rule, given by its place in Rules, is not the answer.
func (t *Table) WhyNot(in *Input, rule int) Refusal {
	r := &t.rules[rule]
	out := Refusal{Rule: r.ID, File: r.File, Line: r.Line, Because: r.Because, Result: r.Result}
	var d Decision
	t.Decide(in, &d)
	best := t.closest(int32(rule), in, &d.scratch)
	switch {
	case best < 0:
		out.Text = "its condition can never be true"
	case t.index.Truth(best, in.codes, &d.scratch) == space.True:
		t.preferred(int32(rule), &d, &out)
	default:
		t.failures(best, in, &d.scratch, &out)
	}
	return out
}

// preferred explains a rule that holds.
func (t *Table) preferred(rule int32, d *Decision, out *Refusal) {
	out.Holds = true
	for _, w := range d.Winners {
		out.Won = out.Won || w == rule
	}
	switch {
	case out.Won:
		out.Text = "it is the answer"
	case d.Outcome == Conflict:
		out.Text = "it holds, and so does another rule, which table " + t.name + " does not allow"
	default:
		w := &t.rules[d.Winners[0]]
		out.Preferred = w.ID
		why := "stands earlier"
		if t.hit == Priority && w.Result.strength() != out.Result.strength() {
			why = "has the stronger result"
		}
		out.Text = fmt.Sprintf("it holds, but %s (%s) %s", w.ID, place(w), why)
	}
}

// closest is the box of a rule that fails on the fewest things, waiting counting
// half; -1 when the rule has no box.
func (t *Table) closest(rule int32, in *Input, sc *index.Scratch) int32 {
	best, fewest := int32(-1), math.MaxInt
	for b := t.boxes[rule][0]; b < t.boxes[rule][1]; b++ {
		box := &t.index.Boxes()[b]
		n := 0
		for i := range box.Dims {
			n += 2 - int(box.Dims[i].Truth(in.codes[box.Dims[i].Axis]))
		}
		for _, l := range box.Literals {
			n += 2 - int(t.literal(l, in, sc))
		}
		if n < fewest {
			best, fewest = b, n
		}
	}
	return best
}

func (t *Table) literal(l space.Literal, in *Input, sc *index.Scratch) space.Truth {
	v := t.index.Clause(l.Clause, in.codes, sc)
	if !l.Want {
		v = v.Not()
	}
	return v
}

func (t *Table) failures(b int32, in *Input, sc *index.Scratch, out *Refusal) {
	box := &t.index.Boxes()[b]
	for i := range box.Dims {
		d := &box.Dims[i]
		code := in.codes[d.Axis]
		switch d.Truth(code) {
		case space.False:
			id := FactID(d.Axis)
			out.Failed = append(out.Failed, Failure{
				Fact: id, Off: t.distance(d, code), Short: code < d.Lo && d.Mask == 0, Now: t.schema.value(id, code), Must: t.schema.boundSeen(d, code), Text: t.failure(d, code),
			})
		case space.Unknown:
			out.Waiting = appendOnce(out.Waiting, FactID(d.Axis))
		}
	}
	for _, l := range box.Literals {
		clause := t.index.Clauses().At(l.Clause)
		switch t.literal(l, in, sc) {
		case space.False:
			out.Failed = append(out.Failed, Failure{Fact: -1, Text: "it must be that " + clause.Says(l.Want)})
		case space.Unknown:
			t.unanswered(clause.Reads, clause.Text, in, out)
		}
	}
	for i, f := range out.Failed {
		if i > 0 {
			out.Text += "; "
		}
		out.Text += f.Text
	}
	for _, f := range out.Waiting {
		if out.Text != "" {
			out.Text += "; "
		}
		out.Text += t.schema.label(f) + " is " + t.schema.value(f, space.Missing)
	}
}

// unanswered notes why a clause has no answer.
func (t *Table) unanswered(reads []int32, text string, in *Input, out *Refusal) {
	lacks := false
	for _, a := range reads {
		if in.codes[a] < 0 {
			lacks = true
			out.Waiting = appendOnce(out.Waiting, FactID(a))
		}
	}
	if !lacks {
		out.Failed = append(out.Failed, Failure{Fact: -1, Text: "the arithmetic has no result: " + text})
	}
}

func appendOnce(ids []FactID, id FactID) []FactID {
	for _, i := range ids {
		if i == id {
			return ids
		}
	}
	return append(ids, id)
}

// distance is how far a code is from the nearest one that a dim lets in.
func (t *Table) distance(d *space.Dim, code int32) float64 {
	a := &t.schema.space.Axes[d.Axis]
	switch {
	case code < 0:
		return 0
	case a.Kind == space.Number && d.Lo <= d.Hi:
		if code < d.Lo {
			return a.Grid.Span(code, d.Lo)
		}
		return a.Grid.Span(d.Hi, code)
	case a.Ordered:
		best := math.Inf(1)
		for k := range a.Size() {
			if d.Mask>>k&1 == 1 {
				best = min(best, math.Abs(float64(k-code)))
			}
		}
		return best
	}
	return 0
}

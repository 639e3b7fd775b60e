package rules

import (
	"fmt"
	"math"
	"strings"

	"github.com/glossladder/glossladder/rules/internal/space"
)

// Explanation says in words why a table answered as it did.
type Explanation struct {
	Table   string
	Outcome Outcome
	Winners []RuleReason
	// Conflict are the rules that hold together and must not.
	Conflict []RuleReason
	Waiting  []Waiting
	Near     []NearMiss
}

// RuleReason is a rule that holds, and why.
type RuleReason struct {
	Rule       string // id
	File       string
	Line       int
	Because    string
	Result     Result
	Conditions []ConditionReason
}

// ConditionReason is one thing that a rule asked and got.
type ConditionReason struct {
	Fact   FactID // -1 when it is no bound on a single fact
	Label  string
	Value  string // "38 µm", "soft", "yes", "not measured"
	Bound  string // "at least 30 µm", "soft or medium"
	Margin float64
	Spare  string // "8 µm to spare", "just", or empty
	Text   string // the whole in one line
}

// Waiting is a rule that missing facts keep undecided.
type Waiting struct {
	Rule    string
	File    string
	Line    int
	Because string
	Result  Result
	Facts   []FactID
	Labels  []string
	// Stuck says that arithmetic without a result keeps it undecided as well.
	Stuck bool
	Text  string
}

// NearMiss is a rule that fails on exactly one thing.
type NearMiss struct {
	Rule    string
	File    string
	Line    int
	Because string
	Result  Result
	Fact    FactID // -1 when it is no bound on a single fact
	Text    string // "usable film is 28 µm and must be at least 30 µm (2 µm short)"
}

// Why puts a decision into words. The decision must come from this table and
// this input.
func (t *Table) Why(in *Input, d *Decision) Explanation {
	e := Explanation{Table: t.name, Outcome: d.Outcome}
	e.Winners = t.Reasons(in, d)
	for _, r := range d.Conflict {
		e.Conflict = append(e.Conflict, t.reason(r, in, d))
	}
	for _, p := range d.Pending {
		e.Waiting = append(e.Waiting, t.waiting(p))
	}
	for _, n := range d.Near {
		r := &t.rules[n.Rule]
		m := NearMiss{Rule: r.ID, File: r.File, Line: r.Line, Because: r.Because, Result: r.Result, Fact: n.Fact}
		if n.Fact >= 0 {
			dim := t.index.Boxes()[n.box].Dim(int32(n.Fact))
			m.Text = t.failure(dim, in.codes[n.Fact])
		} else {
			m.Text = "it must be that " + n.Clause
		}
		e.Near = append(e.Near, m)
	}
	return e
}

// Reasons is the part of Why that tells of the winners only.
func (t *Table) Reasons(in *Input, d *Decision) []RuleReason {
	out := make([]RuleReason, len(d.Winners))
	for i, r := range d.Winners {
		out[i] = t.reason(r, in, d)
	}
	return out
}

// reason explains a rule that holds by the first of its boxes that does.
func (t *Table) reason(rule int32, in *Input, d *Decision) RuleReason {
	r := &t.rules[rule]
	out := RuleReason{Rule: r.ID, File: r.File, Line: r.Line, Because: r.Because, Result: r.Result}
	for b := t.boxes[rule][0]; b < t.boxes[rule][1]; b++ {
		if t.index.Truth(b, in.codes, &d.scratch) != space.True {
			continue
		}
		box := &t.index.Boxes()[b]
		out.Conditions = make([]ConditionReason, 0, len(box.Dims)+len(box.Literals))
		for i := range box.Dims {
			out.Conditions = append(out.Conditions, t.condition(&box.Dims[i], in.codes[box.Dims[i].Axis]))
		}
		for _, l := range box.Literals {
			text := t.index.Clauses().At(l.Clause).Says(l.Want)
			out.Conditions = append(out.Conditions, ConditionReason{Fact: -1, Margin: math.Inf(1), Text: text})
		}
		break
	}
	return out
}

func (t *Table) condition(d *space.Dim, code int32) ConditionReason {
	id := FactID(d.Axis)
	s := t.schema
	c := ConditionReason{Fact: id, Label: s.label(id), Value: s.value(id, code), Bound: s.boundSeen(d, code), Margin: t.margin(d, code)}
	c.Spare = s.spare(id, c.Margin)
	c.Text = c.Label + " is " + c.Value
	if code < 0 {
		return c
	}
	if c.Bound != c.Value && c.Bound != "known" {
		c.Text += ", which is " + c.Bound
	}
	if c.Spare != "" && c.Bound != c.Value {
		c.Text += " (" + c.Spare + ")"
	}
	return c
}

func (t *Table) waiting(p Pending) Waiting {
	r := &t.rules[p.Rule]
	w := Waiting{
		Rule: r.ID, File: r.File, Line: r.Line, Because: r.Because, Result: r.Result, Stuck: p.Stuck,
		Facts: append([]FactID(nil), p.Facts...),
	}
	for _, f := range p.Facts {
		w.Labels = append(w.Labels, t.schema.label(f))
	}
	var parts []string
	if len(w.Labels) > 0 {
		parts = append(parts, "waits for "+strings.Join(w.Labels, ", "))
	}
	if p.Stuck {
		parts = append(parts, "its arithmetic has no result here")
	}
	w.Text = strings.Join(parts, "; ")
	return w
}

// failure says how a value misses what a dim asks.
func (t *Table) failure(d *space.Dim, code int32) string {
	id := FactID(d.Axis)
	text := fmt.Sprintf("%s is %s and must be %s", t.schema.label(id), t.schema.value(id, code), t.schema.boundSeen(d, code))
	if off := t.schema.off(d, code); off != "" {
		text += " (" + off + ")"
	}
	return text
}

// String is the explanation as a few plain lines.
func (e Explanation) String() string {
	var b strings.Builder
	for _, w := range e.Winners {
		fmt.Fprintf(&b, "%s: %s\n", e.Table, w.Result)
		w.write(&b, "by rule")
	}
	if e.Outcome == NoRule {
		fmt.Fprintf(&b, "%s: no rule holds\n", e.Table)
	}
	if e.Outcome == Conflict {
		fmt.Fprintf(&b, "%s: rules hold together that must not\n", e.Table)
		for _, w := range e.Conflict {
			w.write(&b, "rule")
		}
	}
	for _, w := range e.Waiting {
		fmt.Fprintf(&b, "  undecided: %s (%s:%d) %s\n", w.Rule, w.File, w.Line, w.Text)
	}
	for _, n := range e.Near {
		fmt.Fprintf(&b, "  just missed: %s (%s:%d) %s\n", n.Rule, n.File, n.Line, n.Text)
	}
	return b.String()
}

func (w *RuleReason) write(b *strings.Builder, lead string) {
	fmt.Fprintf(b, "  %s %s (%s:%d): %s\n", lead, w.Rule, w.File, w.Line, w.Because)
	for _, c := range w.Conditions {
		fmt.Fprintf(b, "    - %s\n", c.Text)
	}
}

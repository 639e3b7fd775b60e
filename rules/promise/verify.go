package promise

import (
	"fmt"
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/cond"
	"github.com/glossladder/glossladder/rules/internal/example"
	"github.com/glossladder/glossladder/rules/internal/region"
	"github.com/glossladder/glossladder/rules/internal/space"
	"github.com/glossladder/glossladder/rules/strictyaml"
)

// Outcome says whether a promise is kept. The zero value is NotDecided.
type Outcome uint8

// The outcomes.
const (
	NotDecided Outcome = iota // the steps ran out, or a clause that is no bound on single facts stands in the way
	Kept                      // proved for every input
	Broken                    // an input breaks it
)

// String names the outcome in words.
func (o Outcome) String() string { return [...]string{"not decided", "kept", "broken"}[min(o, 2)] }

// Verdict is what became of one promise.
type Verdict struct {
	Promise Promise
	Outcome Outcome
	Example string // an input that breaks it and what the tables answer, in words
	Steps   int
}

// DefaultBudget is the number of steps that one promise takes when asked for none.
const DefaultBudget = 100_000

// Verify proves or refutes promises for a set. A budget of 0 is [DefaultBudget]
// steps a promise. Promises that do not fit the set are an error, [rules.Problems].
func Verify(set *rules.Set, promises []Promise, budget int) ([]Verdict, error) {
	if budget <= 0 {
		budget = DefaultBudget
	}
	v := &verifier{results: newResults(set), budget: budget}
	var out []Verdict
	for _, p := range promises {
		v.promise, v.names = p, nil
		verdict := Verdict{Promise: p}
		switch p.Kind {
		case Never, Always, Reachable:
			v.condition(&verdict)
		case Total:
			v.total(&verdict)
		case Monotone, Step:
			v.twice(&verdict)
		case Blind:
			v.blind(&verdict)
		}
		out = append(out, verdict)
	}
	if len(v.problems) > 0 {
		return nil, v.problems
	}
	return out, nil
}

// Refusals are the safety promises among verdicts that are not kept, as problems of
// the set that breaks them; nil when all are kept.
func Refusals(verdicts []Verdict) rules.Problems {
	var out rules.Problems
	for _, v := range verdicts {
		if v.Promise.Safety && v.Outcome != Kept {
			out = append(out, v.Problem())
		}
	}
	return out
}

// Problem is a promise that is not kept as a problem of the set.
func (v Verdict) Problem() rules.Problem {
	kind := "promise"
	if v.Promise.Safety {
		kind = "safety promise"
	}
	message := kind + " " + v.Promise.ID + " is broken: " + v.Example
	if v.Outcome == NotDecided {
		message = fmt.Sprintf("%s %s is not proved after %d steps", kind, v.Promise.ID, v.Steps)
	}
	return rules.Problem{
		File: v.Promise.File, Line: v.Promise.Line, Col: v.Promise.Col, Rule: v.Promise.ID,
		Message: message, Hint: strings.TrimSuffix(v.Promise.Because, "."),
	}
}

type verifier struct {
	*results
	budget   int
	promise  Promise
	names    []int32 // the axes that the promise names
	problems rules.Problems
}

func (v *verifier) complain(message, hint string) {
	v.complainAt(v.promise.at.Pos(), message, hint)
}

func (v *verifier) complainAt(pos strictyaml.Pos, message, hint string) {
	v.problems = append(v.problems, rules.Problem{
		File: v.promise.File, Line: pos.Line, Col: pos.Col, Rule: v.promise.ID, Message: message, Hint: hint,
	})
}

// compile compiles a condition over facts and results; ok is false after a complaint.
func (v *verifier) compile(src string, within bool) (c cond.Condition, clauses *cond.Clauses, ok bool) {
	compiler := cond.NewCompiler(v.space)
	c, mistakes := compiler.Compile(src)
	for _, m := range mistakes {
		pos := v.promise.at.Pos()
		if within {
			pos = v.promise.at.PosOf(m.At)
		}
		v.complainAt(pos, m.Message, m.Hint)
	}
	return c, compiler.Clauses(), len(mistakes) == 0
}

// asked are the tables whose results a condition names.
func (v *verifier) asked(c *cond.Condition) []*resultTable {
	var out []*resultTable
	for _, a := range c.Reads {
		if a >= v.facts && !slices.Contains(out, v.tables[v.owner[a-v.facts]]) {
			out = append(out, v.tables[v.owner[a-v.facts]])
		}
	}
	return out
}

// condition settles never, always and reachable: it looks for an input at which the
// condition holds, or, for always, does not.
func (v *verifier) condition(out *Verdict) {
	c, clauses, ok := v.compile(v.promise.Says, true)
	if !ok {
		return
	}
	v.names = c.Reads
	q := question{verifier: v, condition: c, wanted: v.promise.Kind != Always, tables: v.asked(&c)}
	for _, rt := range q.tables {
		if rt.table.Hit() == rules.Collect {
			v.complain("table "+rt.table.Name()+" collects, so it has no single answer", "say it as monotone with keeps, or as a worked case")
			return
		}
	}
	breaks := func(facts []int32) bool { return v.holds(&c, clauses, v.fill(facts)) == q.wanted }
	answer := q.search(breaks)
	out.Steps = answer.Steps
	switch {
	case v.promise.Kind == Reachable && answer.Outcome == region.Refuted:
		out.Outcome = Kept
	case v.promise.Kind == Reachable && answer.Outcome == region.Proved:
		out.Outcome, out.Example = Broken, "no input makes "+v.promise.Says+" true"
	case answer.Outcome == region.Proved:
		out.Outcome = Kept
	case answer.Outcome == region.Refuted:
		out.Outcome = Broken
		out.Example, _ = v.say(answer.Point, q.boxes, q.tables, nil, breaks)
	}
}

// total looks for an input that a table does not answer.
func (v *verifier) total(out *Verdict) {
	i := slices.IndexFunc(v.tables, func(rt *resultTable) bool { return rt.table.Name() == v.promise.Says })
	if i < 0 {
		v.complain("there is no table "+v.promise.Says, "")
		return
	}
	rt := v.tables[i]
	q := question{verifier: v, condition: cond.Condition{}, wanted: true, tables: []*resultTable{rt}, total: true}
	breaks := func(facts []int32) bool {
		rt.table.Decide(v.set.Schema().InputAt(facts[:v.facts]), &v.d)
		return v.d.Outcome != rules.Answered
	}
	answer := q.search(breaks)
	out.Steps = answer.Steps
	switch answer.Outcome {
	case region.Proved:
		out.Outcome = Kept
	case region.Refuted:
		out.Outcome = Broken
		out.Example, _ = v.say(answer.Point, q.boxes, q.tables, nil, breaks)
	}
}

// say tells an input, made as small as it gets, and what the tables answer for it.
func (v *verifier) say(point []int32, boxes []space.Box, tables []*resultTable, keep []int32, breaks func([]int32) bool) (text string, smallest []int32) {
	facts := v.axes[:v.facts]
	var own []space.Box
	for i := range boxes {
		own = append(own, space.Box{Dims: slices.DeleteFunc(slices.Clone(boxes[i].Dims), func(d space.Dim) bool { return d.Axis >= v.facts })})
	}
	small, matter := example.Smallest(facts, own, point[:v.facts], keep, breaks)
	in := v.set.Schema().InputAt(small)
	text = example.Words(in, matter)
	var answers []string
	for _, rt := range tables {
		answers = append(answers, v.answers(rt, in))
	}
	if len(answers) > 0 {
		text += ": " + strings.Join(answers, "; ")
	}
	return text, small
}

// answers is what a table says to an input: "limit answers step: cut by nothing-forbids-a-cut".
func (v *verifier) answers(rt *resultTable, in *rules.Input) string {
	rt.table.Decide(in, &v.d)
	if v.d.Outcome != rules.Answered {
		return rt.table.Name() + " has no answer (" + v.d.Outcome.String() + ")"
	}
	rule := rt.table.Rules()[v.d.Winners[0]]
	return fmt.Sprintf("%s answers %s by %s (%s:%d)", rt.table.Name(), v.told(rt, rule.Result), rule.ID, rule.File, rule.Line)
}

// told is the fields of a result that the promise is about, or all when it names none.
func (v *verifier) told(rt *resultTable, r rules.Result) string {
	var parts []string
	for _, f := range r.Fields() {
		if axis, ok := v.space.Find(rt.table.Name() + "." + f.Field.Name); ok && slices.Contains(v.names, axis) {
			parts = append(parts, strings.TrimSpace(f.Field.Name+": "+f.Value+" "+f.Field.Unit))
		}
	}
	if len(parts) == 0 {
		return r.String()
	}
	return strings.Join(parts, ", ")
}

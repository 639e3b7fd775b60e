// Package gen makes tables and inputs for benchmarks. Tables come in two shapes:
// dense ones, whose rules name few facts and often hold, and sparse ones, whose
// rules name most facts and seldom do. Every rule is written twice, for this
// engine and for expr's plain machine, which sees words as numbers.
package gen

import (
	"fmt"
	"math/rand/v2"
	"strings"

	"github.com/glossladder/glossladder/rules"
)

// Facts is the number of facts of the schema.
const Facts = 15

var sizes = []string{"tiny", "small", "middling", "large", "huge"}

// Words are the results that a generated rule can have.
var Words = []string{"a", "b", "c", "d"}

// Schema has six numbers, six words and three flags, and one table t.
func Schema() *rules.Schema {
	var facts []rules.Fact
	for i := range Facts {
		f := rules.Fact{Name: fmt.Sprintf("g.f%d", i), Meaning: "generated"}
		switch {
		case i < 6:
			f.Kind, f.Min, f.Max, f.Step = rules.Number, 0, 200, []float64{0.5, 1}[i%2]
		case i < 12:
			f.Kind, f.Words, f.Ordered = rules.Word, sizes, i%2 == 0
		default:
			f.Kind = rules.Flag
		}
		facts = append(facts, f)
	}
	s, err := rules.NewSchema(facts, []rules.ResultType{{
		Table: "t", Meaning: "generated", Priority: "word",
		Fields: []rules.Field{{Name: "word", Kind: rules.Word, Words: Words, Ordered: true, Required: true}},
	}})
	if err != nil {
		panic(err) // the schema is fixed
	}
	return s
}

// Row is one rule: its condition for this engine and for expr, and an input for
// which it holds.
type Row struct {
	When, Expr string
	Inside     [Facts]float64
}

// Table makes n rules that each name least to most facts.
func Table(r *rand.Rand, n, least, most int) []Row {
	rows := make([]Row, n)
	for i := range rows {
		rows[i] = row(r, least+r.IntN(most-least+1))
	}
	return rows
}

func row(r *rand.Rand, named int) Row {
	out := Row{Inside: Point(r)}
	var ours, theirs []string
	for _, f := range r.Perm(Facts)[:named] {
		us, them := clause(r, f, out.Inside[f])
		ours, theirs = append(ours, us), append(theirs, them)
	}
	out.When, out.Expr = strings.Join(ours, " and "), strings.Join(theirs, " and ")
	return out
}

// clause is a condition on one fact that lets the value in.
func clause(r *rand.Rand, f int, v float64) (ours, theirs string) {
	name, flat := fmt.Sprintf("g.f%d", f), fmt.Sprintf("f%d", f)
	switch {
	case f < 6:
		lo, hi := max(0, v-float64(r.IntN(70))), min(200, v+float64(r.IntN(70)))
		switch r.IntN(3) {
		case 0:
			return fmt.Sprintf("%s >= %v", name, lo), fmt.Sprintf("%s >= %v", flat, lo)
		case 1:
			return fmt.Sprintf("%s <= %v", name, hi), fmt.Sprintf("%s <= %v", flat, hi)
		}
		return fmt.Sprintf("%s in %v..%v", name, lo, hi), fmt.Sprintf("(%s >= %v and %s <= %v)", flat, lo, flat, hi)
	case f < 12 && f%2 == 0 && r.IntN(2) == 0:
		k := int(v)
		return fmt.Sprintf("%s <= %q", name, sizes[k]), fmt.Sprintf("%s <= %d", flat, k)
	case f < 12:
		return fmt.Sprintf("%s == %q", name, sizes[int(v)]), fmt.Sprintf("%s == %d", flat, int(v))
	case v == 1:
		return name, flat
	}
	return "not " + name, "not " + flat
}

// Point is a random value for every fact: numbers in their unit, words and
// flags by their place.
func Point(r *rand.Rand) [Facts]float64 {
	var p [Facts]float64
	for i := range p {
		switch {
		case i < 6:
			p[i] = float64(r.IntN(201))
		case i < 12:
			p[i] = float64(r.IntN(len(sizes)))
		default:
			p[i] = float64(r.IntN(2))
		}
	}
	return p
}

// Input gives a point to this engine.
func Input(s *rules.Schema, p [Facts]float64) *rules.Input {
	in := s.NewInput()
	for i, v := range p {
		id := rules.FactID(i)
		var err error
		switch {
		case i < 6:
			err = in.SetNumber(id, v)
		case i < 12:
			err = in.SetWord(id, sizes[int(v)])
		default:
			err = in.SetFlag(id, v == 1)
		}
		if err != nil {
			panic(err) // points are made within bounds
		}
	}
	return in
}

// Env gives a point to expr.
func Env(p [Facts]float64) map[string]any {
	env := map[string]any{}
	for i, v := range p {
		name := fmt.Sprintf("f%d", i)
		if i < 12 {
			env[name] = v
		} else {
			env[name] = v == 1
		}
	}
	return env
}

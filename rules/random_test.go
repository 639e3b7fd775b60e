package rules_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
)

// smallFact is a fact of the schema that random conditions are made over: small
// enough to try every input.
type smallFact struct {
	name, flat string
	values     []any // as rules takes them
	kind       byte  // n number, o ordered word, u unordered word, f flag
}

var (
	grades = []string{"low", "mid", "top"}
	sorts  = []string{"ash", "elm", "oak"}
)

func smallFacts() []smallFact {
	count := []any{}
	for i := range 7 {
		count = append(count, float64(i))
	}
	return []smallFact{
		{"a.n", "an", count, 'n'},
		{"a.m", "am", []any{-1.0, -0.5, 0.0, 0.5, 1.0}, 'n'},
		{"b.have", "bhave", []any{"low", "mid", "top"}, 'o'},
		{"b.want", "bwant", []any{"low", "mid", "top"}, 'o'},
		{"c.sort", "csort", []any{"ash", "elm", "oak"}, 'u'},
		{"d.on", "don", []any{false, true}, 'f'},
		{"d.up", "dup", []any{false, true}, 'f'},
	}
}

func smallSchema(t testing.TB) *rules.Schema {
	s, err := rules.NewSchema([]rules.Fact{
		{Name: "a.n", Kind: rules.Number, Max: 6, Step: 1},
		{Name: "a.m", Kind: rules.Number, Min: -1, Max: 1, Step: 0.5},
		{Name: "b.have", Kind: rules.Word, Words: grades, Ordered: true, Scale: "grade"},
		{Name: "b.want", Kind: rules.Word, Words: grades, Ordered: true, Scale: "grade"},
		{Name: "c.sort", Kind: rules.Word, Words: sorts},
		{Name: "d.on", Kind: rules.Flag},
		{Name: "d.up", Kind: rules.Flag},
	}, []rules.ResultType{{Table: "t", Priority: "word", HighestWins: true, Fields: []rules.Field{
		{Name: "word", Kind: rules.Word, Words: []string{"x", "y", "z"}, Ordered: true, Required: true},
	}}})
	require.NoError(t, err)
	return s
}

// point is an input: a value for each small fact, nil when missing.
type point []any

func (p point) input(t testing.TB, s *rules.Schema) *rules.Input {
	in := s.NewInput()
	for i, v := range p {
		id := rules.FactID(i)
		switch v := v.(type) {
		case float64:
			require.NoError(t, in.SetNumber(id, v))
		case string:
			require.NoError(t, in.SetWord(id, v))
		case bool:
			require.NoError(t, in.SetFlag(id, v))
		}
	}
	return in
}

func randomPoint(r *rand.Rand, missing float64) point {
	facts := smallFacts()
	p := make(point, len(facts))
	for i, f := range facts {
		if r.Float64() >= missing {
			p[i] = f.values[r.IntN(len(f.values))]
		}
	}
	return p
}

// completions calls visit with every way to fill in or leave the missing facts
// of p, until it returns false.
func (p point) completions(visit func(point) bool) {
	facts := smallFacts()
	q := append(point(nil), p...)
	var fill func(i int) bool
	fill = func(i int) bool {
		if i == len(p) {
			return visit(q)
		}
		if p[i] != nil {
			return fill(i + 1)
		}
		for _, v := range append([]any{nil}, facts[i].values...) {
			q[i] = v
			if !fill(i + 1) {
				q[i] = nil
				return false
			}
		}
		q[i] = nil
		return true
	}
	fill(0)
}

// phrase is a random part of a condition in this engine's language and in that
// of expr's plain machine, where words are numbers and every fact is known.
type phrase struct{ ours, theirs string }

func join(op string, a, b phrase) phrase {
	return phrase{"(" + a.ours + " " + op + " " + b.ours + ")", "(" + a.theirs + " " + op + " " + b.theirs + ")"}
}

type writer struct {
	*rand.Rand
	division bool // the two languages part ways there
	knowing  bool // known(), likewise
}

func (w writer) pick(words ...string) string { return words[w.IntN(len(words))] }

func (w writer) condition(depth int) phrase {
	if depth == 0 {
		return w.atom()
	}
	switch w.IntN(7) {
	case 0, 1:
		return join(w.pick("and", "&&"), w.condition(depth-1), w.condition(depth-1))
	case 2, 3:
		return join(w.pick("or", "||"), w.condition(depth-1), w.condition(depth-1))
	case 4:
		p := w.condition(depth - 1)
		not := w.pick("not ", "!")
		return phrase{not + "(" + p.ours + ")", not + "(" + p.theirs + ")"}
	case 5:
		a, b, c := w.condition(depth-1), w.condition(depth-1), w.condition(depth-1)
		return phrase{"(" + a.ours + " ? " + b.ours + " : " + c.ours + ")", "(" + a.theirs + " ? " + b.theirs + " : " + c.theirs + ")"}
	}
	return w.atom()
}

func (w writer) compare() string { return w.pick("<", "<=", ">", ">=", "==", "!=") }

func (w writer) atom() phrase {
	switch w.IntN(9) {
	case 0, 1, 2:
		op := w.compare()
		a, b := w.number(2), w.number(1)
		return phrase{a.ours + " " + op + " " + b.ours, a.theirs + " " + op + " " + b.theirs}
	case 3:
		f := w.pick("b.have", "b.want")
		op, k := w.compare(), w.IntN(3)
		return phrase{fmt.Sprintf("%s %s %q", f, op, grades[k]), fmt.Sprintf("%s %s %d", flat(f), op, k)}
	case 4:
		op := w.compare()
		return phrase{"b.have " + op + " b.want", "bhave " + op + " bwant"}
	case 5:
		op, k := w.pick("==", "!="), w.IntN(3)
		return phrase{fmt.Sprintf("c.sort %s %q", op, sorts[k]), fmt.Sprintf("csort %s %d", op, k)}
	case 6:
		i, k := w.IntN(3), w.IntN(3)
		return phrase{fmt.Sprintf("c.sort in [%q, %q]", sorts[i], sorts[k]), fmt.Sprintf("(csort == %d or csort == %d)", i, k)}
	case 7:
		lo := w.IntN(5)
		a := w.number(1)
		return phrase{fmt.Sprintf("%s in %d..%d", a.ours, lo, lo+2), fmt.Sprintf("(%s >= %d.0 and %s <= %d.0)", a.theirs, lo, a.theirs, lo+2)}
	}
	if w.knowing && w.IntN(2) == 0 {
		return phrase{"known(" + w.pick("a.n", "a.m", "b.have", "c.sort", "d.on") + ")", "true"}
	}
	f := w.pick("d.on", "d.up")
	return phrase{f, flat(f)}
}

func (w writer) number(depth int) phrase {
	if depth == 0 || w.IntN(3) == 0 {
		switch w.IntN(3) {
		case 0:
			k := float64(w.IntN(15)-3) / 2
			return phrase{fmt.Sprint(k), fmt.Sprintf("%.1f", k)} // expr compares no int with what max gives
		case 1:
			return phrase{"a.n", "an"}
		}
		return phrase{"a.m", "am"}
	}
	a, b := w.number(depth-1), w.number(depth-1)
	n := 9
	if w.division {
		n = 10
	}
	switch w.IntN(n) {
	case 0, 1:
		return join("+", a, b)
	case 2:
		return join("-", a, b)
	case 3:
		return join("*", a, b)
	case 4:
		return phrase{"abs(" + a.ours + ")", "abs(" + a.theirs + ")"}
	case 5:
		f := w.pick("min", "max")
		return phrase{f + "(" + a.ours + ", " + b.ours + ")", f + "(" + a.theirs + ", " + b.theirs + ")"}
	case 6:
		f := w.pick("floor", "ceil", "round")
		return phrase{f + "(" + a.ours + ")", f + "(" + a.theirs + ")"}
	case 7:
		return phrase{"(-" + a.ours + ")", "(-" + a.theirs + ")"}
	case 8:
		c := w.atom()
		return phrase{"(" + c.ours + " ? " + a.ours + " : " + b.ours + ")", "(" + c.theirs + " ? " + a.theirs + " : " + b.theirs + ")"}
	}
	return join("/", a, b)
}

func flat(name string) string {
	for _, f := range smallFacts() {
		if f.name == name {
			return f.flat
		}
	}
	return name
}

// env is the point for expr's plain machine; every fact must be given.
func (p point) env() map[string]any {
	env := map[string]any{}
	for i, f := range smallFacts() {
		switch v := p[i].(type) {
		case string:
			for k, w := range f.values {
				if w == v {
					env[f.flat] = float64(k)
				}
			}
		default:
			env[f.flat] = v
		}
	}
	return env
}

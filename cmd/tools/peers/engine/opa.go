package engine

import (
	"context"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"

	"github.com/open-policy-agent/opa/v1/ast"
	"github.com/open-policy-agent/opa/v1/rego"
	"github.com/open-policy-agent/opa/v1/topdown"

	"github.com/glossladder/glossladder/cmd/tools/peers/table"
)

const opaExplains = ". Explanation: a `BufferTracer`, every event of the evaluation"

func opaChain() Maker {
	return Maker{
		Name: "OPA, else chain",
		How: "one Rego rule whose bodies follow each other by `else`, in a prepared query; equality and membership written as its index of " +
			"rules reads them" + opaExplains,
		Make: func(rs []table.Rule, at []table.Point) (Engine, error) {
			var b strings.Builder
			b.WriteString("package t\n\ndefault answer := -1\n\nanswer")
			for i, r := range rs {
				if i > 0 {
					b.WriteString(" else")
				}
				fmt.Fprintf(&b, " := %d if { %s }", i, join(r, "; ", regoClause))
			}
			return loadOPA(b.String(), at)
		},
	}
}

func opaSet() Maker {
	return Maker{
		Name: "OPA, least of a set",
		How:  "every rule adds its place to a set, of which the least is the answer; otherwise the same" + opaExplains,
		Make: func(rs []table.Rule, at []table.Point) (Engine, error) {
			var b strings.Builder
			b.WriteString("package t\n\ndefault answer := -1\n\nanswer := min(hits)\n\n")
			for i, r := range rs {
				fmt.Fprintf(&b, "hits contains %d if { %s }\n", i, join(r, "; ", regoClause))
			}
			return loadOPA(b.String(), at)
		},
	}
}

type opaQuery struct {
	query  rego.PreparedEvalQuery
	points []table.Point
	inputs []ast.Value
}

func loadOPA(module string, at []table.Point) (Engine, error) {
	q := &opaQuery{points: at}
	var err error
	q.query, err = rego.New(rego.Query("data.t.answer"), rego.Module("t.rego", module)).PrepareForEval(context.Background())
	if err != nil {
		return nil, fmt.Errorf("prepare the query: %w", err)
	}
	for _, p := range at {
		v, err := ast.InterfaceToValue(plainMap(p))
		if err != nil {
			return nil, fmt.Errorf("bind the point: %w", err)
		}
		q.inputs = append(q.inputs, v)
	}
	return Engine{
		Ready: func(i int) (int, error) { return q.ask(rego.EvalParsedInput(q.inputs[i])) },
		Fresh: func(i int) (int, error) { return q.ask(rego.EvalInput(plainMap(q.points[i]))) },
		Explained: func(i int) (int, error) {
			trace := topdown.NewBufferTracer()
			answer, err := q.ask(rego.EvalParsedInput(q.inputs[i]), rego.EvalQueryTracer(trace))
			if err == nil && len(*trace) == 0 {
				err = fmt.Errorf("point %d has no explanation", i)
			}
			return answer, err
		},
	}, nil
}

func (q *opaQuery) ask(options ...rego.EvalOption) (int, error) {
	found, err := q.query.Eval(context.Background(), options...)
	if err != nil {
		return 0, fmt.Errorf("evaluate: %w", err)
	}
	if len(found) != 1 || len(found[0].Expressions) != 1 {
		return 0, fmt.Errorf("%d results where one was due", len(found))
	}
	n, ok := found[0].Expressions[0].Value.(json.Number)
	if !ok {
		return 0, fmt.Errorf("the answer %v is no number", found[0].Expressions[0].Value)
	}
	return strconv.Atoi(n.String())
}

// regoClause writes what OPA's index of rules can use: equality and membership.
func regoClause(c table.Clause) string {
	name := "input." + factName(c.Fact)
	switch {
	case c.Fact >= table.FirstFlag:
		return fmt.Sprintf("%s == %t", name, c.Lo == 1)
	case c.Fact >= table.FirstWord && c.Op == table.AtMost && c.Hi < table.Words-1:
		var places []string
		for k := range int(c.Hi) + 1 {
			places = append(places, strconv.Itoa(k))
		}
		return fmt.Sprintf("%s in {%s}", name, strings.Join(places, ", "))
	}
	return comparisons(c, name, "; ", literal)
}

// plainMap is a point as a host's map: numbers, words by their place (cheaper to compare than text), flags.
func plainMap(p table.Point) map[string]any {
	m := make(map[string]any, table.Facts)
	for f, v := range p {
		if f >= table.FirstFlag {
			m[factName(f)] = v == 1
		} else {
			m[factName(f)] = v
		}
	}
	return m
}

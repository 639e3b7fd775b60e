package engine

import (
	"context"
	"fmt"
	"strconv"
	"strings"

	"github.com/hyperjumptech/grule-rule-engine/ast"
	"github.com/hyperjumptech/grule-rule-engine/builder"
	gengine "github.com/hyperjumptech/grule-rule-engine/engine"
	"github.com/hyperjumptech/grule-rule-engine/pkg"

	"github.com/glossladder/glossladder/cmd/tools/peers/table"
)

func grule() Maker {
	return Maker{
		Name: "grule",
		How: "falling salience and `FetchMatchingRules`, of which the first answers, cheaper than `Execute`; it always asks every rule. One " +
			"instance is reused. Explanation: a listener on `Execute`, which rules were asked and which held, no values",
		Make: func(rs []table.Rule, at []table.Point) (Engine, error) {
			library := ast.NewKnowledgeLibrary()
			source := pkg.NewBytesResource([]byte(gruleSource(rs)))
			if err := builder.NewRuleBuilder(library).BuildRuleFromResource("t", "1", source); err != nil {
				return nil, fmt.Errorf("build the rules: %w", err)
			}
			knowledge, err := library.NewKnowledgeBaseInstance("t", "1")
			if err != nil {
				return nil, fmt.Errorf("make an instance: %w", err)
			}
			g := &gruleRules{knowledge: knowledge, points: at}
			for _, p := range at {
				in, err := gruleInput(gruleRecord(p))
				if err != nil {
					return nil, err
				}
				g.inputs = append(g.inputs, in)
			}
			return Engine{Ready: g.ready, Fresh: g.fresh, Explained: g.explained}, nil
		},
	}
}

type gruleRules struct {
	knowledge *ast.KnowledgeBase
	points    []table.Point
	inputs    []ast.IDataContext
}

// gruleFacts is the host's record; the engine reads and writes its fields by name.
type gruleFacts struct {
	F0, F1, F2, F3, F4, F5   float64
	F6, F7, F8, F9, F10, F11 float64
	F12, F13, F14            bool
	Answer                   int64
}

func gruleRecord(p table.Point) *gruleFacts {
	return &gruleFacts{
		p[0], p[1], p[2], p[3], p[4], p[5],
		p[6], p[7], p[8], p[9], p[10], p[11],
		p[12] == 1, p[13] == 1, p[14] == 1, table.None,
	}
}

func gruleInput(record *gruleFacts) (ast.IDataContext, error) {
	in := ast.NewDataContext()
	if err := in.Add("F", record); err != nil {
		return nil, fmt.Errorf("bind the point: %w", err)
	}
	return in, nil
}

func (g *gruleRules) ready(i int) (int, error) { return g.first(g.inputs[i]) }

func (g *gruleRules) fresh(i int) (int, error) {
	in, err := gruleInput(gruleRecord(g.points[i]))
	if err != nil {
		return 0, err
	}
	return g.first(in)
}

func (g *gruleRules) first(in ast.IDataContext) (int, error) {
	held, err := gengine.NewGruleEngine().FetchMatchingRules(in, g.knowledge)
	if err != nil {
		return 0, fmt.Errorf("fetch the rules that hold: %w", err)
	}
	if len(held) == 0 {
		return table.None, nil
	}
	return strconv.Atoi(strings.TrimPrefix(held[0].RuleName, "R"))
}

func (g *gruleRules) explained(i int) (int, error) {
	record := gruleRecord(g.points[i])
	in, err := gruleInput(record)
	if err != nil {
		return 0, err
	}
	seen := &gruleListener{}
	e := gengine.NewGruleEngine()
	e.Listeners = append(e.Listeners, seen)
	if err := e.Execute(in, g.knowledge); err != nil {
		return 0, fmt.Errorf("execute: %w", err)
	}
	if seen.asked == 0 {
		return 0, fmt.Errorf("point %d has no explanation", i)
	}
	return int(record.Answer), nil
}

// gruleListener keeps the names of the rules that held.
type gruleListener struct {
	asked int
	held  []string
}

// EvaluateRuleEntry notes a rule that was asked.
func (l *gruleListener) EvaluateRuleEntry(_ context.Context, _ uint64, entry *ast.RuleEntry, candidate bool) {
	l.asked++
	if candidate {
		l.held = append(l.held, entry.RuleName)
	}
}

// ExecuteRuleEntry does nothing: the answer stands in the record.
func (l *gruleListener) ExecuteRuleEntry(context.Context, uint64, *ast.RuleEntry) {}

// BeginCycle does nothing: there is one cycle, since every rule completes.
func (l *gruleListener) BeginCycle(context.Context, uint64) {}

func gruleSource(rs []table.Rule) string {
	var b strings.Builder
	for i, r := range rs {
		fmt.Fprintf(&b, "rule R%d \"generated\" salience %d { when %s then F.Answer = %d; Complete(); }\n",
			i, len(rs)-i, join(r, " && ", gruleClause), i)
	}
	return b.String()
}

func gruleClause(c table.Clause) string {
	name := "F.F" + strconv.Itoa(c.Fact)
	if c.Fact >= table.FirstFlag {
		return fmt.Sprintf("%s == %t", name, c.Lo == 1)
	}
	return comparisons(c, name, " && ", literal)
}

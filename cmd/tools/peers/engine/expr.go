package engine

import (
	"fmt"

	"github.com/expr-lang/expr"
	"github.com/expr-lang/expr/vm"

	"github.com/glossladder/glossladder/cmd/tools/peers/table"
)

func exprScan() Maker {
	return Maker{
		Name: "expr",
		How: "a compiled program for each rule, run in order until one holds, in one machine; the input is a struct, which it reads " +
			"as fast as a map and binds for nothing. It has no explanation",
		Make: func(rs []table.Rule, at []table.Point) (Engine, error) {
			scan := &exprRules{points: at}
			for _, p := range at {
				scan.inputs = append(scan.inputs, exprInput(p))
			}
			for i, r := range rs {
				p, err := expr.Compile(join(r, " and ", exprClause), expr.Env(exprFacts{}), expr.AsBool())
				if err != nil {
					return nil, fmt.Errorf("compile rule %d: %w", i, err)
				}
				scan.programs = append(scan.programs, p)
			}
			return Engine{
				Ready: func(i int) (int, error) { return scan.first(scan.inputs[i]) },
				Fresh: func(i int) (int, error) { return scan.first(exprInput(scan.points[i])) },
			}, nil
		},
	}
}

type exprRules struct {
	programs []*vm.Program
	machine  vm.VM
	points   []table.Point
	inputs   []any
}

// exprFacts is the host's record.
type exprFacts struct {
	F0  float64 `expr:"f0"`
	F1  float64 `expr:"f1"`
	F2  float64 `expr:"f2"`
	F3  float64 `expr:"f3"`
	F4  float64 `expr:"f4"`
	F5  float64 `expr:"f5"`
	F6  float64 `expr:"f6"`
	F7  float64 `expr:"f7"`
	F8  float64 `expr:"f8"`
	F9  float64 `expr:"f9"`
	F10 float64 `expr:"f10"`
	F11 float64 `expr:"f11"`
	F12 bool    `expr:"f12"`
	F13 bool    `expr:"f13"`
	F14 bool    `expr:"f14"`
}

func exprInput(p table.Point) any {
	return exprFacts{
		p[0], p[1], p[2], p[3], p[4], p[5],
		p[6], p[7], p[8], p[9], p[10], p[11],
		p[12] == 1, p[13] == 1, p[14] == 1,
	}
}

func (s *exprRules) first(env any) (int, error) {
	for i, p := range s.programs {
		yes, err := s.machine.Run(p, env)
		if err != nil {
			return 0, fmt.Errorf("run rule %d: %w", i, err)
		}
		if yes == true {
			return i, nil
		}
	}
	return table.None, nil
}

func exprClause(c table.Clause) string {
	if c.Fact >= table.FirstFlag {
		return flag(c, factName(c.Fact), "not ")
	}
	return comparisons(c, factName(c.Fact), " and ", literal)
}

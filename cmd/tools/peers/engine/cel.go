package engine

import (
	"fmt"
	"strconv"
	"strings"

	"cel.dev/cel-go/cel"
	"cel.dev/cel-go/common/types"
	"cel.dev/cel-go/common/types/ref"

	"github.com/glossladder/glossladder/cmd/tools/peers/table"
)

func celScan() Maker {
	return Maker{
		Name: "cel-go",
		How: "a checked and optimized program for each rule, run in order until one holds; the input is an activation of our own over " +
			"an array of its own values, faster than its map. Explanation: `OptTrackState`, the value of every subexpression of every rule asked",
		Make: func(rs []table.Rule, at []table.Point) (Engine, error) {
			env, err := celEnv()
			if err != nil {
				return nil, err
			}
			scan := &celRules{env: env, points: at}
			if scan.plain, err = scan.programs(rs, cel.OptOptimize); err != nil {
				return nil, err
			}
			for _, p := range at {
				scan.inputs = append(scan.inputs, celInput(p))
			}
			return Engine{Ready: scan.ready, Fresh: scan.fresh, Explained: scan.explained(rs)}, nil
		},
	}
}

type celRules struct {
	env    *cel.Env
	plain  []cel.Program
	points []table.Point
	inputs []*celFacts
}

// celFacts are a point in the engine's own values, so that it converts nothing when it looks one up.
type celFacts [table.Facts]ref.Val

// ResolveName finds a fact by name.
func (c *celFacts) ResolveName(name string) (any, bool) {
	f, err := strconv.Atoi(strings.TrimPrefix(name, "f"))
	if err != nil || f >= len(c) {
		return nil, false
	}
	return c[f], true
}

// Parent is nil: there are no other names.
func (c *celFacts) Parent() cel.Activation { return nil }

func celInput(p table.Point) *celFacts {
	var c celFacts
	for f, v := range p {
		if f >= table.FirstFlag {
			c[f] = types.Bool(v == 1)
		} else {
			c[f] = types.Double(v)
		}
	}
	return &c
}

func celEnv() (*cel.Env, error) {
	var options []cel.EnvOption
	for f := range table.Facts {
		kind := cel.DoubleType
		if f >= table.FirstFlag {
			kind = cel.BoolType
		}
		options = append(options, cel.Variable(factName(f), kind))
	}
	env, err := cel.NewEnv(options...)
	if err != nil {
		return nil, fmt.Errorf("make the environment: %w", err)
	}
	return env, nil
}

func (s *celRules) programs(rs []table.Rule, option cel.EvalOption) ([]cel.Program, error) {
	out := make([]cel.Program, len(rs))
	for i, r := range rs {
		ast, issues := s.env.Compile(join(r, " && ", celClause))
		if issues.Err() != nil {
			return nil, fmt.Errorf("compile rule %d: %w", i, issues.Err())
		}
		p, err := s.env.Program(ast, cel.EvalOptions(option))
		if err != nil {
			return nil, fmt.Errorf("plan rule %d: %w", i, err)
		}
		out[i] = p
	}
	return out, nil
}

func (s *celRules) ready(i int) (int, error) { return celFirst(s.plain, s.inputs[i], unexplained) }

func (s *celRules) fresh(i int) (int, error) {
	return celFirst(s.plain, celInput(s.points[i]), unexplained)
}

func unexplained(*cel.EvalDetails) error { return nil }

func (s *celRules) explained(rs []table.Rule) Ask {
	var tracked []cel.Program
	return func(i int) (int, error) {
		if tracked == nil {
			var err error
			if tracked, err = s.programs(rs, cel.OptTrackState); err != nil {
				return 0, err
			}
		}
		return celFirst(tracked, s.inputs[i], func(d *cel.EvalDetails) error {
			if d.State() == nil {
				return fmt.Errorf("point %d has no explanation", i)
			}
			return nil
		})
	}
}

// celFirst shows the details of every rule that it asks.
func celFirst(programs []cel.Program, in cel.Activation, look func(*cel.EvalDetails) error) (int, error) {
	for i, p := range programs {
		yes, details, err := p.Eval(in)
		if err != nil {
			return 0, fmt.Errorf("run rule %d: %w", i, err)
		}
		if err := look(details); err != nil {
			return 0, err
		}
		if yes == types.True {
			return i, nil
		}
	}
	return table.None, nil
}

func celClause(c table.Clause) string {
	if c.Fact >= table.FirstFlag {
		return flag(c, factName(c.Fact), "!")
	}
	return comparisons(c, factName(c.Fact), " && ", celDouble)
}

// celDouble writes a double literal; without a point it would be an int, which does not compare with a double.
func celDouble(v float64) string {
	if s := literal(v); strings.Contains(s, ".") {
		return s
	}
	return literal(v) + ".0"
}

package rules_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/expr-lang/expr"
	"github.com/expr-lang/expr/vm"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/gen"
)

type shape struct {
	name        string
	least, most int
}

var shapes = []shape{{"dense", 4, 8}, {"sparse", 9, 13}}

// points for a table: half lie inside a rule, the other half anywhere in a dense
// table and outside of all rules in a sparse one.
func points(b *testing.B, r *rand.Rand, rows []gen.Row, n int, sparse bool) [][gen.Facts]float64 {
	s := gen.Schema()
	t := build(b, s, rules.First, rows)
	out := make([][gen.Facts]float64, n)
	for i := range out {
		out[i] = gen.Point(r)
		if i%2 == 0 {
			out[i] = rows[r.IntN(len(rows))].Inside
			continue
		}
		for sparse && t.First(gen.Input(s, out[i]), nil) >= 0 {
			out[i] = gen.Point(r)
		}
	}
	return out
}

func everySize(b *testing.B, run func(b *testing.B, rows []gen.Row, at [][gen.Facts]float64)) {
	for _, sh := range shapes {
		for _, n := range []int{10, 100, 1_000, 10_000} {
			r := rand.New(rand.NewPCG(1, uint64(n)))
			rows := gen.Table(r, n, sh.least, sh.most)
			at := points(b, r, rows, 64, sh.least > 8)
			b.Run(fmt.Sprintf("%s/%d", sh.name, n), func(b *testing.B) { run(b, rows, at) })
		}
	}
}

func build(tb testing.TB, s *rules.Schema, hit rules.Hit, rows []gen.Row) *rules.Table {
	whens := make([]string, len(rows))
	for i := range rows {
		whens[i] = rows[i].When
	}
	t, err := rules.BuildTable(s, "t", hit, whens, gen.Words)
	require.NoError(tb, err)
	return t
}

func inputs(s *rules.Schema, at [][gen.Facts]float64) []*rules.Input {
	out := make([]*rules.Input, len(at))
	for i := range at {
		out[i] = gen.Input(s, at[i])
	}
	return out
}

func BenchmarkFirst(b *testing.B) {
	everySize(b, func(b *testing.B, rows []gen.Row, at [][gen.Facts]float64) {
		s := gen.Schema()
		t := build(b, s, rules.First, rows)
		ins := inputs(s, at)
		var sc rules.Scratch
		t.First(ins[0], &sc)
		b.ReportAllocs()
		i, none := 0, 0
		for b.Loop() {
			if t.First(ins[i%len(ins)], &sc) < 0 {
				none++
			}
			i++
		}
		b.ReportMetric(float64(none)/float64(i), "none/op")
	})
}

func BenchmarkDecide(b *testing.B) {
	everySize(b, func(b *testing.B, rows []gen.Row, at [][gen.Facts]float64) {
		s := gen.Schema()
		t := build(b, s, rules.First, rows)
		ins := inputs(s, at)
		var d rules.Decision
		for _, in := range ins {
			t.Decide(in, &d)
		}
		b.ReportAllocs()
		i := 0
		for b.Loop() {
			t.Decide(ins[i%len(ins)], &d)
			i++
		}
	})
}

// BenchmarkDecideWithGaps leaves out every third fact.
func BenchmarkDecideWithGaps(b *testing.B) {
	everySize(b, func(b *testing.B, rows []gen.Row, at [][gen.Facts]float64) {
		s := gen.Schema()
		t := build(b, s, rules.First, rows)
		ins := inputs(s, at)
		var d rules.Decision
		for k, in := range ins {
			for f := k % 3; f < gen.Facts; f += 3 {
				in.Clear(rules.FactID(f))
			}
			t.Decide(in, &d)
		}
		b.ReportAllocs()
		i := 0
		for b.Loop() {
			t.Decide(ins[i%len(ins)], &d)
			i++
		}
	})
}

func BenchmarkCollect(b *testing.B) {
	everySize(b, func(b *testing.B, rows []gen.Row, at [][gen.Facts]float64) {
		s := gen.Schema()
		t := build(b, s, rules.Collect, rows)
		ins := inputs(s, at)
		var d rules.Decision
		for _, in := range ins {
			t.Decide(in, &d)
		}
		b.ReportAllocs()
		i := 0
		for b.Loop() {
			t.Decide(ins[i%len(ins)], &d)
			i++
		}
	})
}

// BenchmarkPlainScan decides the same tables by running expr's machine rule by
// rule until one holds.
func BenchmarkPlainScan(b *testing.B) {
	everySize(b, func(b *testing.B, rows []gen.Row, at [][gen.Facts]float64) {
		programs := make([]*vm.Program, len(rows))
		for i := range rows {
			p, err := expr.Compile(rows[i].Expr, expr.Env(gen.Env(at[0])), expr.AsBool())
			require.NoError(b, err)
			programs[i] = p
		}
		envs := make([]map[string]any, len(at))
		for i := range at {
			envs[i] = gen.Env(at[i])
		}
		var machine vm.VM
		b.ReportAllocs()
		i := 0
		for b.Loop() {
			for _, p := range programs {
				yes, err := machine.Run(p, envs[i%len(envs)])
				require.NoError(b, err)
				if yes == true {
					break
				}
			}
			i++
		}
	})
}

// BenchmarkCompile compiles and indexes the conditions of a table.
func BenchmarkCompile(b *testing.B) {
	for _, n := range []int{100, 1_000} {
		r := rand.New(rand.NewPCG(1, uint64(n)))
		rows := gen.Table(r, n, 4, 8)
		s := gen.Schema()
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				build(b, s, rules.First, rows)
			}
		})
	}
}

// BenchmarkFirstWithAClause has one rule in ten that the machine must answer.
func BenchmarkFirstWithAClause(b *testing.B) {
	r := rand.New(rand.NewPCG(1, 7))
	rows := gen.Table(r, 1_000, 4, 8)
	at := points(b, r, rows, 64, false)
	for i := 0; i < len(rows); i += 10 {
		rows[i].When += fmt.Sprintf(" and g.f0 * %d > g.f1 + 3", i%7+1)
	}
	s := gen.Schema()
	t := build(b, s, rules.First, rows)
	ins := inputs(s, at)
	var sc rules.Scratch
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		t.First(ins[i%len(ins)], &sc)
		i++
	}
}

// BenchmarkPossible asks what four missing facts could change.
func BenchmarkPossible(b *testing.B) {
	r := rand.New(rand.NewPCG(1, 9))
	rows := gen.Table(r, 1_000, 4, 8)
	s := gen.Schema()
	t := build(b, s, rules.First, rows)
	ins := inputs(s, points(b, r, rows, 64, false))
	for _, in := range ins {
		for f := 2; f < gen.Facts; f += 4 {
			in.Clear(rules.FactID(f))
		}
	}
	i, exact := 0, 0
	for b.Loop() {
		if t.Possible(ins[i%len(ins)], 0).Exact {
			exact++
		}
		i++
	}
	b.ReportMetric(float64(exact)/float64(i), "exact/op")
}

package cond_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/expr-lang/expr"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules/internal/cond"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// wide has one axis too long to try value by value, and a small one.
func wide(t testing.TB) *space.Space {
	t.Helper()
	long, err := space.NewGrid(-500, 5000, 0.1)
	require.NoError(t, err)
	short, err := space.NewGrid(0, 9, 1)
	require.NoError(t, err)
	return space.New([]space.Axis{
		{Name: "w.x", Kind: space.Number, Grid: long},
		{Name: "w.y", Kind: space.Number, Grid: short},
	})
}

func truth(c cond.Condition, cs *cond.Clauses, codes []int32, m *cond.Memo) space.Truth {
	m.Reset(cs)
	out := space.False
	for i := range c.Boxes {
		v := c.Boxes[i].Truth(codes)
		for _, l := range c.Boxes[i].Literals {
			a := cs.Truth(l.Clause, codes, m)
			if !l.Want {
				a = a.Not()
			}
			v = min(v, a)
		}
		out = max(out, v)
	}
	return out
}

// What is drawn as an interval on a long axis agrees with expr's machine run on
// the value itself, at the ends of the interval above all.
func TestIntervalsAgreeWithTheMachine(t *testing.T) {
	s := wide(t)
	for _, c := range []struct {
		when  string
		plain string // for expr, x in place of w.x; empty: the same
		boxes int
	}{
		{"w.x * 0.1 + 3 <= 7.3", "", 1},
		{"7.3 > 3 + w.x / 10", "", 1},
		{"-w.x < 100.05", "", 1},
		{"3 - w.x * 2 == 2", "", 1},
		{"3 - w.x * 2 != 2", "", 2},
		{"abs(w.x - 100) > 30", "", 2},
		{"abs(w.x - 100) <= 30.05", "", 1},
		{"30 < abs(100 - w.x)", "", 2},
		{"not (abs(w.x) >= 12.3)", "", 1},
		{"floor(w.x / 3) >= 7", "", 1},
		{"round(w.x * 0.1) == 4.0", "", 1},
		{"max(w.x, 20) < 30", "", 1},
		{"min(w.x, w.x * 2) > 7.7", "", 1},
		{"w.x in 0.3..0.7", "x >= 0.3 and x <= 0.7", 1},
		{"not (w.x in 0.3..0.7)", "not (x >= 0.3 and x <= 0.7)", 2},
		{"w.x in [0.1, 0.2, 0.4]", "x == 0.1 or x == 0.2 or x == 0.4", 2},
		{"1.05 <= w.x < 4", "x >= 1.05 and x < 4", 1},
		{"w.x > 1e9", "", 0},
		{"w.x > -1e9", "", 1},
		{"w.x < 5 ? w.x > 2 : w.x > 700", "", 2},
	} {
		t.Run(c.when, func(t *testing.T) {
			compiler := cond.NewCompiler(s)
			got, mistakes := compiler.Compile(c.when)
			require.Empty(t, mistakes)
			assert.Zero(t, compiler.Clauses().Len(), "it needs no clause")
			assert.Len(t, got.Boxes, c.boxes)
			plain := c.plain
			if plain == "" {
				plain = strings.ReplaceAll(c.when, "w.x", "x")
			}
			program, err := expr.Compile(plain, expr.Env(map[string]any{"x": 0.0}), expr.AsBool())
			require.NoError(t, err)
			var memo cond.Memo
			for _, code := range corners(got, s.Axes[0].Size()) {
				x := s.Axes[0].Value(code)
				want, err := expr.Run(program, map[string]any{"x": x})
				require.NoError(t, err)
				require.Equal(t, space.Of(want.(bool)), truth(got, compiler.Clauses(), []int32{code, 0}, &memo), "x = %v", x)
			}
		})
	}
}

// corners are codes at and beside the ends of a condition's boxes, and others.
func corners(c cond.Condition, size int32) []int32 {
	out := []int32{0, size - 1}
	for _, b := range c.Boxes {
		for _, d := range b.Dims {
			for _, k := range []int32{d.Lo - 1, d.Lo, d.Hi, d.Hi + 1} {
				if k >= 0 && k < size {
					out = append(out, k)
				}
			}
		}
	}
	r := rand.New(rand.NewPCG(8, 1))
	for range 500 {
		out = append(out, r.Int32N(size))
	}
	return out
}

// Outcomes never leaves out a truth that some value of a missing fact brings.
func TestOutcomesLeaveNothingOut(t *testing.T) {
	s := wide(t)
	r := rand.New(rand.NewPCG(9, 1))
	ruled := 0
	for range 300 {
		a, b, k := r.IntN(9)-4, r.IntN(5)-2, r.IntN(4000)-2000
		when := fmt.Sprintf("w.x * %d - abs(w.y * %d - 3) %s %d + max(w.y, 2)", a, b, []string{"<", "<=", "==", ">", ">="}[r.IntN(5)], k)
		compiler := cond.NewCompiler(s)
		_, mistakes := compiler.Compile(when)
		require.Empty(t, mistakes)
		cs := compiler.Clauses()
		if cs.Len() != 1 {
			continue
		}
		base := []int32{space.Missing, space.Missing}
		if r.IntN(2) == 0 {
			base[r.IntN(2)] = r.Int32N(10)
		}
		possible := cs.Outcomes(0, base)
		if len(possible) == 1 {
			ruled++
		}
		var memo cond.Memo
		for range 200 {
			at := []int32{base[0], base[1]}
			for i, size := range []int32{s.Axes[0].Size(), s.Axes[1].Size()} {
				if at[i] == space.Missing {
					at[i] = []int32{0, size - 1, r.Int32N(size)}[r.IntN(3)]
				}
			}
			memo.Reset(cs)
			require.Contains(t, possible, cs.Truth(0, at, &memo), "%s at %v", when, at)
		}
	}
	require.Greater(t, ruled, 20)
}

func TestEveryMistakeOfAConditionIsFound(t *testing.T) {
	s := wide(t)
	compiler := cond.NewCompiler(s)
	require.Empty(t, compiler.Let("sum", "w.x + w.y"))
	_, mistakes := compiler.Compile(`w.z > 3 and let.sun < 2 and w.x == "ten" or now() and w.x / 0 > 1 or w.y in 5..2`)
	var got []string
	for _, m := range mistakes {
		got = append(got, fmt.Sprint(m.At, " ", m.Message, "; ", m.Hint))
	}
	assert.Equal(t, []string{
		"0 w.z is not a fact; did you mean w.x?",
		"12 let.sun is not defined above; did you mean let.sum?",
		"35 a number cannot be compared with a word; numbers stand without quotes, words in quotes",
		"44 now() is not allowed in a condition; the functions are abs, ceil, floor, known, max, min and round",
		"60 division by zero; ",
		"76 no number is in 5..2; write the lower end first",
	}, got)
}

// A clause is asked at most once, and a missing fact never reaches the machine.
func TestAClauseIsAskedOnce(t *testing.T) {
	s := wide(t)
	compiler := cond.NewCompiler(s)
	_, mistakes := compiler.Compile("w.x > w.y and w.x / w.y > 2 or not (w.x > w.y)")
	require.Empty(t, mistakes)
	cs := compiler.Clauses()
	require.Equal(t, 2, cs.Len())
	var memo cond.Memo
	memo.Reset(cs)
	at := []int32{5010, 0} // x = 1, y = 0
	for range 3 {
		assert.Equal(t, space.True, cs.Truth(0, at, &memo).Not(), "stored as x <= y")
		assert.Equal(t, space.Unknown, cs.Truth(1, at, &memo), "a division by zero")
	}
	assert.Equal(t, 2, memo.Asked())
	memo.Reset(cs)
	assert.Equal(t, space.Unknown, cs.Truth(0, []int32{space.Missing, 0}, &memo))
}

// What is so or not known is one box, or every such let would double the boxes of the rules that use it.
func TestNotKnownOrIsOneBox(t *testing.T) {
	s := wide(t)
	for _, when := range []string{"not known(w.y) || w.y < 3", "w.y < 3 || not known(w.y)", "not (known(w.y) && w.y >= 3)"} {
		compiler := cond.NewCompiler(s)
		c, mistakes := compiler.Compile(when)
		require.Empty(t, mistakes, when)
		require.Len(t, c.Boxes, 1, when)
		m := &cond.Memo{}
		for code := space.Missing; code <= 9; code++ {
			assert.Equal(t, space.Of(code < 3), truth(c, compiler.Clauses(), []int32{space.Missing, code}, m), "%s at %d", when, code)
		}
	}
}

package rules_test

import (
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules"
)

// TestSandbox holds what a condition must not be able to do. The first inputs
// overflow the stack of a recursive parser at the lengths tried here, which no
// program survives.
func TestSandbox(t *testing.T) {
	s := smallSchema(t)
	double := "a.n"
	for range 6 {
		double = "(" + double + " + " + double + ")"
	}
	for _, c := range []struct{ name, when, want string }{
		{"half a million brackets", strings.Repeat("(", 520_000), "at most 4096"},
		{"half a million lists", strings.Repeat("[", 380_000), "at most 4096"},
		{"half a million nots", strings.Repeat("!", 640_000) + "d.on", "at most 4096"},
		{"brackets within the limit", strings.Repeat("(", 4000) + "d.on", "cannot be read"},
		{"very many nodes", strings.Repeat("d.on or ", 400) + "d.on", "more than 500 parts"},
		{"the clock", "now() > now()", "now() is not allowed"},
		{"a closure", "all([1, 2], # > 0)", "all() is not allowed"},
		{"a reduce", `len(reduce(1..9, #acc + "x")) > 3`, "not allowed"},
		{"a pattern", `c.sort matches "(a+)+b"`, "matches is not allowed"},
		{"part of a word", `c.sort startsWith "a"`, "startsWith is not allowed"},
		{"the environment", `$env["a"] == 3`, "$env.a is not a fact"},
		{"a variable", "let x = 3; x > 2", "let is not allowed"},
		{"an if", "if d.on { d.on } else { d.up }", "cannot be read"},
		{"a slice", "[1,2,3][1:2] == 3", "a slice is not allowed"},
		{"a map", `{"a": 1}.a == 1`, "not allowed"},
		{"a pipe", "a.n | abs() > 3 | now()", "not allowed"},
		{"a range of numbers as a value", "1..1000000000 == 3", "cannot be compared"},
		{"nil", "a.n == nil", "nil has no place"},
		{"nil by default", "(a.n ?? 3) > 2", "?? is not allowed"},
		{"optional member", "a?.n > 3", "?. is not allowed"},
		{"a method", "a.n.String() == \"x\"", "not allowed"},
		{"bytes", `b"x" == b"x"`, "byte string"},
		{"division by zero", "a.n / 0 > 3", "division by zero"},
		{"division by a zero sum", "a.n / (1 - 1) > 3", "division by zero"},
		{"infinity", "1e308 * 10 > a.n", "no result"},
		{"a large whole number", "9007199254740993 > a.n", "too large"},
		{"remainder", "a.n % 2 == 1", "operator % is not allowed"},
		{"power", "a.n ** 2 > 3", "operator ** is not allowed"},
		{"empty", "   ", "is empty"},
		{"a number", "a.n", "a condition is true or false"},
		{"chained doubling", double + " > " + double + " and " + strings.Repeat("d.on and ", 100) + "d.on", "more than 500 parts"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := rules.BuildTable(s, "t", rules.First, []string{c.when}, results)
			require.Error(t, err)
			assert.Contains(t, err.Error(), c.want)
		})
	}
}

// Lets that use each other twice double at each step; the thirtieth would have a
// thousand million parts.
func TestLetsCannotGrowWithoutBound(t *testing.T) {
	src := "table: hints\nhit: collect\nlet:\n  l0: dough.water_pct\n"
	for i := 1; i < 30; i++ {
		src += "  l" + strconv.Itoa(i) + ": let.l" + strconv.Itoa(i-1) + " + let.l" + strconv.Itoa(i-1) + "\n"
	}
	src += "rules:\n  - {id: a, when: let.l29 > 3, then: {say: x}, because: y}\n"
	_, err := rules.Load(filesOf(map[string]string{"hints.yaml": src}), bakery(t))
	assert.ErrorContains(t, err, "hints.yaml:15:8: this has more than 4000 parts once its lets are written out")
}

// A condition with very many cases stays exact: what has no room in boxes is a
// clause of its own.
func TestManyCasesBecomeAClause(t *testing.T) {
	s := smallSchema(t)
	part := `(a.n == %s or b.have == "low" and d.on or c.sort == "elm" and d.up or b.want > b.have)`
	var parts []string
	for i := range 6 {
		parts = append(parts, strings.ReplaceAll(part, "%s", strconv.Itoa(i)))
	}
	when := strings.Join(parts, " and ")
	table, err := rules.BuildTable(s, "t", rules.First, []string{when}, results)
	require.NoError(t, err)
	assert.LessOrEqual(t, table.Boxes(), 256)
	ref, err := newReference(when)
	require.NoError(t, err)
	for i := range 500 {
		p := randomPoint(rand.New(rand.NewPCG(5, uint64(i))), 0.3)
		got, want := table.BoxTruth(p.input(t, s), 0), ref.truth(p)
		if got == no && want == maybe {
			continue
		}
		require.Equal(t, want, got, "%v", p)
	}
}

package cond_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules/internal/cond"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// oven is an invented space: a temperature in steps of 0.5, a rack, a crust, a flag.
func oven(t testing.TB) *space.Space {
	t.Helper()
	heat, err := space.NewGrid(0, 300, 0.5)
	require.NoError(t, err)
	loaves, err := space.NewGrid(0, 12, 1)
	require.NoError(t, err)
	return space.New([]space.Axis{
		{Name: "oven.c", Kind: space.Number, Grid: heat},
		{Name: "loaf.count", Kind: space.Number, Grid: loaves},
		{Name: "loaf.crust", Kind: space.Word, Words: []string{"pale", "gold", "dark"}, Ordered: true},
		{Name: "loaf.flour", Kind: space.Word, Words: []string{"rye", "wheat", "spelt"}},
		{Name: "oven.fan", Kind: space.Flag},
	})
}

func TestVariantsAreOneSmallMistakeEach(t *testing.T) {
	for _, c := range []struct {
		name, src string
		want      []string // "offset: was -> now = whole", in order
	}{
		{"a bound moves by the step of its fact, either way, and the only clause may go", "oven.c > 220", []string{
			"0: oven.c > 220 -> true = true",
			"0: oven.c > 220 -> oven.c > 219.5 = oven.c > 219.5",
			"0: oven.c > 220 -> oven.c > 220.5 = oven.c > 220.5",
		}},
		{"an ordered word moves to its neighbours", `loaf.crust <= "gold"`, []string{
			`0: loaf.crust <= "gold" -> true = true`,
			`0: loaf.crust <= "gold" -> loaf.crust <= "pale" = loaf.crust <= "pale"`,
			`0: loaf.crust <= "gold" -> loaf.crust <= "dark" = loaf.crust <= "dark"`,
		}},
		{"the last word has one neighbour", `oven.fan && "dark" == loaf.crust`, []string{
			`0: oven.fan ->  = "dark" == loaf.crust`,
			`12: "dark" == loaf.crust ->  = oven.fan`,
			`12: "dark" == loaf.crust -> "gold" == loaf.crust = oven.fan && "gold" == loaf.crust`,
		}},
		{"words without an order do not move", `loaf.flour == "rye"`, []string{`0: loaf.flour == "rye" -> true = true`}},
		{"each part of a chain is left out, and of the chains in it", "oven.fan and (known(oven.c) or not known(loaf.flour))", []string{
			"0: oven.fan ->  = known(oven.c) or not known(loaf.flour)",
			"14: known(oven.c) or not known(loaf.flour) ->  = oven.fan",
			"14: known(oven.c) ->  = oven.fan and not known(loaf.flour)",
			"31: not known(loaf.flour) ->  = oven.fan and known(oven.c)",
		}},
		{"each word of a list is left out", `loaf.flour in ["rye", "spelt"]`, []string{
			`0: loaf.flour in ["rye", "spelt"] -> true = true`,
			`15: "rye" ->  = loaf.flour in ["spelt"]`,
			`22: "spelt" ->  = loaf.flour in ["rye"]`,
		}},
		{"a let is spelt as rules write it", "let.hot && oven.fan", []string{
			"0: let.hot ->  = oven.fan", "11: oven.fan ->  = let.hot",
		}},
		{"nothing can be taken from what always holds", "true", nil},
		{"what does not compile has none", "oven.c >", nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			compiler := cond.NewCompiler(oven(t))
			require.Empty(t, compiler.Let("hot", "oven.c > 250"))
			var got []string
			for _, v := range compiler.Variants(c.src) {
				got = append(got, fmt.Sprintf("%d: %s -> %s = %s", v.At, v.Was, v.Now, v.Source))
			}
			assert.Equal(t, c.want, got)
		})
	}
}

// Ranges, conditionals and lets that are numbers have bounds as well.
func TestVariantsFindEveryBound(t *testing.T) {
	for src, want := range map[string][]string{
		"loaf.count in 2..4": {"loaf.count in 1..4", "loaf.count in 3..4", "loaf.count in 2..3", "loaf.count in 2..5"},
		"oven.c >= 200 + (oven.fan ? 10 : 0)": {
			"oven.c >= 199.5 + (oven.fan ? 10 : 0)", "oven.c >= 200.5 + (oven.fan ? 10 : 0)",
			"oven.c >= 200 + (oven.fan ? 9.5 : 0)", "oven.c >= 200 + (oven.fan ? 10.5 : 0)",
			"oven.c >= 200 + (oven.fan ? 10 : -0.5)", "oven.c >= 200 + (oven.fan ? 10 : 0.5)",
		},
		"loaf.count * 2":        {"loaf.count * 1", "loaf.count * 3"},
		"oven.c - 0.5 > -0.5":   {"oven.c - 0 > -0.5", "oven.c - 1 > -0.5", "oven.c - 0.5 > -0", "oven.c - 0.5 > -1"},
		"let.most > loaf.count": nil,
	} {
		compiler := cond.NewCompiler(oven(t))
		require.Empty(t, compiler.Let("most", "loaf.count + 1"))
		var got []string
		for _, v := range compiler.Variants(src) {
			if v.Slip == cond.MovedBound {
				got = append(got, v.Source)
			}
		}
		assert.Equal(t, want, got, src)
	}
}

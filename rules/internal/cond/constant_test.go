package cond_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules/internal/cond"
)

func TestConstantsAreListedWithTheirPlaces(t *testing.T) {
	compiler := cond.NewCompiler(wide(t))
	require.Empty(t, compiler.Let("edge", "12.35"))
	require.Empty(t, compiler.Let("either", "w.y > 3 ? 1.5 : 2.5"))
	for _, c := range []struct {
		name, when string
		want       []cond.Constant
	}{
		{"a bound", "w.x < 12.35", []cond.Constant{{Axis: 0, Cmp: "<", Value: 12.35, At: 6}}},
		{"the number in front", "12.35 <= w.x", []cond.Constant{{Axis: 0, Cmp: ">=", Value: 12.35, At: 0}}},
		{"a range", "w.x in 1..2.55", []cond.Constant{
			{Axis: 0, Cmp: ">=", Value: 1, At: 7}, {Axis: 0, Cmp: "<=", Value: 2.55, At: 10},
		}},
		{"a list", "w.y in [1, 2.5]", []cond.Constant{{Axis: 1, Cmp: "==", Value: 1, At: 8}, {Axis: 1, Cmp: "==", Value: 2.5, At: 11}}},
		{"below zero", "w.x > -0.05 && w.y != 3", []cond.Constant{{Axis: 0, Cmp: ">", Value: -0.05, At: 6}, {Axis: 1, Cmp: "!=", Value: 3, At: 22}}},
		{"out of a let", "w.y == 1 || w.x >= let.edge", []cond.Constant{{Axis: 1, Cmp: "==", Value: 1, At: 7}, {Axis: 0, Cmp: ">=", Value: 12.35, At: 19}}},
		{"one of two", "w.x < (w.y == 2 ? 0.55 : 7)", []cond.Constant{
			{Axis: 1, Cmp: "==", Value: 2, At: 14}, {Axis: 0, Cmp: "<", Value: 0.55, At: 18}, {Axis: 0, Cmp: "<", Value: 7, At: 25},
		}},
		{"one of two out of a let", "w.x < let.either", []cond.Constant{{Axis: 0, Cmp: "<", Value: 1.5, At: 6}, {Axis: 0, Cmp: "<", Value: 2.5, At: 6}}},
		{"arithmetic is no single fact", "w.x + 1 < 12.35", nil},
		{"a text with a mistake", "w.x < ", nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.want, compiler.Constants(c.when))
		})
	}
}

package space

import (
	"errors"
	"fmt"
	"math"
)

// maxCodes bounds a grid, so that a code and the code after it fit an int32.
const maxCodes = math.MaxInt32 - 2

// Grid is the ladder of values an instrument can show: min, min+step, ... max.
// It is kept as whole numbers over a power of ten, because value k is then one
// correctly rounded division and equals the decimal a person writes, while
// min + k*step drifts (3 x 0.1 is not 0.3).
type Grid struct {
	first, step int64
	per         float64
	size        int32
}

// NewGrid makes the grid of min..max in steps of step. All three must be
// decimals of at most nine places and max must lie on the grid.
func NewGrid(minimum, maximum, step float64) (Grid, error) {
	for _, v := range []float64{minimum, maximum, step} {
		if math.IsNaN(v) || math.Abs(v) > 1e12 {
			return Grid{}, fmt.Errorf("%v is no bound or step", v)
		}
	}
	if step <= 0 {
		return Grid{}, fmt.Errorf("step %v must be above zero", step)
	}
	if minimum >= maximum {
		return Grid{}, fmt.Errorf("bounds %v to %v leave no room", minimum, maximum)
	}
	for per := 1.0; per <= 1e9; per *= 10 {
		first, ok1 := whole(minimum, per)
		last, ok2 := whole(maximum, per)
		by, ok3 := whole(step, per)
		if !ok1 || !ok2 || !ok3 {
			continue
		}
		if (last-first)%by != 0 {
			return Grid{}, fmt.Errorf("%v is not a whole number of steps of %v above %v", maximum, step, minimum)
		}
		n := (last - first) / by
		if n > maxCodes-1 {
			return Grid{}, fmt.Errorf("%d steps from %v to %v are too many", n, minimum, maximum)
		}
		return Grid{first: first, step: by, per: per, size: int32(n) + 1}, nil
	}
	return Grid{}, errors.New("bounds and step need at most nine decimals")
}

// whole is v*per if that is a whole number, up to the noise of the product.
func whole(v, per float64) (int64, bool) {
	x := v * per
	r := math.Round(x)
	if math.Abs(r) > 1<<53 || r/per != v {
		return 0, false
	}
	return int64(r), true
}

// Size is the number of values on the grid.
func (g Grid) Size() int32 { return g.size }

// Value is the number that a code stands for.
func (g Grid) Value(code int32) float64 {
	return float64(g.first+int64(code)*g.step) / g.per
}

// Span is the distance of two codes in the unit of the values.
func (g Grid) Span(from, to int32) float64 {
	return float64((int64(to)-int64(from))*g.step) / g.per
}

// slack is how far beside the grid, in steps, a value still counts as on it: the
// noise of binary arithmetic, far below what any instrument shows.
const slack = 1e-6

// Code is the nearest code of v, and whether v lies on the grid. v must be
// finite; a value outside the bounds gets the code of the nearer bound.
func (g Grid) Code(v float64) (code int32, on bool) {
	k := (v*g.per - float64(g.first)) / float64(g.step)
	r := math.Round(k)
	switch {
	case r < 0:
		return 0, false
	case r > float64(g.size-1):
		return g.size - 1, false
	}
	return int32(r), math.Abs(k-r) <= slack
}

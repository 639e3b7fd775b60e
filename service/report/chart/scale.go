package chart

import (
	"math"
	"strconv"
)

// span is the stretch of values that the chart shows, and its ticks.
type span struct {
	low, high float64
	step      float64
}

// wantedTicks is about how many ticks a scale gets.
const wantedTicks = 5

// scale is the stretch that holds every dot, interval and line.
func (c *Chart) scale() span {
	if c.span != nil {
		return *c.span
	}
	low, high := math.Inf(1), math.Inf(-1)
	see := func(v float64) { low, high = min(low, v), max(high, v) }
	for _, row := range c.Rows {
		for _, d := range row.Dots {
			if d.finite() {
				see(min(d.Low, d.Value))
				see(max(d.High, d.Value))
			}
		}
	}
	for _, l := range c.Lines {
		if !math.IsNaN(l.At) && !math.IsInf(l.At, 0) {
			see(l.At)
		}
	}
	return spanOf(low, high)
}

// spanOf widens a stretch to whole steps of 1, 2 or 5 times a power of ten.
func spanOf(low, high float64) span {
	if low > high {
		return span{0, 1, 0.5}
	}
	width := high - low
	// One value alone still needs a scale to stand on.
	if least := max(1, math.Abs(high), math.Abs(low)) * 1e-3; width < least {
		low, high, width = low-least, high+least, 2*least
	}
	rough := width / wantedTicks
	power := math.Pow(10, math.Floor(math.Log10(rough)))
	step := 10 * power
	for _, times := range [...]float64{1, 2, 5} {
		if times*power >= rough {
			step = times * power
			break
		}
	}
	return span{low: math.Floor(low/step+1e-9) * step, high: math.Ceil(high/step-1e-9) * step, step: step}
}

// ticks are the marks on the scale.
func (s span) ticks() []float64 {
	n := int(math.Round((s.high - s.low) / s.step))
	out := make([]float64, 0, n+1)
	for i := range n + 1 {
		out = append(out, s.low+float64(i)*s.step)
	}
	return out
}

// decimals is how many a tick needs.
func (s span) decimals() int { return max(0, int(math.Ceil(-math.Log10(s.step)-1e-9))) }

// at is where a value lies, 0 at the low end to 1 at the high end.
func (s span) at(v float64) float64 { return min(1, max(0, (v-s.low)/(s.high-s.low))) }

func (c *Chart) number(v float64, decimals int) string {
	if v == 0 {
		v = 0 // no minus before a zero
	}
	if c.Number != nil {
		return c.Number(v, decimals)
	}
	return strconv.FormatFloat(v, 'f', decimals, 64)
}

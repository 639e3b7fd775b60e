package chart

import "math"

// Shape is what a dot looks like.
type Shape uint8

// The shapes.
const (
	// Hollow is a ring: as it was.
	Hollow Shape = iota
	// Filled is a disc: as it is.
	Filled
	// Diamond is a value on its own.
	Diamond
)

// Dot is one value and the interval that holds it. An interval that is not known has Low and High at the value.
type Dot struct {
	Shape            Shape
	Value, Low, High float64
	// Text is the value as people read it, with its interval and unit.
	Text string
}

// finite reports whether the dot can be drawn.
func (d Dot) finite() bool {
	for _, v := range [...]float64{d.Value, d.Low, d.High} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

// Row is what stands under one label, one dot below the other.
type Row struct {
	Label string
	Dots  []Dot
}

// Line is a limit or a reference across all rows.
type Line struct {
	At    float64
	Label string
}

// Key says what a shape means.
type Key struct {
	Shape Shape
	Label string
}

// Chart is rows of dots on one scale. The zero value is an empty chart.
type Chart struct {
	// Title is read to people who cannot see the chart.
	Title string
	// Axis names the scale and its unit: "gloss at 20°, GU".
	Axis string
	Rows []Row
	// Lines are limits that the values are read against.
	Lines []Line
	Keys  []Key
	// Number writes a tick with so many decimals. Nil: as Go does.
	Number func(v float64, decimals int) string

	span *span // set by Split, so that all parts share one scale
}

// Empty reports whether there is nothing to draw.
func (c *Chart) Empty() bool {
	for _, row := range c.Rows {
		for _, d := range row.Dots {
			if d.finite() {
				return false
			}
		}
	}
	return true
}

// Split cuts a chart that is too tall for a page into charts of up to most rows each, at least one, all on the scale of the
// whole.
func (c *Chart) Split(most int) []Chart {
	if c.Empty() {
		return nil
	}
	whole := c.scale()
	var out []Chart
	for from := 0; from < len(c.Rows); from += max(1, most) {
		part := *c
		part.span, part.Rows = &whole, c.Rows[from:min(from+max(1, most), len(c.Rows))]
		out = append(out, part)
	}
	return out
}

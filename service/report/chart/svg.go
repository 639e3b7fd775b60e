package chart

import (
	"fmt"
	"html"
	"strings"
	"unicode/utf8"
)

// Measures of the drawing, in its own units; a page's width is 640 of them.
const (
	width      = 640.0
	plotLeft   = 132.0
	plotRight  = 448.0
	textLeft   = 462.0
	firstRow   = 12.0
	dotPitch   = 14.0
	rowGap     = 5.0
	axisHeight = 36.0
	keyHeight  = 15.0
	dotRadius  = 4.2
	// labelRunes fit between the left edge and the plot.
	labelRunes = 22
)

// SVG draws the chart as one element that scales to the width that it is given, in the colour of the text around it. Text from
// outside is escaped. An empty chart gives "".
func (c *Chart) SVG() string {
	if c.Empty() {
		return ""
	}
	d := drawing{chart: c, span: c.scale()}
	top := firstRow
	if len(c.Lines) > 0 {
		top += 12
	}
	y := top
	for _, row := range c.Rows {
		y = d.row(row, y)
	}
	bottom := y - rowGap + 4
	back := d.grid(top-12, bottom)
	height := d.keys(bottom)
	title := html.EscapeString(c.Title)
	open := `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ` + num(width) + " " + num(height) + `" role="img" aria-label="` + title +
		`" font-size="12" fill="currentColor"><title>` + title + `</title>`
	return open + back + d.out.String() + `</svg>`
}

// drawing is an SVG under way.
type drawing struct {
	chart *Chart
	span  span
	out   strings.Builder
}

func (d *drawing) x(v float64) float64 { return plotLeft + d.span.at(v)*(plotRight-plotLeft) }

// row draws the dots of a row one below the other and gives where the next row begins.
func (d *drawing) row(row Row, y float64) float64 {
	fmt.Fprintf(&d.out, `<text x="0" y="%s">%s`, num(y+4), html.EscapeString(cutTo(row.Label, labelRunes)))
	if utf8.RuneCountInString(row.Label) > labelRunes {
		fmt.Fprintf(&d.out, `<title>%s</title>`, html.EscapeString(row.Label))
	}
	d.out.WriteString("</text>")
	for _, dot := range row.Dots {
		if !dot.finite() {
			continue
		}
		d.dot(dot, y)
		y += dotPitch
	}
	return y + rowGap
}

func (d *drawing) dot(dot Dot, y float64) {
	low, high, x := d.x(dot.Low), d.x(dot.High), d.x(dot.Value)
	if high > low {
		fmt.Fprintf(&d.out, `<path d="M%s %sH%sM%s %sv8M%s %sv8" stroke="currentColor" stroke-width="1.3" fill="none"/>`,
			num(low), num(y), num(high), num(low), num(y-4), num(high), num(y-4))
	}
	d.mark(dot.Shape, x, y)
	fmt.Fprintf(&d.out, `<text x="%g" y="%s">%s</text>`, textLeft, num(y+4), html.EscapeString(dot.Text))
}

func (d *drawing) mark(shape Shape, x, y float64) {
	switch shape {
	case Diamond:
		fmt.Fprintf(&d.out, `<path d="M%s %sl5 5-5 5-5-5z"/>`, num(x), num(y-5))
	case Filled:
		fmt.Fprintf(&d.out, `<circle cx="%s" cy="%s" r="%g"/>`, num(x), num(y), dotRadius)
	case Hollow:
		fmt.Fprintf(&d.out, `<circle cx="%s" cy="%s" r="%g" fill="#fff" stroke="currentColor" stroke-width="1.6"/>`, num(x), num(y), dotRadius)
	}
}

// grid draws what lies behind the dots: ticks, the name of the scale, limits.
func (d *drawing) grid(top, bottom float64) string {
	var out strings.Builder
	fmt.Fprintf(&out, `<path d="M%g %sH%g" stroke="currentColor" stroke-width="1" fill="none"/>`, plotLeft, num(bottom), plotRight)
	for _, tick := range d.span.ticks() {
		x := num(d.x(tick))
		fmt.Fprintf(&out, `<path d="M%s %sV%s" stroke="currentColor" stroke-opacity="0.16" fill="none"/><text x="%s" y="%s" text-anchor="middle" font-size="11">%s</text>`,
			x, num(top), num(bottom+4), x, num(bottom+16), html.EscapeString(d.chart.number(tick, d.span.decimals())))
	}
	fmt.Fprintf(&out, `<text x="%s" y="%s" text-anchor="middle" font-size="11">%s</text>`,
		num((plotLeft+plotRight)/2), num(bottom+31), html.EscapeString(d.chart.Axis))
	for _, line := range d.chart.Lines {
		x := d.x(line.At)
		anchor := "middle"
		switch at := d.span.at(line.At); {
		case at > 0.75:
			anchor = "end"
		case at < 0.25:
			anchor = "start"
		}
		fmt.Fprintf(&out, `<path d="M%s %sV%s" stroke="currentColor" stroke-width="1.2" stroke-dasharray="2 3" fill="none"/><text x="%s" y="%s" text-anchor="%s" font-size="11">%s</text>`,
			num(x), num(top), num(bottom), num(x), num(top-4), anchor, html.EscapeString(line.Label))
	}
	return out.String()
}

// keys draws what the shapes mean, under the labels, and gives the height that it takes.
func (d *drawing) keys(bottom float64) float64 {
	y := bottom + 12
	for _, key := range d.chart.Keys {
		d.mark(key.Shape, dotRadius+1, y)
		fmt.Fprintf(&d.out, `<text x="14" y="%s" font-size="11">%s</text>`, num(y+4), html.EscapeString(cutTo(key.Label, labelRunes)))
		y += keyHeight
	}
	return max(bottom+axisHeight, y-4)
}

// num writes a coordinate to a tenth.
func num(v float64) string {
	text := fmt.Sprintf("%.1f", v)
	return strings.TrimSuffix(text, ".0")
}

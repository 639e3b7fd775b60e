package chart_test

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/service/report/chart"
)

// someChart makes a chart of values of any size and sign.
func someChart(r *rand.Rand) chart.Chart {
	c := chart.Chart{Title: "t", Axis: "a", Keys: []chart.Key{{Shape: chart.Hollow, Label: "before"}, {Shape: chart.Filled, Label: "after"}}}
	size, around := math.Pow(10, float64(r.IntN(7)-3)), (r.Float64()-0.5)*1000
	for i := range 1 + r.IntN(20) {
		row := chart.Row{Label: fmt.Sprintf("row %d", i)}
		for range 1 + r.IntN(3) {
			v := around + r.NormFloat64()*size
			row.Dots = append(row.Dots, chart.Dot{Shape: chart.Shape(r.IntN(3)), Value: v, Low: v - r.Float64()*size, High: v + r.Float64()*size, Text: "x"}) //nolint:gosec // three shapes
		}
		c.Rows = append(c.Rows, row)
	}
	if r.IntN(2) == 0 {
		c.Lines = []chart.Line{{At: around, Label: "limit"}}
	}
	return c
}

// readsAsXML reads a drawing to its end.
func readsAsXML(t *testing.T, svg string) {
	t.Helper()
	for d := xml.NewDecoder(strings.NewReader(svg)); ; {
		if _, err := d.Token(); errors.Is(err, io.EOF) {
			return
		} else if err != nil {
			require.NoError(t, err, svg)
		}
	}
}

var circle = regexp.MustCompile(`<circle cx="([-0-9.]+)" cy="([-0-9.]+)"`)

func numberOf(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}

func TestEveryDotLiesWithinTheDrawing(t *testing.T) {
	viewBox := regexp.MustCompile(`viewBox="0 0 640 ([0-9.]+)"`)
	interval := regexp.MustCompile(`<path d="M([-0-9.]+) ([-0-9.]+)H([-0-9.]+)M`)
	for seed := range uint64(300) {
		c := someChart(rand.New(rand.NewPCG(seed, 1)))
		svg := c.SVG()
		readsAsXML(t, svg)
		height := numberOf(t, viewBox.FindStringSubmatch(svg)[1])
		for _, m := range circle.FindAllStringSubmatch(svg, -1) {
			x, y := numberOf(t, m[1]), numberOf(t, m[2])
			assert.True(t, (x >= 132 && x <= 448 || x < 6) && y > 0 && y < height, "seed %d: a dot at %g, %g", seed, x, y)
		}
		for _, m := range interval.FindAllStringSubmatch(svg, -1) {
			assert.LessOrEqual(t, numberOf(t, m[1]), numberOf(t, m[3]), "seed %d: an interval runs backwards", seed)
		}
		assert.NotContains(t, svg, "NaN")
		assert.NotContains(t, svg, "Inf")
	}
}

func TestLargerValuesLieFurtherRight(t *testing.T) {
	for seed := range uint64(200) {
		r := rand.New(rand.NewPCG(seed, 2))
		var c chart.Chart
		v := r.NormFloat64() * 100
		for range 12 {
			v += 0.5 + r.Float64()
			c.Rows = append(c.Rows, chart.Row{Dots: []chart.Dot{{Shape: chart.Filled, Value: v, Low: v, High: v}}})
		}
		last := -1.0
		for _, m := range circle.FindAllStringSubmatch(c.SVG(), -1) {
			x := numberOf(t, m[1])
			assert.Greater(t, x, last, "seed %d", seed)
			last = x
		}
		assert.NotEqual(t, -1.0, last)
	}
}

func TestTheScaleBeginsWhereTheValuesDo(t *testing.T) {
	c := chart.Chart{Rows: []chart.Row{{Dots: []chart.Dot{{Value: 72.2, Low: 71, High: 73}, {Value: 79.9, Low: 79, High: 81}}}}}
	var out strings.Builder
	require.NoError(t, c.Letters(&out))
	assert.Contains(t, out.String(), "70 ")
	assert.NotContains(t, out.String(), " 0 ", "zero is no value of it")
}

func TestPartsOfATallChartShareOneScale(t *testing.T) {
	for seed := range uint64(100) {
		c := someChart(rand.New(rand.NewPCG(seed, 3)))
		ticks := regexp.MustCompile(`text-anchor="middle" font-size="11">([^<]*)</text>`)
		whole, rows := ticks.FindAllString(c.SVG(), 3), 0
		for _, part := range c.Split(4) {
			assert.LessOrEqual(t, len(part.Rows), 4)
			rows += len(part.Rows)
			labels := func(all []string) (out []string) {
				for _, s := range all {
					out = append(out, ticks.FindStringSubmatch(s)[1])
				}
				return out
			}
			assert.Equal(t, labels(whole), labels(ticks.FindAllString(part.SVG(), 3)), "seed %d", seed)
		}
		assert.Equal(t, len(c.Rows), rows)
	}
}

func TestWhatCannotBeDrawnIsLeftOut(t *testing.T) {
	none := chart.Chart{Rows: []chart.Row{{Label: "x", Dots: []chart.Dot{{Value: math.NaN()}, {Value: 1, Low: math.Inf(-1), High: 2}}}}}
	assert.True(t, none.Empty())
	assert.Empty(t, none.SVG())
	assert.Empty(t, none.Split(5))
	one := chart.Chart{Rows: []chart.Row{{Label: "x", Dots: []chart.Dot{{Value: math.NaN(), Text: "gone"}, {Value: 5, Low: 5, High: 5, Text: "five"}}}}}
	assert.NotContains(t, one.SVG(), "gone")
	assert.Contains(t, one.SVG(), "five")
}

func TestTextFromOutsideIsEscaped(t *testing.T) {
	evil := `<script>alert("1")</script>&'`
	c := chart.Chart{
		Title: evil, Axis: evil, Keys: []chart.Key{{Label: evil}}, Lines: []chart.Line{{At: 2, Label: evil}},
		Rows:   []chart.Row{{Label: evil, Dots: []chart.Dot{{Value: 1, Low: 1, High: 3, Text: evil}}}},
		Number: func(float64, int) string { return evil },
	}
	svg := c.SVG()
	readsAsXML(t, svg)
	assert.NotContains(t, svg, "<script")
}

package chart

import (
	"fmt"
	"io"
	"math"
	"strings"
	"unicode/utf8"
)

// Widths of the columns in letters.
const (
	plotLetters  = 30
	labelLetters = 20
)

// Letters writes the chart for a terminal: a line for each dot, the interval as a rule with the dot on it, the value beside it.
// An empty chart writes nothing.
func (c *Chart) Letters(w io.Writer) error {
	if c.Empty() {
		return nil
	}
	s := c.scale()
	var out strings.Builder
	fmt.Fprintf(&out, "%s\n", c.Axis)
	out.WriteString(ends(c.number(s.low, s.decimals()), c.number(s.high, s.decimals())) + "\n")
	for _, row := range c.Rows {
		label := row.Label
		for _, d := range row.Dots {
			if !d.finite() {
				continue
			}
			fmt.Fprintf(&out, "%s %s  %s\n", padded(label, labelLetters), c.rule(s, d), d.Text)
			label = ""
		}
	}
	for _, line := range c.Lines {
		fmt.Fprintf(&out, "%s %s\n", padded("", labelLetters), "┊ "+line.Label)
	}
	for _, key := range c.Keys {
		fmt.Fprintf(&out, "%s %c %s\n", padded("", labelLetters), key.Shape.letter(), key.Label)
	}
	_, err := io.WriteString(w, out.String())
	return err
}

func ends(low, high string) string {
	gap := max(1, plotLetters-utf8.RuneCountInString(low)-utf8.RuneCountInString(high))
	return strings.Repeat(" ", labelLetters+1) + low + strings.Repeat(" ", gap) + high
}

func (c *Chart) rule(s span, d Dot) string {
	letters := []rune(strings.Repeat(" ", plotLetters))
	cell := func(v float64) int { return int(math.Round(s.at(v) * (plotLetters - 1))) }
	for _, line := range c.Lines {
		letters[cell(line.At)] = '┊'
	}
	for i := cell(d.Low); i <= cell(d.High); i++ {
		letters[i] = '─'
	}
	letters[cell(d.Value)] = d.Shape.letter()
	return string(letters)
}

func (s Shape) letter() rune {
	switch s {
	case Filled:
		return '●'
	case Diamond:
		return '◆'
	case Hollow:
	}
	return '○'
}

func padded(text string, width int) string {
	text = cutTo(text, width)
	return text + strings.Repeat(" ", max(0, width-utf8.RuneCountInString(text)))
}

// cutTo keeps the first letters of a text that is too long.
func cutTo(text string, most int) string {
	if utf8.RuneCountInString(text) <= most {
		return text
	}
	return string([]rune(text)[:most-1]) + "…"
}

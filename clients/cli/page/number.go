package page

import (
	"math"
	"strconv"
	"strings"
)

// number is a number as people read it: one decimal, two below one, without trailing zeros.
func number(v float64) string {
	decimals := 10.0
	if math.Abs(v) < 1 {
		decimals = 100
	}
	v = math.Round(v*decimals) / decimals
	if v == 0 {
		v = 0 // no "-0"
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// with is a number held together with its unit.
func with(v float64, unit string) string {
	if unit == "" {
		return number(v)
	}
	return number(v) + nbsp + unit
}

// reading is a gloss or haze value to the one decimal that meters show.
func reading(v float64, unit string) string { return tenths(v) + nbsp + unit }

func tenths(v float64) string {
	text := strconv.FormatFloat(v, 'f', 1, 64)
	if text == "-0.0" {
		return "0.0"
	}
	return text
}

// signed is a change: a rise has its plus.
func signed(v float64) string {
	if text := tenths(v); strings.HasPrefix(text, "-") || text == "0.0" {
		return text
	}
	return "+" + tenths(v)
}

// plural is a count and its word.
func plural(n int, one, many string) string {
	if n == 1 {
		return "1" + nbsp + one
	}
	return strconv.Itoa(n) + nbsp + many
}

package page

import (
	"fmt"
	"strconv"
	"time"
)

// duration keeps three digits, or what there is of whole nanoseconds.
func duration(d time.Duration) string {
	switch {
	case d < time.Microsecond:
		return fmt.Sprintf("%d ns", d.Nanoseconds())
	case d < time.Millisecond:
		return digits(float64(d)/float64(time.Microsecond)) + " µs"
	case d < time.Second:
		return digits(float64(d)/float64(time.Millisecond)) + " ms"
	}
	return digits(d.Seconds()) + " s"
}

// times writes a ratio with two digits, and whole from ten up.
func times(ratio float64) string {
	if ratio < 9.95 {
		return strconv.FormatFloat(ratio, 'f', 1, 64) + "×"
	}
	return thousands(int(ratio+0.5)) + "×"
}

func digits(v float64) string {
	switch {
	case v < 9.995:
		return strconv.FormatFloat(v, 'f', 2, 64)
	case v < 99.95:
		return strconv.FormatFloat(v, 'f', 1, 64)
	}
	return strconv.FormatFloat(v, 'f', 0, 64)
}

func thousands(n int) string {
	s := strconv.Itoa(n)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}

package page

import (
	"strconv"
	"strings"

	glossladderv1 "github.com/glossladder/glossladder/proto/glossladder/v1"
)

// fromHours is where minutes are told in hours.
const fromHours = 100

// duration is minutes as people say them: "45 min", "6.0 h".
func duration(minutes float64) string {
	if minutes >= fromHours {
		return tenths(minutes/60) + nbsp + "h"
	}
	return strconv.FormatFloat(minutes, 'f', 0, 64) + nbsp + "min"
}

// durationSpan is likely minutes with their ends, in the unit of the likely: "6.0 h (4.1 to 9.2)".
func durationSpan(s *glossladderv1.Span) string {
	if s.GetLikely() >= fromHours {
		return duration(s.GetLikely()) + " (" + tenths(s.GetLow()/60) + " to " + tenths(s.GetHigh()/60) + ")"
	}
	whole := func(v float64) string { return strconv.FormatFloat(v, 'f', 0, 64) }
	return duration(s.GetLikely()) + " (" + whole(s.GetLow()) + " to " + whole(s.GetHigh()) + ")"
}

// heldTogether keeps words on one line.
func heldTogether(text string) string { return strings.ReplaceAll(text, " ", nbsp) }

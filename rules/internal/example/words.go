package example

import (
	"math/bits"
	"strconv"
	"strings"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/region"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// maxNotKnown is how many missing facts of a region are named one by one.
const maxNotKnown = 6

// RegionWords says a region, naming only the facts of which it does not hold every
// value: "softness very-hard, severity 4 to 5, usable film not measured".
func RegionWords(s *rules.Schema, axes []space.Axis, r region.Region) string {
	var given, missing []string
	for a := range r {
		if r[a].Whole(&axes[a]) {
			continue
		}
		text := s.Fact(rules.FactID(a)).Label + " " + cellWords(s, axes, int32(a), &r[a])
		if known(&r[a]) {
			given = append(given, text)
		} else {
			missing = append(missing, text)
		}
	}
	if more := len(missing) - maxNotKnown; more > 1 {
		missing = append(missing[:maxNotKnown], strconv.Itoa(more)+" more facts not known")
	}
	if given = append(given, missing...); len(given) > 0 {
		return strings.Join(given, ", ")
	}
	return "any input"
}

func known(c *region.Cell) bool { return c.Lo <= c.Hi || c.Mask != 0 }

// cellWords says the values of one fact: "4 to 5", "soft or medium", "not measured".
func cellWords(s *rules.Schema, axes []space.Axis, axis int32, c *region.Cell) string {
	missing := valueWords(s, axes, axis, space.Missing)
	if !known(c) {
		return missing
	}
	options := []string{knownWords(s, axes, axis, c)}
	if c.Mask != 0 && !isStretch(&axes[axis], c.Mask) {
		options = wordsOf(s, axes, axis, c.Mask)
	}
	if c.Missing {
		options = append(options, missing)
	}
	return either(options)
}

// knownWords says the given values of a number, and words that follow each other.
func knownWords(s *rules.Schema, axes []space.Axis, axis int32, c *region.Cell) string {
	a := &axes[axis]
	lo, hi := c.Lo, c.Hi
	if c.Mask != 0 {
		lo, hi = int32(bits.TrailingZeros64(c.Mask)), int32(63-bits.LeadingZeros64(c.Mask))
	}
	switch {
	case lo == hi:
		return valueWords(s, axes, axis, lo)
	case lo == 0 && hi == a.Size()-1:
		return "known"
	case a.Kind == space.Number:
		return number(a.Value(lo)) + " to " + valueWords(s, axes, axis, hi)
	}
	return valueWords(s, axes, axis, lo) + " to " + valueWords(s, axes, axis, hi)
}

// isStretch says whether a mask is best told by its ends: all words, one, or three
// and more that follow each other on a scale.
func isStretch(a *space.Axis, mask uint64) bool {
	n := bits.OnesCount64(mask)
	together := mask>>bits.TrailingZeros64(mask) == 1<<n-1
	return n == 1 || n == int(a.Size()) || a.Ordered && together && n > 2
}

func wordsOf(s *rules.Schema, axes []space.Axis, axis int32, mask uint64) []string {
	a := &axes[axis]
	all := uint64(1)<<a.Size() - 1
	if out := all &^ mask; a.Size() > 3 && bits.OnesCount64(out) == 1 {
		return []string{"anything but " + valueWords(s, axes, axis, int32(bits.TrailingZeros64(out)))}
	}
	var words []string
	for ; mask != 0; mask &= mask - 1 {
		words = append(words, valueWords(s, axes, axis, int32(bits.TrailingZeros64(mask))))
	}
	return words
}

func either(options []string) string {
	last := len(options) - 1
	if last == 0 {
		return options[0]
	}
	return strings.Join(options[:last], ", ") + " or " + options[last]
}

// valueWords is one value in words, with its unit.
func valueWords(s *rules.Schema, axes []space.Axis, axis, code int32) string {
	codes := make([]int32, len(axes))
	codes[axis] = code
	return s.InputAt(codes).Value(rules.FactID(axis))
}

func number(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

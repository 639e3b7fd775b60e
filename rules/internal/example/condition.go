package example

import (
	"math/bits"
	"strconv"
	"strings"

	"github.com/glossladder/glossladder/rules/internal/region"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// Condition is a region as a rule would ask for it: true for its inputs and for no
// other.
func Condition(axes []space.Axis, r region.Region) string {
	var parts []string
	for a := range r {
		if !r[a].Whole(&axes[a]) {
			parts = append(parts, Clause(&axes[a], &r[a]))
		}
	}
	if len(parts) == 0 {
		return "true"
	}
	return strings.Join(parts, " && ")
}

// Clause asks that a fact has a value of a cell.
func Clause(a *space.Axis, c *region.Cell) string {
	if !known(c) {
		return "not known(" + a.Name + ")"
	}
	text := valued(a, c)
	if c.Missing {
		return "(not known(" + a.Name + ") || " + text + ")"
	}
	return text
}

// valued asks that a fact has a given value of a cell.
func valued(a *space.Axis, c *region.Cell) string {
	last := a.Size() - 1
	switch {
	case a.Kind == space.Flag && c.Mask == 0b01:
		return "not " + a.Name
	case a.Kind == space.Flag && c.Mask == 0b10:
		return a.Name
	case a.Kind == space.Word && c.Mask != 1<<a.Size()-1:
		return worded(a, c.Mask)
	case a.Kind != space.Number || c.Lo == 0 && c.Hi == last:
		return "known(" + a.Name + ")"
	case c.Lo == c.Hi:
		return a.Name + " == " + number(a.Value(c.Lo))
	case c.Lo == 0:
		return a.Name + " <= " + number(a.Value(c.Hi))
	case c.Hi == last:
		return a.Name + " >= " + number(a.Value(c.Lo))
	}
	return a.Name + " in " + number(a.Value(c.Lo)) + ".." + number(a.Value(c.Hi))
}

// worded asks for some words of a fact, not for all of them.
func worded(a *space.Axis, mask uint64) string {
	n := bits.OnesCount64(mask)
	out := (uint64(1)<<a.Size() - 1) &^ mask
	first, last := bits.TrailingZeros64(mask), 63-bits.LeadingZeros64(mask)
	quoted := func(k int) string { return strconv.Quote(a.Words[k]) }
	switch {
	case n == 1:
		return a.Name + " == " + quoted(first)
	case a.Ordered && mask == 1<<n-1:
		return a.Name + " <= " + quoted(last)
	case a.Ordered && out == 1<<first-1:
		return a.Name + " >= " + quoted(first)
	case bits.OnesCount64(out) == 1:
		return a.Name + " != " + quoted(bits.TrailingZeros64(out))
	}
	var words []string
	for ; mask != 0; mask &= mask - 1 {
		words = append(words, quoted(bits.TrailingZeros64(mask)))
	}
	return a.Name + " in [" + strings.Join(words, ", ") + "]"
}

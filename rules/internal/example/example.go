// Package example makes the input that breaks something small, and says it in
// words: only the facts that matter are named.
//
// It decides nothing itself: it is given what to ask of an input.
package example

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"github.com/glossladder/glossladder/rules"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// maxTries bounds the inputs that are tried for one example.
const maxTries = 3000

// Smallest makes every fact missing that can be missing while the input still
// breaks, moves the numbers that are left as near to zero as they go, and returns the facts whose value matters: another value of such a fact,
// out of those at which some box changes its mind, does not break. Facts in keep
// are left as they are and count as mattering.
func Smallest(axes []space.Axis, boxes []space.Box, point []int32, keep []int32, breaks func([]int32) bool) (smallest, matter []int32) {
	smallest = append([]int32(nil), point...)
	kept := map[int32]bool{}
	for _, a := range keep {
		kept[a] = true
	}
	for a, code := range smallest {
		if code == space.Missing || kept[int32(a)] {
			continue
		}
		smallest[a] = space.Missing
		if !breaks(smallest) {
			smallest[a] = code
		}
	}
	values := turns(axes, boxes)
	tries := 0
	for a, code := range smallest {
		if code == space.Missing || kept[int32(a)] || axes[a].Kind != space.Number {
			continue
		}
		for _, v := range nearerZero(&axes[a], values[a], code) {
			smallest[a] = v
			if tries++; tries > maxTries || breaks(smallest) {
				break
			}
			smallest[a] = code
		}
	}
	for a, code := range smallest {
		matters := kept[int32(a)] || code != space.Missing
		for _, v := range values[a] {
			if tries++; matters || tries > maxTries {
				break
			}
			smallest[a] = v
			matters = !breaks(smallest)
		}
		smallest[a] = code
		if matters {
			matter = append(matter, int32(a))
		}
	}
	return smallest, matter
}

// nearerZero are the values nearer to zero than a code at which a box may change its
// mind, and zero itself, the nearest first.
func nearerZero(axis *space.Axis, turns []int32, code int32) []int32 {
	far := func(c int32) float64 { return math.Abs(axis.Value(c)) }
	out := slices.Clone(turns)
	if zero, ok := axis.Grid.Code(0); ok {
		out = append(out, zero)
	}
	for _, c := range turns { // the last value before a turn is an end of a stretch as well
		if c > 0 {
			out = append(out, c-1)
		}
	}
	out = slices.DeleteFunc(out, func(c int32) bool { return far(c) >= far(code) })
	slices.SortFunc(out, func(a, b int32) int { return cmp.Or(cmp.Compare(far(a), far(b)), cmp.Compare(b, a)) })
	return slices.Compact(out)
}

// turns are, for each axis, values on every stretch on which no box changes its mind.
func turns(axes []space.Axis, boxes []space.Box) [][]int32 {
	out := make([][]int32, len(axes))
	seen := make([]map[int32]bool, len(axes))
	add := func(a, code int32) {
		if seen[a] == nil {
			seen[a] = map[int32]bool{}
		}
		if code >= 0 && code < axes[a].Size() && !seen[a][code] {
			seen[a][code] = true
			out[a] = append(out[a], code)
		}
	}
	for i := range boxes {
		for _, d := range boxes[i].Dims {
			if axes[d.Axis].Kind == space.Number {
				add(d.Axis, 0)
				add(d.Axis, d.Lo)
				add(d.Axis, d.Hi+1)
				continue
			}
			for k := range axes[d.Axis].Size() {
				add(d.Axis, k)
			}
		}
	}
	return out
}

// maxMissing is how many missing facts are named one by one.
const maxMissing = 2

// Words says the named facts of an input in which all others are missing: "softness
// soft, usable film not measured".
func Words(in *rules.Input, matter []int32) string {
	if len(matter) == 0 {
		return "any input"
	}
	var given, missing []string
	for _, a := range matter {
		id := rules.FactID(a)
		text := in.Schema().Fact(id).Label + " " + in.Value(id)
		if in.Known(id) {
			given = append(given, text)
		} else {
			missing = append(missing, text)
		}
	}
	switch {
	case len(missing) <= maxMissing:
		given = append(given, missing...)
	case len(given) == 0:
		return "nothing known"
	default:
		given = append(given, "nothing else known")
	}
	return strings.Join(given, ", ")
}

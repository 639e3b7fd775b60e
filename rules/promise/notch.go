package promise

import (
	"math/bits"

	"github.com/glossladder/glossladder/rules/internal/region"
)

// neighbours is the least value of a cell whose next value lies in another cell of
// the same fact. A missing value has no neighbour.
func neighbours(low, high *region.Cell) (code int32, ok bool) {
	if mask := low.Mask & (high.Mask >> 1); mask != 0 {
		return int32(bits.TrailingZeros64(mask)), true
	}
	code = max(low.Lo, high.Lo-1)
	return code, low.Lo <= low.Hi && high.Lo <= high.Hi && code <= min(low.Hi, high.Hi-1)
}

// judgeNotch judges a part by how far apart the two results can lie in it, at most
// and at least. Where one of them has no answer nothing moves.
func (p *pair) judgeNotch(both, sure bool, most, least int32) region.Verdict {
	switch {
	case !both || most <= p.most:
		return region.Safe
	case sure && least > p.most:
		return region.Broken
	}
	return region.Split
}

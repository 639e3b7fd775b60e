package cond_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/glossladder/glossladder/rules/internal/cond"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// What a clause comes to at an input is among what it may come to in every part that
// holds the input, and at a part of one input alone nothing else is.
func TestWithinLeavesNoTruthOut(t *testing.T) {
	s := wide(t)
	r := rand.New(rand.NewPCG(7, 7))
	settled := 0
	for _, when := range []string{
		"w.x * w.y > 300", "w.x + w.y <= 20", "w.x / w.y < 2", "w.x - w.y == 1", "abs(w.x) - w.y < 3", "min(w.x, w.y) > 2 * w.y",
		"w.x * w.x > 1000000 - w.y", "round(w.x / 3) == w.y", "(w.x * 0.1 - w.y) * (w.y - 4) >= 0", "w.y / (w.x - w.x) > 1", manyCases(),
	} {
		compiler := cond.NewCompiler(s)
		_, mistakes := compiler.Compile(when)
		require.Empty(t, mistakes, when)
		cs := compiler.Clauses()
		require.NotZero(t, cs.Len(), when)
		var memo cond.Memo
		for range 400 {
			part := make([]cond.Stretch, 2)
			for a := range part {
				size := s.Axes[a].Size()
				part[a].Lo = r.Int32N(size)
				part[a].Hi = min(size-1, part[a].Lo+r.Int32N(1+r.Int32N(size)))
				part[a].Missing = r.IntN(4) == 0
			}
			codes := make([]int32, 2)
			for range 10 {
				for a, p := range part {
					codes[a] = p.Lo + r.Int32N(p.Hi-p.Lo+1)
					if p.Missing && r.IntN(3) == 0 {
						codes[a] = space.Missing
					}
				}
				for i := range int32(cs.Len()) {
					may := cs.Within(i, func(a int32) cond.Stretch { return part[a] })
					memo.Reset(cs)
					require.True(t, may.Has(cs.Truth(i, codes, &memo)), "%s at %v in %v", when, codes, part)
					if !may.Has(space.True) || !may.Has(space.False) {
						settled++
					}
				}
			}
		}
	}
	assert.Greater(t, settled, 5000, "most parts say something")
}

// manyCases has holes in one axis for some values of the other: more cases than boxes say.
func manyCases() string {
	var parts []string
	for i := range 24 {
		parts = append(parts, fmt.Sprintf("(w.x != %d.%d || w.y > %d || not known(w.y))", i%10, 1+i/10, i%9))
	}
	return strings.Join(parts, " && ")
}

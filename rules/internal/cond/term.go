package cond

import (
	"math"
	"strconv"
	"strings"

	"github.com/glossladder/glossladder/rules/internal/space"
)

type termOp uint8

const (
	tConst termOp = iota
	tFact
	tNeg
	tAdd
	tSub
	tMul
	tDiv
	tAbs
	tMin
	tMax
	tRound
	tFloor
	tCeil
	tCase // test ? kids[0] : kids[1]
)

var termNames = map[termOp]string{
	tAdd: "+", tSub: "-", tMul: "*", tDiv: "/", tAbs: "abs", tMin: "min", tMax: "max",
	tRound: "round", tFloor: "floor", tCeil: "ceil",
}

// term is a checked expression of a number or of a word, which counts as the
// number of its place. Terms are never changed once checked, so trees share them.
type term struct {
	op   termOp
	axis int32
	k    float64
	word string // of a word literal
	kids []*term
	test *formula
	at   int // where it starts, in runes
	size int // parts with lets written out, 0 until weighed
}

// state tells why a term has no value.
type state uint8

const (
	fine    state = iota
	lacking       // a fact it reads is missing
	broken        // the arithmetic leaves the finite numbers
)

// eval does the float operations of the virtual machine in the same order, so
// that a box drawn from its answers agrees with the machine to the last bit.
// Conditionals have been taken out before.
func (t *term) eval(s *space.Space, codes []int32) (float64, state) {
	switch t.op {
	case tConst:
		return t.k, fine
	case tFact:
		if codes[t.axis] == space.Missing {
			return 0, lacking
		}
		return s.Axes[t.axis].Value(codes[t.axis]), fine
	}
	x, st := t.kids[0].eval(s, codes)
	if st != fine {
		return 0, st
	}
	for _, kid := range t.kids[1:] {
		y, st := kid.eval(s, codes)
		if st != fine {
			return 0, st
		}
		if t.op == tDiv && y == 0 {
			return 0, broken
		}
		x = combine(t.op, x, y)
	}
	x = shape(t.op, x)
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return 0, broken
	}
	return x, fine
}

func combine(op termOp, x, y float64) float64 {
	switch op {
	case tAdd:
		return x + y
	case tSub:
		return x - y
	case tMul:
		return x * y
	case tDiv:
		return x / y
	case tMin:
		return math.Min(x, y)
	}
	return math.Max(x, y)
}

func shape(op termOp, x float64) float64 {
	switch op {
	case tNeg:
		return -x
	case tAbs:
		return math.Abs(x)
	case tRound:
		return math.Round(x)
	case tFloor:
		return math.Floor(x)
	case tCeil:
		return math.Ceil(x)
	}
	return x
}

// reads adds the axes that the term reads.
func (t *term) reads(into map[int32]bool) {
	if t.op == tFact {
		into[t.axis] = true
	}
	for _, k := range t.kids {
		k.reads(into)
	}
}

// slope is +1 where the term never falls as its only fact rises, -1 where it
// never rises, 0 for a constant; ok is false where that is not plain from its
// form. Rounding of floats is monotone, so the answer holds for floats too.
func (t *term) slope() (sign int, ok bool) {
	switch t.op {
	case tConst:
		return 0, true
	case tFact:
		return 1, true
	case tAbs, tCase:
		return 0, false
	}
	var signs []int
	for _, k := range t.kids {
		s, ok := k.slope()
		if !ok {
			return 0, false
		}
		signs = append(signs, s)
	}
	switch t.op {
	case tNeg:
		return -signs[0], true
	case tSub:
		return agree(signs[0], -signs[1])
	case tMul:
		if t.kids[0].fixed() {
			return signs[1] * signOf(t.kids[0]), true
		}
		return signs[0] * signOf(t.kids[1]), t.kids[1].fixed()
	case tDiv:
		return signs[0] * signOf(t.kids[1]), t.kids[1].fixed()
	}
	return agree(signs...)
}

func agree(signs ...int) (int, bool) {
	all := 0
	for _, s := range signs {
		if s*all < 0 {
			return 0, false
		}
		if s != 0 {
			all = s
		}
	}
	return all, true
}

// fixed reports whether the term reads no fact.
func (t *term) fixed() bool {
	for _, k := range t.kids {
		if !k.fixed() {
			return false
		}
	}
	return t.op != tFact
}

// signOf is the sign of a fixed term, 0 for any other.
func signOf(t *term) int {
	if !t.fixed() {
		return 0
	}
	v, st := t.eval(nil, nil)
	if st != fine {
		return 0
	}
	switch {
	case v > 0:
		return 1
	case v < 0:
		return -1
	}
	return 0
}

// text is the term in its one normal spelling.
func (t *term) text(s *space.Space) string {
	switch t.op {
	case tConst:
		if t.word != "" {
			return strconv.Quote(t.word)
		}
		return strconv.FormatFloat(t.k, 'g', -1, 64)
	case tFact:
		return s.Axes[t.axis].Name
	case tNeg:
		return "-" + t.kids[0].text(s)
	case tAdd, tSub, tMul, tDiv:
		return "(" + t.kids[0].text(s) + " " + termNames[t.op] + " " + t.kids[1].text(s) + ")"
	}
	parts := make([]string, len(t.kids))
	for i, k := range t.kids {
		parts[i] = k.text(s)
	}
	return termNames[t.op] + "(" + strings.Join(parts, ", ") + ")"
}

// findCase is the first conditional in the term, outermost first.
func (t *term) findCase() *term {
	if t.op == tCase {
		return t
	}
	for _, k := range t.kids {
		if c := k.findCase(); c != nil {
			return c
		}
	}
	return nil
}

// replace copies the way from t down to old, putting by in its place.
func (t *term) replace(old, by *term) *term {
	if t == old {
		return by
	}
	for i, k := range t.kids {
		if n := k.replace(old, by); n != k {
			c := *t
			c.kids = append([]*term(nil), t.kids...)
			c.kids[i] = n
			// the same node may stand in several places (a let used twice)
			for j := i + 1; j < len(c.kids); j++ {
				c.kids[j] = c.kids[j].replace(old, by)
			}
			return &c
		}
	}
	return t
}

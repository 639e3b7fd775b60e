package cond

type formulaOp uint8

const (
	fConst formulaOp = iota
	fFlag
	fKnown
	fNot
	fAnd
	fOr
	fCompare // l cmp r
	fCase    // kids[0] ? kids[1] : kids[2]
)

// formula is a checked condition. Words have been given their codes and lists
// and ranges have been written out.
type formula struct {
	op   formulaOp
	yes  bool // of fConst
	axis int32
	kids []*formula
	cmp  string // == < <= ; the other three are their negations
	l, r *term
	at   int
	size int // parts with lets written out, 0 until weighed
}

// compare builds l cmp r with only the operators ==, < and <=, so that a
// comparison and its opposite have one text.
func compare(cmp string, l, r *term, at int) *formula {
	not := func(f *formula) *formula { return &formula{op: fNot, kids: []*formula{f}, at: at} }
	switch cmp {
	case "!=":
		return not(&formula{op: fCompare, cmp: "==", l: l, r: r, at: at})
	case ">":
		return not(&formula{op: fCompare, cmp: "<=", l: l, r: r, at: at})
	case ">=":
		return not(&formula{op: fCompare, cmp: "<", l: l, r: r, at: at})
	}
	return &formula{op: fCompare, cmp: cmp, l: l, r: r, at: at}
}

func holds(cmp string, x, y float64) bool {
	switch cmp {
	case "==":
		return x == y
	case "<":
		return x < y
	}
	return x <= y
}

package cond

// Constant is a number that a condition compares with a fact.
type Constant struct {
	Axis  int32
	Cmp   string  // fact Cmp Value: == != < <= > >=
	Value float64 // in the fact's unit
	At    int     // where it stands, in runes of the condition; the use of a let if it comes from one
}

// Constants lists the numbers that a condition, or the formula of a let, compares
// with single facts, in the order of their places. The lets above must have been
// defined. Of a text with mistakes it lists what can be told.
func (c *Compiler) Constants(src string) []Constant {
	tree, mistake := parse(src)
	if mistake != nil {
		return nil
	}
	ck := c.inspector()
	ck.listing = true
	ck.check(tree)
	return ck.constants
}

// list notes the constants of l cmp r when one side is a fact.
func (c *inspector) list(cmp string, l, r value) {
	if !c.listing || l.kind != kNumber || r.kind != kNumber {
		return
	}
	if l.term.op != tFact {
		l, r, cmp = r, l, flipped(cmp)
	}
	if l.term.op == tFact {
		c.constantsOf(l.term.axis, cmp, r.term, r.at, r.at != r.term.at)
	}
}

// constantsOf notes the constants that a term can come to. Terms out of a let have
// their places in the let, so all of them are told at its use.
func (c *inspector) constantsOf(axis int32, cmp string, t *term, at int, outOfLet bool) {
	switch t.op {
	case tConst:
		c.constants = append(c.constants, Constant{Axis: axis, Cmp: cmp, Value: t.k, At: at})
	case tCase:
		for _, k := range t.kids {
			place := at
			if !outOfLet {
				place = k.at
			}
			c.constantsOf(axis, cmp, k, place, outOfLet)
		}
	}
}

// flipped is the comparison with its sides changed over.
func flipped(cmp string) string {
	switch cmp {
	case "<":
		return ">"
	case "<=":
		return ">="
	case ">":
		return "<"
	case ">=":
		return "<="
	}
	return cmp
}

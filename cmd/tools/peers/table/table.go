// Package table makes first-hit tables of rules and points to decide, in a form that belongs to no engine, and decides
// them itself by a plain scan: the oracle that every engine is held against.
//
// It never imports an engine, ours included.
package table

// The facts: six numbers from 0 to 200, six words out of five that rise, three flags.
const (
	Facts     = 15
	FirstWord = 6
	FirstFlag = 12
	MaxNumber = 200
	Words     = 5
)

// Op is what a clause asks of its fact.
type Op string

// The ops. A flag has only Is, with 0 for false and 1 for true; a word has Is and AtMost, by its place.
const (
	AtLeast Op = "at-least" // Lo
	AtMost  Op = "at-most"  // Hi
	Between Op = "between"  // Lo and Hi, both included
	Is      Op = "is"       // Lo
)

// Clause is one condition on one fact.
type Clause struct {
	Fact int     `json:"fact"`
	Op   Op      `json:"op"`
	Lo   float64 `json:"lo"`
	Hi   float64 `json:"hi"`
}

// Rule holds when all its clauses do. Rules stand in order and the first that holds answers with its place.
type Rule []Clause

// Point is a value for each fact: a number in its unit, a word by its place, a flag as 0 or 1.
type Point [Facts]float64

// None is the answer when no rule holds.
const None = -1

// Decide is the place of the first rule that holds at p, or None.
func Decide(rules []Rule, p Point) int {
	for i, r := range rules {
		if r.Holds(p) {
			return i
		}
	}
	return None
}

// Holds reports whether every clause lets p in.
func (r Rule) Holds(p Point) bool {
	for _, c := range r {
		if !c.Holds(p[c.Fact]) {
			return false
		}
	}
	return true
}

// Holds reports whether the clause lets a value in.
func (c Clause) Holds(v float64) bool {
	switch c.Op {
	case AtLeast:
		return v >= c.Lo
	case AtMost:
		return v <= c.Hi
	case Between:
		return v >= c.Lo && v <= c.Hi
	case Is:
		return v == c.Lo
	}
	return false
}

package cond

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/glossladder/glossladder/rules/internal/space"
	"github.com/glossladder/glossladder/rules/strictyaml"
)

// comparison types l cmp r.
func (c *inspector) comparison(cmp string, l, r value, at int) value {
	if l.kind == kBad || r.kind == kBad {
		return value{kind: kBad, at: at}
	}
	if l.kind != r.kind {
		return c.bad(r.at, fmt.Sprintf("%s cannot be compared with %s", l.kind, r.kind), quoteHint(l, r))
	}
	switch l.kind {
	case kNumber:
		c.list(cmp, l, r)
		return truth(compare(cmp, l.term, r.term, at))
	case kWord:
		return c.words(cmp, l, r, at)
	case kTruth:
		if cmp != "==" && cmp != "!=" {
			return c.bad(at, "true and false have no order", "use ==, !=, and, or, not")
		}
		other := &formula{op: fNot, kids: []*formula{r.formula}, at: at}
		kids := []*formula{l.formula, r.formula, other}
		if cmp == "!=" {
			kids[1], kids[2] = other, r.formula
		}
		return truth(&formula{op: fCase, kids: kids, at: at})
	}
	return c.bad(at, l.kind.String()+" cannot be compared", "use in")
}

func quoteHint(l, r value) string {
	if l.kind == kWord && r.kind == kNumber || l.kind == kNumber && r.kind == kWord {
		return "numbers stand without quotes, words in quotes"
	}
	return ""
}

// words types a comparison of words: a fact with literals, or two facts of one scale.
func (c *inspector) words(cmp string, l, r value, at int) value {
	axis := c.wordAxis(l.term)
	if axis < 0 {
		axis = c.wordAxis(r.term)
	}
	if axis < 0 {
		return c.bad(at, "two words are compared and neither is a fact", "")
	}
	a := &c.space.Axes[axis]
	lt, ok1 := c.resolve(l.term, axis, l.at)
	rt, ok2 := c.resolve(r.term, axis, r.at)
	if !a.Ordered && cmp != "==" && cmp != "!=" {
		return c.bad(at, a.Name+" has no order", "use ==, != or in")
	}
	if !ok1 || !ok2 {
		return value{kind: kBad, at: at}
	}
	return truth(compare(cmp, lt, rt, at))
}

// wordAxis is the first word fact in a term, or -1.
func (c *inspector) wordAxis(t *term) int32 {
	if t.op == tFact {
		return t.axis
	}
	for _, k := range t.kids {
		if a := c.wordAxis(k); a >= 0 {
			return a
		}
	}
	return -1
}

// resolve gives the words of a term their codes on an axis. It copies, since a
// let's term is shared.
func (c *inspector) resolve(t *term, axis int32, at int) (*term, bool) {
	a := &c.space.Axes[axis]
	switch t.op {
	case tConst:
		k := a.WordCode(t.word)
		if k < 0 {
			c.unknownWord(a, t.word, at)
			return nil, false
		}
		out := *t
		out.k, out.axis = float64(k), axis
		return &out, true
	case tFact:
		b := &c.space.Axes[t.axis]
		if t.axis != axis && (a.Scale == "" || a.Scale != b.Scale) {
			c.bad(at, fmt.Sprintf("%s and %s are not words of one scale", a.Name, b.Name), "compare each with a word")
			return nil, false
		}
		return t, true
	}
	out := *t
	out.kids = nil
	good := true
	for _, k := range t.kids {
		kid, ok := c.resolve(k, axis, k.at)
		good = good && ok
		out.kids = append(out.kids, kid)
	}
	return &out, good
}

func (c *inspector) unknownWord(a *space.Axis, word string, at int) {
	hint := "it is one of " + strings.Join(a.Words, ", ")
	if near := strictyaml.Nearest(word, a.Words); near != "" {
		hint = fmt.Sprintf("did you mean %q?", near)
	}
	c.bad(at, fmt.Sprintf("%s is never %s", a.Name, strconv.Quote(word)), hint)
}

// in types x in [..] as a row of equalities and x in a..b as the closed interval,
// where expr itself would mean the whole numbers from a to b.
func (c *inspector) in(l, r value, at int) value {
	if l.kind == kBad || r.kind == kBad {
		return value{kind: kBad, at: at}
	}
	if r.kind == kRange && l.kind == kNumber {
		if from, to := r.items[0].term, r.items[1].term; from.op == tConst && to.op == tConst && from.k > to.k {
			return c.bad(r.at, fmt.Sprintf("no number is in %v..%v", from.k, to.k), "write the lower end first")
		}
		c.list(">=", l, r.items[0])
		c.list("<=", l, r.items[1])
		lo := compare(">=", l.term, r.items[0].term, at)
		hi := compare("<=", l.term, r.items[1].term, at)
		return truth(&formula{op: fAnd, kids: []*formula{lo, hi}, at: at})
	}
	if r.kind == kRange {
		return c.bad(l.at, "a range holds numbers, this is "+l.kind.String(), "list the words: in [\"…\", \"…\"]")
	}
	if r.kind != kList {
		return c.bad(r.at, "after in stands a list or a range, not "+r.kind.String(), `write in ["a", "b"] or in 2..5`)
	}
	if l.kind != kNumber && l.kind != kWord {
		return c.bad(l.at, "before in stands a number or a word, not "+l.kind.String(), "")
	}
	if len(r.items) == 0 {
		return c.bad(r.at, "the list is empty", "")
	}
	out := &formula{op: fOr, at: at}
	good := true
	for _, item := range r.items {
		eq := c.comparison("==", l, item, item.at)
		if good = eq.kind == kTruth && good; good {
			out.kids = append(out.kids, eq.formula)
		}
	}
	if !good {
		return value{kind: kBad, at: at}
	}
	return truth(out)
}

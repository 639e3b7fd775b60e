package cond

import "fmt"

// maxParts bounds one condition with its lets written out: lets that use each
// other twice double at every step.
const maxParts = 4000

// usedAt is the value of a let at the place that names it. Terms are shared, so
// that a conditional used twice is told apart only once; words are copied, since
// a mistake in them must show at the place of use.
func (v value) usedAt(at int) value {
	v.at = at
	if v.kind == kWord {
		v.term = v.term.movedTo(at)
	}
	return v
}

func (t *term) movedTo(at int) *term {
	out := *t
	out.at, out.kids = at, nil
	for _, k := range t.kids {
		out.kids = append(out.kids, k.movedTo(at))
	}
	return &out
}

// weigh counts parts, once for each node, never above the limit plus one.
func (t *term) weigh() int {
	if t.size == 0 {
		n := 1
		for _, k := range t.kids {
			n += k.weigh()
		}
		if t.test != nil {
			n += t.test.weigh()
		}
		t.size = min(n, maxParts+1)
	}
	return t.size
}

func (f *formula) weigh() int {
	if f.size == 0 {
		n := 1
		for _, k := range f.kids {
			n += k.weigh()
		}
		if f.l != nil {
			n += f.l.weigh() + f.r.weigh()
		}
		f.size = min(n, maxParts+1)
	}
	return f.size
}

// tooHeavy complains when a value is too large once its lets are written out.
func (c *inspector) tooHeavy(v value) bool {
	n := 0
	if v.term != nil {
		n = v.term.weigh()
	}
	if v.formula != nil {
		n = v.formula.weigh()
	}
	if n <= maxParts {
		return false
	}
	c.bad(0, fmt.Sprintf("this has more than %d parts once its lets are written out", maxParts), "make it simpler")
	return true
}

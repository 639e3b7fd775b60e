package cond

import (
	"github.com/expr-lang/expr/ast"

	"github.com/glossladder/glossladder/rules/internal/space"
)

// step is the finest step of the numbers that a comparison reads, 1 without any.
func (m *mistaker) step(whole ast.Node) float64 {
	read := map[int32]bool{}
	m.reads(whole, read)
	finest := 0.0
	for a := range read {
		axis := &m.space.Axes[a]
		if axis.Kind != space.Number {
			continue
		}
		if s := axis.Grid.Span(0, 1); finest == 0 || s < finest {
			finest = s
		}
	}
	if finest == 0 {
		return 1
	}
	return finest
}

// reads adds the axes that a part names, lets written out.
func (m *mistaker) reads(n ast.Node, into map[int32]bool) {
	v := (&inspector{space: m.space, lets: m.lets}).check(n)
	switch {
	case v.formula != nil:
		for _, a := range formulaReads(v.formula) {
			into[a] = true
		}
	case v.term != nil:
		v.term.reads(into)
	}
	for _, item := range v.items {
		if item.term != nil {
			item.term.reads(into)
		}
	}
}

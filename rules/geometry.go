package rules

import (
	"slices"

	"github.com/glossladder/glossladder/rules/internal/cond"
	"github.com/glossladder/glossladder/rules/internal/space"
)

// Geometry is a table as boxes, for the packages beside this one that prove things
// about tables. Its slices are the table's own: do not change them.
type Geometry struct {
	Axes    []space.Axis // along the schema's facts
	Boxes   []space.Box  // in the order in which they win under first and priority
	Owner   []int32      // box -> place of its rule
	Class   []int32      // rule -> number of its result; equal results share one
	Clauses *cond.Clauses
}

// Geometry is the table as boxes.
func (t *Table) Geometry() Geometry {
	return Geometry{
		Axes: t.schema.space.Axes, Boxes: t.index.Boxes(), Owner: t.owner, Class: t.class, Clauses: t.index.Clauses(),
	}
}

// InputAt is the input whose facts have the given codes, which must be codes of
// their axes or missing (-1).
func (s *Schema) InputAt(codes []int32) *Input {
	return &Input{schema: s, codes: slices.Clone(codes)}
}

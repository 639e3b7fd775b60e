package rules

import (
	"slices"

	"github.com/glossladder/glossladder/rules/internal/space"
)

// Cuts are the values of a number at which some condition of the table changes its
// mind, rising: from one cut to the next all values are alike to it. Clauses
// outside the bounds of single facts are left aside; see [Table.Ties].
func (t *Table) Cuts(id FactID) []float64 {
	a := &t.schema.space.Axes[id]
	if a.Kind != space.Number {
		return nil
	}
	var codes []int32
	for b := range t.index.Boxes() {
		d := t.index.Boxes()[b].Dim(int32(id))
		if d == nil || d.Lo > d.Hi {
			continue
		}
		if d.Lo > 0 {
			codes = append(codes, d.Lo)
		}
		if d.Hi+1 < a.Size() {
			codes = append(codes, d.Hi+1)
		}
	}
	slices.Sort(codes)
	codes = slices.Compact(codes)
	out := make([]float64, len(codes))
	for i, code := range codes {
		out[i] = a.Grid.Value(code)
	}
	return out
}

// Ties says whether a clause outside the bounds of single facts reads a fact.
func (t *Table) Ties(id FactID) bool {
	clauses := t.index.Clauses()
	for c := range clauses.Len() {
		if slices.Contains(clauses.At(int32(c)).Reads, int32(id)) {
			return true
		}
	}
	return false
}

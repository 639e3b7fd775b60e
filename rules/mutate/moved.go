package mutate

import "github.com/glossladder/glossladder/rules"

// Moved are the edits of a table that move one bound by one step of its fact, or by one word, without a look at what notices
// them: for whoever wants to know what would come of it.
func Moved(set *rules.Set, t *rules.Table) []Mutant {
	var out []Mutant
	for _, m := range mistakes(set, t) {
		if m.Kind == Bound {
			out = append(out, m)
		}
	}
	return out
}

// Apply is a set with the edit made. The table is spelt anew in it, so that places in its file mean nothing. The error is
// [rules.Problems].
func (m *Mutant) Apply(set *rules.Set) (*rules.Set, error) { return set.WithTable(m.Table, m.source) }

package rules

import "slices"

// Within reports whether another result of the same table gives every field of this
// one the same value. A result without fields is within any.
func (r Result) Within(o Result) bool {
	for i, v := range r.values {
		if !v.set {
			continue
		}
		if i >= len(o.values) || !o.values[i].set {
			return false
		}
		w := o.values[i]
		if v.number != w.number || v.flag != w.flag || !slices.Equal(v.words, w.words) {
			return false
		}
	}
	return true
}

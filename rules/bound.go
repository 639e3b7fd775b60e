package rules

import "github.com/glossladder/glossladder/rules/internal/space"

// Bound is what a bound on one fact lets through, in words that follow the fact's
// label: "at most 30 µm", "soft or hard, or not measured".
func (s *Schema) Bound(d space.Dim) string {
	missing := s.value(FactID(d.Axis), space.Missing)
	if s.letsNothingIn(&d) {
		return missing
	}
	if d.Missing == space.True {
		return s.plainBound(&d) + ", or " + missing
	}
	return s.plainBound(&d)
}

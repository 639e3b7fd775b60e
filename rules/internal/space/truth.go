package space

// Truth is a value of Kleene's strong three-valued logic. The order of the
// constants makes min the "and" and max the "or".
type Truth uint8

// The three truths. The zero value is False.
const (
	False Truth = iota
	Unknown
	True
)

// Of turns a plain yes or no into a truth.
func Of(b bool) Truth {
	if b {
		return True
	}
	return False
}

// Not is the negation: an unknown stays unknown.
func (t Truth) Not() Truth { return True - t }

// String names the truth in words.
func (t Truth) String() string {
	return [...]string{"false", "unknown", "true"}[t]
}

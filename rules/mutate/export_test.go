package mutate

// Source is the whole table with the mistake, for tests that decide by it.
func (m *Mutant) Source() []byte { return m.source }

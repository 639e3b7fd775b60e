package trace

// Listed are the words that have a place.
func Listed() []string { return listed[:] }

// Word is the word with a number.
func (w *Words) Word(n uint32) string { return w.words[n] }

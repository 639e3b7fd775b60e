package history

// Traced is an event as a look back reads it; package trace tells what is in it.
type Traced struct {
	Job      string
	Sequence int64
	// Trace is the event's trace. Nil: it has none, and Kind, Version and Body are the event as it is stored, for [Decode].
	Trace   []byte
	Kind    Kind
	Version int
	Body    []byte
}

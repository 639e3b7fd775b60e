package history

import (
	"bytes"
	"slices"
)

// DecodeLean is [Decode] of a decision without its sheets, which are most of what is stored of it and take most of the time to
// read; anything else is read whole.
func DecodeLean(kind Kind, v int, data []byte) (Body, error) {
	if kind != KindDecision || v != version {
		return Decode(kind, v, data)
	}
	// The sheets stand last. The quotes of a text within the document are escaped, so this stands in no text.
	sheets := []byte(`,"sheets":[`)
	at := bytes.Index(data, sheets)
	if at < 0 || !bytes.HasSuffix(data, []byte("]}")) {
		return Decode(kind, v, data)
	}
	short := slices.Concat(data[:at], []byte("}"))
	body, err := Decode(kind, v, short)
	if err != nil {
		return Decode(kind, v, data)
	}
	return body, nil
}

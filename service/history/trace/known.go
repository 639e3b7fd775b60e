package trace

import "maps"

// places are the words of the list by themselves.
var places = func() map[string]uint32 {
	out := make(map[string]uint32, len(listed))
	for at, word := range listed {
		out[word] = uint32(at)
	}
	return out
}()

// mostKnown bounds what a reader remembers of what is on record.
const mostKnown = 1 << 15

// Words are the words that a reader has met, so that each is made once. They are for one goroutine.
type Words struct {
	words  []string
	number map[string]uint32
}

// NewWords knows the words of the list.
func NewWords() *Words {
	return &Words{words: append([]string(nil), listed[:]...), number: maps.Clone(places)}
}

// Number is a small number for a word, the same for the same word.
func (w *Words) Number(word string) uint32 {
	if n, known := w.number[word]; known {
		return n
	}
	n := uint32(len(w.words))
	w.words, w.number[word] = append(w.words, word), n
	return n
}

// spelled is a word that stands in a trace, met before or not.
func (w *Words) spelled(text []byte) name {
	if n, known := w.number[string(text)]; known {
		return name{w.words[n], n, true}
	}
	word := string(text)
	if len(w.words) >= mostKnown {
		return name{text: word}
	}
	return name{word, w.Number(word), true}
}

// name is a word and, unless too many were met, its number.
type name struct {
	text     string
	number   uint32
	numbered bool
}
